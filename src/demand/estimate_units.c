/* The peak by fixture units (docs/theory/fixture_units.md). */
#include "demand/peaks.h"

#include <math.h>

static const char *units_reason(qll_peaks *all, const qll_unit_sum *sum, double flow_m3s)
{
    if (!qll_scenario_has_fixtures(all->scenario)) {
        return "the scenario lists no fixtures";
    }
    qll_writer writer = qll_writer_new(all->arena);
    if (sum->missing != NULL) {
        qll_write_format(&writer, "IPC Table E103.3(2) has no fixture units for \"%s\"",
                         sum->missing->word);
        return qll_peaks_written(all, &writer);
    }
    if (isnan(flow_m3s)) {
        qll_write_format(&writer,
                         "its fixtures count %.1f units and IPC Table E103.3(3) ends at 5000",
                         sum->units);
        return qll_peaks_written(all, &writer);
    }
    return NULL;
}

qll_status qll_estimate_units(qll_peaks *all)
{
    all->reasons[QLL_PEAK_FIXTURE_UNITS_UPC] =
        "the UPC's fixture units belong on that code's own demand chart, which is not in the "
        "program, and on another code's curve they would be wrong; ask for \"fixture-units IPC\", "
        "or read the peak off the UPC chart and give it";
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
    qll_writer note = qll_writer_new(all->arena);
    qll_write_format(
        &note, "%.2f fixture units (%s), %s column, straight lines between the table's points.",
        sum.units, qll_use_is_dwelling(all->scenario->use) ? "private" : "public",
        sum.column == QLL_COLUMN_TANK ? "flush tank" : "flushometer");
    if (sum.other != NULL) {
        qll_write_format(&note, " The table has no %s entry for \"%s\"; the one it has is counted.",
                         qll_use_is_dwelling(all->scenario->use) ? "private" : "public",
                         sum.other->word);
    }
    qll_write(&note, qll_peaks_continuous_note(all));
    qll_peaks_add(all, (qll_peak_estimate){
                           .method = QLL_PEAK_FIXTURE_UNITS_IPC,
                           .peak_m3s = flow_m3s + all->continuous_m3s,
                           .table = "IPC 2018/2021 Appendix E, Tables E103.3(2) and E103.3(3)",
                           .source = "International Plumbing Code 2018/2021, Appendix E, Tables "
                                     "E103.3(2) and E103.3(3); continuous flows by E102.2.2",
                           .note = qll_peaks_written(all, &note),
                       });
    return QLL_OK;
}
