/* The peak by DIN 1988-300 (docs/theory/din1988.md). */
#include "demand/din1988.h"
#include "demand/peaks.h"

#include <math.h>

static const char *const din_uses[QLL_USE_COUNT] = {
#define QLL_USE_DIN(name, word, set, profile, din, building) [QLL_USE_##name] = (din),
    QLL_USE_LIST(QLL_USE_DIN)
#undef QLL_USE_DIN
};

static const qll_remark *din_reason(qll_peaks *all, const qll_din1988 *din,
                                    const qll_din1988_sum *sum)
{
    if (!qll_scenario_has_fixtures(all->scenario)) {
        return qll_peaks_remark(all, (qll_remark){.id = QLL_REMARK_NO_FIXTURES});
    }
    if (din->says == QLL_TEXT_NONE) {
        return qll_peaks_remark(
            all, (qll_remark){.id = QLL_REMARK_DIN_NO_USE, .use = all->scenario->use});
    }
    if (sum->missing != NULL) {
        return qll_peaks_remark(
            all, (qll_remark){.id = QLL_REMARK_DIN_NO_FLOW, .name = sum->missing->word});
    }
    if (isnan(qll_din1988_flow_m3s(din, sum->sum_m3s))) {
        return qll_peaks_remark(
            all, (qll_remark){.id = QLL_REMARK_DIN_RANGE,
                              .figures = {sum->sum_m3s, QLL_DIN_LEAST_M3S, QLL_DIN_MOST_M3S}});
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
    const qll_din1988_sum sum = qll_din1988_sum_of(&all->apart);
    all->reasons[QLL_PEAK_DIN_1988_300] = din_reason(all, &din, &sum);
    if (all->reasons[QLL_PEAK_DIN_1988_300] != NULL) {
        return QLL_OK;
    }
    const double formula_m3s = qll_din1988_flow_m3s(&din, sum.sum_m3s);
    const double peak_m3s = governing_m3s(all->scenario, &sum, formula_m3s);
    qll_remarks notes = {0};
    qll_peaks_note(all, &notes,
                   (qll_remark){.id = QLL_REMARK_DIN,
                                .table = {.id = din.says},
                                .figures = {sum.sum_m3s, din.a, din.b, din.c}});
    if (peak_m3s != formula_m3s) {
        qll_peaks_note(all, &notes, (qll_remark){.id = QLL_REMARK_DIN_UNIT});
    }
    qll_peaks_note_apart(all, &notes);
    qll_peaks_note_continuous(all, &notes);
    qll_peaks_add(all, (qll_peak_estimate){
                           .method = QLL_PEAK_DIN_1988_300,
                           .peak_m3s = peak_m3s + all->continuous_m3s,
                           .table = {.id = QLL_TEXT_TABLE_DIN},
                           .source = {.id = QLL_TEXT_SOURCE_DIN},
                           .notes = notes.first,
                       });
    return QLL_OK;
}
