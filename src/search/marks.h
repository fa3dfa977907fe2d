/* Which stages of a list are left: docs/theory/search.md, 4. */
#ifndef QUELL_SEARCH_MARKS_H
#define QUELL_SEARCH_MARKS_H

#include "search/halves.h"

/**
 * Single valves, and pairs by lead, placing and size of the second. Where the lead stands at the wanted pressure a pair is
 * placed by the set-point of its second, else by the lead's (seconds.h); QLL_SET_WANTED is a single valve.
 */
typedef struct qll_marks {
    bool *at; /* [part][placing][size of the second; 0 of a single valve] */
    size_t size_count;
} qll_marks;

/** None is left yet. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_marks_make(const qll_searching *searching, qll_marks *marks);

/** None is left any more. */
void qll_marks_clear(const qll_searching *searching, const qll_marks *marks);

/** How a pair is placed. */
size_t qll_placing_of(size_t lead_set, size_t second_set);

/** Leaves what @p half stands for. */
void qll_marks_put(const qll_marks *marks, const qll_pool *pool, const qll_half *half);

/** Whether it is left; of NULL all are. */
bool qll_marks_has(const qll_marks *marks, size_t part, size_t placing, size_t size);

/** Whether any is, whatever the size of the second. */
bool qll_marks_has_any(const qll_marks *marks, size_t part, size_t placing);

/** Whether any is whose lead stands at @p lead_set. */
bool qll_marks_has_lead(const qll_marks *marks, size_t part, size_t lead_set);

#endif
