#include "station/operate.h"

#include "station/trouble.h"

#include <assert.h>
#include <math.h>

/* Points that go through the stages together. */
#define QLL_CHUNK 64

struct qll_operator {
    const qll_station *station;
    double barometric_pa, vapour_pressure_pa;
    qll_limits limits;
    qll_stage_solver **stages;
};

qll_status qll_operator_make(const qll_station *station, const qll_site *site, qll_arena *arena,
                             qll_operator **made)
{
    qll_operator *result = qll_arena_take(arena, 1, sizeof *result);
    qll_stage_solver **stages =
        qll_arena_take(arena, station->stage_count, sizeof(qll_stage_solver *));
    if (result == NULL || stages == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < station->stage_count; i++) {
        if (qll_stage_solver_make(&station->stages[i], &site->water, site->barometric_pa, arena,
                                  &stages[i])
            != QLL_OK) {
            return QLL_NO_MEMORY;
        }
    }
    *result = (qll_operator){station, site->barometric_pa, site->water.vapour_pressure_pa,
                             site->limits, stages};
    *made = result;
    return QLL_OK;
}

const qll_stage_solver *qll_operator_stage(const qll_operator *made, size_t stage)
{
    assert(stage < made->station->stage_count);
    return made->stages[stage];
}

qll_status qll_points_make(const qll_station *station, size_t count, qll_arena *arena,
                           qll_operating_point **points)
{
    const size_t stage_count = station->stage_count;
    const size_t branch_count = qll_station_valve_count(station);
    qll_operating_point *made = qll_arena_take(arena, count, sizeof *made);
    qll_branch_state **branches = qll_arena_take(arena, count, stage_count * sizeof(void *));
    qll_branch_level **levels = qll_arena_take(arena, count, stage_count * sizeof(void *));
    double *pressures = qll_arena_take(arena, count, 2 * stage_count * sizeof *pressures);
    qll_stage_state *stages = qll_arena_take(arena, count, stage_count * sizeof *stages);
    qll_branch_state *state = qll_arena_take(arena, count, branch_count * sizeof *state);
    qll_branch_level *level = qll_arena_take(arena, count, branch_count * sizeof *level);
    if (made == NULL || branches == NULL || levels == NULL || pressures == NULL || stages == NULL
        || state == NULL || level == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        made[i] = (qll_operating_point){.stage_inlet_pa = pressures,
                                        .stage_outlet_pa = pressures + stage_count,
                                        .stages = stages,
                                        .branches = branches,
                                        .levels = levels,
                                        .level = {NAN, NAN, NAN, QLL_NOISE_WITHIN}};
        pressures += 2 * stage_count;
        stages += stage_count;
        for (size_t k = 0; k < stage_count; k++) {
            *branches++ = state;
            *levels++ = level;
            state += station->stages[k].branch_count;
            level += station->stages[k].branch_count;
        }
    }
    *points = made;
    return QLL_OK;
}

/* The gravest trouble stands first; none before all. */
static qll_trouble graver(qll_trouble one, qll_trouble other)
{
    if (one == QLL_TROUBLE_NONE || other == QLL_TROUBLE_NONE) {
        return one == QLL_TROUBLE_NONE ? other : one;
    }
    return one < other ? one : other;
}

/* What is read off a solved stage as a whole, and adds to what is read off the point. */
static void look_at_stage(const qll_operator *made, size_t stage, qll_operating_point *point)
{
    const qll_branch_state *states = point->branches[stage];
    const size_t count = made->station->stages[stage].branch_count;
    double inlet_pa = point->stage_inlet_pa[stage];
    double outlet_pa = point->stage_outlet_pa[stage];
    qll_stage_state seen = {
        .ratio_gauge = qll_gauge_ratio(inlet_pa, outlet_pa, made->barometric_pa),
        .ratio_absolute = qll_absolute_ratio(inlet_pa, outlet_pa),
        .xf = qll_xf(inlet_pa, outlet_pa, made->vapour_pressure_pa),
        .sigma = qll_sigma(inlet_pa, outlet_pa, made->vapour_pressure_pa),
        .regime = QLL_REGIME_QUIET,
        .in_charge = qll_in_charge(states, count),
    };
    for (size_t j = 0; j < count; j++) {
        const qll_branch_state *state = &states[j];
        bool is_worse = state->working && state->cavitation.regime > seen.regime;
        seen.regime = is_worse ? state->cavitation.regime : seen.regime;
        seen.working_count += state->working ? 1 : 0;
        point->fastest_m_s = fmax(point->fastest_m_s, state->velocity_m_s);
        point->trouble =
            graver(point->trouble, qll_branch_trouble(&made->limits, state, j == seen.in_charge));
    }
    point->ratio_gauge = fmax(point->ratio_gauge, seen.ratio_gauge); /* passes over NaN */
    point->stages[stage] = seen;
}

static void put_stage(const qll_operator *made, size_t stage, double inlet_pa,
                      const qll_stage_point *solved, qll_operating_point *point)
{
    qll_branch_state *states = point->branches[stage];
    point->stage_inlet_pa[stage] = inlet_pa;
    point->stage_outlet_pa[stage] = solved->outlet_pa;
    point->outlet_pa = solved->outlet_pa;
    point->passes = point->passes && solved->passes;
    if (solved->passes) {
        qll_stage_states(made->stages[stage], inlet_pa, point->flow_m3s, solved->outlet_pa, states);
    } else {
        for (size_t j = 0; j < made->station->stages[stage].branch_count; j++) {
            states[j] = (qll_branch_state){.stable = true};
        }
    }
    look_at_stage(made, stage, point);
}

static void operate_chunk(const qll_operator *made, const double *inlet_pa, const double *flow_m3s,
                          size_t count, qll_operating_point *points)
{
    double inlets[QLL_CHUNK];
    qll_stage_point solved[QLL_CHUNK];
    for (size_t i = 0; i < count; i++) {
        inlets[i] = inlet_pa[i];
        points[i].flow_m3s = flow_m3s[i];
        points[i].inlet_pa = inlet_pa[i];
        points[i].passes = true;
        points[i].ratio_gauge = NAN;
        points[i].fastest_m_s = 0.0;
        points[i].trouble = QLL_TROUBLE_NONE;
    }
    for (size_t k = 0; k < made->station->stage_count; k++) {
        qll_stage_solve_many(made->stages[k], inlets, flow_m3s, count, solved);
        for (size_t i = 0; i < count; i++) {
            put_stage(made, k, inlets[i], &solved[i], &points[i]);
            inlets[i] = solved[i].outlet_pa;
        }
    }
}

void qll_operate(const qll_operator *made, const double *inlet_pa, const double *flow_m3s,
                 size_t count, qll_operating_point *points)
{
    for (size_t from = 0; from < count; from += QLL_CHUNK) {
        size_t here = count - from < QLL_CHUNK ? count - from : QLL_CHUNK;
        operate_chunk(made, inlet_pa + from, flow_m3s + from, here, points + from);
    }
}

qll_status qll_station_shift(const qll_station *station, double bands, qll_arena *arena,
                             qll_station *shifted)
{
    qll_stage *stages = qll_arena_take(arena, station->stage_count, sizeof *stages);
    for (size_t k = 0; stages != NULL && k < station->stage_count; k++) {
        const qll_stage *of = &station->stages[k];
        qll_branch *branches = qll_arena_take(arena, of->branch_count, sizeof *branches);
        if (branches == NULL) {
            return QLL_NO_MEMORY;
        }
        for (size_t j = 0; j < of->branch_count; j++) {
            double band_pa = of->branches[j].valve->hysteresis_pa;
            branches[j] = of->branches[j];
            branches[j].set_pa_gauge += isnan(band_pa) ? 0.0 : bands * band_pa;
        }
        stages[k] = *of;
        stages[k].branches = branches;
    }
    *shifted = (qll_station){.stages = stages, .stage_count = station->stage_count};
    return stages == NULL ? QLL_NO_MEMORY : QLL_OK;
}

size_t qll_in_charge(const qll_branch_state *branches, size_t count)
{
    size_t most = 0;
    for (size_t j = 1; j < count; j++) {
        most = branches[j].flow_m3s > branches[most].flow_m3s ? j : most;
    }
    return most;
}

bool qll_all_full(const qll_branch_state *branches, size_t count)
{
    bool all = true;
    for (size_t j = 0; j < count; j++) {
        all = all && branches[j].full_travel;
    }
    return all;
}
