/* What draws at a random moment: how many visits at once, and the flow of one of them. */
#ifndef QUELL_DEMAND_FLOW_LAW_H
#define QUELL_DEMAND_FLOW_LAW_H

#include "demand/day_model.h"

/** Of all visits that share their hours. */
typedef struct qll_flow_law {
    double flowing;        /* mean number of visits that draw at once, at multiplier 1 */
    double square_m6s2;    /* variance of the flow at multiplier 1, no factor */
    double kept;           /* share of flows that do not round to 0 on the grid ... */
    qll_distribution flow; /* ... and those alone are in it */
} qll_flow_law;

/**
 * The laws by hours, one for each of @p model's shapes: docs/theory/pulse.md, 11. There must be a
 * visit.
 *
 * @param laws room for QLL_SHAPES_MOST; where no visit has a shape, flowing is 0 and nothing else set
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_flow_laws_make(const qll_day_model *model, qll_arena *arena,
                                           qll_flow_law *laws);

/**
 * The flow of all leaking homes on the grid of @p model: a binomial number of leaks (pulse.md, 13).
 *
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_leak_law_make(const qll_day_model *model, qll_arena *arena,
                                          qll_distribution *flow);

/** Chance that no home leaks. */
double qll_no_leak_share(const qll_leaks *leaks);

#endif
