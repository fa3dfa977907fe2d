#include "report/simulate_figures.h"

#include "base/count.h"
#include "base/customary.h"
#include "report/figure_parts.h"

#include <math.h>

#define QLL_WIDE_MM 174.0
#define QLL_HIGH_MM 70.0

typedef struct drawing {
    qll_sheet *sheet;
    const qll_simulated_findings *found;
    qll_wording wording;
} drawing;

static const char *says(const drawing *d, qll_said said)
{
    return qll_said_text(d->sheet->arena, &d->wording, &said);
}

static const char *text(const drawing *d, qll_text_id id)
{
    return says(d, (qll_said){.id = id});
}

static void put_plot(drawing *d, const qll_plot *plot, const char *id, qll_text_id title)
{
    qll_canvas *canvas = qll_arena_take(d->sheet->arena, 1, sizeof *canvas);
    if (canvas == NULL) {
        return;
    }
    *canvas = qll_canvas_new(QLL_WIDE_MM, QLL_HIGH_MM, d->sheet->arena);
    qll_plot_draw(canvas, (qll_box){0, 0, QLL_WIDE_MM, QLL_HIGH_MM}, plot);
    const char *named = text(d, title);
    qll_sheet_figure(
        d->sheet,
        &(qll_figure_block){.canvas = canvas, .id = id, .title = named, .description = named});
}

/* Seconds, minutes or hours, whichever reads best. */
static qll_axis time_axis(const drawing *d)
{
    const double ended_s = d->found->run->ended_s;
    const char *title = text(d, QLL_TEXT_SIM_AXIS_TIME);
    const qll_extent seen = {0, ended_s};
    if (ended_s > 2 * 3600.0) {
        return qll_figure_axis(title, "h", 1 / 3600.0, seen);
    }
    return ended_s > 180 ? qll_figure_axis(title, "min", 1 / 60.0, seen)
                         : qll_figure_axis(title, "s", 1, seen);
}

/* No finer than a gauge shows: what hardly changes is drawn as level (our assumption). */
#define QLL_LEAST_SPAN_PA 2e4

static qll_axis pressure_axis(const drawing *d, qll_extent seen)
{
    const double more_pa = fmax(0.0, QLL_LEAST_SPAN_PA - (seen.high - seen.low));
    seen = (qll_extent){seen.low - more_pa / 2, seen.high + more_pa / 2};
    return qll_axis_of(text(d, QLL_TEXT_SIM_AXIS_PRESSURE), QLL_KIND_PRESSURE, d->wording.units,
                       seen.low, seen.high);
}

static void draw_pressures(drawing *d)
{
    const qll_simulated_findings *found = d->found;
    const qll_run_traces *traces = &found->run->traces;
    const size_t joint = found->run->tree.draws[found->followed].joint;
    const bool has_own = joint != found->run->tree.outlet_joint;
    const char *names[QLL_TRACES] = {says(d, found->places[joint].name),
                                     text(d, QLL_TEXT_SIM_AT_OUTLET),
                                     text(d, QLL_TEXT_SIM_AT_INLET)};
    qll_curve_drawn curves[QLL_TRACES];
    qll_extent seen = {(double)INFINITY, -(double)INFINITY};
    size_t count = 0;
    for (size_t i = has_own ? 0 : 1; i < QLL_TRACES; i++) {
        curves[count] = qll_curve_of(names[i], traces->time_s, traces->pa_gauge[i], traces->count,
                                     qll_look_of(count), QLL_NORMAL_MM);
        qll_extent_see_all(&seen, traces->pa_gauge[i], traces->count);
        count += 1;
    }
    const qll_plot plot = {
        .x = time_axis(d), .y = pressure_axis(d, seen), .curves = curves, .curve_count = count};
    put_plot(d, &plot, "event-pressures", QLL_TEXT_SIM_FIGURE_PRESSURES);
}

static void draw_lifts(drawing *d)
{
    const qll_run_found *run = d->found->run;
    const size_t count = run->tree.valve_count;
    qll_curve_drawn *curves = qll_arena_take(d->sheet->arena, count, sizeof *curves);
    if (curves == NULL) {
        return;
    }
    static const double hardly = 0.01;
    qll_extent seen = {0, hardly};
    for (size_t i = 0; i < count; i++) {
        curves[i] =
            qll_curve_of(d->found->valve_names[i], run->traces.time_s, run->traces.lift_share[i],
                         run->traces.count, qll_look_of(i), QLL_NORMAL_MM);
        qll_extent_see_all(&seen, run->traces.lift_share[i], run->traces.count);
    }
    if (seen.high <= hardly) {
        return; /* closed throughout: there is nothing to see */
    }
    const qll_plot plot = {.x = time_axis(d),
                           .y = qll_figure_axis(text(d, QLL_TEXT_SIM_AXIS_LIFT), "%", 100, seen),
                           .curves = curves,
                           .curve_count = count};
    put_plot(d, &plot, "event-lifts", QLL_TEXT_SIM_FIGURE_LIFT);
}

static void draw_envelope(drawing *d)
{
    const qll_run_envelope *along = &d->found->run->envelope;
    if (along->count < 2) {
        return;
    }
    qll_extent seen = {(double)INFINITY, -(double)INFINITY};
    qll_extent_see_all(&seen, along->high_pa_gauge, along->count);
    qll_extent_see_all(&seen, along->low_pa_gauge, along->count);
    const qll_curve_drawn curves[] = {
        qll_curve_of(text(d, QLL_TEXT_SIM_HEAD_HIGH), along->at_m, along->high_pa_gauge,
                     along->count, qll_look_of(0), QLL_HEAVY_MM),
        qll_curve_of(text(d, QLL_TEXT_SIM_HEAD_LOW), along->at_m, along->low_pa_gauge, along->count,
                     qll_look_of(1), QLL_NORMAL_MM),
        qll_curve_of(text(d, QLL_TEXT_SIM_HEAD_BEFORE), along->at_m, along->before_pa_gauge,
                     along->count, qll_look_of(2), QLL_NORMAL_MM),
    };
    const qll_guide station = {text(d, QLL_TEXT_SIM_AT_INLET), along->station_m};
    const bool is_si = d->wording.units == QLL_UNITS_SI;
    const qll_extent way = {0, along->at_m[along->count - 1]};
    const qll_plot plot = {.x =
                               qll_figure_axis(text(d, QLL_TEXT_SIM_AXIS_ALONG), is_si ? "m" : "ft",
                                               is_si ? 1 : 1 / QLL_FOOT_M, way),
                           .y = pressure_axis(d, seen),
                           .curves = curves,
                           .curve_count = QLL_COUNT(curves),
                           .uprights = &station,
                           .upright_count = 1};
    put_plot(d, &plot, "event-envelope", QLL_TEXT_SIM_FIGURE_ENVELOPE);
}

void qll_simulate_figures(qll_sheet *sheet, const qll_simulated_findings *findings)
{
    drawing d = {.sheet = sheet,
                 .found = findings,
                 .wording = {.units = sheet->units, .language = sheet->language}};
    draw_pressures(&d);
    draw_envelope(&d);
    draw_lifts(&d);
}
