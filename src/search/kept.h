/* Stages that were tried no further than their peaks, until it is known what may follow them: docs/theory/search.md, 4. */
#ifndef QUELL_SEARCH_KEPT_H
#define QUELL_SEARCH_KEPT_H

#include "search/front.h"
#include "search/walk.h"

/** A stage of one or two valves, the first of them at the wanted pressure. */
typedef struct qll_kept {
    uint32_t lead, second; /* in the pool; UINT32_MAX without a second */
    uint32_t set;          /* set-point of the second, as in seconds.h */
    float gives_pa;        /* as in qll_half */
    float survival[QLL_NODES];
} qll_kept;

/** In the order of a walk: those of one lead stand together, and of these those of one set-point. */
typedef struct qll_kept_list {
    qll_kept *items;
    size_t count, room;
} qll_kept_list;

/** Takes a trial of a place that is first. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_kept_put(qll_kept_list *list, const qll_stage_place *place,
                                     const qll_trial *trial, qll_arena *arena);

/** The front (front.h) of those kept. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_kept_front(qll_searching *searching, const qll_kept_list *list,
                                       qll_halves *front);

/** Tries those of @p list that @p walk's rest still wants, in full, in a place whose inlets are known. QLL_OK or
 * QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_walk_kept(const qll_walk *walk, const qll_kept_list *list,
                                      qll_walk_room *room);

#endif
