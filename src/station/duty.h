/* All the flows and supply pressures a station will see, and how long it sees them. */
#ifndef QUELL_STATION_DUTY_H
#define QUELL_STATION_DUTY_H

#include "station/site.h"

/** What a scenario asks: its design peak and its flow duration as steps. */
typedef struct qll_duty_scenario {
    const char *name;
    double peak_m3s;      /* the design peak: what is designed for */
    double code_peak_m3s; /* of the method, whether the service can carry it or not */
    double idle_share;
    double weight;
    double volume_ln_sigma; /* of the logarithm of its people's volume; 0 = no table's default */
    const qll_point *time_at_or_below;   /* x = flow rising, y = cumulative share of all time */
    const qll_point *volume_at_or_below; /* same x, y = cumulative share of volume */
    size_t count;
} qll_duty_scenario;

/**
 * One grid of flow classes for all scenarios, and for each supply level the inlet pressure at each
 * flow. Class f stands for the flows above the class before it up to its upper edge; its flow is
 * its water over its time, so that the sum of time share times flow is the mean flow. The last class
 * is the greatest design peak itself, even where no time is spent there; what flows above it is put
 * there too, its time kept and its water above the peak lost.
 */
typedef struct qll_duty {
    size_t flow_count;
    const double *flow_m3s; /* rising, all > 0; the last is the greatest design peak */
    size_t scenario_count;
    const qll_duty_scenario *scenarios;
    const double *time_share;    /* [scenario * flow_count + flow], of all time; + idle = 1 */
    const double *volume_share;  /* [scenario * flow_count + flow], sums to 1 */
    const double *weight_time;   /* [flow], scenarios merged by weight */
    const double *weight_volume; /* [flow] */
    double idle_share;           /* merged */
    size_t supply_count;         /* 3: low, middle, high */
    const double *supply_weight; /* 1/4, 1/2, 1/4 (our assumption) */
    const double *supply_static_pa_gauge;
    const double *inlet_pa;        /* [supply * flow_count + flow], absolute */
    const double *inlet_static_pa; /* [supply], absolute, at no flow */
    double peak_m3s;               /* greatest design peak of all scenarios */
    double service_flow_m3s;       /* what the service can carry; NaN = not known */
} qll_duty;

/** Inlet of the first stage when its valves are set, gauge: the middle supply, no flow. */
static inline double qll_duty_set_inlet_pa_gauge(const qll_duty *duty, const qll_site *site)
{
    return duty->inlet_static_pa[duty->supply_count / 2] - site->barometric_pa;
}

/**
 * Builds the grid: @p class_count (>= 2) classes, all but the last evenly spaced in the logarithm of
 * flow from the smallest flow of any scenario (not below 1e-4 of the greatest design peak) up to the
 * greatest design peak (> 0). Supply levels: static_low, the mean of both, static_high, with weights
 * 1/4, 1/2, 1/4. docs/theory/duty.md.
 *
 * @param duty its arrays live in @p arena and it points at @p scenarios
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_duty_make(const qll_site *site, const qll_duty_scenario *scenarios,
                                      size_t scenario_count, size_t class_count, qll_arena *arena,
                                      qll_duty *duty);

#endif
