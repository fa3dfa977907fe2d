/* docs/theory/map.md. */
#include "station/map.h"

#include "station/trouble.h"

#include <math.h>

/* Two ends nearer than this are one. */
#define QLL_NO_RANGE 1e-9

/* A scale of cells, even in itself or in its logarithm. */
typedef struct scale {
    double from, to; /* ends, as logarithms where it is logarithmic */
    size_t count;
    bool is_log;
} scale;

static scale scale_of(double from, double to, size_t most, bool is_log)
{
    double low = is_log ? log(from) : from;
    double high = is_log ? log(to) : to;
    bool has_range = high - low > QLL_NO_RANGE * fmax(1.0, fabs(high));
    return (scale){low, high, has_range ? most : 1, is_log};
}

static double *ticks_of(const scale *on, double base, qll_arena *arena)
{
    double *ticks = qll_arena_take(arena, on->count, sizeof *ticks);
    for (size_t i = 0; ticks != NULL && i < on->count; i++) {
        double share = on->count > 1 ? (double)i / (double)(on->count - 1) : 1.0;
        double at = on->from + share * (on->to - on->from);
        ticks[i] = (on->is_log ? exp(at) : at) - base;
    }
    return ticks;
}

static size_t nearest_cell(const scale *on, double value)
{
    if (on->count == 1) {
        return 0;
    }
    double at = on->is_log ? log(value) : value;
    double index = (at - on->from) / (on->to - on->from) * (double)(on->count - 1);
    return (size_t)lround(fmin(fmax(index, 0.0), (double)(on->count - 1)));
}

/* A station solved over its duty, and the maps that are being drawn. */
typedef struct drawing {
    const qll_station *station;
    const qll_site *site;
    const qll_duty *duty;
    const qll_operator *made;
    const qll_operating_point *points; /* [supply * flow_count + flow] */
    scale flows;
    const double *flow_m3s;
} drawing;

static scale inlets_of(const drawing *of, size_t stage)
{
    double low = INFINITY;
    double high = -INFINITY;
    for (size_t i = 0; i < of->duty->supply_count * of->duty->flow_count; i++) {
        double inlet_pa = of->points[i].stage_inlet_pa[stage];
        /* NaN where the stage before cannot pass the flow. */
        low = fmin(low, inlet_pa);
        high = fmax(high, inlet_pa);
    }
    double floor_pa = of->site->barometric_pa;
    low = isfinite(low) ? fmax(low, floor_pa) : floor_pa;
    high = isfinite(high) ? fmax(high, low) : low;
    return scale_of(low, high, QLL_MAP_INLETS, false);
}

/* All cells of the stage's valves. */
static void grade_cells(const drawing *of, size_t stage, size_t inlet_count, qll_map *maps,
                        qll_map_cell *const *cells, qll_branch_state *states)
{
    const qll_stage_solver *solver = qll_operator_stage(of->made, stage);
    size_t branch_count = of->station->stages[stage].branch_count;
    for (size_t i = 0; i < inlet_count * of->flows.count; i++) {
        double inlet_pa = maps[0].inlet_pa_gauge[i / of->flows.count] + of->site->barometric_pa;
        double flow_m3s = of->flow_m3s[i % of->flows.count];
        qll_stage_point point = qll_stage_solve(solver, inlet_pa, flow_m3s);
        if (point.passes) {
            qll_stage_states(solver, inlet_pa, flow_m3s, point.outlet_pa, states);
        }
        size_t charge = point.passes ? qll_in_charge(states, branch_count) : 0;
        for (size_t j = 0; j < branch_count; j++) {
            qll_map_cell *cell = &cells[j][i];
            *cell = (qll_map_cell){.passes = point.passes, .grade = QLL_GRADE_FAIL};
            if (point.passes) {
                cell->working = states[j].working;
                cell->grade = qll_trouble_grade(
                    qll_branch_trouble(&of->site->limits, &states[j], j == charge));
                cell->regime = states[j].cavitation.regime;
            }
        }
    }
}

static void add_time(const drawing *of, size_t stage, const scale *inlets, qll_map_cell *cells)
{
    const qll_duty *duty = of->duty;
    for (size_t s = 0; s < duty->supply_count; s++) {
        for (size_t f = 0; f < duty->flow_count; f++) {
            double inlet_pa = of->points[s * duty->flow_count + f].stage_inlet_pa[stage];
            size_t at = isfinite(inlet_pa) ? nearest_cell(inlets, inlet_pa) : 0;
            size_t flow = nearest_cell(&of->flows, duty->flow_m3s[f]);
            cells[at * of->flows.count + flow].time_share +=
                duty->supply_weight[s] * duty->weight_time[f];
        }
    }
}

static qll_status draw_stage(const drawing *of, size_t stage, qll_arena *arena, qll_map *maps)
{
    size_t branch_count = of->station->stages[stage].branch_count;
    scale inlets = inlets_of(of, stage);
    double *ticks = ticks_of(&inlets, of->site->barometric_pa, arena);
    qll_map_cell **cells = qll_arena_take(arena, branch_count, sizeof(void *));
    qll_branch_state *states = qll_arena_take(arena, branch_count, sizeof *states);
    if (ticks == NULL || cells == NULL || states == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t j = 0; j < branch_count; j++) {
        cells[j] = qll_arena_take(arena, inlets.count * of->flows.count, sizeof *cells[j]);
        if (cells[j] == NULL) {
            return QLL_NO_MEMORY;
        }
        maps[j] = (qll_map){.stage = stage,
                            .branch = j,
                            .inlet_count = inlets.count,
                            .flow_count = of->flows.count,
                            .inlet_pa_gauge = ticks,
                            .flow_m3s = of->flow_m3s,
                            .cells = cells[j]};
    }
    grade_cells(of, stage, inlets.count, maps, cells, states);
    for (size_t j = 0; j < branch_count; j++) {
        add_time(of, stage, &inlets, cells[j]);
    }
    return QLL_OK;
}

static qll_status solve_duty(drawing *of, qll_arena *arena)
{
    const qll_duty *duty = of->duty;
    qll_operator *made = NULL;
    qll_operating_point *points = NULL;
    if (qll_operator_make(of->station, of->site, arena, &made) != QLL_OK
        || qll_points_make(of->station, duty->supply_count * duty->flow_count, arena, &points)
               != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    for (size_t s = 0; s < duty->supply_count; s++) {
        size_t from = s * duty->flow_count;
        qll_operate(made, duty->inlet_pa + from, duty->flow_m3s, duty->flow_count, points + from);
    }
    of->made = made;
    of->points = points;
    of->flows =
        scale_of(duty->flow_m3s[0], duty->flow_m3s[duty->flow_count - 1], QLL_MAP_FLOWS, true);
    of->flow_m3s = ticks_of(&of->flows, 0.0, arena);
    return of->flow_m3s == NULL ? QLL_NO_MEMORY : QLL_OK;
}

qll_status qll_maps_make(const qll_station *station, const qll_site *site, const qll_duty *duty,
                         qll_arena *arena, const qll_map **maps, size_t *count)
{
    drawing of = {.station = station, .site = site, .duty = duty};
    *count = qll_station_valve_count(station);
    qll_map *made = qll_arena_take(arena, *count, sizeof *made);
    if (made == NULL || solve_duty(&of, arena) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    size_t at = 0;
    for (size_t k = 0; k < station->stage_count; k++) {
        qll_status status = draw_stage(&of, k, arena, made + at);
        if (status != QLL_OK) {
            return status;
        }
        at += station->stages[k].branch_count;
    }
    *maps = made;
    return QLL_OK;
}
