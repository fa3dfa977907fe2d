/* What the rules say of the stations that are left, as far as choosing between them needs it. */
#ifndef QUELL_SEARCH_JUDGE_H
#define QUELL_SEARCH_JUDGE_H

#include "search/recommend.h"

/* How much less disquiet is clearly less, between stations of as many valves (our assumption). */
#define QLL_CLEAR_SHARE 0.1

typedef struct qll_judgement {
    const qll_front_member *member;
    size_t fail_count;  /* fails that another station might not have */
    int caution_weight; /* docs/theory/recommendation.md, eq. 1 */
    bool drop_fails;    /* a stage takes more than its share: ratio or cavitation fails */
    double disquiet;    /* eq. 1 */
} qll_judgement;

/** The stations that can be chosen: of each number of valves those with the fewest fails whose
 * disquiet is within QLL_CLEAR_SHARE of the least, and maybe others. */
typedef struct qll_shortlist {
    qll_judgement *judged;
    size_t count;
    bool one_stage_suffices; /* step 2: stations of more stages do not compete */
} qll_shortlist;

/** Judges one station in full. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_judge_fully(const qll_field *field, const qll_front_member *member,
                                        qll_arena *arena, qll_judgement *judged);

/** Judges the members of the field's front, and passes over those that cannot be chosen whatever
 * would be found of them. The list lives in @p arena. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_shortlist_make(const qll_field *field, qll_arena *arena,
                                           qll_shortlist *list);

/** True if @p a is to be shown before @p b: fewer fails, then less disquiet. */
bool qll_comes_first(const qll_site *site, const qll_assessment *a, const qll_assessment *b);

#endif
