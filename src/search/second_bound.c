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

static qll_bound times(qll_bound of, double weight)
{
    return (qll_bound){weight * of.noise, weight * of.unsteady, weight * of.wear};
}

/* What lies between two nodes is taken to lie no farther below the lower than the two lie apart and
 * a hundredth of it more: shares of parallel valves bend (measured by tests/laws/law_search.c: the
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

/* Solves the edges of all cells that have first stages; terms of other edges are left alone. */
static void solve_edges(const qll_tally_stage *of, const qll_flow_group *group,
                        qll_tally_term edges[QLL_CELLS_MOST + 1])
{
    double inlet_pa[QLL_CELLS_MOST + 1];
    double flow_m3s[QLL_CELLS_MOST + 1];
    size_t at[QLL_CELLS_MOST + 1];
    qll_tally_term terms[QLL_CELLS_MOST + 1];
    size_t count = 0;
    for (size_t i = 0; i <= group->cell_count; i++) {
        bool is_wanted = (i < group->cell_count && group->is_occupied[i])
                         || (i > 0 && group->is_occupied[i - 1]);
        if (is_wanted) {
            inlet_pa[count] = group->low_pa + group->cell_pa * (double)i;
            flow_m3s[count] = group->flow_m3s;
            at[count] = i;
            count += 1;
        }
    }
    qll_tally_many(of, inlet_pa, flow_m3s, count, terms);
    for (size_t i = 0; i < count; i++) {
        edges[at[i]] = terms[i];
    }
}

void qll_split_bound(const qll_tally_stage *of, qll_split *split)
{
    split->least = (qll_bound){0.0, 0.0, 0.0};
    for (size_t g = 0; g < split->group_count; g++) {
        const qll_flow_group *group = &split->groups[g];
        qll_bound *cells = &split->cells[group->cell_from];
        qll_bound least = {INFINITY, INFINITY, INFINITY};
        qll_tally_term edges[QLL_CELLS_MOST + 1];
        solve_edges(of, group, edges);
        for (size_t cell = 0; cell < group->cell_count; cell++) {
            if (group->is_occupied[cell]) {
                cells[cell] = bound_between(&edges[cell], &edges[cell + 1], of->site);
                least = least_of(least, cells[cell]);
            }
        }
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
