#include "report/pictures.h"

#include "report/diagram.h"
#include "report/figures_of.h"
#include "wording/texts.h"

#include <assert.h>
#include <math.h>

#define QLL_PICTURE_WIDTH_MM  174.0
#define QLL_PICTURE_HEIGHT_MM 70.0
#define QLL_PICTURE_LOW_MM    52.0 /* what a plot can still be read in */
#define QLL_PICTURE_HALF_MM \
    87.0 /* two of these stand side by side, and one on a phone; less high */
#define QLL_PICTURE_LESS_MM 10.0

const char *const qll_picture_words[QLL_PICTURE_COUNT] = {
#define QLL_PICTURE_WORD(name, word) [QLL_PICTURE_##name] = (word),
    QLL_PICTURE_LIST(QLL_PICTURE_WORD)
#undef QLL_PICTURE_WORD
};

/* What the functions below share. */
typedef struct picturing {
    const qll_design_findings *found;
    const qll_shown *chosen;             /* NULL where there is none */
    const qll_demand *demand;            /* of the scenario */
    const qll_scenario_figures *figures; /* likewise */
    qll_wording wording;
    qll_arena *arena;
} picturing;

static bool is_of_scenario(qll_picture_kind kind)
{
    return kind == QLL_PICTURE_DAY || kind == QLL_PICTURE_DURATION;
}

/* Whether a figure can be read in half the width: it has few words beside it, and one plot. */
static bool has_half(qll_picture_kind kind)
{
    return kind != QLL_PICTURE_SCHEMATIC && kind != QLL_PICTURE_FALLOFF
           && kind != QLL_PICTURE_LADDER;
}

/* A metered scenario may have no hours. */
static bool all_have_hours(const qll_demand_findings *demand)
{
    for (size_t i = 0; i < demand->survey->scenario_count; i++) {
        if (isnan(demand->demands[i].day.hours[0].flow_mean_m3s)) {
            return false;
        }
    }
    return true;
}

size_t qll_picture_count(const qll_design_findings *findings, qll_picture_kind kind)
{
    size_t scenarios = findings->demand.survey->scenario_count;
    if (findings->design->count == 0 && !is_of_scenario(kind)) {
        return 0; /* there is no station */
    }
    switch (kind) {
    case QLL_PICTURE_DAY: return all_have_hours(&findings->demand) ? scenarios : 0;
    case QLL_PICTURE_DURATION: return scenarios;
    case QLL_PICTURE_MAP: return findings->way.map_count;
    case QLL_PICTURE_LADDER: return findings->way.ladder_count > 0 ? 1 : 0;
    case QLL_PICTURE_CANDIDATES: return findings->design->count > 1 ? 1 : 0;
    case QLL_PICTURE_SCHEMATIC:
    case QLL_PICTURE_FALLOFF:
    case QLL_PICTURE_NOISE:
    case QLL_PICTURE_SPECTRUM: return 1;
    case QLL_PICTURE_COUNT: break;
    }
    return 0;
}

/* ---- what a figure shows, for those who do not see it ---- */

static const char *text_of(const picturing *of, double si, qll_kind kind)
{
    return qll_quantity_text(of->arena, si, kind, of->wording.units);
}

static const char *fill(const picturing *of, qll_message message, const qll_filling *fillings,
                        size_t count)
{
    qll_writer writer = qll_writer_new(of->arena);
    qll_say_with(&writer, of->wording.language, message, fillings, count);
    return qll_writer_text(&writer).bytes;
}

static const char *share_text(const picturing *of, double share)
{
    qll_writer writer = qll_writer_new(of->arena);
    return qll_text_share(&writer, of->wording.language, share);
}

static const char *station_text(const picturing *of)
{
    qll_writer writer = qll_writer_new(of->arena);
    qll_wording_station(&writer, &of->wording, &of->chosen->station);
    return qll_writer_text(&writer).bytes;
}

static const char *describe_day(const picturing *of)
{
    int busiest = 0;
    for (int hour = 1; hour < 24; hour++) {
        if (of->demand->day.hours[hour].flow_mean_m3s
            > of->demand->day.hours[busiest].flow_mean_m3s) {
            busiest = hour;
        }
    }
    qll_writer hour = qll_writer_new(of->arena);
    qll_write_format(&hour, "%02d:00", busiest);
    const qll_filling fillings[] = {
        {"hour", qll_writer_text(&hour).bytes},
        {"most", text_of(of, of->demand->day.hours[busiest].flow_mean_m3s, QLL_KIND_FLOW)},
        {"peak", text_of(of, of->demand->peak_m3s, QLL_KIND_FLOW)},
    };
    return fill(of, QLL_SAYS_SHOWS_DAY, fillings, 3);
}

static const char *describe_duration(const picturing *of)
{
    const bool is_metered = of->demand->is_metered;
    const qll_filling fillings[] = {
        {"share", is_metered ? NULL : share_text(of, of->demand->no_fixture_open_share)},
        {"idle", is_metered ? share_text(of, of->demand->no_flow_share) : NULL},
        {"flow", text_of(of, of->figures->seldom_more_m3s, QLL_KIND_FLOW)},
        {"peak", text_of(of, of->demand->peak_m3s, QLL_KIND_FLOW)},
    };
    return fill(of, QLL_SAYS_SHOWS_DURATION, fillings, 4);
}

static const char *describe_falloff(const picturing *of)
{
    const qll_operating_point *first = &of->found->points[0];
    const qll_operating_point *last = &of->found->points[of->found->point_count - 1];
    double atmosphere = of->wording.site->barometric_pa;
    const qll_filling fillings[] = {
        {"lockup", text_of(of, first->outlet_pa - atmosphere, QLL_KIND_PRESSURE)},
        {"pressure", text_of(of, last->outlet_pa - atmosphere, QLL_KIND_PRESSURE)},
        {"flow", text_of(of, last->flow_m3s, QLL_KIND_FLOW)},
    };
    return fill(of, QLL_SAYS_SHOWS_FALLOFF, fillings, 3);
}

static const char *describe(const picturing *of, qll_picture_kind kind)
{
    const qll_filling station = {"station", of->chosen == NULL ? "" : station_text(of)};
    qll_writer writer = qll_writer_new(of->arena);
    qll_write_format(&writer, "%zu", of->found->design->count);
    const qll_filling count = {"count", qll_writer_text(&writer).bytes};
    switch (kind) {
    case QLL_PICTURE_SCHEMATIC: return fill(of, QLL_SAYS_SHOWS_SCHEMATIC, &station, 1);
    case QLL_PICTURE_DAY: return describe_day(of);
    case QLL_PICTURE_DURATION: return describe_duration(of);
    case QLL_PICTURE_FALLOFF: return describe_falloff(of);
    case QLL_PICTURE_LADDER: return qll_say(of->wording.language, QLL_SAYS_SHOWS_LADDER);
    case QLL_PICTURE_MAP: return qll_say(of->wording.language, QLL_SAYS_SHOWS_MAP);
    case QLL_PICTURE_NOISE: return qll_say(of->wording.language, QLL_SAYS_SHOWS_NOISE);
    case QLL_PICTURE_SPECTRUM: return qll_say(of->wording.language, QLL_SAYS_SHOWS_SPECTRUM);
    case QLL_PICTURE_CANDIDATES: return fill(of, QLL_SAYS_SHOWS_CANDIDATES, &count, 1);
    case QLL_PICTURE_COUNT: break;
    }
    return "";
}

/* "1A": the valve that a map is of. */
static const char *valve_text(const picturing *of, qll_picture picture)
{
    if (picture.kind != QLL_PICTURE_MAP) {
        return "";
    }
    const qll_map *map = &of->found->way.maps[picture.number];
    qll_writer writer = qll_writer_new(of->arena);
    qll_valve_name_write(&writer, &of->chosen->station, map->stage, map->branch);
    return qll_writer_text(&writer).bytes;
}

/* ---- drawing ---- */

static void draw(const picturing *of, qll_picture picture, const qll_figure *figure)
{
    const qll_way *way = &of->found->way;
    const qll_station *station = of->chosen == NULL ? NULL : &of->chosen->station;
    const qll_pictured pictured = {&of->wording, station, of->found->curves};
    const qll_job *job = of->found->job;
    const qll_diagram diagram = {.station = station,
                                 .sizes = job == NULL ? NULL : job->sizes,
                                 .has_relief =
                                     job != NULL && isfinite(job->installing.relief_pa_gauge)};
    switch (picture.kind) {
    case QLL_PICTURE_SCHEMATIC: qll_diagram_draw(figure, &diagram); break;
    case QLL_PICTURE_DAY: qll_figure_day_of(figure, of->demand); break;
    case QLL_PICTURE_DURATION:
        qll_figure_duration_of(figure, of->demand, station == NULL ? NULL : &pictured);
        break;
    case QLL_PICTURE_FALLOFF: qll_figure_falloff_of(figure, &pictured); break;
    case QLL_PICTURE_LADDER:
        qll_figure_ladder_of(figure, &of->wording, way->ladders, way->ladder_count);
        break;
    case QLL_PICTURE_MAP:
        qll_figure_map_of(figure, &way->maps[picture.number], of->found->duty->peak_m3s);
        break;
    case QLL_PICTURE_NOISE: qll_figure_noise_of(figure, &pictured); break;
    case QLL_PICTURE_SPECTRUM: qll_figure_spectrum_of(figure, &pictured); break;
    case QLL_PICTURE_CANDIDATES:
        qll_figure_candidates_of(figure, of->found->design, of->found->catalogue->currency);
        break;
    case QLL_PICTURE_COUNT: break;
    }
}

static const char *id_of(const picturing *of, qll_picture picture)
{
    assert(picture.kind < QLL_PICTURE_COUNT);
    qll_writer writer = qll_writer_new(of->arena);
    qll_write(&writer, qll_picture_words[picture.kind]);
    if (is_of_scenario(picture.kind) || picture.kind == QLL_PICTURE_MAP) {
        qll_write_format(&writer, "-%zu", picture.number + 1);
    }
    return qll_writer_text(&writer).bytes;
}

/* At least, and as a rule. A schematic has the height of its branches; what stands in half the width needs no
 * lower one. */
typedef struct picture_height {
    double low_mm, mm;
} picture_height;

static picture_height height_of(const picturing *of, qll_picture_kind kind)
{
    size_t most = 1;
    size_t all = 0;
    for (size_t s = 0; of->chosen != NULL && s < of->chosen->station.stage_count; s++) {
        size_t count = of->chosen->station.stages[s].branch_count;
        most = count > most ? count : most;
        all += count;
    }
    if (kind == QLL_PICTURE_SCHEMATIC) {
        /* The legend and, for each branch, the most that a row of the drawing takes; less where there are many. */
        const double mm = 20.0 + 28.0 * (double)(most < 5 ? most : 5);
        return (picture_height){mm, mm};
    }
    /* Its legend takes two rows, and its curves lie close together. */
    if (kind == QLL_PICTURE_FALLOFF) {
        return (picture_height){QLL_PICTURE_HEIGHT_MM - 6.0, QLL_PICTURE_HEIGHT_MM};
    }
    if (kind == QLL_PICTURE_LADDER) {
        return (picture_height){QLL_PICTURE_LOW_MM, QLL_PICTURE_HEIGHT_MM};
    }
    /* A row above the plot for every valve. */
    bool has_rows = kind == QLL_PICTURE_DURATION;
    double mm = QLL_PICTURE_HEIGHT_MM + (has_rows ? 4.0 * (double)(all < 9 ? all : 9) : 0.0);
    return (picture_height){mm, mm};
}

/* The figure on a canvas of its own; NULL without memory. */
static const qll_canvas *canvas_of(const picturing *of, qll_picture picture, double width_mm,
                                   double height_mm)
{
    qll_canvas *canvas = qll_arena_take(of->arena, 1, sizeof *canvas);
    if (canvas == NULL) {
        return NULL;
    }
    *canvas = qll_canvas_new(width_mm, height_mm, of->arena);
    const qll_figure figure = {.canvas = canvas,
                               .area = {0, 0, width_mm, height_mm},
                               .units = of->wording.units,
                               .language = of->wording.language};
    draw(of, picture, &figure);
    return canvas;
}

qll_status qll_picture_draw(const qll_design_findings *findings, qll_picture picture,
                            qll_arena *arena, qll_figure_block *made)
{
    const qll_survey *survey = findings->demand.survey;
    const size_t scenario = is_of_scenario(picture.kind) ? picture.number : 0;
    const picturing of = {
        .found = findings,
        .chosen = findings->design->count > 0 ? &findings->design->shown[0] : NULL,
        .demand = &findings->demand.demands[scenario],
        .figures = &findings->demand.figures[scenario],
        .wording = {.units = survey->units,
                    .language = findings->demand.language,
                    .site = &survey->site,
                    .duty = findings->duty},
        .arena = arena,
    };
    const picture_height height = height_of(&of, picture.kind);
    const bool is_halved = has_half(picture.kind);
    const bool has_other = is_halved || height.low_mm < height.mm;
    const qll_canvas *canvas = canvas_of(&of, picture, QLL_PICTURE_WIDTH_MM, height.mm);
    const qll_canvas *other =
        !has_other  ? NULL
        : is_halved ? canvas_of(&of, picture, QLL_PICTURE_HALF_MM, height.mm - QLL_PICTURE_LESS_MM)
                    : canvas_of(&of, picture, QLL_PICTURE_WIDTH_MM, height.low_mm);
    const qll_filling names[] = {
        {"scenario", qll_wording_scenario(arena, &of.wording, of.demand->scenario)},
        {"valve", valve_text(&of, picture)}};
    *made = (qll_figure_block){
        .canvas = canvas,
        .low = is_halved ? NULL : other,
        .half = is_halved ? other : NULL,
        .id = id_of(&of, picture),
        .title = fill(&of, (qll_message)((size_t)QLL_SAYS_PICTURE_SCHEMATIC + (size_t)picture.kind),
                      names, 2),
        .description = describe(&of, picture.kind),
    };
    return canvas != NULL && (other != NULL || !has_other) ? QLL_OK : QLL_NO_MEMORY;
}
