/* What draws water over a day: a scenario's uses and their hours, read from data/enduse.csv and
 * data/diurnal.csv. The exact pulse model and the simulation both start from it. */
#ifndef QUELL_DEMAND_DAY_MODEL_H
#define QUELL_DEMAND_DAY_MODEL_H

#include "demand/scenario.h"
#include "numeric/lognormal.h"
#include "numeric/probability.h"

#define QLL_DAY_S 86400.0

/** One kind of use: rectangles whose durations and flows are lognormal and independent. */
typedef struct qll_end_use {
    double busy; /* mean number running at once over the day */
    qll_lognormal duration_s;
    qll_lognormal flow_m3s;
} qll_end_use;

typedef struct qll_day_model {
    const qll_end_use *uses;
    size_t use_count;
    double busy; /* of all uses */
    double leak_m3s;
    double shape[24]; /* hourly multipliers, mean 1 */
    double greatest_shape;
    double rate_cv;              /* of the factor common to all rates of one day */
    double break_share, break_s; /* both 0 = no breaks */
    double step_m3s;             /* grid for the flows of uses */
    const char *shape_source;    /* where the hours come from */
    bool is_other_day; /* the table has no hours for the day wanted; those of a weekday are taken */
} qll_day_model;

/**
 * The model of @p scenario: rates scaled to its day and volume, flows to its pressure, rate_cv that
 * of the sum of independent homes (docs/theory/pulse.md, section "Days that differ").
 *
 * @return QLL_OK or QLL_NO_MEMORY; lives in @p arena
 */
QLL_MUST_USE qll_status qll_day_model_make(const qll_scenario *scenario, qll_arena *arena,
                                           qll_day_model *model);

/** Factor on the rates inside a break and outside of it; both 1 without breaks. */
double qll_day_model_break_factor(const qll_day_model *model, bool inside);

/**
 * Flow of one use that runs at a random moment, on the model's grid; @p kept is the share of uses
 * whose flow does not round to 0, and those alone are in the distribution. There must be a use.
 */
QLL_MUST_USE qll_status qll_day_model_flow(const qll_day_model *model, qll_arena *arena,
                                           qll_distribution *flow, double *kept);

#endif
