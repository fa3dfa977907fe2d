/* What one operating point of a station costs: the terms whose weighted sums are the objectives.
 * Every term is >= 0, so that a sum over some points is a lower bound of the sum over all. */
#ifndef QUELL_STATION_SCORE_H
#define QUELL_STATION_SCORE_H

#include "station/duty.h"
#include "station/operate.h"

typedef struct qll_penalty {
    double noise;       /* 0 to QLL_PENALTY_MOST */
    double unsteady_pa; /* distance of the outlet from what is wanted */
    double wear;        /* 0 to QLL_PENALTY_MOST times the number of stages */
} qll_penalty;

#define QLL_PENALTY_MOST 9.0

/** What the terms are measured by, worked out once per site; per_* are inverses. */
typedef struct qll_yardstick {
    double barometric_pa, set_pa_gauge;
    double velocity_low_m_s, per_velocity_low;
    double velocity_high_m_s, per_velocity_high;
    double ratio_preferred, per_ratio_span;
} qll_yardstick;

qll_yardstick qll_yardstick_of(const qll_site *site);

/** Penalties of one point with flow, before its weight of duty; docs/theory/score.md. */
qll_penalty qll_point_penalty(const qll_station *station, const qll_site *site,
                              const qll_operating_point *point);

/**
 * The same of a station of this one stage, from its solved point, without the states of its branches:
 * the search asks this for millions of points.
 */
qll_penalty qll_stage_penalty(const qll_stage_solver *solver, const qll_yardstick *yardstick,
                              double inlet_pa, double flow_m3s, const qll_stage_point *solved);

/**
 * Weight of class @p flow at supply level @p supply: half its share of the flowing time, half its
 * share of the water, times the weight of the level. Sums to 1 over all points.
 */
double qll_point_weight(const qll_duty *duty, size_t supply, size_t flow);

/** Price of all valves; an unknown price counts by the estimate of docs/theory/score.md. */
double qll_station_price(const qll_station *station);

/** Price of all valves by the catalogue; NaN if one has none. */
double qll_station_list_price(const qll_station *station);

#endif
