/* Lower bounds of a second stage's terms behind first stages that it was not solved with: it is
 * solved at a few inlet pressures that span all of them. docs/theory/search.md, eq. 6. */
#include "search/split.h"

#include <math.h>

static qll_bound least_of(qll_bound a, qll_bound b)
{
    return (qll_bound){fmin(a.noise, b.noise), fmin(a.unsteady, b.unsteady), fmin(a.wear, b.wear)};
}

qll_bound qll_bound_sum(qll_bound a, qll_bound b)
{
    return (qll_bound){a.noise + b.noise, a.unsteady + b.unsteady, a.wear + b.wear};
}

/* What lies between two nodes is taken to lie no farther below the lower than the two lie apart. */
static double below(double a, double b)
{
    return fmax(fmin(a, b) - fabs(a - b), 0.0);
}

/* Nothing is known beside a node where the flow does not pass. */
static qll_bound bound_between(const qll_tally_term *a, const qll_tally_term *b,
                               const qll_site *site, double weight)
{
    if (isnan(a->outlet_pa) || isnan(b->outlet_pa)) {
        return (qll_bound){0.0, 0.0, 0.0};
    }
    const double wanted_pa = site->set_pa_gauge + site->barometric_pa;
    bool crosses = (a->outlet_pa < wanted_pa) != (b->outlet_pa < wanted_pa);
    double unsteady_pa = crosses ? 0.0 : fmin(a->unsteady_pa, b->unsteady_pa);
    return (qll_bound){weight * below(a->noise, b->noise), weight * unsteady_pa,
                       weight * below(a->wear, b->wear)};
}

static qll_tally_term node_term(const qll_searching *searching, const qll_stage *stage,
                                const qll_stage_solver *solver, const qll_flow_group *group,
                                size_t node)
{
    double span_pa = group->high_pa - group->low_pa;
    double inlet_pa = group->low_pa + span_pa * (double)node / QLL_CELLS;
    return qll_tally_at(searching->site, stage, solver, inlet_pa, group->flow_m3s);
}

void qll_split_bound(const qll_searching *searching, const qll_stage *stage,
                     const qll_stage_solver *solver, qll_split *split)
{
    split->least = (qll_bound){0.0, 0.0, 0.0};
    for (size_t g = 0; g < split->group_count; g++) {
        const qll_flow_group *group = &split->groups[g];
        qll_bound *cells = &split->cells[g * QLL_CELLS];
        qll_bound least = {INFINITY, INFINITY, INFINITY};
        qll_tally_term before = node_term(searching, stage, solver, group, 0);
        for (size_t cell = 0; cell < QLL_CELLS; cell++) {
            qll_tally_term after = node_term(searching, stage, solver, group, cell + 1);
            cells[cell] = bound_between(&before, &after, searching->site, group->weight);
            least = least_of(least, cells[cell]);
            before = after;
        }
        split->least = qll_bound_sum(split->least, least);
    }
}

void qll_split_bound_pair(qll_split *split, const qll_first_stage *first)
{
    qll_bound sum = {0.0, 0.0, 0.0};
    split->rest[split->group_count] = sum;
    for (size_t g = split->group_count; g > 0; g--) {
        const qll_bound *cells = &split->cells[(g - 1) * QLL_CELLS];
        const size_t from = first->cells[2 * (g - 1)];
        const size_t to = first->cells[2 * (g - 1) + 1];
        qll_bound least = cells[from];
        for (size_t cell = from + 1; cell <= to; cell++) {
            least = least_of(least, cells[cell]);
        }
        /* The louder stage is heard; both wear. */
        least.noise = fmax(least.noise, first->noise[g - 1]);
        least.wear += first->wear[g - 1];
        sum = qll_bound_sum(sum, least);
        split->rest[g - 1] = sum;
    }
}
