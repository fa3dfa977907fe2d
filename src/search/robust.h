/* Of stations that are all but equal, the one whose verdicts hold best when what is not known is
 * drawn. docs/theory/recommendation.md, step 5. */
#ifndef QUELL_SEARCH_ROBUST_H
#define QUELL_SEARCH_ROBUST_H

#include "search/front.h"
#include "search/sensitivity.h"

/* Stations that are drawn at most. */
#define QLL_CONTENDERS_MOST 8

typedef struct qll_contenders {
    const qll_front_member *members[QLL_CONTENDERS_MOST]; /* the simplest first */
    size_t count;
} qll_contenders;

/**
 * Share of the draws in which the worst of the good verdicts of @p assessed holds, those that no
 * choice of station can mend left out; 1 if there is none.
 */
double qll_worst_good_holds(const qll_assessment *assessed, const qll_sensitivity *found);

/**
 * The place of the contender to be preferred: the simplest, unless another's worst good verdict holds
 * clearly more often; then the one whose holds most often, the first of equals.
 *
 * @param seed of the draws
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_most_robust(const qll_contenders *contenders, const qll_site *site,
                                        const qll_duty *duty, uint64_t seed, qll_arena *arena,
                                        size_t *preferred);

#endif
