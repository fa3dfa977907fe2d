/* One finding: how strong it is, and its place among the others. */
#include "signals/pressure_judging.h"

#include <math.h>

#define QLL_STRENGTH_LEAST 0.05

double qll_grade(double value, double none, double act, double sure)
{
    if (!(value > none)) {
        return 0.0;
    }
    if (value >= sure) {
        return 1.0;
    }
    return value < act ? 0.5 * (value - none) / (act - none)
                       : 0.5 + 0.5 * (value - act) / (sure - act);
}

qll_pressure_finding *qll_finding_add(qll_judging *j, qll_pressure_word word, double strength,
                                      double value, int64_t from_ms, int64_t to_ms)
{
    if (!(strength >= QLL_STRENGTH_LEAST) || j->count == QLL_FINDINGS_MOST) {
        return NULL;
    }
    const double none = (double)NAN;
    const qll_stretch_kept *kept = &j->state->kept[word];
    qll_pressure_finding *finding = &j->findings[j->count];
    j->count += 1;
    *finding = (qll_pressure_finding){.word = word,
                                      .fault = QLL_LOGGER_FAULT_COUNT,
                                      .channel = QLL_CHANNEL_COUNT,
                                      .from_unix_s = (double)from_ms / 1000.0,
                                      .to_unix_s = (double)to_ms / 1000.0,
                                      .strength = strength,
                                      .value = value,
                                      .flow_m3s = none,
                                      .frequency_hz = none,
                                      .per_hour = none,
                                      .rise_s = none,
                                      .share = none,
                                      .count = none,
                                      .expected = none,
                                      .ratio = none,
                                      .level_pa_gauge = none,
                                      .stretch = kept->stretch.count > 0 ? &kept->stretch : NULL};
    return finding;
}
