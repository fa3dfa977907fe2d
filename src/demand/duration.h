/* Flow duration: for every flow the share of time and of water at or below it. */
#ifndef QUELL_DEMAND_DURATION_H
#define QUELL_DEMAND_DURATION_H

#include "quell/arena.h"
#include "quell/problems.h"

/** For every flow the share of time and of water at or below it. */
typedef struct qll_duration_point {
    double flow_m3s;
    double time_share, volume_share; /* cumulative; the last is 1, 1 */
} qll_duration_point;

typedef struct qll_duration {
    const qll_duration_point *points; /* flows rising; the first may be flow 0 (idle) */
    size_t count;
    double idle_share; /* time with no flow at all */
    double mean_m3s;
} qll_duration;

/** A flow and the time it runs, in any unit of time. */
typedef struct qll_flow_time {
    double flow_m3s, time;
} qll_flow_time;

/**
 * Sorts @p cells (which are changed) and adds up their times and volumes; flows within 1e-12 m3/s
 * become one point. There must be some time in all.
 *
 * @return QLL_OK or QLL_NO_MEMORY; the points live in @p arena
 */
QLL_MUST_USE qll_status qll_duration_make(qll_flow_time *cells, size_t count, qll_arena *arena,
                                          qll_duration *duration);

/** Least flow with at least @p share of the time at or below it, with a guard of 1e-12. */
double qll_duration_quantile(const qll_duration *duration, double share);

/** Share of time at or below @p flow_m3s. */
double qll_duration_time_share(const qll_duration *duration, double flow_m3s);

#endif
