/* What is not known, as fixed nodes: docs/theory/recommendation.md, 3. */
#ifndef QUELL_STATION_UNKNOWNS_H
#define QUELL_STATION_UNKNOWNS_H

#include "station/duty.h"

#define QLL_DEMAND_NODES  5
#define QLL_SUPPLY_NODES  3
#define QLL_SUPPLY_LEVELS 3
/* Shared nodes: demand varies fastest within a supply node. */
#define QLL_NODES         ((size_t)QLL_DEMAND_NODES * QLL_SUPPLY_NODES)
/* What is each valve's own: least stable flow, xFz. */
#define QLL_OWN_NODES     4

/** The shared nodes over a duty: how they weigh its points. */
typedef struct qll_unknowns {
    size_t flow_count;
    /* [flow][demand node]: half the share of the flowing time, half that of the water */
    double (*flow_weight)[QLL_DEMAND_NODES];
    const bool *has_weight; /* [flow] 1e-6 or more at any node; others are left out */
    double supply_weight[QLL_SUPPLY_NODES][QLL_SUPPLY_LEVELS];
    double chance[QLL_NODES]; /* [supply node * QLL_DEMAND_NODES + demand node] */
    /* standard normal deviates of what is each valve's own, equally likely */
    double own_deviate[QLL_OWN_NODES];
} qll_unknowns;

/**
 * The nodes for @p duty, whose demand is moved by @p demand_factor as a whole (1 = as given). Lives in
 * @p arena. QLL_OK or QLL_NO_MEMORY.
 */
QLL_MUST_USE qll_status qll_unknowns_make(const qll_duty *duty, double demand_factor,
                                          qll_arena *arena, qll_unknowns *made);

/**
 * The same for the nominal case: demand as estimated, the supply's usual day, valves as their sheets or the middle of their
 * kind have them. Every node is that one.
 */
QLL_MUST_USE qll_status qll_unknowns_nominal(const qll_duty *duty, qll_arena *arena,
                                             qll_unknowns *made);

/** The weight of a point at a shared node. */
static inline double qll_node_weight(const qll_unknowns *unknowns, size_t node, size_t supply,
                                     size_t flow)
{
    return unknowns->supply_weight[node / QLL_DEMAND_NODES][supply]
           * unknowns->flow_weight[flow][node % QLL_DEMAND_NODES];
}

#endif
