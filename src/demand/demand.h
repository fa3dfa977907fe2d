/* How much water, when: the design peak by every method that applies, and the flow duration. */
#ifndef QUELL_DEMAND_DEMAND_H
#define QUELL_DEMAND_DEMAND_H

#include "demand/remark.h"
#include "demand/resolve.h"
#include "demand/scenario.h"
#include "numeric/curve.h"
#include "numeric/probability.h"

/* ---- fixture units (peak_units.c) ---- */

typedef enum qll_unit_column {
    QLL_COLUMN_TANK,
    QLL_COLUMN_FLUSHOMETER,
} qll_unit_column;

typedef struct qll_unit_curve {
    const qll_point *tank, *flushometer; /* x = wsfu, y = m3/s */
    size_t tank_count, flushometer_count;
} qll_unit_curve;

/** Reads IPC Table E103.3(3) from the embedded data/hunter_curve.csv. */
QLL_MUST_USE qll_status qll_unit_curve_read(qll_arena *arena, qll_unit_curve *curve);

/**
 * Flow for a sum of fixture units, m3/s: straight lines between the published points; below the
 * first point see docs/theory/fixture_units.md; NaN above 5000 wsfu or below 0.
 */
double qll_unit_curve_flow_m3s(const qll_unit_curve *curve, double units, qll_unit_column column);

/** The greatest sum of units that both columns hold a flow for. */
double qll_unit_curve_end(const qll_unit_curve *curve);

/** What the fixtures of a scenario count by IPC Table E103.3(2). */
typedef struct qll_unit_sum {
    double units;
    double private_units, public_units; /* their parts, by what each fixture counts as */
    double flushometer_units;           /* of what the flushometer column is for */
    double least_m3s;                   /* the largest flushometer alone; 0 = none */
    qll_unit_column column;             /* flushometer if at least one is there */
    bool takes_rooms; /* some count as private because they are taken to stand in guest or patient
                         rooms */
    const qll_fixture_kind *missing; /* the first the table does not list; NULL = all are counted */
    const qll_fixture_kind *other;   /* the first counted by its unit for the other occupancy */
    bool other_is_private;           /* what it should have counted as */
} qll_unit_sum;

/** Each fixture by qll_load_is_private(); by the other unit where the table has only that. */
qll_unit_sum qll_unit_sum_of(const qll_scenario *scenario);

/** The same bathrooms counted the other way. */
typedef struct qll_other_count {
    double rooms; /* bathrooms counted otherwise; 0 = there are none */
    double units; /* of the whole scenario then */
} qll_other_count;

/** Bathroom groups taken apart into their fixtures. */
qll_other_count qll_units_apart(const qll_scenario *scenario, double units);

/** Private closets, lavatories and baths or showers put together as bathroom groups, as many as there
 * are of the scarcest of the three. */
qll_other_count qll_units_grouped(const qll_scenario *scenario, double units);

/* ---- simultaneous use (peak_probability.c) ---- */

/** One group of like fixtures. */
typedef struct qll_use_group {
    size_t count;
    double flow_m3s;
    double probability;
} qll_use_group;

typedef struct qll_simultaneous {
    double flow_m3s;      /* quantile of the unconditional distribution */
    double flow_busy_m3s; /* quantile given that at least one runs; 0 if none ever does */
    double idle_share;    /* product of (1 - p)^n */
    double mean_m3s, deviation_m3s;
    double normal_m3s;      /* mean + z * deviation */
    double normal_busy_m3s; /* the same of the distribution given that at least one runs */
    double busy_count;      /* sum of n p */
    double step_m3s;        /* of the grid */
    double rounding_m3s; /* the grid moves the whole flow, and so each quantile, by less than this:
                            one step for each group whose flow is no multiple of it; 0 = exact */
    qll_distribution distribution;
} qll_simultaneous;

/**
 * The exact distribution of the flow of independent fixtures, Q = sum q Bin(n, p):
 * docs/theory/simultaneous_use.md.
 *
 * @param groups   flows over 0 and finite, probabilities from 0 to 1, at most
 *                 QLL_FIXTURE_COUNT_MAX fixtures in all
 * @param quantile over 0 and under 1
 * @return QLL_OK, QLL_NO_MEMORY, or QLL_REFUSED if an argument is outside its range
 */
QLL_MUST_USE qll_status qll_simultaneous_use(const qll_use_group *groups, size_t count,
                                             double quantile, qll_arena *arena,
                                             qll_simultaneous *result);

/* ---- the day (continuous.c, pulse.c) ---- */

/** A stretch of the day within one hour over which the same continuous flows run. */
typedef struct qll_steady {
    size_t hour;
    double duration_s;
    double break_s;  /* of it within the break that its hour begins with; 0 without breaks */
    double flow_m3s; /* their sum */
} qll_steady;

/** The greatest sum of continuous flows that run at once. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_continuous_peak(const qll_scenario *scenario, qll_arena *arena,
                                            double *flow_m3s);

/** The day in stretches, cut at every hour and wherever a continuous flow starts or stops. */
QLL_MUST_USE qll_status qll_steady_day(const qll_scenario *scenario, qll_arena *arena,
                                       const qll_steady **stretches, size_t *count);

/** One hour of the exact pulse model. All but the last two leave leaks, steady and continuous flows aside. */
typedef struct qll_pulse_hour {
    double busy_count; /* rho: mean number of uses running at once */
    double mean_m3s, deviation_m3s;
    double none_share;    /* nobody draws */
    double quantile_m3s;  /* the scenario's quantile of the hour, leak and continuous included */
    double flow_mean_m3s; /* of all that flows in the hour, leak and continuous included */
} qll_pulse_hour;

typedef struct qll_pulse_day {
    qll_pulse_hour hours[24];
    qll_duration duration; /* its idle share: nothing flows, not even a leak */
    double none_share;     /* of the day: nobody draws; leak and continuous flows aside */
    double weep_share;     /* nobody draws and no steady or continuous flow runs; a leak may */
    double no_leak_share;  /* chance that no home leaks */
    double leak_m3s;       /* mean of the leaks that are included */
    double volume_m3;      /* of the day */
    double step_m3s;       /* grid of the flows of uses */
    qll_said shape_source; /* where the hours come from */
    bool is_other_day;     /* no hours are known for the day wanted; those of a weekday are taken */
} qll_pulse_day;

/**
 * Exact flow duration of a day by the Poisson rectangular pulse model: compound Poisson for
 * each hour, leaks and continuous flows added, averaged over 24 hours (docs/theory/pulse.md).
 *
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_pulse_day_exact(const qll_scenario *scenario, qll_arena *arena,
                                            qll_pulse_day *day);

/* ---- the whole answer for one scenario (demand.c) ---- */

/**
 * A load as a group of fixtures: its flow at the scenario's outlet pressure, and for outlets that
 * run until a volume is drawn the probability of use that follows (docs/theory/fixture_pressure.md).
 * NaN where neither survey nor table has a value.
 */
qll_use_group qll_use_group_of(const qll_scenario *scenario, const qll_fixture_load *load);

/** Loading units of a scenario by one table. */
typedef struct qll_loading_sum {
    double units;
    const qll_fixture_kind *missing; /* the first the table does not list; NULL = all are counted */
} qll_loading_sum;

/** An estimate that lies more than a third of the design peak away from it. */
typedef struct qll_disagreement {
    size_t estimate; /* index */
    double ratio;    /* that estimate over the design peak */
} qll_disagreement;

typedef struct qll_peak_estimate {
    qll_peak_method method;
    double peak_m3s;
    qll_said table; /* code table or study, with edition */
    qll_said source;
    const qll_remark *notes; /* limits of validity, what was assumed; NULL = none */
} qll_peak_estimate;

typedef struct qll_demand {
    const qll_scenario *scenario;
    const qll_peak_estimate *estimates;
    size_t estimate_count;
    size_t chosen;                 /* index of the estimate the design uses */
    double peak_m3s;               /* continuous flows included */
    double continuous_peak_m3s;    /* the greatest sum of continuous flows of the day */
    qll_simultaneous simultaneous; /* all zero unless there is an estimate by it */
    qll_loading_sum loading[QLL_LOADING_TABLE_COUNT];
    const qll_disagreement *disagreements; /* with the chosen estimate */
    size_t disagreement_count;
    qll_resolved resolved;      /* what the readings of its log hide */
    const qll_remark *warnings; /* NULL = none */
    const qll_remark *remarks;  /* advice and what was taken for what; NULL = none */
    const qll_remark *refusal;  /* when it was refused: why */
    bool is_metered; /* the day is the log's: its hours may be NaN, its leak is not separate */
    qll_pulse_day day;
    /* Three kinds of nothing, shares of the day; NaN where a log does not tell them apart. */
    double no_flow_share;         /* no water at all */
    double no_fixture_open_share; /* leaks and scheduled flows may run all the same */
    double leak_only_share;       /* nothing but the leak runs; 0 without a leak */
} qll_demand;

/**
 * Demand of one scenario by every method that applies. Without a peak_method the design uses IPC
 * fixture units, which a reviewer accepts without being asked, and beyond the end of their table its
 * last value as a floor, with a warning; the meter's log where it rose higher or no fixtures are
 * listed, with a warning. The pulse model only where the survey names it. So one more fixture never
 * lowers the design peak (docs/theory/demand.md).
 *
 * @return QLL_OK, perhaps with warnings; QLL_NO_MEMORY; or QLL_REFUSED with demand->refusal if no
 *         method applies, or the one asked for does not; QLL_STOPPED by the log's goes_on()
 */
QLL_MUST_USE qll_status qll_demand_of(const qll_scenario *scenario, qll_arena *arena,
                                      qll_demand *demand);

#endif
