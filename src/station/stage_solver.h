/* The inside of a stage's solver: shared by balance.c, balance_branches.c and branch_state.c. */
#ifndef QUELL_STATION_STAGE_SOLVER_H
#define QUELL_STATION_STAGE_SOLVER_H

#include "station/balance.h"
#include "station/branch_curve.h"

/* A solved point's residual, as a share of the flow asked for. */
#define QLL_RESIDUAL_SHARE 1e-12

/** What is known of a branch before any inlet pressure. */
typedef struct qll_leg {
    qll_branch_curve curve;
    double set_pa, set_per_inlet; /* absolute set-point here = set_pa + set_per_inlet * p1 */
    double fl_squared;
    double lockup_rise_pa, hysteresis_pa;
    double stable_per_root; /* least stable flow per sqrt(drop); NaN = flow_min everywhere */
} qll_leg;

struct qll_stage_solver {
    const qll_stage *stage;
    qll_water water;
    double barometric_pa;
    double ff_pv_pa;
    double flow_per_kv;
    const qll_leg *legs;
    double fl_squared_least;
    bool merged; /* invariant 2 holds: sum, squared, middle_pa and top are set */
    qll_branch_curve sum;
    const double *squared;   /* c^2 of the sum's knots */
    const double *middle_pa; /* fall-off half way to the next knot; at the last, the knot */
    size_t top;              /* the branch with the highest set-point */
};

static inline double qll_leg_set_pa(const qll_leg *leg, double inlet_pa)
{
    return leg->set_pa + leg->set_per_inlet * inlet_pa;
}

static inline double qll_choked_drop_pa(const qll_stage_solver *solver, double fl_squared,
                                        double inlet_pa)
{
    return fl_squared * (inlet_pa - solver->ff_pv_pa);
}

/** Point by point and knot by knot: where the merged sum does not hold. For flow > 0 and an inlet
 * above vapour pressure. */
qll_stage_point qll_solve_branches(const qll_stage_solver *solver, double inlet_pa,
                                   double flow_m3s);

#endif
