/* A stage in a place whose inlets are known only between two ends: docs/theory/search.md, B6. */
#ifndef QUELL_SEARCH_PAIR_LEAST_H
#define QUELL_SEARCH_PAIR_LEAST_H

#include "search/lead.h"

/** Room for points behind both ends. */
typedef struct qll_least_room {
    qll_solver_room solver;
    qll_stage_point *low, *high; /* [flow_count] */
} qll_least_room;

/** QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_least_room_make(const qll_searching *searching, qll_least_room *room);

/** What survives of the design peaks at most of @p pick, one valve or two, in @p place, which has highest inlets,
 * beside what its first valve does elsewhere. */
double qll_peaks_least(const qll_searching *searching, const qll_stage_place *place,
                       const qll_pick *pick, qll_least_room *room);

/**
 * The same of the design peaks and of all points of work at which both valves of @p pick are surely open, at every
 * node: what its first valve does surely alone, and hunting, come on top.
 */
void qll_pair_least(const qll_searching *searching, const qll_stage_place *place,
                    const qll_pick *pick, qll_least_room *room, double survival[QLL_NODES]);

#endif
