/* docs/theory/score.md; every weight here is our assumption. */
#include "station/score.h"

#include "base/customary.h"
#include "station/branch_load.h"

#include <math.h>

/* Bounds of the terms; they add up to QLL_PENALTY_MOST. */
#define QLL_VELOCITY_MOST   2.0
#define QLL_RATIO_MOST      2.0
#define QLL_CAVITATION_MOST 3.0

/* Margin at which the cavitation term begins; it is 1 at onset. */
#define QLL_CAVITATION_FROM  0.8
#define QLL_CAVITATION_SLOPE 5.0
/* Above the band counts so many times below it. */
#define QLL_VELOCITY_ABOVE   2.0
#define QLL_WEAR_SPEED_MOST  4.0
#define QLL_WEAR_CAVITATION  4.0
/* Of a valve of 25.4 mm in the money of the catalogue, growing with this power of the size: roughly
 * how lists of plumbing valves grow. */
#define QLL_PRICE_ONE_INCH   150.0
#define QLL_PRICE_POWER      1.5

/* A value that is no number counts as nothing below and as the most above, in all three. */
static inline double less_of(double value, double most)
{
    return value < most ? value : most;
}

static inline double between(double value, double most)
{
    return value > 0.0 ? less_of(value, most) : 0.0;
}

static inline double more_of(double a, double b)
{
    return a > b ? a : b;
}

qll_yardstick qll_yardstick_of(const qll_site *site)
{
    const qll_limits *limits = &site->limits;
    double ratio_span = more_of(limits->ratio_max - limits->ratio_preferred, 0.1);
    return (qll_yardstick){.barometric_pa = site->barometric_pa,
                           .set_pa_gauge = site->set_pa_gauge,
                           .velocity_low_m_s = limits->velocity_low_m_s,
                           .per_velocity_low = 1.0 / limits->velocity_low_m_s,
                           .velocity_high_m_s = limits->velocity_high_m_s,
                           .per_velocity_high = 1.0 / limits->velocity_high_m_s,
                           .ratio_preferred = limits->ratio_preferred,
                           .per_ratio_span = 1.0 / ratio_span};
}

static inline double velocity_term(double velocity_m_s, const qll_yardstick *by)
{
    double below = (by->velocity_low_m_s - velocity_m_s) * by->per_velocity_low;
    double above = (velocity_m_s - by->velocity_high_m_s) * by->per_velocity_high;
    return between(below, 1.0) + between(QLL_VELOCITY_ABOVE * above, QLL_VELOCITY_MOST);
}

/* The sums of one stage at one point, each branch by its share of the water. Branches are added one by
 * one, then what is of the whole stage. */
typedef struct stage_terms {
    double per_flow; /* of the station's */
    double noise, wear;
    double charge_flow_m3s, unstable; /* of the branch in charge, as by qll_in_charge() */
    bool all_full;
} stage_terms;

static inline stage_terms terms_begin(double flow_m3s)
{
    /* At no flow no branch works, and there is nothing to share. */
    return (stage_terms){.per_flow = flow_m3s > 0.0 ? 1.0 / flow_m3s : 0.0,
                         .charge_flow_m3s = -1.0,
                         .all_full = true};
}

static inline void add_branch(stage_terms *terms, const qll_branch_load *load, double margin,
                              const qll_yardstick *by)
{
    terms->all_full = terms->all_full && load->full_travel;
    if (load->flow_m3s > terms->charge_flow_m3s) {
        terms->charge_flow_m3s = load->flow_m3s;
        terms->unstable = load->stable ? 0.0 : 1.0 - 0.5 * load->flow_m3s / load->stable_flow_m3s;
    }
    if (load->working) {
        double share = less_of(load->flow_m3s * terms->per_flow, 1.0);
        double speed = load->velocity_m_s * by->per_velocity_high;
        double cavitation = (margin - QLL_CAVITATION_FROM) * QLL_CAVITATION_SLOPE;
        terms->noise +=
            share
            * (velocity_term(load->velocity_m_s, by) + between(cavitation, QLL_CAVITATION_MOST));
        terms->wear += share
                       * (less_of(speed * speed, QLL_WEAR_SPEED_MOST)
                          + between(QLL_WEAR_CAVITATION * (margin - 1.0), QLL_WEAR_CAVITATION));
    }
}

static inline void add_whole_stage(stage_terms *terms, double ratio_gauge, const qll_yardstick *by)
{
    double over = (ratio_gauge - by->ratio_preferred) * by->per_ratio_span;
    terms->noise += between(over, QLL_RATIO_MOST) + terms->unstable;
    terms->noise += terms->all_full ? 1.0 : 0.0;
    terms->noise = less_of(terms->noise, QLL_PENALTY_MOST);
    terms->wear += terms->unstable;
}

static inline double unsteady_of(const qll_yardstick *by, double outlet_pa)
{
    return fabs(outlet_pa - by->barometric_pa - by->set_pa_gauge);
}

static qll_penalty penalty_unpassed(const qll_yardstick *by, size_t stage_count)
{
    return (qll_penalty){.noise = QLL_PENALTY_MOST,
                         .unsteady_pa = by->set_pa_gauge,
                         .wear = QLL_PENALTY_MOST * (double)stage_count};
}

qll_penalty qll_point_penalty(const qll_station *station, const qll_site *site,
                              const qll_operating_point *point)
{
    const qll_yardstick by = qll_yardstick_of(site);
    if (!point->passes) {
        return penalty_unpassed(&by, station->stage_count);
    }
    qll_penalty penalty = {.unsteady_pa = unsteady_of(&by, point->outlet_pa)};
    for (size_t k = 0; k < station->stage_count; k++) {
        stage_terms terms = terms_begin(point->flow_m3s);
        for (size_t j = 0; j < station->stages[k].branch_count; j++) {
            const qll_branch_state *state = &point->branches[k][j];
            const qll_branch_load load = {.flow_m3s = state->flow_m3s,
                                          .stable_flow_m3s = state->stable_flow_m3s,
                                          .velocity_m_s = state->velocity_m_s,
                                          .working = state->working,
                                          .stable = state->stable,
                                          .full_travel = state->full_travel};
            add_branch(&terms, &load, state->cavitation.margin, &by);
        }
        double ratio_gauge =
            qll_gauge_ratio(point->stage_inlet_pa[k], point->stage_outlet_pa[k], by.barometric_pa);
        add_whole_stage(&terms, ratio_gauge, &by);
        penalty.noise = more_of(penalty.noise, terms.noise); /* the loudest stage is heard */
        penalty.wear += terms.wear;
    }
    return penalty;
}

qll_penalty qll_stage_penalty(const qll_stage_solver *solver, const qll_yardstick *yardstick,
                              double inlet_pa, double flow_m3s, const qll_stage_point *solved)
{
    if (!solved->passes) {
        return penalty_unpassed(yardstick, 1);
    }
    const qll_stage_drop at = qll_stage_drop_of(solver, inlet_pa, flow_m3s, solved->outlet_pa);
    stage_terms terms = terms_begin(flow_m3s);
    for (size_t j = 0; j < solver->stage->branch_count; j++) {
        const qll_branch_load load = qll_branch_load_of(solver, j, &at);
        double margin = 0.0;
        if (load.working) {
            const qll_cavitation_case own = qll_branch_own_case(solver, j, &at, &load);
            margin = qll_cavitation_margin(&own);
        }
        add_branch(&terms, &load, margin, yardstick);
    }
    add_whole_stage(&terms, qll_gauge_ratio(inlet_pa, at.outlet_pa, yardstick->barometric_pa),
                    yardstick);
    return (qll_penalty){.noise = terms.noise,
                         .unsteady_pa = unsteady_of(yardstick, at.outlet_pa),
                         .wear = terms.wear};
}

double qll_point_weight(const qll_duty *duty, size_t supply, size_t flow)
{
    double flowing = 1.0 - duty->idle_share;
    double time = flowing > 0.0 ? duty->weight_time[flow] / flowing : 0.0;
    return duty->supply_weight[supply] * 0.5 * (time + duty->weight_volume[flow]);
}

double qll_station_list_price(const qll_station *station)
{
    double price = 0.0;
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            price += station->stages[s].branches[b].valve->price;
        }
    }
    return price;
}

double qll_station_price(const qll_station *station)
{
    double price = 0.0;
    for (size_t k = 0; k < station->stage_count; k++) {
        for (size_t j = 0; j < station->stages[k].branch_count; j++) {
            const qll_valve *valve = station->stages[k].branches[j].valve;
            price += isnan(valve->price)
                         ? QLL_PRICE_ONE_INCH * pow(valve->nominal_m / QLL_INCH_M, QLL_PRICE_POWER)
                         : valve->price;
        }
    }
    return price;
}
