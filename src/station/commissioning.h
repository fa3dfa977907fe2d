/* What the station must show on the day it is started: what is read, and what is acceptable. */
#ifndef QUELL_STATION_COMMISSIONING_H
#define QUELL_STATION_COMMISSIONING_H

#include "base/units.h"
#include "station/verdict.h"

#define QLL_FALLOFF_TESTS 2

/** All valves in service, a steady flow running: what the gauges show. */
typedef struct qll_falloff_test {
    double flow_m3s;
    double inlet_pa_gauge, outlet_pa_gauge; /* expected; NaN = the flow cannot pass */
    double least_pa_gauge;                  /* least acceptable outlet; NaN as above */
    double
        correction_pa_per_10psi; /* more at the outlet per 10 psi more at the inlet; NaN as above */
} qll_falloff_test;

/** Limits are our assumption, round in the units of the sheet: a gauge has no line at 0.069 bar. */
typedef struct qll_commissioning {
    double set_tolerance_pa; /* either way of the reading a valve is set to */
    qll_falloff_test falloff[QLL_FALLOFF_TESTS];
    double creep_tight_pa; /* rise in 10 minutes, all shut, up to which a seat is tight */
    double creep_leaks_pa; /* and beyond which it leaks */
    double creep_draw_low_m3s, creep_draw_high_m3s; /* drawn before the creep test */
} qll_commissioning;

/** The creep test, on every sheet: how long it runs before, when the outlet is read after a slow closing, and the second
 * reading where an expansion tank stays on the line. Why these: docs/theory/seat_leak.md. */
#define QLL_CREEP_DRAW_MIN 2
#define QLL_CREEP_FIRST_S  15
#define QLL_CREEP_LAST_MIN 10
#define QLL_CREEP_TANK_MIN 60

/** Fall-off up to this many times the expected one is acceptable (our assumption). */
#define QLL_FALLOFF_NORMAL 1.3

/**
 * The tests of @p station where the supply stands in the middle of its range. Fall-off is tested at about a quarter
 * and half of @p peak_m3s, or of twice the flow that the building can be made to draw (@p reach_m3s, INFINITY = any) where that is
 * less, as people read a flow in @p units, and counted from the outlet at no flow.
 *
 * @return QLL_OK or QLL_NO_MEMORY; @p arena is for scratch
 */
QLL_MUST_USE qll_status qll_commissioning_make(const qll_station *station, const qll_site *site,
                                               double peak_m3s, double reach_m3s,
                                               qll_unit_system units, qll_arena *arena,
                                               qll_commissioning *tests);

#endif
