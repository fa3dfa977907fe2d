/* A place for a stage: what comes to it, what it is meant to hold, and what else the station has. */
#ifndef QUELL_SEARCH_STAGE_PLACE_H
#define QUELL_SEARCH_STAGE_PLACE_H

#include "search/pool.h"

/** All absolute; NaN where what stands before cannot pass the flow. */
typedef struct qll_inlets {
    const double *grid_pa; /* [supply * flow_count + flow] */
    const double *peak_pa; /* [scenario * QLL_SUPPLY_LEVELS + supply] */
    double rest_pa;        /* no flow, highest supply */
} qll_inlets;

typedef struct qll_stage_place {
    qll_inlets inlets;
    /* A bound for all inlets between inlets and these, if not NULL: what is made of it is at most what
     * any of them gives. */
    const qll_inlets *highest;
    double set_inlet_pa_gauge;          /* when the valves are set */
    double low_pa_gauge, high_pa_gauge; /* inlets at which set-points must stay apart */
    double wanted_pa_gauge;
    double clear_pa_gauge; /* every set-point less its fall-off and hysteresis is at least this */
    bool is_last;
    bool is_first;
} qll_stage_place;

/** What else there is of the station: the rest of its cost, and what survives there. */
typedef struct qll_rest_of_station {
    double cost;
    double dearest; /* of its parts */
    double survival[QLL_NODES];
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

/** A pick in its place. */
typedef struct qll_trial {
    qll_pick pick;
    double cost; /* of its parts */
    double dearest;
    double survival[QLL_NODES]; /* exact, or an upper bound in a place with highest inlets */
    bool is_dear;               /* given up: it cannot come below the limit */
    qll_inlets outlets;         /* lives until the next trial */
} qll_trial;

#endif
