/* A place for a stage: what comes to it, what it is meant to hold, and what else the station has. */
#ifndef QUELL_SEARCH_STAGE_PLACE_H
#define QUELL_SEARCH_STAGE_PLACE_H

#include "search/pool.h"

#include <stdint.h>

/** All absolute; NaN where what stands before cannot pass the flow. */
typedef struct qll_inlets {
    const double *grid_pa; /* [supply * flow_count + flow] */
    const double *peak_pa; /* [scenario * QLL_SUPPLY_LEVELS + supply] */
    double rest_pa;        /* no flow, highest supply */
} qll_inlets;

/** What comes at one flow at any supply, at least and at most: [flow], absolute; NaN where it is not known at each. NULL
 * = not at hand. */
typedef struct qll_inlet_ends {
    double *low_pa, *high_pa;
} qll_inlet_ends;

typedef struct qll_stage_place {
    qll_inlets inlets;
    /* A bound for all inlets between inlets and these, if not NULL: what is made of it is at most what
     * any of them gives. */
    const qll_inlets *highest;
    qll_inlet_ends ends;
    double set_inlet_pa_gauge;          /* when the valves are set */
    double low_pa_gauge, high_pa_gauge; /* inlets at which set-points must stay apart */
    double wanted_pa_gauge;
    double clear_pa_gauge; /* every set-point less its fall-off and hysteresis is at least this */
    bool is_last;
    bool is_first;
} qll_stage_place;

struct qll_half;
struct qll_blocks;

/** What else there is of the station: the rest of its cost, and what survives there. */
typedef struct qll_rest_of_station {
    double cost;
    double dearest; /* of its parts */
    double survival[QLL_NODES];
    /* A further stage that is still to be chosen of these (halves.h), and the least of few blocks of them. NULL = none. */
    const struct qll_blocks *others;
    const struct qll_half *outline;
    size_t outline_count;
} qll_rest_of_station;

/** Nothing known of the rest but that it costs @p cost. */
static inline qll_rest_of_station qll_rest_costing(double cost)
{
    qll_rest_of_station rest = {.cost = cost};
    for (size_t k = 0; k < QLL_NODES; k++) {
        rest.survival[k] = 1.0;
    }
    return rest;
}

/** Valves of one stage with their set-points, the first to open first. */
typedef struct qll_pick {
    size_t count;
    size_t part[QLL_BRANCHES_MOST]; /* in the pool */
    double set_pa_gauge[QLL_BRANCHES_MOST];
} qll_pick;

/** What is known of a pair wherever it may stand, once it was asked for. */
typedef struct qll_pair_known {
    double survival[QLL_NODES]; /* at most */
    double
        short_pa; /* behind less than this at the first design peak it does not deliver; absolute */
    size_t tries; /* first stages behind which it was tried */
} qll_pair_known;

/** What may stand second in a pair. */
typedef struct qll_second {
    uint32_t part; /* in the pool */
    float hunting; /* severity where both are open, at least; less that of the list's least one */
    float gives_pa, needs_pa; /* as in qll_half */
    qll_pair_known *known;    /* NULL = it was not asked for */
} qll_second;

/** Sums of a pair over the flows of one supply. */
typedef qll_hazard_row qll_pair_sums[QLL_ROWS(2)];

/** What is known of a pair before it is solved. */
typedef struct qll_pair_hint {
    const double *survival; /* [QLL_NODES] at most, less what both valves do while both are open */
    size_t open_from;       /* at flow classes below the second is shut */
    /* [supply] what both do at least, less hunting and the peaks; NULL = not known */
    qll_pair_sums *sums;
    const double *hunting; /* [QLL_NODES] what survives of it at most */
} qll_pair_hint;

/** A pick in its place. */
typedef struct qll_trial {
    qll_pick pick;
    double cost; /* of its parts */
    double dearest;
    double survival[QLL_NODES]; /* exact, or an upper bound in a place with highest inlets */
    bool is_dear;               /* given up: it cannot come below the limit */
    bool
        is_early; /* tried no further than its peaks: what survives of it is a bound, and so are outlets on the grid */
    /* In a place with highest inlets: all that may stand second at these set-points, the cheapest first. The pick's
     * second is the first of them. */
    const qll_second *seconds; /* [second_count] */
    size_t second_count;
    size_t placing;               /* as in qll_marks */
    double open_share[QLL_NODES]; /* of what flows, where both are surely open */
    size_t open_from;             /* as in a hint */
    double floor;                 /* what of its survival is that of the peaks: qll_peaks_floor() */
    double gives_pa, needs_pa;    /* as in qll_half */
    qll_inlets outlets;           /* lives until the next trial */
    const double *
        outlets_most_pa; /* early: those of outlets on the grid are at least, these at most; NULL = exact */
} qll_trial;

#endif
