/* What a meter shows that damps: it comes to a new flow by one time constant (docs/theory/habits.md, 6). */
#ifndef QUELL_DEMAND_METER_LAG_H
#define QUELL_DEMAND_METER_LAG_H

#include <stddef.h>

/** A damped meter: 0 lag_s shows what flows. */
typedef struct qll_meter_lag {
    double lag_s;     /* 0 or more: 37 % of a step are still missing after it */
    double least_m3s; /* less than this it shows as nothing */
    double level_m3s; /* where it stands between readings; 0 to begin with */
} qll_meter_lag;

/**
 * Turns the flows of @p count readings, @p interval_s apart, into what the meter shows of them; a
 * series may be handed over in pieces, as @p meter keeps where it stands.
 */
void qll_meter_lag_show(qll_meter_lag *meter, double interval_s, double *flow_m3s, size_t count);

#endif
