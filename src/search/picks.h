/* Which stations are shown beside the recommended one. */
#ifndef QUELL_SEARCH_PICKS_H
#define QUELL_SEARCH_PICKS_H

#include "search/front.h"

/** Members picked so far, without doubles. */
typedef struct qll_picks {
    const qll_front_member *members[QLL_DESIGN_KEPT];
    size_t count;
} qll_picks;

/** Picks one more, unless it is NULL, there already, or all places are taken. */
void qll_pick(qll_picks *picked, const qll_front_member *member);

/**
 * Picks the least of each objective, the one of fewest valves, then whichever lies farthest from
 * those picked, each objective scaled to its range over the front. @p front is sorted.
 */
void qll_pick_representatives(const qll_front *front, qll_picks *picked);

#endif
