/* One segment found among the knots of every branch by itself, and the root on it by bracketed
 * third-order steps; docs/theory/balance.md. */
#include "station/stage_solver.h"

#include <math.h>

/* After a step this small, as a share of s, the cubically convergent step leaves less than 1e-11,
 * and the closing Newton step squares that. */
#define QLL_STEP_SMALL 1e-4
#define QLL_STEPS_MOST 64

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
    while (root.iterations < QLL_STEPS_MOST) {
        root.iterations += 1;
        double t = s * s - in->from_pa;
        double excess = segment_flow(in, s, t) - flow_m3s;
        double bend = in->b * s;
        double per_slope = 1.0 / (in->c + in->b * t + 2.0 * s * (bend + in->b_choked));
        double step = excess * per_slope;
        double next = s - step * (1.0 + (3.0 * bend + in->b_choked) * per_slope * step);
        if (fabs(step) > QLL_STEP_SMALL * s) {
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
        if (fabs(root.residual) <= QLL_RESIDUAL_SHARE * flow_m3s) {
            root.converged = true;
            break;
        }
    }
    return root;
}

/* The segment to the right of @p drop_pa, its ends left open, and what passes at the drop. */
static segment segment_at(const qll_stage_solver *solver, double inlet_pa, double drop_pa,
                          double inside_pa)
{
    segment in = {.from_pa = drop_pa, .s_low = sqrt(drop_pa)};
    for (size_t j = 0; j < solver->stage->branch_count; j++) {
        const qll_leg *leg = &solver->legs[j];
        double shift_pa = inlet_pa - qll_leg_set_pa(leg, inlet_pa);
        double c = qll_branch_curve_at(&leg->curve, drop_pa - shift_pa).c;
        double b = qll_branch_curve_at(&leg->curve, inside_pa - shift_pa).slope;
        double choked_pa = qll_choked_drop_pa(solver, leg->fl_squared, inlet_pa);
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
qll_stage_point qll_solve_branches(const qll_stage_solver *solver, double inlet_pa, double flow_m3s)
{
    bracket between = {.high_pa = inlet_pa - solver->water.vapour_pressure_pa,
                       .flow_high = INFINITY};
    double choked_pa = qll_choked_drop_pa(solver, solver->fl_squared_least, inlet_pa);
    narrow(solver, inlet_pa, flow_m3s, choked_pa, &between);
    bool chokes = !isfinite(between.flow_high);
    if (chokes) {
        between.flow_high = segment_at(solver, inlet_pa, between.high_pa, between.high_pa).flow_low;
    }
    if (!(between.flow_high >= flow_m3s)) {
        return cannot_pass;
    }
    for (size_t j = 0; j < solver->stage->branch_count; j++) {
        const qll_leg *leg = &solver->legs[j];
        if (chokes) {
            choked_pa = qll_choked_drop_pa(solver, leg->fl_squared, inlet_pa);
            narrow(solver, inlet_pa, flow_m3s, choked_pa, &between);
        }
        double shift_pa = inlet_pa - qll_leg_set_pa(leg, inlet_pa);
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
