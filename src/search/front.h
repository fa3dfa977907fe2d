/* What of a list of stages a bound needs to see: docs/theory/search.md, 4. */
#ifndef QUELL_SEARCH_FRONT_H
#define QUELL_SEARCH_FRONT_H

#include "search/halves.h"

/** Puts @p one into @p front unless one of it is as good in every figure that a bound looks at; they come by rising cost.
 * QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_front_put(qll_searching *searching, qll_halves *front,
                                      const qll_half *one);

/**
 * Those of @p list that no other one of it is as good as in every figure that a bound looks at: the least that a station of
 * one of them costs is that of the whole list, to the last bit. Takes copies; they are in the order of their cost.
 *
 * @return QLL_OK or QLL_NO_MEMORY; an empty front where @p searching was stopped meanwhile
 */
QLL_MUST_USE qll_status qll_halves_front(qll_searching *searching, const qll_halves *list,
                                         qll_halves *front);

#endif
