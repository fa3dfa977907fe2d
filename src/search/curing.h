/* Cures on their way: what their kinds share. */
#ifndef QUELL_SEARCH_CURING_H
#define QUELL_SEARCH_CURING_H

#include "search/cures.h"
#include "search/pool.h"

typedef struct qll_curing {
    const qll_cures_case *given;
    qll_yardstick *yardstick;
    qll_arena *arena;
    qll_pool pool;  /* valves that may be put in this pipe, by rising cost */
    double as_is;   /* expected cost that a cure must lower; INFINITY where it cannot be left */
    bool is_better; /* a cure of the kind at hand has been found */
    qll_cure best;
    /* The station tried: as many stages as there are and one more, each with room for the most branches. */
    qll_stage *stages;
    qll_branch *branches; /* [stage * QLL_HAZARD_BRANCHES + branch] */
    size_t stage_count;
    size_t look_count; /* stations that have been looked at */
    double told;       /* share of the cures that have been looked for */
    bool is_stopped;
} qll_curing;

/** False where progress says, or has said, stop. */
bool qll_curing_goes_on(qll_curing *curing);

/** QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_curing_room(qll_curing *curing);

/** Coming, and cutting open and closing up the pipe that is there: as much as one more valve side by side
 * takes at the pipe's size (our assumption). */
double qll_cure_opened(const qll_curing *curing);

/** The best cure of each kind that is searched for, but WHOLE: into curing->best. */
QLL_MUST_USE qll_status qll_cure_settings(qll_curing *curing);
QLL_MUST_USE qll_status qll_cure_small_beside(qll_curing *curing);
QLL_MUST_USE qll_status qll_cure_smaller_valve(qll_curing *curing);
QLL_MUST_USE qll_status qll_cure_stage_before(qll_curing *curing);

#endif
