/* What a station does: fall-off, pressures along the way, map of flow and inlet. */
#include "base/count.h"
#include "report/figure_parts.h"

#include <math.h>

/* Outlet of a curve at @p flow_m3s, by a straight line between its points. */
static double outlet_at(const qll_falloff_curve *curve, double flow_m3s)
{
    for (size_t i = 0; i + 1 < curve->count; i++) {
        double from = curve->flow_m3s[i];
        double to = curve->flow_m3s[i + 1];
        if (flow_m3s >= from && flow_m3s <= to && to > from) {
            double share = (flow_m3s - from) / (to - from);
            return curve->outlet_pa[i] + share * (curve->outlet_pa[i + 1] - curve->outlet_pa[i]);
        }
    }
    return NAN;
}

/* Marks that many curves share: lock-up at no flow, and where full travel is reached. */
typedef struct falloff_marks {
    double *lockup_flow, *lockup, *full_flow, *full;
    size_t lockup_count, full_count;
} falloff_marks;

static bool make_marks(const qll_figure *figure, const qll_falloff_figure *shown,
                       falloff_marks *marks)
{
    double *room = qll_figure_take(figure, shown->curve_count * 4, sizeof *room);
    if (room == NULL) {
        return false;
    }
    *marks = (falloff_marks){room,
                             room + shown->curve_count,
                             room + 2 * shown->curve_count,
                             room + 3 * shown->curve_count,
                             0,
                             0};
    for (size_t i = 0; i < shown->curve_count; i++) {
        const qll_falloff_curve *curve = &shown->curves[i];
        if (isfinite(curve->lockup_pa)) {
            marks->lockup_flow[marks->lockup_count] = 0;
            marks->lockup[marks->lockup_count] = curve->lockup_pa;
            marks->lockup_count += 1;
        }
        if (isfinite(curve->full_travel_m3s)) {
            marks->full_flow[marks->full_count] = curve->full_travel_m3s;
            marks->full[marks->full_count] = outlet_at(curve, curve->full_travel_m3s);
            marks->full_count += 1;
        }
    }
    return true;
}

static void see_falloff(const qll_falloff_figure *shown, qll_extent *flows, qll_extent *outlets)
{
    *flows = qll_extent_of(0, 0);
    *outlets = qll_extent_of(INFINITY, -INFINITY);
    for (size_t i = 0; i < shown->curve_count; i++) {
        const qll_falloff_curve *curve = &shown->curves[i];
        /* A valve alone drops out of the picture where it has given all it can. */
        bool is_alone = curve->tag[0] != '\0';
        for (size_t k = 0; k < curve->count; k++) {
            if (isfinite(curve->outlet_pa[k])) {
                qll_extent_see(flows, curve->flow_m3s[k]);
                qll_extent_see(outlets, is_alone ? (double)NAN : fmax(curve->outlet_pa[k], 0));
            }
        }
        qll_extent_see(outlets, curve->lockup_pa);
    }
    qll_extent_see(flows, shown->peak_m3s);
    qll_extent_see_guides(outlets, shown->levels, shown->level_count);
}

/* Lines of the supply carry circles and triangles; squares and crosses mean something else here. */
static qll_look falloff_look(const qll_falloff_curve *curve, size_t index)
{
    static const size_t looks[] = {0, 1, 3, 2, 4, 5};
    qll_look look = qll_look_of(looks[index < QLL_COUNT(looks) ? index : QLL_COUNT(looks) - 1]);
    bool is_supply = curve->tag[0] == '\0' && !curve->is_between;
    look.marker = is_supply ? look.marker : QLL_MARKER_NONE;
    return look;
}

/* Curves and marks; how many. */
static size_t falloff_curves(const qll_figure *figure, const qll_falloff_figure *shown,
                             const falloff_marks *marks, qll_curve_drawn *curves)
{
    size_t other = 1;
    for (size_t i = 0; i < shown->curve_count; i++) {
        const qll_falloff_curve *curve = &shown->curves[i];
        size_t look = curve->is_station ? 0 : other;
        other += curve->is_station ? 0 : 1;
        curves[i] = qll_curve_of(curve->name, curve->flow_m3s, curve->outlet_pa, curve->count,
                                 falloff_look(curve, look),
                                 curve->is_station ? QLL_HEAVY_MM : QLL_NORMAL_MM);
        curves[i].tag = curve->tag;
    }
    const qll_look square = {QLL_DASH_SOLID, QLL_MARKER_SQUARE, QLL_BLACK};
    const qll_look cross = {QLL_DASH_SOLID, QLL_MARKER_CROSS, QLL_BLACK};
    size_t count = shown->curve_count;
    if (marks->lockup_count > 0) {
        curves[count++] =
            qll_curve_of(qll_figure_word(figure, QLL_SAYS_FACT_LOCK_UP), marks->lockup_flow,
                         marks->lockup, marks->lockup_count, square, 0);
    }
    if (marks->full_count > 0) {
        curves[count++] = qll_curve_of(qll_figure_word(figure, QLL_SAYS_FIGURE_FULL_TRAVEL),
                                       marks->full_flow, marks->full, marks->full_count, cross, 0);
    }
    return count;
}

/* A closer look at the flows up to a round number that is at most a sixth of all: there a building is nearly all
 * day, and curves lie together. Takes the right of the figure. */
#define QLL_CLOSER_SHARE  6.0
#define QLL_CLOSER_PART   0.36
#define QLL_CLOSER_GAP_MM 5.0

static double closer_m3s(const qll_axis *axis)
{
    double most = axis->high * axis->per_si / QLL_CLOSER_SHARE;
    double decade = pow(10.0, floor(log10(most)));
    double round_number = most >= 5.0 * decade ? 5.0 : most >= 2.0 * decade ? 2.0 : 1.0;
    return round_number * decade / axis->per_si;
}

/* Outlets of the curves up to a flow. */
static qll_extent outlets_near(const qll_falloff_figure *shown, double flow_m3s)
{
    qll_extent seen = qll_extent_of(INFINITY, -INFINITY);
    for (size_t i = 0; i < shown->curve_count; i++) {
        const qll_falloff_curve *curve = &shown->curves[i];
        if (curve->is_between) {
            continue;
        }
        for (size_t k = 0; k < curve->count && curve->flow_m3s[k] <= flow_m3s; k++) {
            qll_extent_see(&seen, fmax(curve->outlet_pa[k], 0));
        }
        qll_extent_see(&seen, curve->lockup_pa);
    }
    return seen;
}

static void draw_closer(const qll_figure *figure, const qll_falloff_figure *shown, qll_box area,
                        const qll_plot *whole)
{
    double flow_m3s = closer_m3s(&whole->x);
    qll_extent outlets = outlets_near(shown, flow_m3s);
    qll_curve_drawn *curves = qll_figure_take(figure, whole->curve_count, sizeof *curves);
    if (curves == NULL || !(outlets.high > outlets.low)) {
        return;
    }
    for (size_t i = 0; i < whole->curve_count; i++) {
        curves[i] = whole->curves[i];
        curves[i].name = "";
    }
    qll_plot plot = {.x = whole->x, .y = whole->y, .curves = curves};
    plot.curve_count = whole->curve_count;
    plot.x.title = qll_figure_word(figure, QLL_SAYS_FIGURE_CLOSER);
    plot.x.high = flow_m3s;
    plot.y.title = "";
    plot.y.low = outlets.low;
    plot.y.high = outlets.high;
    qll_plot_draw(figure->canvas, area, &plot);
}

void qll_figure_falloff(const qll_figure *figure, const qll_falloff_figure *shown)
{
    falloff_marks marks;
    qll_curve_drawn *curves = qll_figure_take(figure, shown->curve_count + 2, sizeof *curves);
    if (curves == NULL || !make_marks(figure, shown, &marks)) {
        return;
    }
    const qll_guide peak = qll_figure_peak(figure, shown->peak_m3s);
    qll_extent flows;
    qll_extent outlets;
    see_falloff(shown, &flows, &outlets);
    qll_plot plot = {
        .x = qll_axis_of(qll_figure_word(figure, QLL_SAYS_HEAD_FLOW), QLL_KIND_FLOW, figure->units,
                         0, flows.high),
        .y = qll_axis_of(qll_figure_word(figure, QLL_SAYS_CHANNEL_OUTLET), QLL_KIND_PRESSURE,
                         figure->units, outlets.low, outlets.high),
        .curves = curves,
        .curve_count = falloff_curves(figure, shown, &marks, curves),
        .levels = shown->levels,
        .level_count = shown->level_count,
        .uprights = &peak,
        .upright_count = isfinite(shown->peak_m3s) ? 1 : 0,
    };
    qll_box area = figure->area;
    if (shown->curve_count > 1 && flows.high > 0) {
        plot.legend_width_mm = area.width_mm;
        area.width_mm *= 1.0 - QLL_CLOSER_PART;
        double legend_mm = qll_plot_legend_mm(figure->canvas, area, &plot);
        qll_box closer = {area.x_mm + area.width_mm, area.y_mm + legend_mm + QLL_CLOSER_GAP_MM,
                          figure->area.width_mm - area.width_mm,
                          area.height_mm - legend_mm - QLL_CLOSER_GAP_MM};
        draw_closer(figure, shown, closer, &plot);
    }
    /* The last: values are read off its frame. */
    qll_plot_draw(figure->canvas, area, &plot);
}

void qll_figure_ladder(const qll_figure *figure, const qll_ladder_figure *shown)
{
    double *places = qll_figure_take(figure, shown->count, sizeof *places);
    if (places == NULL || shown->count == 0) {
        return;
    }
    qll_extent pressures = {0, 0};
    for (size_t i = 0; i < shown->count; i++) {
        places[i] = (double)i;
    }
    qll_extent_see_all(&pressures, shown->static_pa, shown->count);
    qll_extent_see_all(&pressures, shown->peak_pa, shown->count);
    qll_extent_see_guides(&pressures, shown->levels, shown->level_count);
    qll_look at_night = qll_look_of(0);
    at_night.marker = QLL_MARKER_SQUARE;
    const qll_curve_drawn curves[] = {
        qll_curve_of(qll_figure_word(figure, QLL_SAYS_HEAD_NIGHT), places, shown->static_pa,
                     shown->count, at_night, QLL_NORMAL_MM),
        qll_curve_of(qll_figure_word(figure, QLL_SAYS_FIGURE_AT_PEAK), places, shown->peak_pa,
                     shown->count, qll_look_of(1), QLL_NORMAL_MM),
    };
    qll_plot plot = {
        .x = {.title = "",
              .unit = "",
              .per_si = 1,
              .names = shown->names,
              .name_count = shown->count},
        .y = qll_axis_of(qll_figure_word(figure, QLL_SAYS_HEAD_PRESSURE), QLL_KIND_PRESSURE,
                         figure->units, pressures.low, pressures.high),
        .curves = curves,
        .curve_count = 2,
        .levels = shown->levels,
        .level_count = shown->level_count,
    };
    qll_plot_draw(figure->canvas, figure->area, &plot);
}

static qll_cell_drawn map_cell(const qll_map_figure *shown, size_t index)
{
    size_t flow = index % shown->flow_count;
    size_t inlet = index / shown->flow_count;
    return (qll_cell_drawn){
        .x_low = shown->flow_edges_m3s[flow],
        .x_high = shown->flow_edges_m3s[flow + 1],
        .y_low = shown->inlet_edges_pa[inlet],
        .y_high = shown->inlet_edges_pa[inlet + 1],
    };
}

/* Joins the last of @p count cells to one of the same width and fill right below it. */
static size_t joined(qll_cell_drawn *cells, size_t count)
{
    const qll_cell_drawn *last = &cells[count - 1];
    for (size_t i = 0; i + 1 < count; i++) {
        qll_cell_drawn *below = &cells[i];
        if (below->fill == last->fill && below->x_low == last->x_low
            && below->x_high == last->x_high && below->y_high == last->y_low) {
            below->y_high = last->y_high;
            return count - 1;
        }
    }
    return count;
}

/* Neighbours that are filled alike become one cell, row by row. */
static size_t fill_cells(const qll_map_figure *shown, qll_cell_drawn *cells)
{
    size_t made = 0;
    size_t count = shown->flow_count * shown->inlet_count;
    for (size_t i = 0; i < count; i++) {
        bool is_first = i % shown->flow_count == 0;
        qll_cell_drawn cell = map_cell(shown, i);
        if (!is_first && shown->fills[i] == shown->fills[i - 1]) {
            cells[made - 1].x_high = cell.x_high;
        } else {
            cell.fill = shown->fills[i];
            cells[made] = cell;
            made += 1;
        }
        bool is_run_over =
            (i + 1) % shown->flow_count == 0 || shown->fills[i + 1] != shown->fills[i];
        made = is_run_over ? joined(cells, made) : made;
    }
    return made;
}

void qll_figure_map(const qll_figure *figure, const qll_map_figure *shown)
{
    size_t count = shown->flow_count * shown->inlet_count;
    qll_cell_drawn *cells = qll_figure_take(figure, 2 * count, sizeof *cells);
    if (cells == NULL || count == 0) {
        return;
    }
    size_t fills = fill_cells(shown, cells);
    const qll_guide peak = qll_figure_peak(figure, shown->peak_m3s);
    for (size_t i = 0; i < count; i++) {
        qll_cell_drawn disc = map_cell(shown, i);
        disc.share = shown->time_shares[i];
        cells[fills + i] = disc;
    }
    qll_plot plot = {
        .x = qll_axis_of(qll_figure_word(figure, QLL_SAYS_HEAD_FLOW), QLL_KIND_FLOW, figure->units,
                         shown->flow_edges_m3s[0], shown->flow_edges_m3s[shown->flow_count]),
        .y = qll_axis_of(qll_figure_word(figure, QLL_SAYS_CHANNEL_INLET), QLL_KIND_PRESSURE,
                         figure->units, shown->inlet_edges_pa[0],
                         shown->inlet_edges_pa[shown->inlet_count]),
        .uprights = &peak,
        .upright_count = 1,
        .cells = cells,
        .cell_count = fills + count,
        .disc_name = qll_figure_word(figure, QLL_SAYS_FIGURE_BUILDING_TIME),
    };
    plot.x.is_log = true;
    plot.y.is_tight = true; /* white paper beside the map would read as good */
    static const qll_message says[QLL_FILL_COUNT] = {
        [QLL_FILL_LIGHT] = QLL_SAYS_FIGURE_SHUT,
        [QLL_FILL_WHITE] = QLL_SAYS_GRADE_GOOD,
        [QLL_FILL_STRIPED] = QLL_SAYS_GRADE_CAUTION,
        [QLL_FILL_CROSSED] = QLL_SAYS_GRADE_FAIL,
    };
    /* What is not drawn takes no place in the legend. */
    for (size_t i = 0; i < count; i++) {
        plot.fill_names[shown->fills[i]] = qll_figure_word(figure, says[shown->fills[i]]);
    }
    qll_plot_draw(figure->canvas, figure->area, &plot);
}
