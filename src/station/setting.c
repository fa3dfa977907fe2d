#include "station/setting.h"

#include <math.h>

/* See setting.h: steady, and still close to the set-point. */
#define QLL_SETTING_FLOW_FACTOR 2.0

/* Halvings of a bracket: down to the last bits. */
#define QLL_HALVINGS 100

/* The least that is worth running: what a faucet gives at a good trickle. */
#define QLL_LEAST_M3S (0.5 * QLL_GPM_M3S)

/* Valves that share a flow: one alone, or all of a stage. */
typedef struct in_service {
    const qll_branch *branches;
    size_t count;
    double set_inlet_pa; /* absolute */
    const qll_site *site;
} in_service;

static in_service stage_of(const qll_station *station, const qll_site *site, size_t stage)
{
    const qll_stage *of = &station->stages[stage];
    return (in_service){of->branches, of->branch_count,
                        of->set_inlet_pa_gauge + site->barometric_pa, site};
}

/* The absolute set-point where the inlet stands at @p inlet_pa. */
static double set_pa_at(const in_service *valves, const qll_branch *branch, double inlet_pa)
{
    return branch->set_pa_gauge + valves->site->barometric_pa
           + branch->valve->inlet_effect * (inlet_pa - valves->set_inlet_pa);
}

static double passed_m3s(const in_service *valves, double inlet_pa, double outlet_pa)
{
    double sum_m3s = 0.0;
    for (size_t j = 0; j < valves->count; j++) {
        const qll_branch *branch = &valves->branches[j];
        double kv_m3h =
            qll_opening_law_kv(branch->law, set_pa_at(valves, branch, inlet_pa) - outlet_pa);
        if (branch->series_kv_m3h > 0.0) {
            double share = kv_m3h / branch->series_kv_m3h;
            kv_m3h /= sqrt(1.0 + share * share);
        }
        double recovery = branch->recovery > 0.0 ? branch->recovery : branch->valve->fl;
        sum_m3s += qll_valve_flow_m3s(kv_m3h, inlet_pa, outlet_pa, recovery, &valves->site->water);
    }
    return sum_m3s;
}

/* Absolute outlet at @p flow_m3s; NaN if so much does not pass, or the inlet is none. */
static double outlet_pa_at(const in_service *valves, double inlet_pa, double flow_m3s)
{
    double low_pa = 0.0;
    double high_pa = inlet_pa;
    if (!(inlet_pa > 0.0) || passed_m3s(valves, inlet_pa, low_pa) < flow_m3s) {
        return (double)NAN;
    }
    for (int i = 0; i < QLL_HALVINGS; i++) {
        double middle_pa = 0.5 * (low_pa + high_pa);
        if (passed_m3s(valves, inlet_pa, middle_pa) >= flow_m3s) {
            low_pa = middle_pa;
        } else {
            high_pa = middle_pa;
        }
    }
    return low_pa;
}

/* Absolute inlet of @p stage at @p flow_m3s and the middle supply; NaN if so much does not get there. */
static double inlet_pa_at(const qll_station *station, const qll_site *site, size_t stage,
                          double flow_m3s)
{
    const qll_supply *supply = &site->supply;
    double static_pa_gauge = 0.5 * (supply->static_low_pa_gauge + supply->static_high_pa_gauge);
    double inlet_pa = qll_site_inlet_pa(site, static_pa_gauge, flow_m3s);
    for (size_t k = 0; k < stage; k++) {
        const in_service before = stage_of(station, site, k);
        inlet_pa = outlet_pa_at(&before, inlet_pa, flow_m3s);
    }
    return inlet_pa;
}

/* True if the valve still throttles at @p flow_m3s: it is not wide open. */
static bool throttles(const qll_station *station, const in_service *alone, size_t stage,
                      double flow_m3s)
{
    const qll_branch *branch = alone->branches;
    double inlet_pa = inlet_pa_at(station, alone->site, stage, flow_m3s);
    double outlet_pa = outlet_pa_at(alone, inlet_pa, flow_m3s);
    return outlet_pa >= set_pa_at(alone, branch, inlet_pa) - branch->law->full_falloff_pa;
}

/* To what a flow of about @p flow_m3s is measured. */
static double step_at(double flow_m3s)
{
    return flow_m3s < QLL_BY_METER_M3S ? QLL_MEASURED_M3S : 4.0 * QLL_MEASURED_M3S;
}

/* @p wanted_m3s, or the most at which the valve still throttles, down to what can be measured; NaN if it
 * stands wide open at any flow. */
static double passable_m3s(const qll_station *station, const in_service *alone, size_t stage,
                           double wanted_m3s)
{
    if (throttles(station, alone, stage, wanted_m3s)) {
        return wanted_m3s;
    }
    double low_m3s = 0.0;
    double high_m3s = wanted_m3s;
    for (int i = 0; i < QLL_HALVINGS; i++) {
        double middle_m3s = 0.5 * (low_m3s + high_m3s);
        if (throttles(station, alone, stage, middle_m3s)) {
            low_m3s = middle_m3s;
        } else {
            high_m3s = middle_m3s;
        }
    }
    if (low_m3s < QLL_MEASURED_M3S) {
        return low_m3s > 0.0 ? low_m3s : (double)NAN;
    }
    const double step_m3s = step_at(low_m3s);
    return step_m3s * floor(low_m3s / step_m3s);
}

/* Twice the least stable flow, between what is worth running and the design peak, as it can be measured. */
static double wanted_m3s(double stable_m3s, double peak_m3s)
{
    double flow_m3s = fmax(QLL_SETTING_FLOW_FACTOR * stable_m3s, QLL_LEAST_M3S);
    if (flow_m3s >= peak_m3s) {
        return peak_m3s < QLL_LEAST_M3S
                   ? peak_m3s
                   : step_at(peak_m3s) * floor(peak_m3s / step_at(peak_m3s) + 1e-9);
    }
    const double step_m3s = step_at(flow_m3s);
    const double rounded_m3s = step_m3s * round(flow_m3s / step_m3s);
    return rounded_m3s > peak_m3s ? rounded_m3s - step_m3s : rounded_m3s;
}

static double lockup_pa(const in_service *valves, const qll_branch *branch, double inlet_pa)
{
    return set_pa_at(valves, branch, inlet_pa) + branch->valve->lockup_rise_pa;
}

/* What the branch holds at no flow where the street stands at @p static_pa_gauge; before it each stage holds what the
 * highest of its branches does. */
static double lockup_pa_gauge_at(const qll_station *station, const qll_site *site, size_t stage,
                                 size_t branch, double static_pa_gauge)
{
    double inlet_pa = qll_site_inlet_pa(site, static_pa_gauge, 0.0);
    for (size_t s = 0; s < stage; s++) {
        const in_service before = stage_of(station, site, s);
        double highest_pa = 0.0;
        for (size_t b = 0; b < before.count; b++) {
            highest_pa = fmax(highest_pa, lockup_pa(&before, &before.branches[b], inlet_pa));
        }
        inlet_pa = highest_pa;
    }
    const in_service of = stage_of(station, site, stage);
    return lockup_pa(&of, &of.branches[branch], inlet_pa) - site->barometric_pa;
}

double qll_stage_lockup_pa_gauge(const qll_station *station, const qll_site *site, size_t stage)
{
    double highest_pa_gauge = -INFINITY;
    for (size_t b = 0; b < station->stages[stage].branch_count; b++) {
        highest_pa_gauge =
            fmax(highest_pa_gauge,
                 lockup_pa_gauge_at(station, site, stage, b, site->supply.static_high_pa_gauge));
    }
    return highest_pa_gauge;
}

qll_setting qll_setting_of(const qll_station *station, const qll_site *site, double peak_m3s,
                           size_t stage, size_t branch)
{
    const qll_stage *of = &station->stages[stage];
    const qll_branch *set = &of->branches[branch];
    in_service alone = stage_of(station, site, stage);
    alone.branches = set;
    alone.count = 1;
    const qll_least_flow law = qll_valve_least_flow(set->valve);
    const qll_stability_here here =
        qll_stability_at(of->set_inlet_pa_gauge - set->set_pa_gauge, set->set_pa_gauge);
    double stable_m3s = qll_least_flow_m3s(&law, &here);
    double flow_m3s = passable_m3s(station, &alone, stage, wanted_m3s(stable_m3s, peak_m3s));
    double inlet_pa = inlet_pa_at(station, site, stage, flow_m3s);
    double reading_pa = outlet_pa_at(&alone, inlet_pa, flow_m3s);
    double higher_pa = outlet_pa_at(&alone, inlet_pa + 10.0 * QLL_PSI_PA, flow_m3s);
    return (qll_setting){
        .flow_m3s = flow_m3s,
        .inlet_pa_gauge = inlet_pa - site->barometric_pa,
        .reading_pa_gauge = reading_pa - site->barometric_pa,
        .correction_pa_per_10psi = higher_pa - reading_pa,
        .set_pa_gauge = set->set_pa_gauge,
        .lockup_pa_gauge = fmax(
            lockup_pa_gauge_at(station, site, stage, branch, site->supply.static_low_pa_gauge),
            lockup_pa_gauge_at(station, site, stage, branch, site->supply.static_high_pa_gauge)),
    };
}

/* A line of a gauge, as pressures are told. */
#define QLL_LINE_US_PA QLL_PSI_PA
#define QLL_LINE_SI_PA (0.1 * QLL_BAR_PA)

double qll_setting_most_pa_gauge(const qll_setting *setting, double tolerance_pa,
                                 qll_unit_system units)
{
    double line_pa = units == QLL_UNITS_SI ? QLL_LINE_SI_PA : QLL_LINE_US_PA;
    double most_pa_gauge =
        fmin(setting->reading_pa_gauge + tolerance_pa, setting->lockup_pa_gauge - line_pa);
    return fmax(most_pa_gauge, setting->reading_pa_gauge);
}
