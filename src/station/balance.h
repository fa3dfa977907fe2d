/* What a stage does at one inlet pressure and one flow.
 *
 * In a stage all branches see the same inlet and outlet pressure, and every branch passes more the
 * lower the outlet stands. So the outlet pressure at a flow is the one root of a monotone function.
 * docs/theory/balance.md derives the piecewise polynomial in sqrt(p1 - p2) that is solved. */
#ifndef QUELL_STATION_BALANCE_H
#define QUELL_STATION_BALANCE_H

#include "station/station.h"

/** What is worked out once per stage, whatever inlet and flow. Opaque. */
typedef struct qll_stage_solver qll_stage_solver;

/** Prepares @p stage. The solver lives in @p arena and points at the stage. */
QLL_MUST_USE qll_status qll_stage_solver_make(const qll_stage *stage, const qll_water *water,
                                              double barometric_pa, qll_arena *arena,
                                              qll_stage_solver **solver);

typedef struct qll_stage_point {
    double outlet_pa; /* absolute; NaN if the stage cannot pass the flow at all */
    double residual;  /* m3/s, flow through the branches minus flow asked for */
    int iterations;
    bool converged;
    bool passes; /* false: even at vapour pressure behind it the flow is not reached */
} qll_stage_point;

/**
 * Outlet pressure of the stage at @p inlet_pa (absolute) and @p flow_m3s (>= 0). At no flow: the
 * highest lock-up pressure of its branches, never above the inlet.
 */
qll_stage_point qll_stage_solve(const qll_stage_solver *solver, double inlet_pa, double flow_m3s);

/** The same for @p count points at once; faster, because points do not wait for each other. */
void qll_stage_solve_many(const qll_stage_solver *solver, const double *inlet_pa,
                          const double *flow_m3s, size_t count, qll_stage_point *points);

typedef struct qll_branch_state {
    double flow_m3s;
    double kv_m3h;          /* of the valve alone, at this opening */
    double opening;         /* kv / full kv, 0 to 1 */
    double velocity_m_s;    /* in the connecting pipe */
    double stable_flow_m3s; /* least stable flow of this valve here */
    bool working;           /* passes water */
    bool stable;            /* not working, or at or above its least stable flow */
    bool full_travel;
    qll_cavitation cavitation; /* of the valve's own drop; zeros and QUIET when not working */
} qll_branch_state;

/** Fills @p states (one per branch) for a solved point. */
void qll_stage_states(const qll_stage_solver *solver, double inlet_pa, double flow_m3s,
                      double outlet_pa, qll_branch_state *states);

/**
 * Hand-over from the first branch (highest set-point) to the second: the flow at which the second
 * starts to open, and the outlet pressure there. NaN where the stage has one branch.
 */
typedef struct qll_handover {
    double flow_m3s;
    double outlet_pa;
} qll_handover;

qll_handover qll_stage_handover(const qll_stage_solver *solver, double inlet_pa);

#endif
