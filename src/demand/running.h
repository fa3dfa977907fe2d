/* How many uses of a visit run at each age of it (docs/theory/pulse.md, 11). */
#ifndef QUELL_DEMAND_RUNNING_H
#define QUELL_DEMAND_RUNNING_H

#include "demand/day_model.h"

/* Ages of a visit: every 5 s to 4 hours. */
#define QLL_AGE_STEP_S   5.0
#define QLL_AGE_COUNT    ((size_t)2881)
/* Uses of a kind that run at once in a visit; the probability of more is counted here. */
#define QLL_RUNNING_MOST 9

/** E[min(D, age)] at every age, s. */
void qll_limited_durations(qll_lognormal duration_s, double *limited_s);

/**
 * Chance at every age that one use of @p part runs, whose duration has these limited means: its sum
 * times the step is the mean duration, but for what outlasts the ages.
 */
void qll_running_chances(const qll_visit_part *part, const double *limited_s, double *chances);

/**
 * Chances that 0 to QLL_RUNNING_MOST of the part's uses run at once, where each does with
 * @p chance.
 */
void qll_running_counts(const qll_visit_part *part, double chance, double *counts);

/** Mean of K (K - 1), K the part's count. */
double qll_count_pairs(const qll_visit_part *part);

#endif
