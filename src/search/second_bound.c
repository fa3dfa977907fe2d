/* Lower bounds of a second stage's terms behind first stages that it was not solved with: it is
 * solved at a few inlet pressures that span all of them. docs/theory/search.md, eq. 6. */
#include "search/lead.h"
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

static qll_bound times(qll_bound of, double weight)
{
    return (qll_bound){weight * of.noise, weight * of.unsteady, weight * of.wear};
}

/* What lies between two nodes is taken to lie no farther below the lower than the two lie apart and
 * a hundredth of it more: shares of parallel valves bend (measured by tests/laws/law_search_parts.c: the
 * worst of a million lay 0.2 % below). */
#define QLL_BEND 0.01

static double below(double a, double b)
{
    return fmax((1.0 - QLL_BEND) * fmin(a, b) - fabs(a - b), 0.0);
}

/* Nothing is known beside a node where the flow does not pass. */
static qll_bound bound_between(const qll_tally_term *a, const qll_tally_term *b,
                               const qll_site *site)
{
    if (isnan(a->outlet_pa) || isnan(b->outlet_pa)) {
        return (qll_bound){0.0, 0.0, 0.0};
    }
    const double wanted_pa = site->set_pa_gauge + site->barometric_pa;
    bool crosses = (a->outlet_pa < wanted_pa) != (b->outlet_pa < wanted_pa);
    double unsteady_pa = crosses ? 0.0 : below(a->unsteady_pa, b->unsteady_pa);
    return (qll_bound){below(a->noise, b->noise), unsteady_pa, below(a->wear, b->wear)};
}

/* The cells of a flow class from their edges; returns the least of them. */
static qll_bound bound_cells(const qll_split *split, const qll_flow_group *group,
                             const qll_site *site)
{
    const qll_tally_term *edge = &split->edges[group->edge_from];
    qll_bound *cells = &split->cells[group->cell_from];
    qll_bound least = {INFINITY, INFINITY, INFINITY};
    for (size_t cell = 0; cell < group->cell_count; cell++) {
        if (group->is_occupied[cell]) {
            cells[cell] = bound_between(&edge[0], &edge[1], site);
            least = least_of(least, cells[cell]);
            /* The next occupied cell begins where this one ends, or with an edge of its own. */
            bool is_next = cell + 1 < group->cell_count && group->is_occupied[cell + 1];
            edge += is_next ? 1 : 2;
        }
    }
    return least;
}

void qll_split_bound(const qll_tally_stage *of, size_t lead, qll_split *split)
{
    qll_terms_find(of, split->edge_inlet_pa, split->edge_flow_m3s, split->edge_count,
                   &split->lead_edges[lead * split->edge_count], split->edges);
    split->least = (qll_bound){0.0, 0.0, 0.0};
    for (size_t g = 0; g < split->group_count; g++) {
        const qll_flow_group *group = &split->groups[g];
        const qll_bound least = bound_cells(split, group, of->site);
        split->least = qll_bound_sum(split->least, times(least, group->weight));
    }
}

void qll_split_bound_pair(qll_split *split, const qll_first_stage *first)
{
    qll_bound sum = {0.0, 0.0, 0.0};
    split->rest[split->group_count] = sum;
    for (size_t g = split->group_count; g > 0; g--) {
        const qll_flow_group *group = &split->groups[g - 1];
        const qll_bound *cells = &split->cells[group->cell_from];
        const size_t from = first->cells[2 * (g - 1)];
        const size_t to = first->cells[2 * (g - 1) + 1];
        qll_bound least = cells[from];
        for (size_t cell = from + 1; cell <= to; cell++) {
            least = least_of(least, cells[cell]);
        }
        split->behind[g - 1] = least;
        least = times(least, group->weight);
        /* The louder stage is heard; both wear. */
        least.noise = fmax(least.noise, first->noise[g - 1]);
        least.wear += first->wear[g - 1];
        sum = qll_bound_sum(sum, least);
        split->rest[g - 1] = sum;
    }
}
