/* The knots of all branches of a stage in one row; docs/theory/balance.md, eq. 7. */
#include "station/stage_solver.h"

#include <assert.h>
#include <math.h>

static inline double next_outlet_pa(const qll_cursor *at)
{
    return at->next < at->curve->count ? at->set_pa - at->curve->falloff_pa[at->next]
                                       : -(double)INFINITY;
}

static qll_cursor cursor_begin(const qll_leg *leg, double reference_pa)
{
    qll_cursor made = {.curve = &leg->curve,
                       .set_pa = qll_leg_set_pa(leg, reference_pa),
                       .set_per_inlet = leg->set_per_inlet};
    made.next_pa = next_outlet_pa(&made);
    return made;
}

static inline void pass_knot(qll_cursor *at)
{
    at->next += 1;
    at->last_pa = at->next_pa;
    at->next_pa = next_outlet_pa(at);
}

/* The branch whose next knot comes first as the outlet falls; @p count if none has one left. */
static inline size_t first_to_come(const qll_cursor *cursors, size_t count)
{
    size_t first = count;
    double highest_pa = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        first = cursors[i].next_pa > highest_pa ? i : first;
        highest_pa = cursors[i].next_pa > highest_pa ? cursors[i].next_pa : highest_pa;
    }
    return first;
}

/* The knot that @p owner passed last: what all branches pass there, and how that moves. */
static inline qll_knot sum_at(const qll_cursor *cursors, size_t count, size_t owner)
{
    double outlet_pa = cursors[owner].last_pa;
    double rate = cursors[owner].set_per_inlet;
    qll_knot sum = {.outlet_pa = outlet_pa, .outlet_rate = rate};
    for (size_t i = 0; i < count; i++) {
        const qll_cursor *at = &cursors[i];
        if (at->next > 0) {
            double slope = at->curve->slope[at->next - 1];
            sum.c += at->curve->c[at->next - 1] + slope * (at->last_pa - outlet_pa);
            sum.c_rate += slope * (at->set_per_inlet - rate);
            sum.slope += slope;
        }
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

static void put_spans(const qll_cursor *cursors, size_t count, qll_span *spans)
{
    for (size_t i = 0; i < count; i++) {
        const qll_cursor *at = &cursors[i];
        spans[i].low_pa = at->next > 0 ? at->curve->falloff_pa[at->next - 1] : -(double)INFINITY;
        spans[i].high_pa = at->curve->falloff_pa[at->next]; /* infinity after the last */
    }
}

void qll_merge_legs(qll_stage_solver *solver, qll_solver_room *room)
{
    size_t branch_count = solver->stage->branch_count;
    bool alike = true;
    for (size_t i = 0; i < branch_count; i++) {
        alike = alike && solver->legs[i].set_per_inlet == solver->legs[0].set_per_inlet;
        room->cursors[i] = cursor_begin(&solver->legs[i], solver->reference_pa);
    }
    qll_cursor *cursors = room->cursors;
    qll_knot *knots = room->knots;
    size_t used = 0;
    for (size_t owner = first_to_come(cursors, branch_count); owner < branch_count;
         owner = first_to_come(cursors, branch_count)) {
        pass_knot(&cursors[owner]);
        qll_knot knot = sum_at(cursors, branch_count, owner);
        bool again = used > 0 && knots[used - 1].outlet_pa == knot.outlet_pa
                     && knots[used - 1].outlet_rate == knot.outlet_rate;
        used += again ? 0 : 1;
        assert(used <= room->knot_most);
        knots[used - 1] = knot;
        room->flows[used - 1] = flow_at(&knot, solver->reference_pa);
        if (!alike) {
            put_spans(cursors, branch_count, &room->spans[(used - 1) * branch_count]);
        }
    }
    for (size_t k = 0; k + 1 < used; k++) {
        knots[k].half_pa = 0.5 * (knots[k].outlet_pa - knots[k + 1].outlet_pa);
    }
    solver->knots = knots;
    solver->flows = room->flows;
    solver->knot_count = used > 0 ? used : 1; /* a set-point that is no number has no place */
    solver->spans = alike ? NULL : room->spans;
}
