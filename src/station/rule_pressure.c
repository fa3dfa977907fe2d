/* Delivery, static, ratio: docs/theory/verdicts.md. */
#include "station/rules.h"

#include <math.h>

static double outlet_pa(const qll_operation *operation, const qll_operating_point *point)
{
    return point->passes ? point->outlet_pa : operation->site->barometric_pa;
}

/* Pressure in hand over what the station's outlet must have, Pa gauge, at a design peak and the lowest
 * supply; an outlet that cannot be held counts as none. */
static double in_hand_pa(const qll_operation *operation, size_t scenario, double need_pa_gauge)
{
    return outlet_pa(operation, &operation->peak_low[scenario]) - operation->site->barometric_pa
           - need_pa_gauge;
}

/* The hard rule: what the street cannot give is not asked for. */
static bool breaks(const qll_operation *operation, size_t scenario, double need_pa_gauge)
{
    const qll_operating_point *point = &operation->peak_low[scenario];
    double hard_pa = qll_site_hard_pa(operation->site, need_pa_gauge, point->inlet_pa);
    return !point->passes || qll_breaks_pa(hard_pa - point->outlet_pa);
}

static double wants_pa_gauge(const qll_operation *operation, size_t scenario, size_t outlet)
{
    return qll_outlet_wants_pa_gauge(operation->site, &operation->site->outlets[outlet],
                                     operation->duty->scenarios[scenario].peak_m3s);
}

static double all_need_pa_gauge(const qll_operation *operation, size_t scenario)
{
    return qll_site_need_pa_gauge(operation->site, operation->duty->scenarios[scenario].peak_m3s);
}

double qll_delivery_in_hand_pa(const qll_operation *operation, size_t scenario)
{
    return in_hand_pa(operation, scenario, all_need_pa_gauge(operation, scenario));
}

bool qll_delivery_breaks(const qll_operation *operation, size_t scenario)
{
    return breaks(operation, scenario, all_need_pa_gauge(operation, scenario));
}

/* Grade and weight of a need; returns what is in hand. */
static double weigh_need(const qll_operation *operation, size_t scenario, double need_pa_gauge,
                         qll_verdict *verdict)
{
    double in_hand = in_hand_pa(operation, scenario, need_pa_gauge);
    bool passes = operation->peak_low[scenario].passes;
    qll_verdict_weigh_at_most_caution(verdict, passes ? qll_short_chance(-in_hand) : 1.0);
    if (breaks(operation, scenario, need_pa_gauge)) {
        verdict->grade = QLL_GRADE_FAIL;
    }
    return in_hand;
}

/* What is said of a need: met, tight, short, or short because the street gives no more. */
static qll_finding say_need(const qll_operation *operation, const qll_verdict *verdict,
                            double in_hand_pa, qll_finding met)
{
    const qll_site *site = operation->site;
    if (verdict->grade == QLL_GRADE_GOOD) {
        return met;
    }
    if (verdict->grade == QLL_GRADE_CAUTION && !qll_breaks_pa(-in_hand_pa)) {
        return met + 1;
    }
    double inlet_pa = operation->peak_low[verdict->spot.scenario].inlet_pa;
    bool is_street =
        verdict->grade == QLL_GRADE_CAUTION && inlet_pa < site->set_pa_gauge + site->barometric_pa;
    return is_street ? met + 3 : met + 2;
}

static void judge_outlet(const qll_operation *operation, size_t scenario, size_t outlet,
                         qll_verdict *verdict)
{
    double wants_pa = wants_pa_gauge(operation, scenario, outlet);
    verdict->spot.outlet = outlet;
    if (isnan(wants_pa)) {
        qll_verdict_unknown(verdict, QLL_FINDING_DELIVERY_UNKNOWN);
        return;
    }
    verdict->value = weigh_need(operation, scenario, wants_pa, verdict);
    verdict->limit = 0.0;
    verdict->finding = say_need(operation, verdict, verdict->value, QLL_FINDING_DELIVERY_MET);
    if (verdict->finding == QLL_FINDING_DELIVERY_TIGHT && verdict->value < QLL_SHOWN_NOWHERE_PA) {
        verdict->finding = QLL_FINDING_DELIVERY_BARELY;
    }
}

void qll_judge_delivery(const qll_operation *operation, qll_verdict_list *list)
{
    const qll_site *site = operation->site;
    for (size_t s = 0; s < operation->duty->scenario_count; s++) {
        for (size_t i = 0; i < site->outlet_count; i++) {
            qll_verdict verdict = qll_verdict_new(QLL_RULE_DELIVERY, QLL_KIND_PRESSURE_DIFFERENCE);
            verdict.spot.scenario = s;
            judge_outlet(operation, s, i, &verdict);
            qll_verdict_put(list, &verdict, -verdict.value);
        }
        if (site->outlet_count == 0) {
            qll_verdict verdict = qll_verdict_new(QLL_RULE_DELIVERY, QLL_KIND_PRESSURE_DIFFERENCE);
            verdict.spot.scenario = s;
            double in_hand = weigh_need(operation, s, all_need_pa_gauge(operation, s), &verdict);
            verdict.limit = qll_site_falloff_pa(site);
            verdict.value = verdict.limit - in_hand;
            verdict.finding = say_need(operation, &verdict, in_hand, QLL_FINDING_FALLOFF_MET);
            qll_verdict_put(list, &verdict, verdict.value);
        }
    }
}

/* At the lowest outlet named, though it lie above the station; where none is, at the station. */
void qll_judge_static(const qll_operation *operation, qll_verdict_list *list)
{
    const qll_site *site = operation->site;
    qll_verdict verdict = qll_verdict_new(QLL_RULE_STATIC, QLL_KIND_PRESSURE);
    verdict.limit = site->static_max_pa_gauge;
    verdict.value = outlet_pa(operation, operation->still) - site->barometric_pa
                    + qll_site_lowest_column_pa(site);
    if (site->outlet_count > 0) {
        verdict.spot.outlet = qll_site_lowest_outlet(site);
    }
    double over_pa = verdict.value - verdict.limit;
    qll_verdict_weigh_at_most_caution(&verdict, qll_short_chance(over_pa));
    verdict.finding =
        verdict.grade == QLL_GRADE_GOOD ? QLL_FINDING_STATIC_MET : QLL_FINDING_STATIC_NEAR;
    if (qll_breaks_pa(over_pa)) {
        verdict.grade = QLL_GRADE_FAIL;
        verdict.finding = QLL_FINDING_STATIC_ABOVE;
    }
    qll_verdict_put(list, &verdict, verdict.value);
}

/* As the trade reads it: the highest static supply over the wanted pressure, and of stages over what the
 * stage is meant to hold. What the outlet falls off by at the peak is judged by delivery, and what it
 * does to the seat by cavitation. */
void qll_judge_ratio(const qll_operation *operation, qll_verdict_list *list)
{
    const qll_site *site = operation->site;
    const qll_limits *limits = &site->limits;
    double inlet_pa_gauge = operation->still->stage_inlet_pa[0] - site->barometric_pa;
    for (size_t k = 0; k < operation->station->stage_count; k++) {
        double held_pa_gauge = qll_held_pa_gauge(site, operation->station, k);
        qll_verdict verdict = qll_verdict_new(QLL_RULE_RATIO, QLL_KIND_NUMBER);
        verdict.finding = QLL_FINDING_RATIO_PREFERRED;
        verdict.value = qll_practice_ratio(inlet_pa_gauge, held_pa_gauge);
        verdict.limit = limits->ratio_preferred;
        verdict.spot.stage = k;
        if (!(verdict.value / limits->ratio_max - 1.0 <= QLL_PRACTICE_SLACK)) {
            verdict.grade = QLL_GRADE_FAIL;
            verdict.finding = QLL_FINDING_RATIO_ABOVE_MAX;
            verdict.limit = limits->ratio_max;
        } else if (verdict.value / limits->ratio_preferred - 1.0 > QLL_PRACTICE_SLACK) {
            verdict.grade = QLL_GRADE_CAUTION;
            verdict.finding = QLL_FINDING_RATIO_HIGH;
        }
        qll_verdict_put(list, &verdict, verdict.value);
        inlet_pa_gauge = held_pa_gauge;
    }
}
