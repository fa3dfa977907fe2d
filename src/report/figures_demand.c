/* Flow duration and the day. */
#include "base/count.h"
#include "report/figure_parts.h"

#include <math.h>

/* A logarithmic flow axis starts at most this far below the peak: less is a dripping tap. */
#define QLL_FLOW_DECADES 2.7

/* How many times the day's greatest flow a design peak may be and still be drawn beside it. */
#define QLL_DAY_PEAK_MOST 2.5

static const char *idle_label(const qll_figure *figure, const qll_duration_figure *shown)
{
    qll_writer writer = qll_writer_new(figure->canvas->arena);
    const qll_message idle = shown->is_metered ? QLL_SAYS_HEAD_NO_FLOW : QLL_SAYS_HEAD_NOBODY_DRAWS;
    qll_write_format(&writer, "%s %.0f %%", qll_figure_word(figure, idle), 100 * shown->idle_share);
    return qll_writer_text(&writer).bytes;
}

void qll_figure_duration(const qll_figure *figure, const qll_duration_figure *shown)
{
    const qll_curve_drawn curves[] = {
        qll_curve_of(qll_figure_word(figure, QLL_SAYS_FIGURE_OF_TIME), shown->flow_m3s,
                     shown->time_share, shown->count, qll_look_of(0), QLL_HEAVY_MM),
        qll_curve_of(qll_figure_word(figure, QLL_SAYS_FIGURE_OF_WATER), shown->flow_m3s,
                     shown->volume_share, shown->count, qll_look_of(1), QLL_NORMAL_MM),
    };
    qll_extent flows = {INFINITY, 0};
    for (size_t i = 0; i < shown->count; i++) {
        qll_extent_see(&flows, shown->flow_m3s[i] > 0 ? shown->flow_m3s[i] : (double)NAN);
    }
    qll_extent_see(&flows, shown->peak_m3s > 0 ? shown->peak_m3s : (double)NAN);
    flows.low = fmax(flows.low, flows.high / pow(10, QLL_FLOW_DECADES));
    const qll_guide peak = qll_figure_peak(figure, shown->peak_m3s);
    qll_plot plot = {
        .x = qll_axis_of(qll_figure_word(figure, QLL_SAYS_HEAD_FLOW), QLL_KIND_FLOW, figure->units,
                         flows.low, flows.high),
        .y = qll_figure_axis(qll_figure_word(figure, QLL_SAYS_FIGURE_SHARE), "%", 100,
                             qll_extent_of(0, 1)),
        .curves = curves,
        .curve_count = 2,
        .levels = &(qll_guide){idle_label(figure, shown), shown->idle_share},
        .level_count = shown->idle_share > 0 ? 1 : 0,
        .uprights = &peak,
        .upright_count = 1,
        .ranges = shown->bands,
        .range_count = shown->band_count,
        .strips = shown->works,
        .strip_count = shown->work_count,
    };
    plot.x.is_log = true;
    qll_plot_draw(figure->canvas, figure->area, &plot);
}

/* A value per hour as steps: the hour's value at its start and its end. */
static void hour_steps(const double *values, double *x, double *y)
{
    for (size_t hour = 0; hour < 24; hour++) {
        x[2 * hour] = (double)hour;
        x[2 * hour + 1] = (double)hour + 1;
        y[2 * hour] = values[hour];
        y[2 * hour + 1] = values[hour];
    }
}

static const char *seldom_label(const qll_figure *figure, double share)
{
    qll_writer writer = qll_writer_new(figure->canvas->arena);
    qll_write_number(&writer, round(share * 1e5) / 1e3);
    qll_write_format(&writer, " %% %s", qll_figure_word(figure, QLL_SAYS_FIGURE_NO_MORE));
    return qll_writer_text(&writer).bytes;
}

/* The hour's axis says what its plot has no room for: no mark, no place in the legend. */
static const char *beyond_label(const qll_figure *figure, const char *what)
{
    qll_writer writer = qll_writer_new(figure->canvas->arena);
    qll_write_format(&writer, "%s (%s: %s)", qll_figure_word(figure, QLL_SAYS_FIGURE_HOUR), what,
                     qll_figure_word(figure, QLL_SAYS_FIGURE_BEYOND));
    return qll_writer_text(&writer).bytes;
}

void qll_figure_day(const qll_figure *figure, const qll_day_figure *shown)
{
    static const double ticks[] = {0, 3, 6, 9, 12, 15, 18, 21, 24};
    qll_cell_drawn bars[24];
    double x[48];
    double y[48];
    qll_extent flows = {0, 0};
    for (size_t hour = 0; hour < 24; hour++) {
        bars[hour] = (qll_cell_drawn){.x_low = (double)hour,
                                      .x_high = (double)hour + 1,
                                      .y_high = shown->mean_m3s[hour],
                                      .fill = QLL_FILL_SOLID};
        qll_extent_see(&flows, shown->mean_m3s[hour]);
    }
    if (shown->seldom_more_m3s != NULL) {
        hour_steps(shown->seldom_more_m3s, x, y);
        qll_extent_see_all(&flows, y, 48);
    }
    /* A peak far above the day would leave no room for the day. */
    const char *hour = qll_figure_word(figure, QLL_SAYS_FIGURE_HOUR);
    bool shows_peak = shown->peak_m3s <= flows.high * QLL_DAY_PEAK_MOST;
    qll_extent_see(&flows, shows_peak ? shown->peak_m3s : (double)NAN);
    bool is_beyond = !shows_peak && shown->peak_m3s > 0;
    const qll_guide peak = qll_figure_peak(figure, shown->peak_m3s);
    qll_curve_drawn curves[1];
    size_t curve_count = 0;
    if (shown->seldom_more_m3s != NULL) {
        curves[curve_count++] = qll_curve_of(seldom_label(figure, shown->seldom_share), x, y, 48,
                                             qll_look_of(0), QLL_HEAVY_MM);
    }
    qll_plot plot = {
        .x = qll_figure_axis(is_beyond ? beyond_label(figure, peak.label) : hour, "", 1,
                             qll_extent_of(0, 24)),
        .y = qll_axis_of(qll_figure_word(figure, QLL_SAYS_HEAD_FLOW), QLL_KIND_FLOW, figure->units,
                         0, flows.high),
        .curves = curves,
        .curve_count = curve_count,
        .levels = &peak,
        .level_count = shows_peak ? 1 : 0,
        .cells = bars,
        .cell_count = 24,
        .cells_have_edges = true,
    };
    plot.x.at = ticks;
    plot.x.at_count = QLL_COUNT(ticks);
    plot.fill_names[QLL_FILL_SOLID] = qll_figure_word(figure, QLL_SAYS_HEAD_MEAN);
    qll_plot_draw(figure->canvas, figure->area, &plot);
}
