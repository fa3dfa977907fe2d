/* docs/theory/score.md; every weight here is our assumption. */
#include "station/score.h"

#include <math.h>

/* Bounds of the terms; they add up to QLL_PENALTY_MOST. */
#define QLL_VELOCITY_MOST   2.0
#define QLL_RATIO_MOST      2.0
#define QLL_CAVITATION_MOST 3.0

/* Margin at which the cavitation term begins and its distance to onset. */
#define QLL_CAVITATION_FROM 0.8
#define QLL_CAVITATION_SPAN 0.2
/* Above the band counts so many times below it. */
#define QLL_VELOCITY_ABOVE  2.0
#define QLL_WEAR_SPEED_MOST 4.0
#define QLL_WEAR_CAVITATION 4.0
/* Of a valve of 25.4 mm in the money of the catalogue, growing with this power of the size: roughly
 * how lists of plumbing valves grow. */
#define QLL_PRICE_ONE_INCH  150.0
#define QLL_PRICE_POWER     1.5
#define QLL_INCH_M          0.0254

static double between(double value, double most)
{
    return fmin(fmax(value, 0.0), most);
}

static double velocity_term(double velocity_m_s, const qll_limits *limits)
{
    double below = (limits->velocity_low_m_s - velocity_m_s) / limits->velocity_low_m_s;
    double above = (velocity_m_s - limits->velocity_high_m_s) / limits->velocity_high_m_s;
    return between(below, 1.0) + between(QLL_VELOCITY_ABOVE * above, QLL_VELOCITY_MOST);
}

static double unstable_term(const qll_branch_state *branch)
{
    if (branch->stable) {
        return 0.0;
    }
    return 1.0 - 0.5 * branch->flow_m3s / branch->stable_flow_m3s;
}

/* The sums of one stage; each branch by its share of the water. */
typedef struct stage_terms {
    double noise, wear;
} stage_terms;

static stage_terms terms_of(const qll_branch_state *branches, size_t count, double flow_m3s,
                            double ratio_gauge, const qll_limits *limits)
{
    stage_terms terms = {0.0, 0.0};
    for (size_t j = 0; j < count; j++) {
        if (!branches[j].working) {
            continue;
        }
        double share = fmin(branches[j].flow_m3s / flow_m3s, 1.0);
        double margin = branches[j].cavitation.margin;
        double speed = branches[j].velocity_m_s / limits->velocity_high_m_s;
        terms.noise += share * velocity_term(branches[j].velocity_m_s, limits);
        terms.noise +=
            share
            * between((margin - QLL_CAVITATION_FROM) / QLL_CAVITATION_SPAN, QLL_CAVITATION_MOST);
        terms.wear += share * fmin(speed * speed, QLL_WEAR_SPEED_MOST);
        terms.wear += share * between(QLL_WEAR_CAVITATION * (margin - 1.0), QLL_WEAR_CAVITATION);
    }
    double unstable = unstable_term(&branches[qll_in_charge(branches, count)]);
    double over = (ratio_gauge - limits->ratio_preferred)
                  / fmax(limits->ratio_max - limits->ratio_preferred, 0.1);
    terms.noise += between(over, QLL_RATIO_MOST) + unstable;
    terms.noise += qll_all_full(branches, count) ? 1.0 : 0.0;
    terms.noise = fmin(terms.noise, QLL_PENALTY_MOST);
    terms.wear += unstable;
    return terms;
}

qll_penalty qll_point_penalty(const qll_station *station, const qll_site *site,
                              const qll_operating_point *point)
{
    if (!point->passes) {
        return (qll_penalty){.noise = QLL_PENALTY_MOST,
                             .unsteady_pa = site->set_pa_gauge,
                             .wear = QLL_PENALTY_MOST * (double)station->stage_count};
    }
    qll_penalty penalty = {.unsteady_pa =
                               fabs(point->outlet_pa - site->barometric_pa - site->set_pa_gauge)};
    for (size_t k = 0; k < station->stage_count; k++) {
        double ratio = qll_gauge_ratio(point->stage_inlet_pa[k], point->stage_outlet_pa[k],
                                       site->barometric_pa);
        stage_terms terms = terms_of(point->branches[k], station->stages[k].branch_count,
                                     point->flow_m3s, ratio, &site->limits);
        penalty.noise = fmax(penalty.noise, terms.noise); /* the loudest stage is heard */
        penalty.wear += terms.wear;
    }
    return penalty;
}

double qll_point_weight(const qll_duty *duty, size_t supply, size_t flow)
{
    double flowing = 1.0 - duty->idle_share;
    double time = flowing > 0.0 ? duty->weight_time[flow] / flowing : 0.0;
    return duty->supply_weight[supply] * 0.5 * (time + duty->weight_volume[flow]);
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
