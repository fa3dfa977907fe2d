/* Outlet pressure against flow, worked out from a station. */
#include "report/figures_of.h"

#include <math.h>

/* Points of a curve; straight lines between them cannot be told from the curve. */
#define QLL_FALLOFF_POINTS 81

/* The curves go on behind the peak, so that it shows what is left there. */
#define QLL_BEYOND_PEAK 1.15

/* What the curves of one figure are made from. */
typedef struct sweep {
    const qll_figure *figure;
    const qll_pictured *pictured;
    const qll_operator *made;
    double flow_m3s[QLL_FALLOFF_POINTS]; /* the first is next to nothing */
    qll_falloff_curve *curves;
    size_t count;
} sweep;

static double *take_points(const sweep *at)
{
    double *points = qll_arena_take(at->figure->canvas->arena, QLL_FALLOFF_POINTS, sizeof *points);
    at->figure->canvas->no_memory = at->figure->canvas->no_memory || points == NULL;
    return points;
}

static qll_falloff_curve *add_curve(sweep *at, const char *name, const double *outlet)
{
    qll_falloff_curve *curve = &at->curves[at->count];
    at->count += 1;
    *curve = (qll_falloff_curve){.name = name,
                                 .tag = "",
                                 .flow_m3s = at->flow_m3s,
                                 .outlet_pa = outlet,
                                 .count = QLL_FALLOFF_POINTS,
                                 .lockup_pa = NAN,
                                 .full_travel_m3s = NAN};
    return curve;
}

static double inlet_of(const sweep *at, size_t supply, double flow_m3s)
{
    const qll_wording *wording = at->pictured->wording;
    return qll_site_inlet_pa(wording->site, wording->duty->supply_static_pa_gauge[supply],
                             flow_m3s);
}

/* The station's points over the flows of the sweep, and behind them one at no flow. */
static qll_operating_point *station_points(const sweep *at, size_t supply)
{
    qll_operating_point *points = NULL;
    if (qll_points_make(at->pictured->station, QLL_FALLOFF_POINTS + 1, at->figure->canvas->arena,
                        &points)
        != QLL_OK) {
        at->figure->canvas->no_memory = true;
        return NULL;
    }
    double inlet[QLL_FALLOFF_POINTS + 1];
    double flow[QLL_FALLOFF_POINTS + 1];
    for (size_t i = 0; i <= QLL_FALLOFF_POINTS; i++) {
        flow[i] = i < QLL_FALLOFF_POINTS ? at->flow_m3s[i] : 0;
        inlet[i] = inlet_of(at, supply, flow[i]);
    }
    qll_operate(at->made, inlet, flow, QLL_FALLOFF_POINTS + 1, points);
    return points;
}

static void add_station(sweep *at, size_t supply, qll_message name, bool is_middle)
{
    const qll_station *station = at->pictured->station;
    double atmosphere = at->pictured->wording->site->barometric_pa;
    const qll_operating_point *points = station_points(at, supply);
    double *outlet = take_points(at);
    if (points == NULL || outlet == NULL) {
        return;
    }
    qll_falloff_curve *curve = add_curve(at, qll_say(at->figure->language, name), outlet);
    size_t last = station->stage_count - 1;
    for (size_t i = 0; i < QLL_FALLOFF_POINTS; i++) {
        outlet[i] = points[i].outlet_pa - atmosphere;
        bool full = points[i].passes
                    && qll_all_full(points[i].branches[last], station->stages[last].branch_count);
        if (full && isnan(curve->full_travel_m3s)) {
            curve->full_travel_m3s = at->flow_m3s[i];
        }
    }
    curve->is_station = is_middle;
    curve->lockup_pa = points[QLL_FALLOFF_POINTS].outlet_pa - atmosphere;
}

static void add_between(sweep *at, size_t supply)
{
    double atmosphere = at->pictured->wording->site->barometric_pa;
    const qll_operating_point *points = station_points(at, supply);
    for (size_t s = 0; points != NULL && s + 1 < at->pictured->station->stage_count; s++) {
        double *outlet = take_points(at);
        if (outlet == NULL) {
            return;
        }
        for (size_t i = 0; i < QLL_FALLOFF_POINTS; i++) {
            outlet[i] = points[i].stage_outlet_pa[s] - atmosphere;
        }
        (void)add_curve(at, qll_say(at->figure->language, QLL_SAYS_FIGURE_BETWEEN), outlet);
    }
}

static const char *alone_name(const sweep *at, size_t stage, size_t branch, const char *tag)
{
    const qll_branch *one = &at->pictured->station->stages[stage].branches[branch];
    qll_arena *arena = at->figure->canvas->arena;
    qll_writer valve = qll_writer_new(arena);
    qll_write_format(&valve, "%s (", tag);
    qll_write(&valve, one->valve->id);
    qll_write(&valve, ")");
    qll_writer name = qll_writer_new(arena);
    const qll_filling filling = {"valve", valve.no_memory ? "" : qll_writer_text(&valve).bytes};
    qll_say_with(&name, at->figure->language, QLL_SAYS_FIGURE_ALONE, &filling, 1);
    at->figure->canvas->no_memory = at->figure->canvas->no_memory || name.no_memory;
    return name.no_memory ? "" : qll_writer_text(&name).bytes;
}

/* One valve of the last stage as if the others were shut, up to where it is wide open. */
static void add_alone(sweep *at, size_t supply, size_t branch)
{
    const qll_station *station = at->pictured->station;
    const qll_site *site = at->pictured->wording->site;
    qll_arena *arena = at->figure->canvas->arena;
    size_t last = station->stage_count - 1;
    qll_stage *stage = qll_arena_take(arena, 1, sizeof *stage);
    qll_stage_solver *solver = NULL;
    double *outlet = take_points(at);
    const qll_operating_point *points = station_points(at, supply);
    if (stage == NULL || outlet == NULL || points == NULL) {
        at->figure->canvas->no_memory = true;
        return;
    }
    *stage = station->stages[last];
    stage->branches += branch;
    stage->branch_count = 1;
    qll_writer tag = qll_writer_new(arena);
    qll_valve_name_write(&tag, station, last, branch);
    if (tag.no_memory
        || qll_stage_solver_make(stage, &site->water, site->barometric_pa, arena, &solver)
               != QLL_OK) {
        at->figure->canvas->no_memory = true;
        return;
    }
    const char *short_name = qll_writer_text(&tag).bytes;
    qll_falloff_curve *curve = add_curve(at, alone_name(at, last, branch, short_name), outlet);
    curve->tag = short_name;
    for (size_t i = 0; i < QLL_FALLOFF_POINTS; i++) {
        double inlet = points[i].stage_inlet_pa[last];
        qll_stage_point point = qll_stage_solve(solver, inlet, at->flow_m3s[i]);
        outlet[i] = NAN;
        if (point.passes && isnan(curve->full_travel_m3s)) {
            qll_branch_state state;
            qll_stage_states(solver, inlet, at->flow_m3s[i], point.outlet_pa, &state);
            outlet[i] = point.outlet_pa - site->barometric_pa;
            curve->full_travel_m3s = state.full_travel ? at->flow_m3s[i] : (double)NAN;
        }
    }
}

static bool make_sweep(sweep *at)
{
    const qll_station *station = at->pictured->station;
    const qll_wording *wording = at->pictured->wording;
    qll_arena *arena = at->figure->canvas->arena;
    size_t last_count = station->stages[station->stage_count - 1].branch_count;
    qll_operator *made = NULL;
    at->curves = qll_arena_take(arena, 3 + station->stage_count + last_count, sizeof *at->curves);
    if (at->curves == NULL || qll_operator_make(station, wording->site, arena, &made) != QLL_OK) {
        at->figure->canvas->no_memory = true;
        return false;
    }
    at->made = made;
    double most = wording->duty->peak_m3s * QLL_BEYOND_PEAK;
    for (size_t i = 0; i < QLL_FALLOFF_POINTS; i++) {
        at->flow_m3s[i] = most * fmax((double)i / (QLL_FALLOFF_POINTS - 1), 1e-3);
    }
    return true;
}

void qll_figure_falloff_of(const qll_figure *figure, const qll_pictured *pictured)
{
    const qll_wording *wording = pictured->wording;
    const qll_station *station = pictured->station;
    sweep at = {.figure = figure, .pictured = pictured};
    if (station->stage_count == 0 || !make_sweep(&at)) {
        return;
    }
    size_t middle = wording->duty->supply_count / 2;
    size_t high = wording->duty->supply_count - 1;
    add_station(&at, middle, QLL_SAYS_FIGURE_MIDDLE, true);
    add_station(&at, 0, QLL_SAYS_FIGURE_LOWEST, false);
    add_station(&at, high, QLL_SAYS_FIGURE_HIGHEST, false);
    add_between(&at, middle);
    size_t last_count = station->stages[station->stage_count - 1].branch_count;
    for (size_t b = 0; last_count > 1 && b < last_count; b++) {
        add_alone(&at, middle, b);
    }
    const qll_guide levels[] = {
        qll_figure_pressure_guide(figure, QLL_SAYS_FIGURE_WANTED, wording->site->set_pa_gauge),
        qll_figure_pressure_guide(figure, QLL_SAYS_FIGURE_NEVER_ABOVE,
                                  wording->site->static_max_pa_gauge
                                      - qll_site_lowest_column_pa(wording->site)),
    };
    qll_figure_falloff(figure, &(qll_falloff_figure){.curves = at.curves,
                                                     .curve_count = at.count,
                                                     .levels = levels,
                                                     .level_count = 2,
                                                     .peak_m3s = wording->duty->peak_m3s});
}
