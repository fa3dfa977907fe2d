/* The hard rules alone, tested where they bite: for a search, which cannot afford all verdicts of all
 * it tries. */
#ifndef QUELL_STATION_HARD_RULE_H
#define QUELL_STATION_HARD_RULE_H

#include "station/verdict.h"

/** The corners of a duty, solved for one station. */
typedef struct qll_corner_points {
    const qll_operating_point *peak_low; /* [scenario], its design peak at the lowest supply */
    const qll_operating_point *still;    /* no flow, highest supply */
} qll_corner_points;

/** Inlet pressure (absolute) of the station in such a corner. */
double qll_corner_peak_inlet_pa(const qll_site *site, const qll_duty *duty, size_t scenario);
double qll_corner_still_inlet_pa(const qll_duty *duty);

/**
 * The first hard rule that fails, in the order rating, static, delivery, capacity; QLL_RULE_COUNT if
 * none does. The verdicts are those of qll_station_assess().
 */
qll_rule qll_hard_rule_broken(const qll_station *station, const qll_site *site,
                              const qll_duty *duty, const qll_corner_points *corners);

/**
 * The same for a station that lacks its last stages, or its first: rating, then capacity. What fails
 * here fails in every station that has these stages.
 */
qll_rule qll_hard_rule_broken_by_stage(const qll_station *station, const qll_site *site,
                                       const qll_duty *duty, const qll_corner_points *corners);

#endif
