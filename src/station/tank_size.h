/* Sizes in which expansion tanks are sold: docs/theory/expansion.md, 11. */
#ifndef QUELL_STATION_TANK_SIZE_H
#define QUELL_STATION_TANK_SIZE_H

#include "base/units.h"

/** A tank that is there is enough with so much of what is needed: the figures are no better (our assumption). */
#define QLL_TANK_ENOUGH 0.95

/**
 * The smallest size sold that is no less than @p needed_m3, in US gallons or litres; NaN if none is so
 * large or @p needed_m3 is NaN. Round sizes of the trade, common practice, no source.
 */
double qll_tank_sold_m3(double needed_m3, qll_unit_system units);

/**
 * Whether a tank of @p needed_m3 would be fitted beside a heater of @p heater_m3: it holds no more than
 * the heater itself, or than a small tank, and is sold somewhere (our assumption). False for NaN.
 */
bool qll_tank_is_sensible(double needed_m3, double heater_m3);

#endif
