/* The estimates of a scenario's peak while they are being put together. */
#ifndef QUELL_DEMAND_PEAKS_H
#define QUELL_DEMAND_PEAKS_H

#include "demand/demand.h"

/** Remarks in the order in which they were made. */
typedef struct qll_remarks {
    const qll_remark *first;
    qll_remark *last;
} qll_remarks;

/** Estimates by method, and for a method that does not apply the reason. */
typedef struct qll_peaks {
    const qll_scenario *scenario;
    qll_arena *arena;
    double continuous_m3s; /* the greatest sum of continuous flows of the day */
    bool applies[QLL_PEAK_METHOD_COUNT];
    qll_peak_estimate estimates[QLL_PEAK_METHOD_COUNT];
    const qll_remark *reasons[QLL_PEAK_METHOD_COUNT];
    const qll_remark
        *beyond_code;   /* the fixtures count more than the code's table holds; else NULL */
    qll_scenario apart; /* the scenario with its groups of fixtures taken apart */
    double groups;      /* how many were */
} qll_peaks;

/** A copy of @p remark in the arena; another where there is no room, never NULL. */
const qll_remark *qll_peaks_remark(qll_peaks *all, qll_remark remark);

/** Adds @p remark to @p list where there is room. */
void qll_peaks_note(qll_peaks *all, qll_remarks *list, qll_remark remark);

/** Adds an estimate; its peak must be finite. */
void qll_peaks_add(qll_peaks *all, qll_peak_estimate estimate);

/** Notes that groups of fixtures were taken apart, where there are any. */
void qll_peaks_note_apart(qll_peaks *all, qll_remarks *list);

/** Notes that continuous flows are added, where there are any. */
void qll_peaks_note_continuous(qll_peaks *all, qll_remarks *list);

/* Each adds its methods' estimates or reasons; QLL_OK or QLL_NO_MEMORY. */

/** fixture-units IPC and UPC (estimate_units.c). */
QLL_MUST_USE qll_status qll_estimate_units(qll_peaks *all);

/** simultaneous-use and normal-approximation (estimate_use.c). */
QLL_MUST_USE qll_status qll_estimate_use(qll_peaks *all, qll_simultaneous *use);

/** din-1988-300 (estimate_din.c). */
QLL_MUST_USE qll_status qll_estimate_din(qll_peaks *all);

/** loading-units EN 806-3 and BS 6700 (estimate_loading.c). */
void qll_estimate_loading(qll_peaks *all, qll_loading_sum *sums);

/** gallons-per-fixture (estimate_per_fixture.c). */
QLL_MUST_USE qll_status qll_estimate_per_fixture(qll_peaks *all);

/** pulse-model and given (estimate_day.c). */
void qll_estimate_day(qll_peaks *all, const qll_pulse_day *day);

/** Of each flow by the clock that is worth it: does it meet the busiest hour, and what is left to be
 * delivered where it is taken off before the station (clock.c). The estimates must be listed. */
void qll_remark_clock(qll_peaks *all, const qll_demand *demand, qll_remarks *remarks);

/** People, homes and fixtures that can hardly belong together (proportion.c). */
void qll_remark_proportion(qll_peaks *all, qll_remarks *warnings);

/** metered (estimate_day.c). */
QLL_MUST_USE qll_status qll_estimate_metered(qll_peaks *all, qll_resolved *resolved);

#endif
