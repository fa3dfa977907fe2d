/* First and second stages of a split put together: docs/theory/search.md, 4. */
#ifndef QUELL_SEARCH_CROSSING_H
#define QUELL_SEARCH_CROSSING_H

#include "search/split.h"

/**
 * Tries every station of the stages listed that no bound fells; what is found goes into the book.
 *
 * @param skips_singles stations of two single valves have been tried
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_split_cross(qll_split *split, qll_split_room *room, bool skips_singles);

#endif
