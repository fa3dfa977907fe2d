/* Outlet pressure of parallel valves at a flow; docs/theory/balance.md has the derivation.
 *
 * With u = p1 - p2 and s = sqrt(u), branch j passes c_j(u - D_j) s, where c_j is piecewise linear
 * and D_j = p1 - (its set-point at this inlet). Invariants the solution rests on:
 *  1. On a segment the sum is (C + b (s^2 - u_k)) s with C, b >= 0: rising and convex in s.
 *  2. Where all branches have the same inlet-pressure effect, the sum of all c_j, taken over the
 *     fall-off of the highest one, does not depend on p1: its knots are merged once.
 *  3. Below the least choked drop of all branches the sum is what invariant 1 says; a root found
 *     there is the root, one found above is not, and the bracketed search decides. */
#include "station/balance.h"

#include "station/stage_solver.h"

#include <assert.h>
#include <math.h>

/* Where a wide-open valve's segment begins below no drop at all, the steps begin here. */
#define QLL_DROP_LEAST_PA 1.0

static qll_leg leg_of(const qll_branch *branch, double set_inlet_pa_gauge, double barometric_pa)
{
    const qll_valve *valve = branch->valve;
    double sheet_drop_pa = valve->sheet_inlet_pa_gauge - valve->sheet_set_pa_gauge;
    qll_leg made = {
        .set_per_inlet = valve->inlet_effect,
        .set_pa = branch->set_pa_gauge + barometric_pa
                  - valve->inlet_effect * (set_inlet_pa_gauge + barometric_pa),
        .fl_squared = valve->fl * valve->fl,
        .lockup_rise_pa = valve->lockup_rise_pa,
        .hysteresis_pa = isnan(valve->hysteresis_pa) ? 0.0 : valve->hysteresis_pa,
        .stable_per_root =
            sheet_drop_pa > 0.0 ? valve->flow_min_m3s / sqrt(sheet_drop_pa) : (double)NAN,
    };
    return made;
}

static qll_status merge_legs(qll_stage_solver *solver, const qll_leg *legs, qll_arena *arena)
{
    size_t count = solver->stage->branch_count;
    qll_branch_curve *curves = qll_arena_take(arena, count, sizeof *curves);
    double *shift_pa = qll_arena_take(arena, count, sizeof *shift_pa);
    if (curves == NULL || shift_pa == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t j = 0; j < count; j++) {
        curves[j] = legs[j].curve;
        shift_pa[j] = legs[solver->top].set_pa - legs[j].set_pa;
    }
    if (qll_branch_curves_add(curves, shift_pa, count, arena, &solver->sum) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    double *squared = qll_arena_take(arena, solver->sum.count, sizeof *squared);
    double *middle_pa = qll_arena_take(arena, solver->sum.count, sizeof *middle_pa);
    if (squared == NULL || middle_pa == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t k = 0; k < solver->sum.count; k++) {
        const double *falloff_pa = &solver->sum.falloff_pa[k];
        squared[k] = solver->sum.c[k] * solver->sum.c[k];
        middle_pa[k] =
            k + 1 < solver->sum.count ? 0.5 * (falloff_pa[0] + falloff_pa[1]) : *falloff_pa;
    }
    solver->squared = squared;
    solver->middle_pa = middle_pa;
    solver->merged = true;
    return QLL_OK;
}

qll_status qll_stage_solver_make(const qll_stage *stage, const qll_water *water,
                                 double barometric_pa, qll_arena *arena, qll_stage_solver **solver)
{
    size_t count = stage->branch_count;
    assert(count > 0);
    qll_stage_solver *made = qll_arena_take(arena, 1, sizeof *made);
    qll_leg *legs = qll_arena_take(arena, count, sizeof *legs);
    if (made == NULL || legs == NULL) {
        return QLL_NO_MEMORY;
    }
    *made = (qll_stage_solver){
        .stage = stage,
        .water = *water,
        .barometric_pa = barometric_pa,
        .ff_pv_pa = qll_valve_ff(water) * water->vapour_pressure_pa,
        .flow_per_kv = qll_flow_per_kv(water),
        .legs = legs,
        .fl_squared_least = INFINITY,
    };
    bool same_effect = true;
    for (size_t j = 0; j < count; j++) {
        const qll_branch *branch = &stage->branches[j];
        legs[j] = leg_of(branch, stage->set_inlet_pa_gauge, barometric_pa);
        if (qll_branch_curve_make(branch, water, arena, &legs[j].curve) != QLL_OK) {
            return QLL_NO_MEMORY;
        }
        made->fl_squared_least = fmin(made->fl_squared_least, legs[j].fl_squared);
        same_effect = same_effect && legs[j].set_per_inlet == legs[0].set_per_inlet;
        made->top = legs[j].set_pa > legs[made->top].set_pa ? j : made->top;
    }
    if (same_effect && merge_legs(made, legs, arena) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    *solver = made;
    return QLL_OK;
}

/* The last knot of the sum at which no more than the flow passes; C^2 u is compared with Q^2, which
 * needs neither root nor division. A knot with a negative drop passes nothing. */
static inline size_t find_segment(const qll_stage_solver *solver, double shift_pa, double flow_m3s)
{
    const double *falloff_pa = solver->sum.falloff_pa;
    const double *squared = solver->squared;
    double flow_squared = flow_m3s * flow_m3s;
    size_t at = 0;
    for (size_t left = solver->sum.count; left > 1;) {
        size_t half = left / 2;
        size_t below = squared[at + half] * (falloff_pa[at + half] + shift_pa) <= flow_squared;
        at += half & (0 - below);
        left -= half;
    }
    return at;
}

/* One point on its way. */
typedef struct lane {
    double flow_m3s;
    double c, b;    /* of invariant 1, on the segment found */
    double from_pa; /* drop at which the segment begins */
    double s;       /* root of a drop to start from */
    double base_pa; /* outlet pressure at from_pa */
    double most_pa; /* the merged sum holds up to this drop (invariant 3) */
} lane;

/* The segment of a point and the root of the drop in the middle of it. */
static inline lane begin(const qll_stage_solver *solver, double inlet_pa, double flow_m3s)
{
    const qll_branch_curve *sum = &solver->sum;
    double set_pa = qll_leg_set_pa(&solver->legs[solver->top], inlet_pa);
    double shift_pa = inlet_pa - set_pa;
    double choked_pa = qll_choked_drop_pa(solver, solver->fl_squared_least, inlet_pa);
    double behind_pa = inlet_pa - solver->water.vapour_pressure_pa;
    size_t k = find_segment(solver, shift_pa, flow_m3s);
    double middle_pa = solver->middle_pa[k] + shift_pa;
    return (lane){.flow_m3s = flow_m3s,
                  .c = sum->c[k],
                  .b = sum->slope[k],
                  .from_pa = sum->falloff_pa[k] + shift_pa,
                  .s = sqrt(middle_pa > QLL_DROP_LEAST_PA ? middle_pa : QLL_DROP_LEAST_PA),
                  .base_pa = set_pa - sum->falloff_pa[k],
                  .most_pa = choked_pa < behind_pa ? choked_pa : behind_pa};
}

/* A third-order (Chebyshev) step for (c + b (s^2 - from)) s = Q. */
static inline void advance(double flow_m3s, double c, double b, double from_pa, double *s,
                           double *per_slope)
{
    double here = c + b * (*s * *s - from_pa);
    double bend = b * *s;
    double inverse = 1.0 / (here + 2.0 * bend * *s);
    double step = (here * *s - flow_m3s) * inverse;
    *s -= step + 3.0 * bend * inverse * step * step;
    *per_slope = inverse;
}

/* One Newton step in t = s^2 - from, which has lost digits where it is small; gives the residual. */
static inline double close_in(double flow_m3s, double c, double b, double from_pa, double per_slope,
                              double *s, double *t)
{
    double beyond_pa = *s * *s - from_pa;
    double change = (flow_m3s - (c + b * beyond_pa) * *s) * per_slope;
    *t = beyond_pa + 2.0 * *s * change;
    *s += change;
    return (c + b * *t) * *s - flow_m3s;
}

/* converged is false where solve_other must decide: at a choked branch, beyond what passes, or on a
 * segment so wide against its drop that the steps have not arrived. */
static inline qll_stage_point point_of(double residual, double flow_m3s, double outlet_pa, double s,
                                       double most_pa)
{
    bool exact = fabs(residual) <= QLL_RESIDUAL_SHARE * flow_m3s;
    return (qll_stage_point){.outlet_pa = outlet_pa,
                             .residual = residual,
                             .iterations = 3,
                             .converged = exact & (s > 0.0) & (s * s <= most_pa),
                             .passes = true};
}

/* Points solved side by side, one array per figure: each step is then a loop of plain arithmetic
 * without branches, and no point waits for another. */
#define QLL_LANES 16

static void solve_lanes(const qll_stage_solver *solver, const double *inlet_pa,
                        const double *flow_m3s, qll_stage_point *points)
{
    double flow[QLL_LANES], c[QLL_LANES], b[QLL_LANES], from_pa[QLL_LANES], base_pa[QLL_LANES],
        most_pa[QLL_LANES];
    double s[QLL_LANES], per_slope[QLL_LANES], t[QLL_LANES], residual[QLL_LANES];
    for (size_t i = 0; i < QLL_LANES; i++) {
        lane in = begin(solver, inlet_pa[i], flow_m3s[i] > 0.0 ? flow_m3s[i] : 1.0);
        flow[i] = in.flow_m3s;
        c[i] = in.c;
        b[i] = in.b;
        from_pa[i] = in.from_pa;
        base_pa[i] = in.base_pa;
        most_pa[i] = in.most_pa;
        s[i] = in.s;
    }
    for (size_t i = 0; i < QLL_LANES; i++) {
        advance(flow[i], c[i], b[i], from_pa[i], &s[i], &per_slope[i]);
    }
    for (size_t i = 0; i < QLL_LANES; i++) {
        advance(flow[i], c[i], b[i], from_pa[i], &s[i], &per_slope[i]);
    }
    for (size_t i = 0; i < QLL_LANES; i++) {
        residual[i] = close_in(flow[i], c[i], b[i], from_pa[i], per_slope[i], &s[i], &t[i]);
    }
    for (size_t i = 0; i < QLL_LANES; i++) {
        points[i] = point_of(residual[i], flow[i], base_pa[i] - t[i], s[i], most_pa[i]);
    }
}

static const qll_stage_point cannot_pass = {.outlet_pa = NAN, .residual = NAN};

static double lockup_pa(const qll_stage_solver *solver, double inlet_pa)
{
    double highest = -INFINITY;
    for (size_t j = 0; j < solver->stage->branch_count; j++) {
        const qll_leg *leg = &solver->legs[j];
        highest = fmax(highest, qll_leg_set_pa(leg, inlet_pa) + leg->lockup_rise_pa);
    }
    return fmin(highest, inlet_pa);
}

/* What solve_merged leaves: no flow, what cannot be, and the two cases named at solve_branches. */
static qll_stage_point solve_other(const qll_stage_solver *solver, double inlet_pa, double flow_m3s)
{
    if (flow_m3s == 0.0 && inlet_pa > 0.0) {
        return (qll_stage_point){
            .outlet_pa = lockup_pa(solver, inlet_pa), .converged = true, .passes = true};
    }
    if (!(flow_m3s > 0.0) || !(inlet_pa > solver->water.vapour_pressure_pa)) {
        return cannot_pass;
    }
    return qll_solve_branches(solver, inlet_pa, flow_m3s);
}

qll_stage_point qll_stage_solve(const qll_stage_solver *solver, double inlet_pa, double flow_m3s)
{
    if (solver->merged && flow_m3s > 0.0) {
        lane in = begin(solver, inlet_pa, flow_m3s);
        double s = in.s;
        double per_slope, t;
        advance(flow_m3s, in.c, in.b, in.from_pa, &s, &per_slope);
        advance(flow_m3s, in.c, in.b, in.from_pa, &s, &per_slope);
        double residual = close_in(flow_m3s, in.c, in.b, in.from_pa, per_slope, &s, &t);
        qll_stage_point point = point_of(residual, flow_m3s, in.base_pa - t, s, in.most_pa);
        if (point.converged) {
            return point;
        }
    }
    return solve_other(solver, inlet_pa, flow_m3s);
}

void qll_stage_solve_many(const qll_stage_solver *solver, const double *inlet_pa,
                          const double *flow_m3s, size_t count, qll_stage_point *points)
{
    size_t done = 0;
    while (solver->merged && count - done >= QLL_LANES) {
        solve_lanes(solver, inlet_pa + done, flow_m3s + done, points + done);
        for (size_t i = done; i < done + QLL_LANES; i++) {
            if (!points[i].converged || !(flow_m3s[i] > 0.0)) {
                points[i] = solve_other(solver, inlet_pa[i], flow_m3s[i]);
            }
        }
        done += QLL_LANES;
    }
    for (; done < count; done++) {
        points[done] = qll_stage_solve(solver, inlet_pa[done], flow_m3s[done]);
    }
}
