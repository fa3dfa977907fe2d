/* What draws water over a day: a scenario's uses, the visits they come in and their hours, read from
 * data/enduse.csv, data/visits.csv and data/diurnal.csv. The exact pulse model and the simulation both
 * start from it. */
#ifndef QUELL_DEMAND_DAY_MODEL_H
#define QUELL_DEMAND_DAY_MODEL_H

#include "base/said.h"
#include "demand/outlet.h"
#include "demand/scenario.h"
#include "numeric/lognormal.h"
#include "numeric/probability.h"

#define QLL_DAY_S       86400.0
#define QLL_HOUR_S      3600.0
/* The building's hours, and those of uses that have their own. */
#define QLL_SHAPES_MOST 4

/** One kind of use: rectangles whose durations and flows are lognormal and independent. */
typedef struct qll_end_use {
    double busy; /* mean number running at once over the day */
    qll_lognormal duration_s;
    qll_lognormal flow_m3s;
    size_t shape; /* whose hours */
} qll_end_use;

/** How often a kind of use comes in a visit. */
typedef enum qll_count_law {
    QLL_COUNT_FIXED,
    QLL_COUNT_POISSON,
    QLL_COUNT_GEOMETRIC, /* from 1 */
} qll_count_law;

/** When a use of a visit starts after the visit does. */
typedef enum qll_offset_law {
    QLL_OFFSET_NONE,
    QLL_OFFSET_EXPONENTIAL,
    QLL_OFFSET_UNIFORM, /* from 0 */
} qll_offset_law;

typedef struct qll_visit_part {
    size_t use;
    qll_count_law count;
    double count_mean;
    qll_offset_law offset;
    double offset_s; /* mean, or the longest of a uniform one */
} qll_visit_part;

#define QLL_VISIT_PARTS_MOST 4

/** Uses that come together. A use that comes alone is a visit of one part, once, at once. */
typedef struct qll_visit {
    double per_day; /* of the whole building, over a day of mean multiplier 1 */
    size_t shape;   /* whose hours */
    qll_visit_part parts[QLL_VISIT_PARTS_MOST];
    size_t part_count;
} qll_visit;

/** A use that comes alone, once and at once. */
static inline bool qll_visit_is_alone(const qll_visit *visit)
{
    return visit->part_count == 1 && visit->parts[0].count == QLL_COUNT_FIXED
           && visit->parts[0].count_mean == 1.0;
}

/** Homes that leak all day, each with its own flow. */
typedef struct qll_leaks {
    double homes;
    double share; /* chance that a home leaks, under 1 */
    qll_lognormal flow_m3s;
} qll_leaks;

typedef struct qll_day_model {
    const qll_end_use *uses;
    size_t use_count;
    const qll_visit *visits;
    size_t visit_count;
    double busy; /* of all uses */
    qll_leaks leaks;
    double leak_m3s;       /* their mean */
    double steady_m3s[24]; /* what flows evenly within its hours */
    double shapes[QLL_SHAPES_MOST]
                 [24]; /* hourly multipliers, mean 1; the first is the building's */
    size_t shape_count;
    double day_cv, hour_cv;      /* of the factors common to all rates of a day, of an hour */
    double rate_cv;              /* of both together */
    double break_share, break_s; /* both 0 = no breaks */
    double step_m3s;             /* grid for the flows of uses */
    qll_said shape_source;       /* where the hours come from */
    bool is_other_day; /* the table has no hours for the day wanted; those of a weekday are taken */
} qll_day_model;

/**
 * The model of @p scenario: rates scaled to its day and volume, flows to its pressure, factors those
 * of the sum of independent homes (docs/theory/pulse.md, section "Days and hours that differ").
 *
 * @return QLL_OK or QLL_NO_MEMORY; lives in @p arena
 */
QLL_MUST_USE qll_status qll_day_model_make(const qll_scenario *scenario, qll_arena *arena,
                                           qll_day_model *model);

/** Factor on the rates inside a break and outside of it; both 1 without breaks. */
double qll_day_model_break_factor(const qll_day_model *model, bool inside);

/* ---- end_uses.c ---- */

/**
 * Fills in the uses, visits, leaks, steady flows and own hours of @p model, whose first shape is the
 * building's; @p day_share scales the day's water.
 *
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_day_model_uses(const qll_scenario *scenario, double day_share,
                                           qll_arena *arena, qll_day_model *model);

#endif
