#include "station/stage_solver.h"

#include <math.h>
#include <stdint.h>

/* No trim cavitates from the first drop on, nor does any hold out to the last. */
#define QLL_XFZ_LEAST 0.05
#define QLL_XFZ_MOST  0.95

double qll_branch_xfz(const qll_branch *branch, double kv_m3h)
{
    const qll_valve *valve = branch->valve;
    double xfz = isnan(valve->xfz) ? qll_xfz_estimate(kv_m3h, valve->fl, valve->fd) : valve->xfz;
    return branch->xfz_shift == 0.0
               ? xfz
               : fmin(fmax(xfz + branch->xfz_shift, QLL_XFZ_LEAST), QLL_XFZ_MOST);
}

/* Own drop of the valve: what the strainer and the reducers take comes off before it. */
static qll_cavitation own_cavitation(const qll_stage_solver *solver, const qll_branch *branch,
                                     const qll_branch_state *state, double inlet_pa,
                                     double outlet_pa)
{
    const qll_valve *valve = branch->valve;
    double series_pa = 0.0;
    if (branch->series_kv_m3h > 0.0) {
        double root = state->flow_m3s / (branch->series_kv_m3h * solver->flow_per_kv);
        series_pa = root * root;
    }
    qll_cavitation_case given = {
        .inlet_pa = fmax(inlet_pa - series_pa, outlet_pa),
        .outlet_pa = outlet_pa,
        .vapour_pressure_pa = solver->water.vapour_pressure_pa,
        .barometric_pa = solver->barometric_pa,
        .xfz = qll_branch_xfz(branch, state->kv_m3h),
        .fl = valve->fl,
    };
    return qll_cavitation_of(&given);
}

void qll_stage_states(const qll_stage_solver *solver, double inlet_pa, double flow_m3s,
                      double outlet_pa, qll_branch_state *states)
{
    double drop_pa = inlet_pa - outlet_pa;
    double root = drop_pa > 0.0 ? sqrt(drop_pa) : 0.0;
    double measure = qll_stability_measure(drop_pa, outlet_pa - solver->barometric_pa);
    for (size_t j = 0; j < solver->stage->branch_count; j++) {
        const qll_branch *branch = &solver->stage->branches[j];
        const qll_leg *leg = &solver->legs[j];
        double falloff_pa = qll_leg_set_pa(leg, inlet_pa) - outlet_pa;
        double choked_pa = qll_choked_drop_pa(solver, leg->fl_squared, inlet_pa);
        double driving = drop_pa > choked_pa ? sqrt(fmax(choked_pa, 0.0)) : root;
        qll_branch_state state = {.kv_m3h = qll_opening_law_kv(branch->law, falloff_pa)};
        state.opening = state.kv_m3h / branch->valve->kv_m3h;
        state.full_travel = falloff_pa >= branch->law->full_falloff_pa;
        state.stable_flow_m3s = leg->stable_per_measure * measure;
        if (flow_m3s > 0.0) {
            state.flow_m3s = qll_branch_curve_at(&leg->curve, falloff_pa).c * driving;
        }
        state.working = state.flow_m3s > 0.0;
        state.stable = !state.working || state.flow_m3s >= state.stable_flow_m3s;
        if (state.working) {
            state.velocity_m_s = qll_pipe_velocity_m_s(state.flow_m3s, branch->pipe_bore_m);
            state.cavitation = own_cavitation(solver, branch, &state, inlet_pa, outlet_pa);
        }
        states[j] = state;
    }
}

qll_handover qll_stage_handover(const qll_stage_solver *solver, double inlet_pa)
{
    size_t count = solver->stage->branch_count;
    size_t first = SIZE_MAX;
    size_t second = SIZE_MAX;
    for (size_t j = 0; j < count; j++) {
        double set_pa = qll_leg_set_pa(&solver->legs[j], inlet_pa);
        if (first == SIZE_MAX || set_pa > qll_leg_set_pa(&solver->legs[first], inlet_pa)) {
            second = first;
            first = j;
        } else if (second == SIZE_MAX || set_pa > qll_leg_set_pa(&solver->legs[second], inlet_pa)) {
            second = j;
        }
    }
    if (second == SIZE_MAX || isnan(inlet_pa)) {
        return (qll_handover){NAN, NAN};
    }
    const qll_leg *opens = &solver->legs[second];
    double outlet_pa = qll_leg_set_pa(opens, inlet_pa) - opens->hysteresis_pa;
    double drop_pa = inlet_pa - outlet_pa;
    const qll_leg *alone = &solver->legs[first];
    double choked_pa = qll_choked_drop_pa(solver, alone->fl_squared, inlet_pa);
    double driving = sqrt(fmax(fmin(drop_pa, choked_pa), 0.0));
    double falloff_pa = qll_leg_set_pa(alone, inlet_pa) - outlet_pa;
    double flow_m3s = qll_branch_curve_at(&alone->curve, falloff_pa).c * driving;
    return (qll_handover){flow_m3s, outlet_pa};
}
