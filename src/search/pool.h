/* The valves of a catalogue that may be put in this pipe, ready to be tried. */
#ifndef QUELL_SEARCH_POOL_H
#define QUELL_SEARCH_POOL_H

#include "search/search.h"

typedef struct qll_part {
    qll_branch branch; /* without a set-point */
    qll_branch_curve curve;
    qll_branch_ruler ruler; /* its share of chatter is that of a drop to be told */
    double cost;            /* valve and what is round it */
    double area_m2;         /* of its own size */
    double hysteresis_pa;
    size_t rank; /* by size, then full Kv, then id: the lesser of a pair opens first */
    double
        least_larger; /* least cost of any part that may stand beside it as the larger one; INFINITY */
    size_t size;      /* index of its size among those of the pool, rising */
} qll_part;

/** How far set-points may move per Pa of inlet. */
typedef struct qll_effects {
    double least, most;
} qll_effects;

/** How far a set-point stands moved at most where the inlet is @p change_pa off that at which it was set. */
static inline double qll_effects_most_pa(qll_effects effects, double change_pa)
{
    const double a = effects.most * change_pa;
    const double b = effects.least * change_pa;
    return a > b ? a : b;
}

/** The same at least. */
static inline double qll_effects_least_pa(qll_effects effects, double change_pa)
{
    return -qll_effects_most_pa(effects, -change_pa);
}

typedef struct qll_pool {
    qll_part *parts; /* by rising cost, then by rank */
    size_t count;
    const double *sizes_m;
    size_t size_count;
    size_t knots_most;   /* of any curve */
    qll_effects effects; /* of all parts, and none */
} qll_pool;

/** Whether a valve rated for so much stands what comes to it at rest, both gauge; what is not known it does. */
static inline bool qll_withstands(double rated_pa_gauge, double rest_pa_gauge)
{
    return !(rest_pa_gauge / rated_pa_gauge - 1.0 > QLL_PRACTICE_SLACK);
}

/** Whether its own ratings admit a set-point and what comes to it at rest, both gauge. */
bool qll_part_is_rated(const qll_part *part, double set_pa_gauge, double rest_pa_gauge);

/** Fills least_larger: a larger one has a full Kv of at least @p larger_least times as much. */
void qll_pool_pair(const qll_pool *pool, double larger_least);

/**
 * Some @p each of every size and kind of @p pool, the cheapest and evenly spread by cost, as a pool of its own.
 *
 * @param index [count of @p thin] where each stands in @p pool
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_pool_thin(const qll_pool *pool, size_t each, qll_arena *arena,
                                      qll_pool *thin, size_t **index);

/** The cheapest @p each of the sizes and kinds of so many parts of @p pool, as above. */
QLL_MUST_USE qll_status qll_pool_like(const qll_pool *pool, const size_t *parts, size_t part_count,
                                      size_t each, qll_arena *arena, qll_pool *thin,
                                      size_t **index);

/** QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_pool_make(qll_yardstick *yardstick, const qll_catalogue *catalogue,
                                      bool all, qll_arena *arena, qll_pool *pool);

#endif
