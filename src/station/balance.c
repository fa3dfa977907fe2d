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

#include "station/branch_curve.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>

#define RESIDUAL_SHARE 1e-12
/* After a step this small, as a share of s, the cubically convergent step leaves less than 1e-11,
 * and the closing Newton step squares that. */
#define STEP_SMALL     1e-4
#define STEPS_MOST     64

/** What is known of a branch before any inlet pressure. */
typedef struct leg_facts {
    qll_branch_curve curve;
    double set_pa, set_per_inlet; /* absolute set-point here = set_pa + set_per_inlet * p1 */
    double fl_squared;
    double lockup_rise_pa, hysteresis_pa;
    double stable_per_root; /* least stable flow per sqrt(drop); NaN = stable_flow_m3s everywhere */
} leg_facts;

struct qll_stage_solver {
    const qll_stage *stage;
    qll_water water;
    double barometric_pa;
    double ff_pv_pa;
    double flow_per_kv;
    const leg_facts *legs;
    double fl_squared_least;
    bool merged; /* invariant 2 holds: sum, squared and top are set */
    qll_branch_curve sum;
    const double *squared; /* c^2 of the sum's knots */
    size_t top;            /* the branch with the highest set-point */
};

static leg_facts leg_of(const qll_branch *branch, double set_inlet_pa_gauge, double barometric_pa)
{
    const qll_valve *valve = branch->valve;
    double sheet_drop_pa = valve->sheet_inlet_pa_gauge - valve->sheet_set_pa_gauge;
    leg_facts made = {
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

static qll_status merge_legs(qll_stage_solver *solver, const leg_facts *legs, qll_arena *arena)
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
    if (squared == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t k = 0; k < solver->sum.count; k++) {
        squared[k] = solver->sum.c[k] * solver->sum.c[k];
    }
    solver->squared = squared;
    solver->merged = true;
    return QLL_OK;
}

qll_status qll_stage_solver_make(const qll_stage *stage, const qll_water *water,
                                 double barometric_pa, qll_arena *arena, qll_stage_solver **solver)
{
    size_t count = stage->branch_count;
    assert(count > 0);
    qll_stage_solver *made = qll_arena_take(arena, 1, sizeof *made);
    leg_facts *legs = qll_arena_take(arena, count, sizeof *legs);
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

static double leg_set_pa(const leg_facts *leg, double inlet_pa)
{
    return leg->set_pa + leg->set_per_inlet * inlet_pa;
}

static double choked_drop_pa(const qll_stage_solver *solver, double fl_squared, double inlet_pa)
{
    return fl_squared * (inlet_pa - solver->ff_pv_pa);
}

static const qll_stage_point cannot_pass = {.outlet_pa = NAN, .residual = NAN};

/* One segment of the sum: (c + b t) s + (c_choked + b_choked t) with t = s^2 - from_pa >= 0 and all
 * four >= 0, so that it rises and is convex in s. */
typedef struct segment {
    double c, b;               /* of the branches that do not choke */
    double c_choked, b_choked; /* of those that do, times the root of their choked drop */
    double from_pa;
    double s_low, s_high;       /* its ends */
    double flow_low, flow_high; /* what passes there; the flow asked for lies between */
} segment;

typedef struct segment_root {
    double beyond_pa; /* the root's drop less from_pa */
    double residual;
    int iterations;
    bool converged;
} segment_root;

static inline double segment_flow(const segment *in, double s, double t)
{
    return (in->c + in->b * t) * s + (in->c_choked + in->b_choked * t);
}

/* Third-order (Chebyshev) steps from the chord between the ends, then one Newton step in t itself,
 * because s^2 - from_pa loses digits where it is small. A step that would leave the bracket is
 * replaced by halving it, so that the search ends whatever happens. */
static inline segment_root solve_segment(const segment *in, double flow_m3s)
{
    segment_root root = {0};
    double low = in->s_low;
    double high = in->s_high;
    double s = low + (flow_m3s - in->flow_low) * (high - low) / (in->flow_high - in->flow_low);
    while (root.iterations < STEPS_MOST) {
        root.iterations += 1;
        double t = s * s - in->from_pa;
        double excess = segment_flow(in, s, t) - flow_m3s;
        double bend = in->b * s;
        double per_slope = 1.0 / (in->c + in->b * t + 2.0 * s * (bend + in->b_choked));
        double step = excess * per_slope;
        double next = s - step * (1.0 + (3.0 * bend + in->b_choked) * per_slope * step);
        if (fabs(step) > STEP_SMALL * s) {
            low = excess < 0.0 ? s : low;
            high = excess < 0.0 ? high : s;
            s = next > low && next < high ? next : low + 0.5 * (high - low);
            continue;
        }
        t = next * next - in->from_pa;
        double change = (flow_m3s - segment_flow(in, next, t)) * per_slope;
        s = next + change;
        root.beyond_pa = t + 2.0 * next * change;
        root.residual = segment_flow(in, s, root.beyond_pa) - flow_m3s;
        if (fabs(root.residual) <= RESIDUAL_SHARE * flow_m3s) {
            root.converged = true;
            break;
        }
    }
    return root;
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

/* By the merged sum (invariants 2 and 3). passes is false where solve_branches must decide. */
static inline qll_stage_point solve_merged(const qll_stage_solver *solver, double inlet_pa,
                                           double flow_m3s)
{
    const qll_branch_curve *sum = &solver->sum;
    double set_pa = leg_set_pa(&solver->legs[solver->top], inlet_pa);
    double shift_pa = inlet_pa - set_pa;
    double most_pa = fmin(choked_drop_pa(solver, solver->fl_squared_least, inlet_pa),
                          inlet_pa - solver->water.vapour_pressure_pa);
    size_t k = find_segment(solver, shift_pa, flow_m3s);
    double from_pa = sum->falloff_pa[k] + shift_pa;
    if (k + 1 == sum->count) {
        double s = flow_m3s / sum->c[k];
        return (qll_stage_point){
            .outlet_pa = inlet_pa - s * s, .converged = true, .passes = s * s <= most_pa};
    }
    double s_low = from_pa > 0.0 ? sqrt(from_pa) : 0.0;
    double s_high = sqrt(sum->falloff_pa[k + 1] + shift_pa);
    segment in = {.c = sum->c[k],
                  .b = sum->slope[k],
                  .from_pa = from_pa,
                  .s_low = s_low,
                  .s_high = s_high,
                  .flow_low = sum->c[k] * s_low,
                  .flow_high = sum->c[k + 1] * s_high};
    segment_root root = solve_segment(&in, flow_m3s);
    return (qll_stage_point){.outlet_pa = set_pa - (sum->falloff_pa[k] + root.beyond_pa),
                             .residual = root.residual,
                             .iterations = root.iterations,
                             .converged = root.converged,
                             .passes = from_pa + root.beyond_pa <= most_pa};
}

/* The segment to the right of @p drop_pa, its ends left open, and what passes at the drop. */
static segment segment_at(const qll_stage_solver *solver, double inlet_pa, double drop_pa,
                          double inside_pa)
{
    segment in = {.from_pa = drop_pa, .s_low = sqrt(drop_pa)};
    for (size_t j = 0; j < solver->stage->branch_count; j++) {
        const leg_facts *leg = &solver->legs[j];
        double shift_pa = inlet_pa - leg_set_pa(leg, inlet_pa);
        double c = qll_branch_curve_at(&leg->curve, drop_pa - shift_pa).c;
        double b = qll_branch_curve_at(&leg->curve, inside_pa - shift_pa).slope;
        double choked_pa = choked_drop_pa(solver, leg->fl_squared, inlet_pa);
        if (inside_pa > choked_pa) {
            double driving = sqrt(fmax(choked_pa, 0.0));
            in.c_choked += c * driving;
            in.b_choked += b * driving;
        } else {
            in.c += c;
            in.b += b;
        }
    }
    in.flow_low = segment_flow(&in, in.s_low, 0.0);
    return in;
}

/* Two drops with what passes there: less than the flow asked for, and at least as much. */
typedef struct bracket {
    double low_pa, high_pa;
    double flow_high;
} bracket;

static void narrow(const qll_stage_solver *solver, double inlet_pa, double flow_m3s, double drop_pa,
                   bracket *between)
{
    if (!(drop_pa > between->low_pa && drop_pa < between->high_pa)) {
        return;
    }
    double flow_here = segment_at(solver, inlet_pa, drop_pa, drop_pa).flow_low;
    if (flow_here < flow_m3s) {
        between->low_pa = drop_pa;
    } else {
        between->high_pa = drop_pa;
        between->flow_high = flow_here;
    }
}

/* Knot by knot of each branch: for choked branches, and for branches whose set-points move
 * differently with the inlet. Afterwards no knot lies inside the bracket. */
static qll_stage_point solve_branches(const qll_stage_solver *solver, double inlet_pa,
                                      double flow_m3s)
{
    bracket between = {.high_pa = inlet_pa - solver->water.vapour_pressure_pa};
    between.flow_high = segment_at(solver, inlet_pa, between.high_pa, between.high_pa).flow_low;
    if (!(between.flow_high >= flow_m3s)) {
        return cannot_pass;
    }
    for (size_t j = 0; j < solver->stage->branch_count; j++) {
        const leg_facts *leg = &solver->legs[j];
        narrow(solver, inlet_pa, flow_m3s, choked_drop_pa(solver, leg->fl_squared, inlet_pa),
               &between);
        double shift_pa = inlet_pa - leg_set_pa(leg, inlet_pa);
        size_t low = 0;
        size_t high = leg->curve.count; /* the first knot at or beyond the root: [low, high] */
        while (low < high) {
            size_t middle = low + (high - low) / 2;
            double knot_pa = leg->curve.falloff_pa[middle] + shift_pa;
            narrow(solver, inlet_pa, flow_m3s, knot_pa, &between);
            bool beyond = knot_pa >= between.high_pa;
            low = beyond ? low : middle + 1;
            high = beyond ? middle : high;
        }
    }
    double inside_pa = between.low_pa + 0.5 * (between.high_pa - between.low_pa);
    segment in = segment_at(solver, inlet_pa, between.low_pa, inside_pa);
    in.s_high = sqrt(between.high_pa);
    in.flow_high = between.flow_high;
    segment_root root = solve_segment(&in, flow_m3s);
    return (qll_stage_point){.outlet_pa = inlet_pa - (between.low_pa + root.beyond_pa),
                             .residual = root.residual,
                             .iterations = root.iterations,
                             .converged = root.converged,
                             .passes = true};
}

static double lockup_pa(const qll_stage_solver *solver, double inlet_pa)
{
    double highest = -INFINITY;
    for (size_t j = 0; j < solver->stage->branch_count; j++) {
        const leg_facts *leg = &solver->legs[j];
        highest = fmax(highest, leg_set_pa(leg, inlet_pa) + leg->lockup_rise_pa);
    }
    return fmin(highest, inlet_pa);
}

qll_stage_point qll_stage_solve(const qll_stage_solver *solver, double inlet_pa, double flow_m3s)
{
    if (flow_m3s == 0.0 && inlet_pa > 0.0) {
        return (qll_stage_point){
            .outlet_pa = lockup_pa(solver, inlet_pa), .converged = true, .passes = true};
    }
    if (!(flow_m3s > 0.0) || !(inlet_pa > solver->water.vapour_pressure_pa)) {
        return cannot_pass;
    }
    if (solver->merged) {
        qll_stage_point point = solve_merged(solver, inlet_pa, flow_m3s);
        if (point.passes) {
            return point;
        }
    }
    return solve_branches(solver, inlet_pa, flow_m3s);
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
        .xfz =
            isnan(valve->xfz) ? qll_xfz_estimate(state->kv_m3h, valve->fl, valve->fd) : valve->xfz,
        .fl = valve->fl,
    };
    return qll_cavitation_of(&given);
}

void qll_stage_states(const qll_stage_solver *solver, double inlet_pa, double flow_m3s,
                      double outlet_pa, qll_branch_state *states)
{
    double drop_pa = inlet_pa - outlet_pa;
    double root = drop_pa > 0.0 ? sqrt(drop_pa) : 0.0;
    for (size_t j = 0; j < solver->stage->branch_count; j++) {
        const qll_branch *branch = &solver->stage->branches[j];
        const leg_facts *leg = &solver->legs[j];
        double falloff_pa = leg_set_pa(leg, inlet_pa) - outlet_pa;
        double choked_pa = choked_drop_pa(solver, leg->fl_squared, inlet_pa);
        double driving = drop_pa > choked_pa ? sqrt(fmax(choked_pa, 0.0)) : root;
        qll_branch_state state = {.kv_m3h = qll_opening_law_kv(branch->law, falloff_pa)};
        state.opening = state.kv_m3h / branch->valve->kv_m3h;
        state.full_travel = falloff_pa >= branch->law->full_falloff_pa;
        state.stable_flow_m3s =
            isnan(leg->stable_per_root) ? branch->valve->flow_min_m3s : leg->stable_per_root * root;
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
        double set_pa = leg_set_pa(&solver->legs[j], inlet_pa);
        if (first == SIZE_MAX || set_pa > leg_set_pa(&solver->legs[first], inlet_pa)) {
            second = first;
            first = j;
        } else if (second == SIZE_MAX || set_pa > leg_set_pa(&solver->legs[second], inlet_pa)) {
            second = j;
        }
    }
    if (second == SIZE_MAX) {
        return (qll_handover){NAN, NAN};
    }
    const leg_facts *opens = &solver->legs[second];
    double outlet_pa = leg_set_pa(opens, inlet_pa) - opens->hysteresis_pa;
    double drop_pa = inlet_pa - outlet_pa;
    const leg_facts *alone = &solver->legs[first];
    double choked_pa = choked_drop_pa(solver, alone->fl_squared, inlet_pa);
    double driving = sqrt(fmax(fmin(drop_pa, choked_pa), 0.0));
    double falloff_pa = leg_set_pa(alone, inlet_pa) - outlet_pa;
    double flow_m3s = qll_branch_curve_at(&alone->curve, falloff_pa).c * driving;
    return (qll_handover){flow_m3s, outlet_pa};
}
