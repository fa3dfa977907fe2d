/* What is worked out of one scenario's demand for those who say it. */
#ifndef QUELL_FINDINGS_SCENARIO_FIGURES_H
#define QUELL_FINDINGS_SCENARIO_FIGURES_H

#include "demand/change.h"

#define QLL_FLOW_QUANTILES 6

/** A flow that is not passed for a share of the time. */
typedef struct qll_flow_quantile {
    double share, flow_m3s;
    double of_peak; /* the flow as a share of the design peak of the method */
} qll_flow_quantile;

typedef struct qll_scenario_figures {
    qll_flow_quantile quantiles[QLL_FLOW_QUANTILES]; /* by rising share */
    double seldom_more_m3s;                          /* not passed for 99 % of the time */
    qll_demand_change change;                        /* in place of the first scenario */
} qll_scenario_figures;

#endif
