/* Stages in series taken one by one: for the stations that are not reached by two_stages.c. */
#ifndef QUELL_SEARCH_CHAIN_H
#define QUELL_SEARCH_CHAIN_H

#include "search/split.h"

/** What may stand in one place of the series. */
typedef struct qll_chain_link {
    const qll_stage_choice *choices;
    size_t count;
} qll_chain_link;

/** Every combination of its links. */
typedef struct qll_chain {
    qll_chain_link links[QLL_STAGES_MOST]; /* in the order of the water */
    size_t link_count;
} qll_chain;

/** Room for the terms of every place, used anew by every chain. */
typedef struct qll_chain_room {
    double *inlet_pa, *flow_m3s;            /* [point], behind all stages so far */
    qll_tally_term *own;                    /* [point], of the stage under way */
    qll_tally_term *terms[QLL_STAGES_MOST]; /* [point], of all stages up to this one */
    qll_bound *rest[QLL_STAGES_MOST];       /* [point + 1], their sums from this point on */
    qll_stage_corners corners[QLL_STAGES_MOST];
} qll_chain_room;

QLL_MUST_USE qll_status qll_chain_room_make(const qll_searching *searching, qll_chain_room *room);

/**
 * Tries every combination and adds to the front what deserves it; counts add up as those of the
 * whole search. QLL_OK or QLL_NO_MEMORY.
 */
QLL_MUST_USE qll_status qll_chain_try(qll_searching *searching, const qll_chain *chain,
                                      qll_chain_room *room);

#endif
