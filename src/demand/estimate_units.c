/* The peak by fixture units (docs/theory/fixture_units.md). */
#include "demand/peaks.h"

#include <math.h>

static const qll_remark *units_reason(qll_peaks *all, const qll_unit_sum *sum, double flow_m3s)
{
    if (!qll_scenario_has_fixtures(all->scenario)) {
        return qll_peaks_remark(all, (qll_remark){.id = QLL_REMARK_NO_FIXTURES});
    }
    if (sum->missing != NULL) {
        return qll_peaks_remark(
            all, (qll_remark){.id = QLL_REMARK_NO_UNITS, .name = sum->missing->word});
    }
    if (isnan(flow_m3s)) {
        return qll_peaks_remark(all,
                                (qll_remark){.id = QLL_REMARK_UNITS_END, .figures = {sum->units}});
    }
    return NULL;
}

static void note_units(qll_peaks *all, const qll_unit_sum *sum, qll_remarks *notes)
{
    const bool is_tank = sum->column == QLL_COLUMN_TANK;
    qll_peaks_note(all, notes,
                   (qll_remark){.id = is_tank ? QLL_REMARK_UNITS_TANK : QLL_REMARK_UNITS_FLUSH,
                                .use = all->scenario->use,
                                .figures = {sum->units}});
    if (sum->other != NULL) {
        qll_peaks_note(all, notes,
                       (qll_remark){.id = QLL_REMARK_UNITS_OTHER,
                                    .use = all->scenario->use,
                                    .name = sum->other->word});
    }
    qll_peaks_note_continuous(all, notes);
}

qll_status qll_estimate_units(qll_peaks *all)
{
    all->reasons[QLL_PEAK_FIXTURE_UNITS_UPC] =
        qll_peaks_remark(all, (qll_remark){.id = QLL_REMARK_UPC_CHART});
    qll_unit_curve curve;
    const qll_status status = qll_unit_curve_read(all->arena, &curve);
    if (status != QLL_OK) {
        return status;
    }
    const qll_unit_sum sum = qll_unit_sum_of(all->scenario);
    const double flow_m3s = qll_unit_curve_flow_m3s(&curve, sum.units, sum.column);
    all->reasons[QLL_PEAK_FIXTURE_UNITS_IPC] = units_reason(all, &sum, flow_m3s);
    if (all->reasons[QLL_PEAK_FIXTURE_UNITS_IPC] != NULL) {
        return QLL_OK;
    }
    qll_remarks notes = {0};
    note_units(all, &sum, &notes);
    qll_peaks_add(all, (qll_peak_estimate){
                           .method = QLL_PEAK_FIXTURE_UNITS_IPC,
                           .peak_m3s = flow_m3s + all->continuous_m3s,
                           .table = "IPC 2018/2021 Appendix E, Tables E103.3(2) and E103.3(3)",
                           .source = "International Plumbing Code 2018/2021, Appendix E, Tables "
                                     "E103.3(2) and E103.3(3); continuous flows by E102.2.2",
                           .notes = notes.first,
                       });
    return QLL_OK;
}
