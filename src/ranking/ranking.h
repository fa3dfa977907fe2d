/* All sites in the order of the callbacks that are to be expected: every station checked, what did not change taken from the store. */
#ifndef QUELL_RANKING_RANKING_H
#define QUELL_RANKING_RANKING_H

#include "quell/records.h"

#include "store/store.h"

typedef struct qll_ranking_plan {
    qll_store *store; /* what is worked out is kept there */
    qll_telling telling;
    qll_input catalogue; /* not given = the generic one */
    /** Called by several threads; false stops. NULL = nobody wants to know. */
    bool (*progress)(double share, void *context);
    void *progress_context;
} qll_ranking_plan;

/** A site whose station could not be checked, and why not. */
typedef struct qll_unchecked {
    const char *name, *problem;
} qll_unchecked;

typedef struct qll_ranking_answer {
    qll_answer answer; /* rank/1, or its text */
    qll_unchecked *unchecked;
    size_t unchecked_count;
} qll_ranking_answer;

/** @return as qll_ask(), and what the store says in @p why; all in @p arena */
QLL_MUST_USE qll_status qll_rank(const qll_ranking_plan *plan, qll_arena *arena,
                                 qll_ranking_answer *made, qll_said *why);

#endif
