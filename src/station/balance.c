/* Outlet pressure of parallel valves at a flow; docs/theory/balance.md has the derivation.
 *
 * With u = p1 - p2 and s = sqrt(u), branch j passes c_j(u - D_j) s, where c_j is piecewise linear
 * and D_j = p1 - (its set-point at this inlet). Invariants the solution rests on:
 *  1. On a segment the sum is (C + b (s^2 - u_k)) s with C, b >= 0: rising and convex in s.
 *  2. Between the knots of every branch around it, a segment of the merged row is that sum exactly,
 *     at any inlet: place and height of its knot move in straight lines. Where the inlet has made
 *     knots change places, the row is only a guess.
 *  3. The sum rises, so a root found where its segment holds, below the least choked drop of all
 *     branches, is the root, however it was guessed. Any other is guessed again from where it came
 *     to, and at last the bracketed search decides. */
#include "station/balance.h"

#include "station/stage_solver.h"

#include <assert.h>
#include <math.h>

/* Where a wide-open valve's segment begins below no drop at all, the steps begin here. */
#define QLL_DROP_LEAST_PA 1.0

/* Two third-order steps and a closing one. */
#define QLL_LANE_STEPS 3

/* Points solved side by side, one array per figure: each step is then a loop of plain arithmetic
 * without branches, and no point waits for another. */
#define QLL_LANES 16

/* How often a point is looked at again from where it has come to, before the bracketed search. */
#define QLL_LOOKS 2

static qll_leg leg_of(const qll_branch *branch, double set_inlet_pa_gauge, double barometric_pa,
                      double flow_per_kv)
{
    const qll_valve *valve = branch->valve;
    qll_leg made = {
        .set_per_inlet = valve->inlet_effect,
        .set_pa = branch->set_pa_gauge + barometric_pa
                  - valve->inlet_effect * (set_inlet_pa_gauge + barometric_pa),
        .fl_squared =
            branch->recovery > 0.0 ? branch->recovery * branch->recovery : valve->fl * valve->fl,
        .lockup_rise_pa = valve->lockup_rise_pa,
        .least_flow = qll_valve_least_flow(valve),
        .full_falloff_pa = branch->law->full_falloff_pa,
        .speed_per_flow = qll_pipe_velocity_m_s(1.0, qll_branch_own_bore_m(branch)),
        .series_per_flow =
            branch->series_kv_m3h > 0.0 ? 1.0 / (branch->series_kv_m3h * flow_per_kv) : 0.0,
    };
    return made;
}

qll_status qll_solver_room_make(size_t branch_most, size_t knot_most, qll_arena *arena,
                                qll_solver_room *room)
{
    *room = (qll_solver_room){
        .legs = qll_arena_take(arena, branch_most, sizeof(qll_leg)),
        .knots = qll_arena_take(arena, knot_most, sizeof(qll_knot)),
        .flows = qll_arena_take(arena, knot_most, sizeof(qll_knot_flow)),
        .spans = qll_arena_take(arena, knot_most, branch_most * sizeof(qll_span)),
        .cursors = qll_arena_take(arena, branch_most, sizeof(qll_cursor)),
        .branch_most = branch_most,
        .knot_most = knot_most,
    };
    bool has_all = room->legs != NULL && room->knots != NULL && room->flows != NULL
                   && room->spans != NULL && room->cursors != NULL;
    return has_all ? QLL_OK : QLL_NO_MEMORY;
}

const qll_stage_solver *qll_stage_solver_in(qll_solver_room *room, const qll_stage *stage,
                                            const qll_water *water, double barometric_pa,
                                            const qll_branch_curve *const *curves)
{
    assert(stage->branch_count > 0 && stage->branch_count <= room->branch_most);
    qll_stage_solver *made = &room->solver;
    *made = (qll_stage_solver){
        .stage = stage,
        .water = *water,
        .barometric_pa = barometric_pa,
        .ff_pv_pa = qll_valve_ff(water) * water->vapour_pressure_pa,
        .flow_per_kv = qll_flow_per_kv(water),
        .legs = room->legs,
        .fl_squared_least = INFINITY,
        .reference_pa = stage->set_inlet_pa_gauge + barometric_pa,
    };
    for (size_t j = 0; j < stage->branch_count; j++) {
        room->legs[j] = leg_of(&stage->branches[j], stage->set_inlet_pa_gauge, barometric_pa,
                               made->flow_per_kv);
        room->legs[j].curve = *curves[j];
        made->has_estimate = made->has_estimate || room->legs[j].least_flow.is_estimate;
        made->fl_squared_least = fmin(made->fl_squared_least, room->legs[j].fl_squared);
    }
    qll_merge_legs(made, room);
    return made;
}

qll_status qll_stage_solver_make(const qll_stage *stage, const qll_water *water,
                                 double barometric_pa, qll_arena *arena, qll_stage_solver **solver)
{
    size_t count = stage->branch_count;
    assert(count > 0);
    qll_solver_room *room = qll_arena_take(arena, 1, sizeof *room);
    qll_branch_curve *curves = qll_arena_take(arena, count, sizeof *curves);
    /* NOLINTNEXTLINE(bugprone-sizeof-expression): pointers are meant */
    const qll_branch_curve **all = qll_arena_take(arena, count, sizeof *all);
    if (room == NULL || curves == NULL || all == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t knots = 0;
    for (size_t j = 0; j < count; j++) {
        if (qll_branch_curve_make(&stage->branches[j], water, arena, &curves[j]) != QLL_OK) {
            return QLL_NO_MEMORY;
        }
        all[j] = &curves[j];
        knots += curves[j].count;
    }
    if (qll_solver_room_make(count, knots, arena, room) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    (void)qll_stage_solver_in(room, stage, water, barometric_pa, all);
    *solver = &room->solver;
    return QLL_OK;
}

/* d is the inlet less the reference inlet; @p alike is a constant where this is called. */
static inline double squared_at(const qll_knot_flow *flow, double d, bool alike)
{
    const double *q = flow->squared;
    double straight = q[0] + q[1] * d;
    return alike ? straight : straight + d * d * (q[2] + q[3] * d);
}

/* The last knot at which no more than the flow passes; Q^2 is compared, which needs neither root nor
 * division. A knot with a negative drop passes nothing. */
static inline size_t find_segment(const qll_stage_solver *solver, double inlet_pa, double flow_m3s,
                                  bool alike)
{
    double d = inlet_pa - solver->reference_pa;
    double flow_squared = flow_m3s * flow_m3s;
    size_t at = 0;
    for (size_t left = solver->knot_count; left > 1;) {
        size_t half = left / 2;
        size_t below = squared_at(&solver->flows[at + half], d, alike) <= flow_squared;
        at += half & (0 - below);
        left -= half;
    }
    return at;
}

/* The same for all lanes in step, so that none waits for what another compares. */
static inline void find_segments(const qll_stage_solver *solver, const double *inlet_pa,
                                 const double *flow_m3s, bool alike, size_t *at)
{
    double d[QLL_LANES], flow_squared[QLL_LANES];
    for (size_t i = 0; i < QLL_LANES; i++) {
        d[i] = inlet_pa[i] - solver->reference_pa;
        flow_squared[i] = flow_m3s[i] * flow_m3s[i];
        at[i] = 0;
    }
    for (size_t left = solver->knot_count; left > 1;) {
        size_t half = left / 2;
        const qll_knot_flow *flows = solver->flows + half;
        for (size_t i = 0; i < QLL_LANES; i++) {
            size_t below = squared_at(&flows[at[i]], d[i], alike) <= flow_squared[i];
            at[i] += half & (0 - below);
        }
        left -= half;
    }
}

/* One point on its way. */
typedef struct lane {
    double flow_m3s;
    double c, b;            /* of invariant 1, at from_pa and around it */
    double from_pa;         /* a drop */
    double base_pa;         /* outlet pressure at from_pa */
    double low_pa, high_pa; /* c and b hold between these drops */
    double s;               /* root of a drop to start from */
} lane;

static inline double root_of_drop(double drop_pa)
{
    return sqrt(drop_pa > QLL_DROP_LEAST_PA ? drop_pa : QLL_DROP_LEAST_PA);
}

/* Below the least choked drop, and above vapour pressure behind the valves. */
static inline double most_drop_pa(const qll_stage_solver *solver, double inlet_pa)
{
    double choked_pa = qll_choked_drop_pa(solver, solver->fl_squared_least, inlet_pa);
    double behind_pa = inlet_pa - solver->water.vapour_pressure_pa;
    return choked_pa < behind_pa ? choked_pa : behind_pa;
}

/* A segment is wide if half of it is more than this share of the drop at its knot, as the single one of
 * a straight opening law is (measured: bench/bench_search.c). */
#define QLL_WIDE_SEGMENT 0.05

/* Where in a segment the steps begin: in its middle; in a wide one where the flow would be reached, were
 * the root of the drop that at the knot, unless that lies beyond the end. */
static inline double guess_pa(const qll_knot *knot, double c, double from_pa, double flow_m3s)
{
    if (knot->half_pa < QLL_WIDE_SEGMENT * from_pa || !(knot->slope > 0.0)) {
        return knot->half_pa;
    }
    double t = (flow_m3s / root_of_drop(from_pa) - c) / knot->slope;
    return t < 2.0 * knot->half_pa ? t : knot->half_pa;
}

/* The segment of a point among the merged knots, and the root of a drop near the answer in it. */
static inline lane begin(const qll_stage_solver *solver, double inlet_pa, double flow_m3s, size_t k)
{
    const qll_knot *knot = &solver->knots[k];
    double moved_pa = inlet_pa - solver->reference_pa;
    double base_pa = knot->outlet_pa + knot->outlet_rate * moved_pa;
    double c = knot->c + knot->c_rate * moved_pa;
    double from_pa = inlet_pa - base_pa;
    lane made = {.flow_m3s = flow_m3s,
                 .c = c,
                 .b = knot->slope,
                 .from_pa = from_pa,
                 .base_pa = base_pa,
                 .low_pa = 0.0,
                 .high_pa = most_drop_pa(solver, inlet_pa),
                 .s = root_of_drop(from_pa + guess_pa(knot, c, from_pa, flow_m3s))};
    if (solver->spans != NULL) {
        size_t count = solver->stage->branch_count;
        const qll_span *spans = &solver->spans[k * count];
        for (size_t j = 0; j < count; j++) {
            double shift_pa = inlet_pa - qll_leg_set_pa(&solver->legs[j], inlet_pa);
            double low_pa = shift_pa + spans[j].low_pa;
            double high_pa = shift_pa + spans[j].high_pa;
            made.low_pa = low_pa > made.low_pa ? low_pa : made.low_pa;
            made.high_pa = high_pa < made.high_pa ? high_pa : made.high_pa;
        }
    }
    return made;
}

/* The same from an outlet pressure near the answer: each branch's own segment there. Not beyond
 * the most drop, from where a root would come back with digits lost; and not above the highest
 * set-point, where nothing passes and no step leads anywhere. */
static inline lane begin_near(const qll_stage_solver *solver, double inlet_pa, double flow_m3s,
                              double near_pa)
{
    size_t count = solver->stage->branch_count;
    double highest_pa = qll_leg_set_pa(&solver->legs[0], inlet_pa);
    for (size_t j = 1; j < count; j++) {
        double set_pa = qll_leg_set_pa(&solver->legs[j], inlet_pa);
        highest_pa = set_pa > highest_pa ? set_pa : highest_pa;
    }
    double most_pa = most_drop_pa(solver, inlet_pa);
    double outlet_pa = near_pa > inlet_pa - most_pa ? near_pa : inlet_pa - most_pa;
    outlet_pa = outlet_pa < highest_pa ? outlet_pa : highest_pa;
    lane made = {.flow_m3s = flow_m3s,
                 .from_pa = inlet_pa - outlet_pa,
                 .base_pa = outlet_pa,
                 .low_pa = 0.0,
                 .high_pa = most_pa,
                 .s = root_of_drop(inlet_pa - outlet_pa)};
    for (size_t j = 0; j < count; j++) {
        const qll_branch_curve *curve = &solver->legs[j].curve;
        double set_pa = qll_leg_set_pa(&solver->legs[j], inlet_pa);
        double falloff_pa = set_pa - outlet_pa;
        size_t at = qll_branch_curve_segment(curve, falloff_pa);
        size_t opened = falloff_pa >= 0.0;
        double slope = opened ? curve->slope[at] : 0.0;
        double low_pa = opened ? inlet_pa - set_pa + curve->falloff_pa[at] : 0.0;
        double high_pa = inlet_pa - set_pa + curve->falloff_pa[at + opened];
        made.c += curve->c[at] + slope * (falloff_pa - curve->falloff_pa[at]);
        made.b += slope;
        made.low_pa = low_pa > made.low_pa ? low_pa : made.low_pa;
        made.high_pa = high_pa < made.high_pa ? high_pa : made.high_pa;
    }
    return made;
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

/* converged is false where others must decide: outside the drops between which the segment holds
 * (a knot in between, a choked branch, more than can pass), or on a segment so wide against its
 * drop that the steps have not arrived. */
static inline qll_stage_point point_of(double residual, double flow_m3s, double outlet_pa, double s,
                                       bool holds)
{
    bool exact = fabs(residual) <= QLL_RESIDUAL_SHARE * flow_m3s;
    return (qll_stage_point){.outlet_pa = outlet_pa,
                             .residual = residual,
                             .iterations = QLL_LANE_STEPS,
                             .converged = exact & (s > 0.0) & holds,
                             .passes = true};
}

static inline qll_stage_point solve_lane(lane in)
{
    double per_slope, t;
    advance(in.flow_m3s, in.c, in.b, in.from_pa, &in.s, &per_slope);
    advance(in.flow_m3s, in.c, in.b, in.from_pa, &in.s, &per_slope);
    double residual = close_in(in.flow_m3s, in.c, in.b, in.from_pa, per_slope, &in.s, &t);
    double drop_pa = in.from_pa + t;
    return point_of(residual, in.flow_m3s, in.base_pa - t, in.s,
                    (drop_pa >= in.low_pa) & (drop_pa <= in.high_pa));
}

typedef struct lanes {
    double flow_m3s[QLL_LANES], c[QLL_LANES], b[QLL_LANES], from_pa[QLL_LANES], base_pa[QLL_LANES],
        low_pa[QLL_LANES], high_pa[QLL_LANES], s[QLL_LANES];
} lanes;

static inline void put_lane(lanes *all, size_t i, lane one)
{
    all->flow_m3s[i] = one.flow_m3s;
    all->c[i] = one.c;
    all->b[i] = one.b;
    all->from_pa[i] = one.from_pa;
    all->base_pa[i] = one.base_pa;
    all->low_pa[i] = one.low_pa;
    all->high_pa[i] = one.high_pa;
    all->s[i] = one.s;
}

static void solve_lanes(lanes *all, qll_stage_point *points)
{
    const double *flow = all->flow_m3s;
    const double *c = all->c;
    const double *b = all->b;
    const double *from_pa = all->from_pa;
    double *s = all->s;
    double per_slope[QLL_LANES], t[QLL_LANES], residual[QLL_LANES];
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
        double drop_pa = from_pa[i] + t[i];
        points[i] = point_of(residual[i], flow[i], all->base_pa[i] - t[i], s[i],
                             (drop_pa >= all->low_pa[i]) & (drop_pa <= all->high_pa[i]));
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

/* Worth another look near @p point: knots have changed places, and no branch chokes there. */
static inline bool is_near(const qll_stage_solver *solver, double inlet_pa,
                           const qll_stage_point *point)
{
    return solver->spans != NULL && inlet_pa - point->outlet_pa <= most_drop_pa(solver, inlet_pa);
}

/* Goes on from a point that has not converged, @p looks times at most before the safe search. */
static qll_stage_point mend(const qll_stage_solver *solver, double inlet_pa, double flow_m3s,
                            int looks, qll_stage_point point)
{
    for (int i = 0; i < looks && is_near(solver, inlet_pa, &point); i++) {
        int before = point.iterations;
        point = solve_lane(begin_near(solver, inlet_pa, flow_m3s, point.outlet_pa));
        point.iterations += before;
        if (point.converged) {
            return point;
        }
    }
    return solve_other(solver, inlet_pa, flow_m3s);
}

qll_stage_point qll_stage_solve(const qll_stage_solver *solver, double inlet_pa, double flow_m3s)
{
    if (!(flow_m3s > 0.0)) {
        return solve_other(solver, inlet_pa, flow_m3s);
    }
    size_t at = solver->spans == NULL ? find_segment(solver, inlet_pa, flow_m3s, true)
                                      : find_segment(solver, inlet_pa, flow_m3s, false);
    qll_stage_point point = solve_lane(begin(solver, inlet_pa, flow_m3s, at));
    return point.converged ? point : mend(solver, inlet_pa, flow_m3s, QLL_LOOKS, point);
}

/* Points left over by the first pass wait here until a second one has all lanes filled. */
typedef struct leftover {
    size_t count;
    size_t which[2 * QLL_LANES];
} leftover;

static void mend_lanes(const qll_stage_solver *solver, const double *inlet_pa,
                       const double *flow_m3s, leftover *left, qll_stage_point *points)
{
    lanes all;
    qll_stage_point solved[QLL_LANES];
    left->count -= QLL_LANES;
    const size_t *which = &left->which[left->count];
    for (size_t i = 0; i < QLL_LANES; i++) {
        size_t p = which[i];
        put_lane(&all, i, begin_near(solver, inlet_pa[p], flow_m3s[p], points[p].outlet_pa));
    }
    solve_lanes(&all, solved);
    for (size_t i = 0; i < QLL_LANES; i++) {
        size_t p = which[i];
        solved[i].iterations += points[p].iterations;
        points[p] = solved[i].converged
                        ? solved[i]
                        : mend(solver, inlet_pa[p], flow_m3s[p], QLL_LOOKS - 1, solved[i]);
    }
}

void qll_stage_solve_many(const qll_stage_solver *solver, const double *inlet_pa,
                          const double *flow_m3s, size_t count, qll_stage_point *points)
{
    leftover left = {.count = 0};
    size_t done = 0;
    while (count - done >= QLL_LANES) {
        lanes all;
        size_t at[QLL_LANES];
        const double *inlets = inlet_pa + done;
        for (size_t i = 0; i < QLL_LANES; i++) {
            all.flow_m3s[i] = flow_m3s[done + i] > 0.0 ? flow_m3s[done + i] : 1.0;
        }
        if (solver->spans == NULL) {
            find_segments(solver, inlets, all.flow_m3s, true, at);
        } else {
            find_segments(solver, inlets, all.flow_m3s, false, at);
        }
        for (size_t i = 0; i < QLL_LANES; i++) {
            put_lane(&all, i, begin(solver, inlets[i], all.flow_m3s[i], at[i]));
        }
        solve_lanes(&all, points + done);
        for (size_t end = done + QLL_LANES; done < end; done++) {
            if (!(flow_m3s[done] > 0.0)) {
                points[done] = solve_other(solver, inlet_pa[done], flow_m3s[done]);
            } else if (!points[done].converged) {
                left.which[left.count] = done;
                left.count += 1;
            }
        }
        if (left.count >= QLL_LANES) {
            mend_lanes(solver, inlet_pa, flow_m3s, &left, points);
        }
    }
    for (size_t i = 0; i < left.count; i++) {
        size_t p = left.which[i];
        points[p] = mend(solver, inlet_pa[p], flow_m3s[p], QLL_LOOKS, points[p]);
    }
    for (; done < count; done++) {
        points[done] = qll_stage_solve(solver, inlet_pa[done], flow_m3s[done]);
    }
}
