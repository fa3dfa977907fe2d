/* A stage at the design peaks in a place whose inlets are known only between two ends: docs/theory/search.md, B6. */
#ifndef QUELL_SEARCH_PEAKS_LEAST_H
#define QUELL_SEARCH_PEAKS_LEAST_H

#include "search/lead.h"

/** What survives of the design peaks at most of @p pick, one valve or two, in @p place, which has highest inlets. */
double qll_peaks_least(const qll_searching *searching, const qll_stage_place *place,
                       const qll_pick *pick, qll_solver_room *room);

#endif
