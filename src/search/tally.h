/* Sums the objectives over the duty, point by point, so that they can be abandoned half way. */
#ifndef QUELL_SEARCH_TALLY_H
#define QUELL_SEARCH_TALLY_H

#include "search/front.h"
#include "station/score.h"

/** One supply level with one flow class. */
typedef struct qll_duty_point {
    size_t flow;
    double inlet_pa; /* of the station, absolute */
    double flow_m3s;
    double weight;
} qll_duty_point;

/** All points that have weight: the heaviest flow class first, its supply levels side by side. */
typedef struct qll_duty_points {
    const qll_duty_point *points;
    size_t count;
} qll_duty_points;

QLL_MUST_USE qll_status qll_duty_points_make(const qll_duty *duty, qll_arena *arena,
                                             qll_duty_points *points);

/** What one stage does at one point, before the weight of the point. */
typedef struct qll_tally_term {
    double outlet_pa;   /* absolute; NaN if it cannot pass the flow */
    double noise, wear; /* of this stage */
    double unsteady_pa; /* of the station, if this is its last stage */
} qll_tally_term;

/** A stage that can be tallied. Stays where it was made: solvers point into it. */
typedef struct qll_tally_stage {
    const qll_site *site;
    qll_yardstick yardstick;
    qll_stage stage;
    qll_stage_solver *solver;
} qll_tally_stage;

/** Lives in @p arena and points at @p choice and @p site. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_tally_stage_make(const qll_stage_choice *choice, const qll_site *site,
                                             qll_arena *arena, qll_tally_stage **made);

/** The term of a stage with @p inlet_pa (absolute) before it. */
qll_tally_term qll_tally_at(const qll_tally_stage *of, double inlet_pa, double flow_m3s);

/** The same for @p count points at once: faster. */
void qll_tally_many(const qll_tally_stage *of, const double *inlet_pa, const double *flow_m3s,
                    size_t count, qll_tally_term *terms);

/** Adds the term of a single stage with its weight. */
static inline void qll_tally_add(qll_objectives *sum, const qll_tally_term *term, double weight)
{
    sum->noise += weight * term->noise;
    sum->unsteady += weight * term->unsteady_pa;
    sum->wear += weight * term->wear;
}

/** The term of a whole station of two stages: the louder is heard, both wear, the last steadies. */
static inline qll_tally_term qll_tally_both(const qll_tally_term *first, const qll_tally_term *last)
{
    /* As qll_point_penalty() does for the stages of one station. */
    return (qll_tally_term){.outlet_pa = last->outlet_pa,
                            .noise = first->noise > last->noise ? first->noise : last->noise,
                            .wear = first->wear + last->wear,
                            .unsteady_pa = last->unsteady_pa};
}

/** Sum of the prices of a stage's valves, estimates included. */
double qll_tally_price(const qll_stage_choice *choice);

#endif
