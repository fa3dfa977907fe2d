/* What the main can give: pressure against flow from a flow test. */
#ifndef QUELL_PHYSICS_SUPPLY_H
#define QUELL_PHYSICS_SUPPLY_H

#include "numeric/curve.h"

typedef struct qll_supply {
    const qll_point *test; /* x = flow m3/s rising from 0, y = gauge pressure Pa, not rising */
    size_t count;          /* at least 1 */
    double static_high_pa_gauge; /* the highest seen, at night; >= test[0].y */
    double static_low_pa_gauge;  /* the lowest static that must be reckoned with; <= test[0].y */
} qll_supply;

/**
 * Pressure of the main at @p flow_m3s when its static stands at @p static_pa_gauge: the test curve
 * shifted by static - test[0].y; between points and beyond the last the drop grows with flow to the
 * power 1.85 (common practice in flow tests); one point only = no drop. Gauge Pa; may come out
 * negative beyond what the main can give. NaN for a negative flow. docs/theory/supply.md.
 */
double qll_supply_pressure_pa_gauge(const qll_supply *supply, double static_pa_gauge,
                                    double flow_m3s);

/** A stretch of the test curve: its drop is base_pa + factor Q^QLL_SUPPLY_EXPONENT. */
typedef struct qll_supply_stretch {
    double from_m3s, drop_pa; /* where it begins, and the drop there */
    double base_pa, factor;
} qll_supply_stretch;

#define QLL_SUPPLY_EXPONENT 1.85

/** The stretches of @p supply, each ending where the next begins: before its first point, between its points, and beyond the
 * last. @p stretches has room for count + 1. */
void qll_supply_stretches(const qll_supply *supply, qll_supply_stretch *stretches);

#endif
