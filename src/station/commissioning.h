/* What the station must show on the day it is started: what is read, and what is acceptable. */
#ifndef QUELL_STATION_COMMISSIONING_H
#define QUELL_STATION_COMMISSIONING_H

#include "base/units.h"
#include "station/operate.h"

#define QLL_FALLOFF_TESTS 2

/** All valves in service, a steady flow running: what the gauges show. */
typedef struct qll_falloff_test {
    double flow_m3s;
    double inlet_pa_gauge, outlet_pa_gauge; /* expected; NaN = the flow cannot pass */
    double least_pa_gauge;                  /* least acceptable outlet; NaN as above */
} qll_falloff_test;

/** Limits are our assumption, round in the units of the sheet: a gauge has no line at 0.069 bar. */
typedef struct qll_commissioning {
    double set_tolerance_pa; /* either way of the reading a valve is set to */
    qll_falloff_test falloff[QLL_FALLOFF_TESTS];
    double creep_tight_pa; /* rise in 10 minutes, all shut, up to which a seat is tight */
    double creep_leaks_pa; /* and beyond which it leaks */
    double creep_draw_low_m3s, creep_draw_high_m3s; /* drawn before the creep test */
} qll_commissioning;

/** Fall-off up to this many times the expected one is acceptable (our assumption). */
#define QLL_FALLOFF_NORMAL 1.3

/**
 * The tests of a station by its @p points: the first without flow, then rising flow. Fall-off is tested
 * at the points nearest to a quarter and to half of the greatest flow, and counted from lock-up.
 *
 * @param count at least 2
 */
qll_commissioning qll_commissioning_of(const qll_operating_point *points, size_t count,
                                       double barometric_pa, qll_unit_system units);

#endif
