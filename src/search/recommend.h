/* Which of the stations that are left is recommended, and which others are shown beside it. */
#ifndef QUELL_SEARCH_RECOMMEND_H
#define QUELL_SEARCH_RECOMMEND_H

#include "search/front.h"

/** What is left of a search. */
typedef struct qll_field {
    const qll_site *site;
    const qll_duty *duty;
    qll_front front; /* sorted */
    /* Single valves that broke no hard rule, whether or not others beat them. */
    const qll_front_member *singles;
    size_t single_count;
    uint64_t seed; /* of the draws between near-ties */
} qll_field;

/**
 * Chooses by docs/theory/recommendation.md and fills candidates, count, recommended, reason and
 * runner_up of @p design. QLL_OK or QLL_NO_MEMORY.
 */
QLL_MUST_USE qll_status qll_recommend(const qll_field *field, qll_arena *arena, qll_design *design);

/** Assesses @p arrangement in full; the candidate's arrays live in @p arena. */
QLL_MUST_USE qll_status qll_candidate_make(const qll_arrangement *arrangement, const qll_site *site,
                                           const qll_duty *duty, qll_arena *arena,
                                           qll_candidate *candidate);

#endif
