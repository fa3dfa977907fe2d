/* The peak by DIN 1988-300 (docs/theory/din1988.md). */
#include "demand/din1988.h"
#include "demand/peaks.h"

#include <math.h>

static const char *const din_uses[QLL_USE_COUNT] = {
#define QLL_USE_DIN(name, word, set, profile, din, building) [QLL_USE_##name] = (din),
    QLL_USE_LIST(QLL_USE_DIN)
#undef QLL_USE_DIN
};

static const char *din_reason(qll_peaks *all, const qll_din1988 *din, const qll_din1988_sum *sum)
{
    qll_writer writer = qll_writer_new(all->arena);
    if (!qll_scenario_has_fixtures(all->scenario)) {
        return "the scenario lists no fixtures";
    }
    if (din->use == NULL) {
        qll_write_format(&writer, "DIN 1988-300 has no constants for a %s",
                         qll_use_words[all->scenario->use]);
        return qll_peaks_written(all, &writer);
    }
    if (sum->missing != NULL) {
        qll_write_format(&writer, "DIN 1988-300 has no calculation flow for \"%s\"; give it a flow",
                         sum->missing->word);
        return qll_peaks_written(all, &writer);
    }
    if (isnan(qll_din1988_flow_m3s(din, sum->sum_m3s))) {
        qll_write_format(&writer,
                         "its calculation flows add up to %.3f L/s and DIN 1988-300 holds from 0.2 "
                         "to 500 L/s",
                         sum->sum_m3s * 1e3);
        return qll_peaks_written(all, &writer);
    }
    return NULL;
}

/* One flat is a usage unit: no more than its two largest outlets. Above it the larger governs. */
static double governing_m3s(const qll_scenario *scenario, const qll_din1988_sum *sum,
                            double formula_m3s)
{
    if (scenario->use == QLL_USE_APARTMENT && qll_scenario_homes(scenario) <= 1.0) {
        return sum->unit_m3s;
    }
    return fmax(formula_m3s, sum->unit_m3s);
}

qll_status qll_estimate_din(qll_peaks *all)
{
    qll_din1988 din;
    const qll_status status = qll_din1988_read(din_uses[all->scenario->use], all->arena, &din);
    if (status != QLL_OK) {
        return status;
    }
    const qll_din1988_sum sum = qll_din1988_sum_of(all->scenario);
    all->reasons[QLL_PEAK_DIN_1988_300] = din_reason(all, &din, &sum);
    if (all->reasons[QLL_PEAK_DIN_1988_300] != NULL) {
        return QLL_OK;
    }
    const double formula_m3s = qll_din1988_flow_m3s(&din, sum.sum_m3s);
    const double peak_m3s = governing_m3s(all->scenario, &sum, formula_m3s);
    qll_writer note = qll_writer_new(all->arena);
    qll_write_format(&note,
                     "Calculation flows add up to %.3f L/s, cold and hot side together; \"%s\", "
                     "a %.3g, b %.3g, c %.3g.",
                     sum.sum_m3s * 1e3, din.use, din.a, din.b, din.c);
    if (peak_m3s != formula_m3s) {
        qll_write(&note, " The two largest outlets of one usage unit govern (rule from memory).");
    }
    qll_write(&note, qll_peaks_continuous_note(all));
    qll_peaks_add(all, (qll_peak_estimate){
                           .method = QLL_PEAK_DIN_1988_300,
                           .peak_m3s = peak_m3s + all->continuous_m3s,
                           .table = "DIN 1988-300:2012-05",
                           .source = "DIN 1988-300:2012-05, V_S = a (sum V_R)^b - c; calculation "
                                     "flows with their source in data/fixtures.csv; draws over 15 "
                                     "minutes in full",
                           .note = qll_peaks_written(all, &note),
                       });
    return QLL_OK;
}
