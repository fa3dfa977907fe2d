/* What is drawn of a station: fall-off, sound and spectra, at its middle supply and either end of it. */
#include "engine/find.h"

#include <math.h>

/* The curves go on behind the peak, so that it shows what is left there. */
static const double beyond_peak = 1.15;

/* Shares of the design peak at which a spectrum is made. */
static const double spectrum_shares[QLL_SPECTRA] = {0.1, 0.3, 1.0};

/* What the curves are made from. */
typedef struct sweep {
    const qll_standing *at;
    const qll_operator *made;
    qll_arena *arena;
    const double *flow_m3s;    /* [QLL_FALLOFF_POINTS] */
    qll_falloff_found *curves; /* room for all */
    size_t count;
} sweep;

/* The station over @p flow_m3s as supply @p supply stands; NULL without memory. */
static qll_operating_point *points_at(const sweep *of, size_t supply, const double *flow_m3s,
                                      size_t count)
{
    const qll_standing *at = of->at;
    qll_operating_point *points = NULL;
    double *inlet_pa = qll_arena_take(of->arena, count, sizeof *inlet_pa);
    if (inlet_pa == NULL || qll_points_make(at->station, count, of->arena, &points) != QLL_OK) {
        return NULL;
    }
    for (size_t i = 0; i < count; i++) {
        inlet_pa[i] =
            qll_site_inlet_pa(at->site, at->duty->supply_static_pa_gauge[supply], flow_m3s[i]);
    }
    qll_operate(of->made, inlet_pa, flow_m3s, count, points);
    return points;
}

/* ---- fall-off ---- */

/* The station's points over the flows of the sweep, and behind them one at no flow. */
static qll_operating_point *sweep_points(const sweep *of, size_t supply)
{
    double flow_m3s[QLL_FALLOFF_POINTS + 1];
    for (size_t i = 0; i < QLL_FALLOFF_POINTS; i++) {
        flow_m3s[i] = of->flow_m3s[i];
    }
    flow_m3s[QLL_FALLOFF_POINTS] = 0.0;
    return points_at(of, supply, flow_m3s, QLL_FALLOFF_POINTS + 1);
}

/* A curve to be filled; returns its outlets, NULL without memory. */
static double *add_curve(sweep *of, qll_falloff_kind kind, size_t stage, size_t branch)
{
    double *outlet_pa_gauge =
        qll_arena_take(of->arena, QLL_FALLOFF_POINTS, sizeof *outlet_pa_gauge);
    if (outlet_pa_gauge != NULL) {
        of->curves[of->count] = (qll_falloff_found){.kind = kind,
                                                    .stage = stage,
                                                    .branch = branch,
                                                    .outlet_pa_gauge = outlet_pa_gauge,
                                                    .lockup_pa_gauge = NAN,
                                                    .full_travel_m3s = NAN};
        of->count += 1;
    }
    return outlet_pa_gauge;
}

static qll_status add_station(sweep *of, const qll_operating_point *points, qll_falloff_kind kind)
{
    const qll_station *station = of->at->station;
    size_t last = station->stage_count - 1;
    double *outlet_pa_gauge = points == NULL ? NULL : add_curve(of, kind, last, 0);
    if (outlet_pa_gauge == NULL) {
        return QLL_NO_MEMORY;
    }
    double atmosphere_pa = of->at->site->barometric_pa;
    qll_falloff_found *curve = &of->curves[of->count - 1];
    for (size_t i = 0; i < QLL_FALLOFF_POINTS; i++) {
        outlet_pa_gauge[i] = points[i].outlet_pa - atmosphere_pa;
        bool full = points[i].passes
                    && qll_all_full(points[i].branches[last], station->stages[last].branch_count);
        if (full && isnan(curve->full_travel_m3s)) {
            curve->full_travel_m3s = of->flow_m3s[i];
        }
    }
    curve->lockup_pa_gauge = points[QLL_FALLOFF_POINTS].outlet_pa - atmosphere_pa;
    return QLL_OK;
}

static qll_status add_between(sweep *of, const qll_operating_point *points)
{
    for (size_t s = 0; s + 1 < of->at->station->stage_count; s++) {
        double *outlet_pa_gauge = add_curve(of, QLL_FALLOFF_BETWEEN, s, 0);
        if (outlet_pa_gauge == NULL) {
            return QLL_NO_MEMORY;
        }
        for (size_t i = 0; i < QLL_FALLOFF_POINTS; i++) {
            outlet_pa_gauge[i] = points[i].stage_outlet_pa[s] - of->at->site->barometric_pa;
        }
    }
    return QLL_OK;
}

/* One valve of the last stage as if the others were shut, up to where it is wide open. */
static qll_status add_alone(sweep *of, const qll_operating_point *points, size_t branch)
{
    const qll_site *site = of->at->site;
    size_t last = of->at->station->stage_count - 1;
    qll_stage *stage = qll_arena_take(of->arena, 1, sizeof *stage);
    double *outlet_pa_gauge = add_curve(of, QLL_FALLOFF_ALONE, last, branch);
    if (stage == NULL || outlet_pa_gauge == NULL) {
        return QLL_NO_MEMORY;
    }
    *stage = of->at->station->stages[last];
    stage->branches += branch;
    stage->branch_count = 1;
    qll_stage_solver *solver = NULL;
    if (qll_stage_solver_make(stage, &site->water, site->barometric_pa, of->arena, &solver)
        != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_falloff_found *curve = &of->curves[of->count - 1];
    for (size_t i = 0; i < QLL_FALLOFF_POINTS; i++) {
        double inlet_pa = points[i].stage_inlet_pa[last];
        qll_stage_point point = qll_stage_solve(solver, inlet_pa, of->flow_m3s[i]);
        outlet_pa_gauge[i] = NAN;
        if (point.passes && isnan(curve->full_travel_m3s)) {
            qll_branch_state state;
            qll_stage_states(solver, inlet_pa, of->flow_m3s[i], point.outlet_pa, &state);
            outlet_pa_gauge[i] = point.outlet_pa - site->barometric_pa;
            curve->full_travel_m3s = state.full_travel ? of->flow_m3s[i] : (double)NAN;
        }
    }
    return QLL_OK;
}

static qll_status find_falloffs(sweep *of)
{
    const qll_duty *duty = of->at->duty;
    const qll_stage *last = &of->at->station->stages[of->at->station->stage_count - 1];
    const qll_operating_point *middle = sweep_points(of, duty->supply_count / 2);
    if (add_station(of, middle, QLL_FALLOFF_MIDDLE) != QLL_OK
        || add_station(of, sweep_points(of, 0), QLL_FALLOFF_LOWEST) != QLL_OK
        || add_station(of, sweep_points(of, duty->supply_count - 1), QLL_FALLOFF_HIGHEST) != QLL_OK
        || add_between(of, middle) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    for (size_t b = 0; last->branch_count > 1 && b < last->branch_count; b++) {
        if (add_alone(of, middle, b) != QLL_OK) {
            return QLL_NO_MEMORY;
        }
    }
    return QLL_OK;
}

/* ---- sound ---- */

/* Points with their levels at the middle supply; NULL without memory. */
static qll_operating_point *sounding_points(const sweep *of, const double *flow_m3s, size_t count)
{
    qll_operating_point *points = points_at(of, of->at->duty->supply_count / 2, flow_m3s, count);
    for (size_t i = 0; points != NULL && i < count; i++) {
        qll_point_levels(of->at->station, of->at->site, false, &points[i]);
    }
    return points;
}

static qll_status find_spectra(const sweep *of, qll_station_curves *curves)
{
    double flow_m3s[QLL_SPECTRA];
    for (size_t i = 0; i < QLL_SPECTRA; i++) {
        flow_m3s[i] = of->at->duty->peak_m3s * spectrum_shares[i];
    }
    const qll_operating_point *points = sounding_points(of, flow_m3s, QLL_SPECTRA);
    for (size_t i = 0; points != NULL && i < QLL_SPECTRA; i++) {
        curves->spectra[i] = qll_find_spectrum(of->at, &points[i]);
    }
    return points == NULL ? QLL_NO_MEMORY : QLL_OK;
}

static qll_status find_sound(const sweep *of, qll_station_curves *curves)
{
    const qll_station *station = of->at->station;
    const size_t valves = qll_station_valve_count(station);
    double *flow_m3s = qll_arena_take(of->arena, QLL_SOUND_POINTS, sizeof *flow_m3s);
    double *level_dba = qll_arena_take(of->arena, valves + 1, QLL_SOUND_POINTS * sizeof *level_dba);
    const double **of_valves = qll_arena_take(of->arena, valves, sizeof(const double *));
    if (flow_m3s == NULL || level_dba == NULL || of_valves == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < QLL_SOUND_POINTS; i++) {
        flow_m3s[i] = of->at->duty->peak_m3s * (double)(i + 1) / QLL_SOUND_POINTS;
    }
    const qll_operating_point *points = sounding_points(of, flow_m3s, QLL_SOUND_POINTS);
    if (points == NULL) {
        return QLL_NO_MEMORY;
    }
    curves->sound_m3s = flow_m3s;
    curves->sound_dba = level_dba;
    curves->valve_dba = of_valves;
    for (size_t i = 0; i < QLL_SOUND_POINTS; i++) {
        level_dba[i] = points[i].level.level_dba;
    }
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            level_dba += QLL_SOUND_POINTS;
            *of_valves++ = level_dba;
            for (size_t i = 0; i < QLL_SOUND_POINTS; i++) {
                level_dba[i] = points[i].levels[s][b].level_dba;
            }
        }
    }
    return QLL_OK;
}

/* ---- where valves work ---- */

static qll_status find_works(const sweep *of, qll_station_curves *curves)
{
    const qll_duty *duty = of->at->duty;
    const double *inlet_pa = duty->inlet_pa + (duty->supply_count / 2) * duty->flow_count;
    qll_operating_point *points = NULL;
    if (qll_points_make(of->at->station, duty->flow_count, of->arena, &points) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_operate(of->made, inlet_pa, duty->flow_m3s, duty->flow_count, points);
    return qll_find_works(of->at, points, of->arena, &curves->works);
}

/* ---- all ---- */

static qll_status begin(const qll_standing *at, qll_arena *arena, sweep *of)
{
    const qll_station *station = at->station;
    size_t last_count = station->stages[station->stage_count - 1].branch_count;
    double *flow_m3s = qll_arena_take(arena, QLL_FALLOFF_POINTS, sizeof *flow_m3s);
    qll_operator *made = NULL;
    *of = (sweep){.at = at, .arena = arena, .flow_m3s = flow_m3s};
    of->curves = qll_arena_take(arena, 3 + station->stage_count + last_count, sizeof *of->curves);
    if (flow_m3s == NULL || of->curves == NULL
        || qll_operator_make(station, at->site, arena, &made) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    of->made = made;
    double most_m3s = at->duty->peak_m3s * beyond_peak;
    for (size_t i = 0; i < QLL_FALLOFF_POINTS; i++) {
        flow_m3s[i] = most_m3s * fmax((double)i / (QLL_FALLOFF_POINTS - 1), 1e-3);
    }
    return QLL_OK;
}

qll_status qll_find_curves(const qll_standing *at, qll_arena *arena,
                           const qll_station_curves **curves)
{
    sweep of;
    qll_station_curves *found = qll_arena_take(arena, 1, sizeof *found);
    if (found == NULL || begin(at, arena, &of) != QLL_OK || find_falloffs(&of) != QLL_OK
        || find_sound(&of, found) != QLL_OK || find_spectra(&of, found) != QLL_OK
        || find_works(&of, found) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    found->falloff_m3s = of.flow_m3s;
    found->falloffs = of.curves;
    found->falloff_count = of.count;
    found->never_above_pa_gauge =
        at->site->static_max_pa_gauge - qll_site_lowest_column_pa(at->site);
    *curves = found;
    return QLL_OK;
}
