/* The inside of a stage's solver: shared by the balance*.c files and branch_state.c. */
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
    double lockup_rise_pa;
    qll_least_flow least_flow;
    double full_falloff_pa;
    double speed_per_flow;  /* in the valve's own size, m/s per m3/s */
    double series_per_flow; /* root of the drop in series with the valve; 0 = nothing there */
} qll_leg;

/* A knot of the sum of all branches. Its place and height are straight lines in d, the inlet less
 * the reference inlet, as long as it meets no knot of a branch that moves differently. */
typedef struct qll_knot {
    double outlet_pa, outlet_rate; /* it lies at this outlet: outlet_pa + outlet_rate d */
    double c, c_rate;              /* of all branches there: c + c_rate d */
    double slope;                  /* of c from here to the next knot (to the right) */
    double half_pa;                /* half way to the next knot at the reference; 0 at the last */
} qll_knot;

/* The square of what passes at a knot, (c + c_rate d)^2 times its drop: a cubic in d, whose
 * coefficients these are; a straight line where all branches move alike. */
typedef struct qll_knot_flow {
    double squared[4];
} qll_knot_flow;

/* Fall-offs of one branch between which it is one straight line. */
typedef struct qll_span {
    double low_pa, high_pa;
} qll_span;

struct qll_stage_solver {
    const qll_stage *stage;
    qll_water water;
    double barometric_pa;
    double ff_pv_pa;
    double flow_per_kv;
    const qll_leg *legs;
    double fl_squared_least;
    bool has_estimate;   /* a leg's least stable flow is one */
    double reference_pa; /* inlet, absolute */
    const qll_knot *knots;
    const qll_knot_flow *flows; /* one per knot */
    size_t knot_count;
    const qll_span *spans; /* a row of branch_count per knot; NULL where all move alike */
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

/* A branch on the way down through its knots. */
typedef struct qll_cursor {
    const qll_branch_curve *curve;
    double set_pa, set_per_inlet; /* at the reference inlet, and how it moves */
    size_t next;                  /* so many of its knots have been passed */
    double last_pa, next_pa; /* outlet at the knot passed last, and at the next; -INFINITY after
                                     the last */
} qll_cursor;

/** Room for one solver after the other: who tries many stages takes memory once. */
typedef struct qll_solver_room {
    qll_stage_solver solver;
    qll_leg *legs;
    qll_knot *knots;
    qll_knot_flow *flows;
    qll_span *spans;
    qll_cursor *cursors;
    size_t branch_most, knot_most;
} qll_solver_room;

/** For stages of at most so many branches, whose curves have at most so many knots together. */
QLL_MUST_USE qll_status qll_solver_room_make(size_t branch_most, size_t knot_most, qll_arena *arena,
                                             qll_solver_room *room);

/** The solver of @p stage from curves made beforehand, one per branch. It lives in @p room until the next
 * one and points at all it is given. */
const qll_stage_solver *qll_stage_solver_in(qll_solver_room *room, const qll_stage *stage,
                                            const qll_water *water, double barometric_pa,
                                            const qll_branch_curve *const *curves);

/** Sets knots and spans from the legs. */
void qll_merge_legs(qll_stage_solver *solver, qll_solver_room *room);

/** Point by point and knot by knot, by halving: where the merged sum and its mending have not
 * answered. For flow > 0 and an inlet above vapour pressure. */
qll_stage_point qll_solve_branches(const qll_stage_solver *solver, double inlet_pa,
                                   double flow_m3s);

#endif
