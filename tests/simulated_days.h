/* What many simulated days tell, by counting: the exact day and its percentiles are held against it. */
#ifndef QUELL_SIMULATED_DAYS_H
#define QUELL_SIMULATED_DAYS_H

#include "demand/simulate.h"

/** A figure of each day: over the days its mean, standard deviation and greatest. */
typedef struct qll_day_spread {
    double mean, deviation, greatest;
} qll_day_spread;

typedef struct qll_simulation {
    uint64_t seed;
    size_t days;          /* at least 1 */
    const double *shares; /* percentiles of a day, over 0 and up to 1 */
    size_t share_count;
    const double *averaging_s; /* whole seconds from 1 to 86400 */
    size_t averaging_count;
} qll_simulation;

typedef struct qll_simulated {
    size_t days;
    qll_duration duration;    /* of all days together */
    double none_share;        /* nobody draws */
    double hour_mean_m3s[24]; /* all flows */
    qll_day_spread volume_m3;
    const qll_day_spread *quantiles; /* one for each share: flows, m3/s; the error of the mean is
                                        deviation / sqrt(days) */
    const qll_day_spread *peaks; /* one for each averaging time: the greatest mean of a day, m3/s */
} qll_simulated;

/**
 * Simulates @p wanted->days days.
 *
 * @return QLL_OK, QLL_NO_MEMORY, or QLL_REFUSED if a share or averaging time is out of its range,
 *         there are no days, or a day has more than 1e8 uses
 */
QLL_MUST_USE qll_status qll_simulate(const qll_scenario *scenario, const qll_simulation *wanted,
                                     qll_arena *arena, qll_simulated *result);

#endif
