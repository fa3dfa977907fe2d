/* All stages of one and two valves that may stand in a place, the cheapest first, less those that a bound
 * fells. docs/theory/search.md, 3. */
#ifndef QUELL_SEARCH_WALK_H
#define QUELL_SEARCH_WALK_H

#include "search/marks.h"
#include "search/pair_sums.h"
#include "search/seconds.h"
#include "search/trial.h"

/** Takes a trial that may matter. QLL_OK or QLL_NO_MEMORY. */
typedef qll_status qll_walk_sink(void *context, const qll_trial *trial);

typedef struct qll_walk {
    qll_searching *searching;
    const qll_stage_place *place;
    const qll_rest_of_station *rest;
    size_t branches_most; /* 1 or 2 */
    qll_walk_sink *sink;
    void *context;
    bool tells_progress;   /* it is the part under way */
    bool by_lead;          /* pairs are handed on by the bounds that those of one lead share */
    bool is_early;         /* pairs whose inlets are known are tried no further than their peaks */
    const qll_marks *left; /* other stages are not wanted; NULL = all are */
} qll_walk;

/** What a stage may cost, kept while neither the limit nor its dearest part has moved much. */
typedef struct qll_allowance {
    double limit, dearest, most;
} qll_allowance;

/* So many steps of hunting share what a stage may cost. */
#define QLL_HUNTING_STEPS 9

/** Room of all walks of a search. */
typedef struct qll_walk_room {
    qll_lead_room lead;
    qll_trial_room trial;
    qll_second *seconds;          /* [part] of one size, those of one lead at one set-point */
    qll_allowance *alike_allowed; /* [size of the second][step of hunting] */
    qll_seconds_room tables;
    qll_pair_room pairs;
    double *most_outlet_pa; /* [supply * flow_count + flow] of a pair tried early */
} qll_walk_room;

QLL_MUST_USE qll_status qll_walk_room_make(const qll_searching *searching, qll_walk_room *room);

/**
 * In a place with highest inlets the trials are bounds: single valves by what only grows with the inlet, pairs by lead.
 * By lead all pairs of one lead at the same set-points are one trial, whose outlets are the lead's. QLL_OK or
 * QLL_NO_MEMORY.
 */
QLL_MUST_USE qll_status qll_walk_stage(const qll_walk *walk, qll_walk_room *room);

#endif
