/* What a station costs at least of which not all is known: docs/theory/search.md, 2 and 4. */
#ifndef QUELL_SEARCH_BOUND_H
#define QUELL_SEARCH_BOUND_H

#include "search/halves.h"

/** A stage and what is known of the rest, beside which a further one is still to be chosen. */
typedef struct qll_half_known {
    const qll_searching *searching;
    double cost, dearest;
    double survival[QLL_NODES]; /* times the chance of the node */
} qll_half_known;

/** @param survival of the stage, at most; NULL = nothing is known of it */
qll_half_known qll_half_know(const qll_searching *searching, const qll_rest_of_station *rest,
                             const double *survival, double cost, double dearest);

/** Of the further stage, or of a block of them: all at best. */
typedef struct qll_half_bound {
    double cost, dearest, chance; /* at least */
    const double *survival;       /* [QLL_NODES] at most */
} qll_half_bound;

static inline qll_half_bound qll_half_bound_of(const qll_half *half)
{
    return (qll_half_bound){half->cost, half->dearest, half->chance, half->survival};
}

/** Chance of a callback of both. */
double qll_half_chance(const qll_half_known *known, const double survival[QLL_NODES]);

/** Expected cost of both at least; INFINITY as soon as that is seen to be @p most or more. */
double qll_half_cost(const qll_half_known *known, const qll_half_bound *other, double most);

/**
 * Most that a stage may cost if a station of it and @p rest is still wanted: what it costs must stay below. At most,
 * where a further stage is to be chosen.
 *
 * @param survival of the stage, at most; NULL = nothing is known of it
 * @param rests    chance, at most, that the outlet at rest is not too high
 * @param dearest  part of the stage, at least
 */
double qll_searching_allows(const qll_searching *searching, const qll_rest_of_station *rest,
                            const double *survival, double rests, double dearest);

/**
 * Least that a station of @p rest and a stage of this cost, dearest part and survival (all at best) is expected to cost,
 * where rest knows the stages of which one is still to come.
 *
 * @param enough stops looking as soon as it is below this; -INFINITY = never
 */
double qll_searching_least(const qll_searching *searching, const qll_rest_of_station *rest,
                           const double survival[QLL_NODES], double cost, double dearest,
                           double enough);

/** Whether a station of @p rest and such a stage is wanted; @p rests as above. */
bool qll_searching_wants(const qll_searching *searching, const qll_rest_of_station *rest,
                         const double survival[QLL_NODES], double rests, double cost,
                         double dearest);

#endif
