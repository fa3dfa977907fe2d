/* The knots of all branches of a stage in one row; docs/theory/balance.md, eq. 7. */
#include "station/stage_solver.h"

#include <math.h>

static double knot_outlet_pa(const qll_stage_solver *solver, size_t branch, size_t knot)
{
    const qll_leg *leg = &solver->legs[branch];
    return qll_leg_set_pa(leg, solver->reference_pa) - leg->curve.falloff_pa[knot];
}

/* The branch whose next knot comes first as the outlet falls; branch_count if none has one left.
 * next[i] counts the knots of branch i that have been passed, here and below. */
static size_t first_to_come(const qll_stage_solver *solver, const size_t *next)
{
    size_t count = solver->stage->branch_count;
    size_t first = count;
    double highest_pa = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        if (next[i] < solver->legs[i].curve.count) {
            double outlet_pa = knot_outlet_pa(solver, i, next[i]);
            first = outlet_pa > highest_pa ? i : first;
            highest_pa = outlet_pa > highest_pa ? outlet_pa : highest_pa;
        }
    }
    return first;
}

/* The knot that @p owner passed last: what all branches pass there, and how that moves. */
static qll_knot sum_at(const qll_stage_solver *solver, const size_t *next, size_t owner)
{
    double outlet_pa = knot_outlet_pa(solver, owner, next[owner] - 1);
    double rate = solver->legs[owner].set_per_inlet;
    qll_knot sum = {.outlet_pa = outlet_pa, .outlet_rate = rate};
    for (size_t i = 0; i < solver->stage->branch_count; i++) {
        if (next[i] == 0) {
            continue;
        }
        const qll_leg *leg = &solver->legs[i];
        size_t knot = next[i] - 1;
        double slope = leg->curve.slope[knot];
        double beyond_pa = knot_outlet_pa(solver, i, knot) - outlet_pa;
        sum.c += leg->curve.c[knot] + slope * beyond_pa;
        sum.c_rate += slope * (leg->set_per_inlet - rate);
        sum.slope += slope;
    }
    return sum;
}

static qll_knot_flow flow_at(const qll_knot *knot, double reference_pa)
{
    double drop_pa = reference_pa - knot->outlet_pa;
    double drop_rate = 1.0 - knot->outlet_rate;
    double both = 2.0 * knot->c * knot->c_rate;
    double first = knot->c * knot->c;
    double last = knot->c_rate * knot->c_rate;
    return (qll_knot_flow){{first * drop_pa, both * drop_pa + first * drop_rate,
                            last * drop_pa + both * drop_rate, last * drop_rate}};
}

static void put_spans(const qll_stage_solver *solver, const size_t *next, qll_span *spans)
{
    for (size_t i = 0; i < solver->stage->branch_count; i++) {
        const qll_branch_curve *curve = &solver->legs[i].curve;
        spans[i].low_pa = next[i] > 0 ? curve->falloff_pa[next[i] - 1] : -(double)INFINITY;
        spans[i].high_pa = next[i] < curve->count ? curve->falloff_pa[next[i]] : (double)INFINITY;
    }
}

qll_status qll_merge_legs(qll_stage_solver *solver, qll_arena *arena)
{
    size_t branch_count = solver->stage->branch_count;
    size_t room = 0;
    bool alike = true;
    for (size_t i = 0; i < branch_count; i++) {
        room += solver->legs[i].curve.count;
        alike = alike && solver->legs[i].set_per_inlet == solver->legs[0].set_per_inlet;
    }
    qll_knot *knots = qll_arena_take(arena, room, sizeof *knots);
    qll_knot_flow *flows = qll_arena_take(arena, room, sizeof *flows);
    size_t *next = qll_arena_take(arena, branch_count, sizeof *next);
    qll_span *spans = alike ? NULL : qll_arena_take(arena, room, branch_count * sizeof *spans);
    if (knots == NULL || flows == NULL || next == NULL || (spans == NULL && !alike)) {
        return QLL_NO_MEMORY;
    }
    size_t used = 0;
    for (size_t owner = first_to_come(solver, next); owner < branch_count;
         owner = first_to_come(solver, next)) {
        next[owner] += 1;
        qll_knot knot = sum_at(solver, next, owner);
        bool again = used > 0 && knots[used - 1].outlet_pa == knot.outlet_pa
                     && knots[used - 1].outlet_rate == knot.outlet_rate;
        used += again ? 0 : 1;
        knots[used - 1] = knot;
        flows[used - 1] = flow_at(&knot, solver->reference_pa);
        if (spans != NULL) {
            put_spans(solver, next, &spans[(used - 1) * branch_count]);
        }
    }
    for (size_t k = 0; k + 1 < used; k++) {
        knots[k].half_pa = 0.5 * (knots[k].outlet_pa - knots[k + 1].outlet_pa);
    }
    solver->knots = knots;
    solver->flows = flows;
    solver->knot_count = used > 0 ? used : 1; /* a set-point that is no number has no place */
    solver->spans = spans;
    return QLL_OK;
}
