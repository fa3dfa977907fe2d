#include "search/bound.h"

#include <math.h>

static double greater(double a, double b)
{
    return a > b ? a : b;
}

qll_half_known qll_half_know(const qll_searching *searching, const qll_rest_of_station *rest,
                             const qll_half_bound *of)
{
    qll_half_known known = {.searching = searching,
                            .cost = rest->cost + of->cost,
                            .dearest = greater(of->dearest, rest->dearest),
                            .gives_pa = of->gives_pa,
                            .needs_pa = of->needs_pa};
    const double *chance = searching->yardstick->unknowns->chance;
    for (size_t k = 0; k < QLL_NODES; k++) {
        known.survival[k] =
            chance[k] * rest->survival[k] * (of->survival == NULL ? 1.0 : of->survival[k]);
    }
    return known;
}

/* Asked more often than anything else in a search: sums side by side do not wait for each other. */
double qll_half_chance(const qll_half_known *known, const double survival[QLL_NODES])
{
    double survives[QLL_DEMAND_NODES] = {0.0};
    for (size_t n = 0; n < QLL_NODES; n += QLL_DEMAND_NODES) {
        for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
            survives[i] += known->survival[n + i] * survival[n + i];
        }
    }
    return 1.0 - (survives[0] + survives[1] + (survives[2] + survives[3]) + survives[4]);
}

double qll_half_cost(const qll_half_known *known, const qll_half_bound *other, double most)
{
    if (other->needs_pa > known->gives_pa || known->needs_pa > other->gives_pa) {
        return INFINITY;
    }
    const double installed = known->cost + other->cost;
    const double dearest = greater(known->dearest, other->dearest);
    if (!(qll_searching_expected(known->searching, installed, dearest, other->chance) < most)) {
        return INFINITY;
    }
    const double chance = greater(qll_half_chance(known, other->survival), other->chance);
    return qll_searching_expected(known->searching, installed, dearest, chance);
}

static double cost_with(const qll_half_known *known, const qll_half *other, double most)
{
    const qll_half_bound bound = qll_half_bound_of(other);
    return qll_half_cost(known, &bound, most);
}

double qll_searching_allows(const qll_searching *searching, const qll_rest_of_station *rest,
                            const qll_half_bound *of, double rests)
{
    const double limit = qll_searching_limit(searching);
    if (rest->others == NULL) {
        const double chance = qll_searching_chance(searching, rest->survival, of->survival);
        return limit
               - qll_searching_expected(searching, rest->cost, greater(of->dearest, rest->dearest),
                                        1.0 - (1.0 - chance) * rests);
    }
    qll_half_known known = qll_half_know(searching, rest, of);
    known.cost = rest->cost;
    double least = INFINITY;
    for (size_t i = 0; i < rest->outline_count; i++) {
        const double cost = cost_with(&known, &rest->outline[i], least);
        least = cost < least ? cost : least;
    }
    return least < (double)INFINITY ? limit - least : -(double)INFINITY;
}

double qll_searching_least(const qll_searching *searching, const qll_rest_of_station *rest,
                           const qll_half_bound *of, double enough)
{
    const qll_blocks *blocks = rest->others;
    const qll_half_known known = qll_half_know(searching, rest, of);
    double least = qll_searching_limit(searching);
    bool is_below = false;
    for (size_t i = 0; i < blocks->count && !(is_below && least < enough);) {
        const qll_block *block = &blocks->items[i];
        if (!(cost_with(&known, &block->least, least) < least)) {
            i = block->past;
            continue;
        }
        i += 1;
        for (size_t j = block->from; block->past == i && j < block->to; j++) {
            const double with = cost_with(&known, &blocks->halves[j], least);
            is_below = is_below || with < least;
            least = with < least ? with : least;
        }
    }
    return is_below ? least : (double)INFINITY;
}

bool qll_searching_wants(const qll_searching *searching, const qll_rest_of_station *rest,
                         const qll_half_bound *of, double rests)
{
    if (rest->others == NULL) {
        return of->cost < qll_searching_allows(searching, rest, of, rests);
    }
    return qll_searching_least(searching, rest, of, INFINITY) < (double)INFINITY;
}
