/* What a branch carries at a solved point: one body for its full state and for the hazards, which must
 * agree to the last bit. Internal to the station module. */
#ifndef QUELL_STATION_BRANCH_LOAD_H
#define QUELL_STATION_BRANCH_LOAD_H

#include "station/stage_solver.h"

#include <math.h>

/** A solved point as all branches of a stage see it. */
typedef struct qll_stage_drop {
    double inlet_pa, outlet_pa, flow_m3s;
    double drop_pa, root;         /* of the drop; 0 below no drop */
    qll_stability_here stability; /* ln_drop only where solver->has_estimate */
} qll_stage_drop;

static inline qll_stage_drop qll_stage_drop_of(const qll_stage_solver *solver, double inlet_pa,
                                               double flow_m3s, double outlet_pa)
{
    qll_stage_drop at = {.inlet_pa = inlet_pa,
                         .outlet_pa = outlet_pa,
                         .flow_m3s = flow_m3s,
                         .drop_pa = inlet_pa - outlet_pa};
    if (at.drop_pa > 0.0) {
        at.root = sqrt(at.drop_pa);
        at.stability = (qll_stability_here){
            .measure = qll_stability_measure(at.drop_pa, outlet_pa - solver->barometric_pa),
            .root = at.root,
            .ln_drop = solver->has_estimate ? log(at.drop_pa) : 0.0};
    }
    return at;
}

/** What is needed of a branch at any such point. */
typedef struct qll_branch_load {
    double kv_m3h; /* of the valve alone */
    double flow_m3s, stable_flow_m3s;
    double velocity_m_s;
    bool working, stable, full_travel;
} qll_branch_load;

static inline qll_branch_load qll_branch_load_of(const qll_stage_solver *solver, size_t branch,
                                                 const qll_stage_drop *at)
{
    const qll_leg *leg = &solver->legs[branch];
    double falloff_pa = qll_leg_set_pa(leg, at->inlet_pa) - at->outlet_pa;
    double choked_pa = qll_choked_drop_pa(solver, leg->fl_squared, at->inlet_pa);
    const qll_branch_c curve = qll_branch_curve_at(&leg->curve, falloff_pa);
    double driving = at->root;
    if (at->drop_pa > choked_pa) {
        driving = choked_pa > 0.0 ? sqrt(choked_pa) : 0.0;
    }
    qll_branch_load load = {.kv_m3h = curve.kv_m3h,
                            .flow_m3s = at->flow_m3s > 0.0 ? curve.c * driving : 0.0,
                            .stable_flow_m3s =
                                qll_least_flow_m3s(&leg->least_flow, &at->stability)};
    load.velocity_m_s = load.flow_m3s * leg->speed_per_flow;
    load.working = load.flow_m3s > 0.0;
    load.stable = !load.working || load.flow_m3s >= load.stable_flow_m3s;
    load.full_travel = falloff_pa >= leg->full_falloff_pa;
    return load;
}

/** The valve's own drop: what the strainer and the reducers take comes off before it. */
static inline qll_cavitation_case qll_branch_own_case(const qll_stage_solver *solver, size_t branch,
                                                      const qll_stage_drop *at,
                                                      const qll_branch_load *load)
{
    const qll_branch *of = &solver->stage->branches[branch];
    double root = load->flow_m3s * solver->legs[branch].series_per_flow;
    double own_inlet_pa = at->inlet_pa - root * root;
    return (qll_cavitation_case){
        .inlet_pa = own_inlet_pa > at->outlet_pa ? own_inlet_pa : at->outlet_pa,
        .outlet_pa = at->outlet_pa,
        .vapour_pressure_pa = solver->water.vapour_pressure_pa,
        .barometric_pa = solver->barometric_pa,
        .xfz = qll_branch_xfz(of, load->kv_m3h),
        .fl = of->valve->fl,
    };
}

#endif
