/* Peak flow by DIN 1988-300 (docs/theory/din1988.md). */
#ifndef QUELL_DEMAND_DIN_H
#define QUELL_DEMAND_DIN_H

#include "base/said.h"
#include "demand/scenario.h"

/* The sums of calculation flows for which the formula holds: DIN 1988-300:2012-05 (from memory). */
#define QLL_DIN_LEAST_M3S 0.2e-3
#define QLL_DIN_MOST_M3S  500e-3

/** Constants of V_S = a (sum V_R)^b - c, flows in l/s. */
typedef struct qll_din1988 {
    qll_text_id says; /* what the standard calls the use; QLL_TEXT_NONE = it has no row for it */
    double a, b, c;
} qll_din1988;

/**
 * Reads the constants of the use called @p use in data/din1988.csv; result->use is NULL if it is
 * not there.
 *
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_din1988_read(const char *use, qll_arena *arena, qll_din1988 *result);

/** Peak flow for a sum of calculation flows, both m3/s; NaN outside 0.2 to 500 l/s. */
double qll_din1988_flow_m3s(const qll_din1988 *din, double sum_m3s);

/** What the fixtures of a scenario add up to. */
typedef struct qll_din1988_sum {
    double sum_m3s;
    double unit_m3s; /* two largest outlets of one usage unit: a home, else the whole scenario */
    const qll_fixture_kind *missing; /* the first without a calculation flow; NULL = none */
} qll_din1988_sum;

/** A flow of the survey's own stands in for the table's: makers' values come first. */
qll_din1988_sum qll_din1988_sum_of(const qll_scenario *scenario);

#endif
