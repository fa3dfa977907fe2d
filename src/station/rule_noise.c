/* How loud it is: docs/theory/station_noise.md. */
#include "station/level.h"
#include "station/rules.h"

#include <math.h>

/* Louder is worse, and what the method cannot figure is worst. */
static double rank_of(const qll_operating_point *point)
{
    if (point->level.limit > QLL_NOISE_NO_DROP) {
        return 1000.0 + (double)point->level.limit;
    }
    return isnan(point->level.level_dba) ? -1000.0 : point->level.level_dba;
}

size_t qll_typical_point(const qll_duty *duty)
{
    double below = 0.0;
    size_t f = 0;
    while (f + 1 < duty->flow_count) {
        below += duty->weight_volume[f];
        if (below >= 0.5) {
            break;
        }
        f += 1;
    }
    return duty->supply_count / 2 * duty->flow_count + f;
}

size_t qll_loudest_point(const qll_operation *operation)
{
    const qll_duty *duty = operation->duty;
    size_t loudest = qll_typical_point(duty);
    for (size_t i = 0; i < duty->supply_count * duty->flow_count; i++) {
        loudest =
            rank_of(&operation->points[i]) > rank_of(&operation->points[loudest]) ? i : loudest;
    }
    return loudest;
}

/* Share of the flowing time in which it is louder than @p limit_dba. */
static double louder_share(const qll_operation *operation, double limit_dba)
{
    const qll_duty *duty = operation->duty;
    double share = 0.0;
    for (size_t s = 0; s < duty->supply_count; s++) {
        for (size_t f = 0; f < duty->flow_count; f++) {
            const bool is_louder =
                rank_of(&operation->points[s * duty->flow_count + f]) > limit_dba;
            share += is_louder ? qll_flowing_share(duty, s, f) : 0.0;
        }
    }
    return share;
}

static qll_finding beyond_method(qll_noise_limit limit)
{
    switch (limit) {
    case QLL_NOISE_FLASHING: return QLL_FINDING_NOISE_FLASHING;
    case QLL_NOISE_CHOKED: return QLL_FINDING_NOISE_CHOKED;
    case QLL_NOISE_XF_HIGH:
    case QLL_NOISE_PLASTIC:
    case QLL_NOISE_NO_DROP:
    case QLL_NOISE_NO_CASE:
    case QLL_NOISE_WITHIN:
    case QLL_NOISE_LIMIT_COUNT: break;
    }
    return QLL_FINDING_NOISE_XF_HIGH;
}

/* Chance that the flow's own noise of all stages brings a complaint. */
static double noise_chance(const qll_operation *operation)
{
    double chance = 0.0;
    for (size_t n = 0; n < QLL_NODES; n++) {
        double severity = 0.0;
        for (size_t k = 0; k < operation->station->stage_count; k++) {
            severity += operation->sums->stages[k].hazards->at[QLL_ROW_NOISE][n];
        }
        chance += operation->yardstick->unknowns->chance[n] * qll_complaint_chance(severity);
    }
    return chance;
}

static void grade_noise(const qll_operation *operation, const qll_operating_point *loudest,
                        qll_verdict *verdict)
{
    static const qll_finding says[QLL_GRADE_COUNT] = {
        [QLL_GRADE_GOOD] = QLL_FINDING_NOISE_QUIET,
        [QLL_GRADE_UNKNOWN] = QLL_FINDING_NOISE_NO_PIPE,
        [QLL_GRADE_CAUTION] = QLL_FINDING_NOISE_HEARD,
        [QLL_GRADE_FAIL] = QLL_FINDING_NOISE_LOUD,
    };
    qll_verdict_weigh(verdict, noise_chance(operation));
    verdict->finding = says[verdict->grade];
    if (isnan(verdict->value)) {
        /* Beyond the method, and that is loud: a fact. */
        if (verdict->grade != QLL_GRADE_FAIL) {
            verdict->grade = QLL_GRADE_CAUTION;
            verdict->holds_share = 1.0;
        }
        verdict->finding = beyond_method(loudest->level.limit);
    } else if (verdict->grade == QLL_GRADE_GOOD && verdict->value > verdict->limit) {
        verdict->finding = QLL_FINDING_NOISE_SELDOM;
        verdict->past_share = louder_share(operation, verdict->limit);
    }
}

void qll_judge_noise(const qll_operation *operation, qll_verdict_list *list)
{
    /* The range is asked for at this one point only. */
    qll_operating_point loudest = operation->points[qll_loudest_point(operation)];
    qll_point_levels(operation->station, operation->site, true, &loudest);
    const qll_operating_point *typical = &operation->points[qll_typical_point(operation->duty)];
    const qll_noise_limit limit = loudest.level.limit;
    qll_verdict verdict = qll_verdict_new(QLL_RULE_NOISE, QLL_KIND_NUMBER);
    verdict.value = loudest.level.level_dba;
    verdict.limit = 10.0 * log10(operation->yardstick->energy_from);
    verdict.value_at_peak = typical->level.level_dba;
    verdict.corner = (qll_cavitation_corner){
        .flow_m3s = loudest.flow_m3s, .inlet_pa = loudest.inlet_pa, .split_pa_gauge = NAN};
    if (limit == QLL_NOISE_PLASTIC || limit == QLL_NOISE_NO_CASE) {
        qll_verdict_unknown(&verdict, limit == QLL_NOISE_PLASTIC ? QLL_FINDING_NOISE_PLASTIC
                                                                 : QLL_FINDING_NOISE_NO_PIPE);
    } else if (isnan(verdict.value) && limit <= QLL_NOISE_NO_DROP) {
        return; /* nothing sounds, for nothing flows or nothing is taken */
    } else {
        grade_noise(operation, &loudest, &verdict);
    }
    qll_verdict_put(list, &verdict, rank_of(&loudest));
}
