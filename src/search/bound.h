/* What a station costs at least of which not all is known: docs/theory/search.md, 2 and 4. */
#ifndef QUELL_SEARCH_BOUND_H
#define QUELL_SEARCH_BOUND_H

#include "search/halves.h"

#include <math.h>

/** A stage or a block of them, all at best. */
typedef struct qll_half_bound {
    double cost, dearest, chance; /* at least; chance 0 = not known */
    const double *survival;       /* [QLL_NODES] at most; NULL = nothing is known of it */
    double gives_pa, needs_pa;    /* as in qll_half */
} qll_half_bound;

static inline qll_half_bound qll_half_bound_of(const qll_half *half)
{
    return (qll_half_bound){half->cost,     half->dearest,  half->chance,
                            half->survival, half->gives_pa, half->needs_pa};
}

/** A stage whose pressures at the peak are not known. */
static inline qll_half_bound qll_half_bound_with(const double *survival, double cost,
                                                 double dearest)
{
    return (qll_half_bound){cost, dearest, 0.0, survival, INFINITY, -INFINITY};
}

/** A stage and what is known of the rest, beside which a further one is still to be chosen. */
typedef struct qll_half_known {
    const qll_searching *searching;
    double cost, dearest, gives_pa, needs_pa;
    double survival[QLL_NODES]; /* times the chance of the node */
} qll_half_known;

qll_half_known qll_half_know(const qll_searching *searching, const qll_rest_of_station *rest,
                             const qll_half_bound *of);

/** Chance of a callback of both. */
double qll_half_chance(const qll_half_known *known, const double survival[QLL_NODES]);

/** Expected cost of both at least; INFINITY as soon as that is seen to be @p most or more, or that one gives less at the
 * peak than the other needs. */
double qll_half_cost(const qll_half_known *known, const qll_half_bound *other, double most);

/**
 * Most that a stage may cost if a station of it and @p rest is still wanted: what it costs must stay below. At most,
 * where a further stage is to be chosen. What @p of costs does not count.
 *
 * @param rests chance, at most, that the outlet at rest is not too high
 */
double qll_searching_allows(const qll_searching *searching, const qll_rest_of_station *rest,
                            const qll_half_bound *of, double rests);

/**
 * Least that a station of @p rest and a stage is expected to cost, where rest knows the stages of which one is still to
 * come.
 *
 * @param enough stops looking as soon as it is below this; -INFINITY = never
 */
double qll_searching_least(const qll_searching *searching, const qll_rest_of_station *rest,
                           const qll_half_bound *of, double enough);

/** Whether a station of @p rest and such a stage is wanted; @p rests as above. */
bool qll_searching_wants(const qll_searching *searching, const qll_rest_of_station *rest,
                         const qll_half_bound *of, double rests);

#endif
