/* Delivery, static, ratio. */
#include "base/customary.h"
#include "station/rules.h"

#include <math.h>

/* A margin smaller than what a gauge is read to is none: 2 psi (our assumption). */
#define QLL_MARGIN_PA      (2.0 * QLL_PSI_PA)
/* Fall-off in the last tenth of what is permitted is tight (our assumption). */
#define QLL_FALLOFF_TIGHT  0.9
/* What two figures that should be equal may differ by in their last bits. */
#define QLL_RATIO_ROUNDING (1.0 + 1e-9)

static double outlet_pa_gauge(const qll_operation *operation, const qll_operating_point *point)
{
    return point->passes ? point->outlet_pa - operation->site->barometric_pa : 0.0;
}

double qll_delivery_margin_pa(const qll_operation *operation, size_t scenario, size_t outlet)
{
    const qll_site *site = operation->site;
    double wants_pa = qll_outlet_wants_pa_gauge(site, &site->outlets[outlet],
                                                operation->duty->scenarios[scenario].peak_m3s);
    return outlet_pa_gauge(operation, &operation->peak_low[scenario]) - wants_pa;
}

/* Here and below: what cannot be figured fails. */
static qll_grade margin_grade(double margin_pa)
{
    if (!(margin_pa >= 0.0)) {
        return QLL_GRADE_FAIL;
    }
    return margin_pa < QLL_MARGIN_PA ? QLL_GRADE_CAUTION : QLL_GRADE_GOOD;
}

static double falloff_pa(const qll_operation *operation, size_t scenario)
{
    return operation->site->set_pa_gauge
           - outlet_pa_gauge(operation, &operation->peak_low[scenario]);
}

static qll_grade falloff_grade(const qll_operation *operation, double falloff)
{
    double permitted = operation->site->limits.falloff_share * operation->site->set_pa_gauge;
    if (!(falloff <= permitted)) {
        return QLL_GRADE_FAIL;
    }
    return falloff > QLL_FALLOFF_TIGHT * permitted ? QLL_GRADE_CAUTION : QLL_GRADE_GOOD;
}

double qll_delivery_in_hand_pa(const qll_operation *operation, size_t scenario)
{
    const qll_site *site = operation->site;
    if (site->outlet_count == 0) {
        return site->limits.falloff_share * site->set_pa_gauge - falloff_pa(operation, scenario);
    }
    double least_pa = INFINITY;
    for (size_t i = 0; i < site->outlet_count; i++) {
        least_pa = fmin(least_pa, qll_delivery_margin_pa(operation, scenario, i));
    }
    return least_pa;
}

qll_grade qll_delivery_grade(const qll_operation *operation, size_t scenario)
{
    if (operation->site->outlet_count == 0) {
        return falloff_grade(operation, falloff_pa(operation, scenario));
    }
    qll_grade worst = QLL_GRADE_GOOD;
    for (size_t i = 0; i < operation->site->outlet_count; i++) {
        qll_grade grade = margin_grade(qll_delivery_margin_pa(operation, scenario, i));
        worst = grade > worst ? grade : worst;
    }
    return worst;
}

void qll_judge_delivery(const qll_operation *operation, qll_verdict_list *list)
{
    static const qll_finding margins[QLL_GRADE_COUNT] = {
        QLL_FINDING_DELIVERY_MET, QLL_FINDING_DELIVERY_TIGHT, QLL_FINDING_DELIVERY_SHORT};
    static const qll_finding falls[QLL_GRADE_COUNT] = {
        QLL_FINDING_FALLOFF_MET, QLL_FINDING_FALLOFF_TIGHT, QLL_FINDING_FALLOFF_ABOVE};
    const qll_site *site = operation->site;
    for (size_t s = 0; s < operation->duty->scenario_count; s++) {
        qll_verdict verdict = {.rule = QLL_RULE_DELIVERY,
                               .kind = QLL_KIND_PRESSURE_DIFFERENCE,
                               .value_at_peak = NAN,
                               .right_size_m = NAN,
                               .spot = QLL_SPOT_WHOLE};
        verdict.spot.scenario = s;
        for (size_t i = 0; i < site->outlet_count; i++) {
            verdict.value = qll_delivery_margin_pa(operation, s, i);
            verdict.grade = margin_grade(verdict.value);
            verdict.finding = margins[verdict.grade];
            verdict.spot.outlet = i;
            qll_verdict_put(list, &verdict, -verdict.value);
        }
        if (site->outlet_count == 0) {
            verdict.value = falloff_pa(operation, s);
            verdict.limit = site->limits.falloff_share * site->set_pa_gauge;
            verdict.grade = falloff_grade(operation, verdict.value);
            verdict.finding = falls[verdict.grade];
            qll_verdict_put(list, &verdict, verdict.value);
        }
    }
}

void qll_judge_static(const qll_operation *operation, qll_verdict_list *list)
{
    const qll_site *site = operation->site;
    double limit = site->static_max_pa_gauge;
    double value = outlet_pa_gauge(operation, operation->still) + qll_site_depth_pa(site);
    qll_verdict verdict = {.rule = QLL_RULE_STATIC,
                           .grade = QLL_GRADE_GOOD,
                           .finding = QLL_FINDING_STATIC_MET,
                           .value = value,
                           .limit = limit,
                           .kind = QLL_KIND_PRESSURE,
                           .value_at_peak = NAN,
                           .right_size_m = NAN,
                           .spot = QLL_SPOT_WHOLE};
    if (!(value <= limit)) {
        verdict.grade = QLL_GRADE_FAIL;
        verdict.finding = QLL_FINDING_STATIC_ABOVE;
    } else if (value > limit - QLL_MARGIN_PA) {
        verdict.grade = QLL_GRADE_CAUTION;
        verdict.finding = QLL_FINDING_STATIC_NEAR;
    }
    qll_verdict_put(list, &verdict, value);
}

/* As the trade reads it: the highest flowing inlet over the pressure the stage is set to. What the
 * outlet falls off by at the peak is judged by delivery, and what it does to the seat by cavitation.
 * A stage with several branches is set to its highest set-point. */
static double nominal_ratio(const qll_operation *operation, size_t stage)
{
    const qll_stage *of = &operation->station->stages[stage];
    const qll_duty *duty = operation->duty;
    const qll_operating_point *smallest =
        &operation->points[(duty->supply_count - 1) * duty->flow_count];
    double set_pa_gauge = of->branches[0].set_pa_gauge;
    for (size_t j = 1; j < of->branch_count; j++) {
        set_pa_gauge = fmax(set_pa_gauge, of->branches[j].set_pa_gauge);
    }
    double barometric_pa = operation->site->barometric_pa;
    double ratio = qll_gauge_ratio(smallest->stage_inlet_pa[stage], set_pa_gauge + barometric_pa,
                                   barometric_pa);
    return fmax(ratio, 1.0); /* below its set-point a stage stands open: it takes nothing */
}

void qll_judge_ratio(const qll_operation *operation, qll_verdict_list *list)
{
    const qll_limits *limits = &operation->site->limits;
    for (size_t k = 0; k < operation->station->stage_count; k++) {
        double value = nominal_ratio(operation, k);
        qll_verdict verdict = {.rule = QLL_RULE_RATIO,
                               .grade = QLL_GRADE_GOOD,
                               .finding = QLL_FINDING_RATIO_PREFERRED,
                               .value = value,
                               .limit = limits->ratio_preferred,
                               .kind = QLL_KIND_NUMBER,
                               .value_at_peak = NAN,
                               .right_size_m = NAN,
                               .spot = QLL_SPOT_WHOLE};
        verdict.spot.stage = k;
        if (value > QLL_RATIO_ROUNDING * limits->ratio_max) {
            verdict.grade = QLL_GRADE_FAIL;
            verdict.finding = QLL_FINDING_RATIO_ABOVE_MAX;
            verdict.limit = limits->ratio_max;
        } else if (value > QLL_RATIO_ROUNDING * limits->ratio_preferred) {
            verdict.grade = QLL_GRADE_CAUTION;
            verdict.finding = QLL_FINDING_RATIO_HIGH;
        }
        qll_verdict_put(list, &verdict, value);
    }
}
