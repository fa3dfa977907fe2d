/* How loud it is: docs/theory/station_noise.md. */
#include "station/level.h"
#include "station/rules.h"

#include <math.h>

/* A class with less of the flowing time than this is not what people remember (our assumption). */
#define QLL_NOISE_LIVED_SHARE 0.01
/* 30 dB(A) next door, the most DIN 4109 has sanitary installations make in living rooms, plus what a
 * light partition with a door keeps back, 25 dB (our assumption). */
#define QLL_NOISE_GOOD_DBA    55.0
/* The same, plus what a heavy wall keeps back, 45 dB (our assumption): above it no wall helps. */
#define QLL_NOISE_MOST_DBA    75.0

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

bool qll_is_lived_with(const qll_duty *duty, size_t flow)
{
    double flowing = 1.0 - duty->idle_share;
    return flowing > 0.0 && duty->weight_time[flow] / flowing >= QLL_NOISE_LIVED_SHARE;
}

size_t qll_loudest_point(const qll_operation *operation)
{
    const qll_duty *duty = operation->duty;
    size_t loudest = qll_typical_point(duty);
    for (size_t f = 0; f < duty->flow_count; f++) {
        if (!qll_is_lived_with(duty, f)) {
            continue;
        }
        for (size_t s = 0; s < duty->supply_count; s++) {
            size_t at = s * duty->flow_count + f;
            loudest = rank_of(&operation->points[at]) > rank_of(&operation->points[loudest])
                          ? at
                          : loudest;
        }
    }
    return loudest;
}

static qll_finding beyond_method(qll_noise_limit limit)
{
    switch (limit) {
    case QLL_NOISE_PLASTIC: return QLL_FINDING_NOISE_PLASTIC;
    case QLL_NOISE_FLASHING: return QLL_FINDING_NOISE_FLASHING;
    case QLL_NOISE_CHOKED: return QLL_FINDING_NOISE_CHOKED;
    case QLL_NOISE_XF_HIGH:
    case QLL_NOISE_NO_DROP:
    case QLL_NOISE_NO_CASE:
    case QLL_NOISE_WITHIN:
    case QLL_NOISE_LIMIT_COUNT: break;
    }
    return QLL_FINDING_NOISE_XF_HIGH;
}

void qll_judge_noise(const qll_operation *operation, qll_verdict_list *list)
{
    /* The range is asked for at this one point only. */
    qll_operating_point loudest = operation->points[qll_loudest_point(operation)];
    qll_point_levels(operation->station, operation->site, true, &loudest);
    const qll_operating_point *typical = &operation->points[qll_typical_point(operation->duty)];
    if (loudest.level.limit == QLL_NOISE_NO_CASE) {
        return; /* the pipe is not known, or it cannot pass: not judged */
    }
    qll_verdict verdict = {.rule = QLL_RULE_NOISE,
                           .grade = QLL_GRADE_CAUTION,
                           .finding = beyond_method(loudest.level.limit),
                           .value = loudest.level.level_dba,
                           .limit = QLL_NOISE_GOOD_DBA,
                           .kind = QLL_KIND_NUMBER,
                           .value_at_peak = typical->level.level_dba,
                           .right_size_m = NAN,
                           .spot = QLL_SPOT_WHOLE};
    if (isnan(loudest.level.level_dba)) {
        if (loudest.level.limit == QLL_NOISE_WITHIN) {
            return; /* nothing works */
        }
    } else if (loudest.level.level_dba <= QLL_NOISE_GOOD_DBA) {
        verdict.grade = QLL_GRADE_GOOD;
        verdict.finding = QLL_FINDING_NOISE_QUIET;
    } else if (loudest.level.low_dba > QLL_NOISE_MOST_DBA) {
        verdict.grade = QLL_GRADE_FAIL;
        verdict.finding = QLL_FINDING_NOISE_LOUD;
        verdict.limit = QLL_NOISE_MOST_DBA;
    } else {
        verdict.finding = QLL_FINDING_NOISE_HEARD;
    }
    qll_verdict_put(list, &verdict, rank_of(&loudest));
}
