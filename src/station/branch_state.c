#include "station/branch_load.h"

#include <math.h>
#include <stdint.h>

void qll_stage_states(const qll_stage_solver *solver, double inlet_pa, double flow_m3s,
                      double outlet_pa, qll_branch_state *states)
{
    const qll_stage_drop at = qll_stage_drop_of(solver, inlet_pa, flow_m3s, outlet_pa);
    for (size_t j = 0; j < solver->stage->branch_count; j++) {
        const qll_branch *branch = &solver->stage->branches[j];
        const qll_branch_load load = qll_branch_load_of(solver, j, &at);
        /* The last bit of a Kv short of full travel may lie above the full one. */
        double opening = load.kv_m3h / branch->valve->kv_m3h;
        states[j] = (qll_branch_state){.flow_m3s = load.flow_m3s,
                                       .kv_m3h = load.kv_m3h,
                                       .opening = opening < 1.0 ? opening : 1.0,
                                       .velocity_m_s = load.velocity_m_s,
                                       .stable_flow_m3s = load.stable_flow_m3s,
                                       .working = load.working,
                                       .stable = load.stable,
                                       .full_travel = load.full_travel};
        if (load.working) {
            const qll_cavitation_case own = qll_branch_own_case(solver, j, &at, &load);
            states[j].cavitation = qll_cavitation_of(&own);
        }
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
    double outlet_pa =
        qll_leg_set_pa(opens, inlet_pa); /* the middle of its band, as in every table */
    double drop_pa = inlet_pa - outlet_pa;
    const qll_leg *alone = &solver->legs[first];
    double choked_pa = qll_choked_drop_pa(solver, alone->fl_squared, inlet_pa);
    double driving = sqrt(fmax(fmin(drop_pa, choked_pa), 0.0));
    double falloff_pa = qll_leg_set_pa(alone, inlet_pa) - outlet_pa;
    double flow_m3s = qll_branch_curve_at(&alone->curve, falloff_pa).c * driving;
    return (qll_handover){flow_m3s, outlet_pa};
}
