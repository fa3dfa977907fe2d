/* What changes when a tenant changes. */
#ifndef QUELL_DEMAND_CHANGE_H
#define QUELL_DEMAND_CHANGE_H

#include "demand/demand.h"

typedef struct qll_demand_figures {
    double peak_m3s; /* the design peak */
    double mean_m3s;
    double quantile_m3s; /* not passed for 99 % of the day */
    double idle_share;   /* no flow at all */
    double below_share;  /* at or below the flow asked about */
} qll_demand_figures;

typedef struct qll_demand_change {
    qll_demand_figures before, after;
    double peak_ratio, mean_ratio, quantile_ratio; /* after over before; NaN where before is 0 */
    double below_rise;                             /* below_share after less before */
} qll_demand_change;

/**
 * A tenth of the greatest design peak: about the least stable flow of one direct acting valve sized
 * for that peak (docs/theory/stability.md, an estimate).
 */
double qll_demand_low_flow_m3s(const qll_demand *demands, size_t count);

/**
 * Two scenarios of one building, the second in place of the first.
 *
 * @param flow_m3s a flow of interest, for example the least at which a valve is stable
 */
qll_demand_change qll_demand_change_of(const qll_demand *before, const qll_demand *after,
                                       double flow_m3s);

#endif
