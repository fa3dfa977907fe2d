/* The peak by fixture units (docs/theory/fixture_units.md). */
#include "demand/peaks.h"

#include <math.h>

/* Flushometers that are less than this of all units turn the column though they do not predominate (our
 * reading of the table's heading, from memory). */
#define QLL_PREDOMINANT_SHARE 0.5

static const qll_remark *units_reason(qll_peaks *all, const qll_unit_sum *sum)
{
    if (!qll_scenario_has_fixtures(all->scenario)) {
        return qll_peaks_remark(all, (qll_remark){.id = QLL_REMARK_NO_FIXTURES});
    }
    if (sum->missing != NULL) {
        return qll_peaks_remark(
            all, (qll_remark){.id = QLL_REMARK_NO_UNITS, .name = sum->missing->word});
    }
    return NULL;
}

/* The table's flow; its last one beyond its end, and never less than the largest flushometer, so that a
 * fixture more never lowers it. */
static double flow_of(const qll_unit_curve *curve, double units, qll_unit_column column,
                      double least_m3s)
{
    const double held = fmin(units, qll_unit_curve_end(curve));
    return fmax(qll_unit_curve_flow_m3s(curve, held, column), least_m3s);
}

static void note_other_count(qll_peaks *all, const qll_unit_curve *curve, const qll_unit_sum *sum,
                             qll_remarks *notes)
{
    const qll_other_count counts[] = {qll_units_apart(all->scenario, sum->units),
                                      qll_units_grouped(all->scenario, sum->units)};
    const qll_remark_id ids[] = {QLL_REMARK_COUNTED_APART, QLL_REMARK_COUNTED_GROUPS};
    for (size_t i = 0; i < 2; i++) {
        if (counts[i].rooms > 0.0) {
            const double units = counts[i].units;
            const double flow_m3s =
                flow_of(curve, units, sum->column, sum->least_m3s) + all->continuous_m3s;
            qll_peaks_note(
                all, notes,
                (qll_remark){.id = ids[i], .figures = {counts[i].rooms, units, flow_m3s}});
        }
    }
}

/* What the flushometers among the fixtures do to the answer. */
static void note_flushometers(qll_peaks *all, const qll_unit_curve *curve, const qll_unit_sum *sum,
                              qll_remarks *notes)
{
    if (sum->column == QLL_COLUMN_TANK) {
        return;
    }
    const double share = sum->flushometer_units / sum->units;
    if (share < QLL_PREDOMINANT_SHARE) {
        const double tank_m3s =
            flow_of(curve, sum->units, QLL_COLUMN_TANK, 0.0) + all->continuous_m3s;
        qll_peaks_note(all, notes,
                       (qll_remark){.id = QLL_REMARK_FLUSH_TURNS, .figures = {share, tank_m3s}});
    }
    const double table_m3s = flow_of(curve, sum->units, QLL_COLUMN_FLUSHOMETER, 0.0);
    if (sum->least_m3s > table_m3s) {
        qll_peaks_note(
            all, notes,
            (qll_remark){.id = QLL_REMARK_FLUSH_LEAST, .figures = {sum->least_m3s, table_m3s}});
    }
}

static void note_occupancy(qll_peaks *all, const qll_unit_sum *sum, qll_remarks *notes)
{
    if (sum->private_units > 0.0 && sum->public_units > 0.0) {
        qll_peaks_note(all, notes,
                       (qll_remark){.id = QLL_REMARK_UNITS_SPLIT,
                                    .figures = {sum->private_units, sum->public_units}});
    }
    if (sum->takes_rooms) {
        const bool is_hotel = all->scenario->use == QLL_USE_HOTEL;
        qll_peaks_note(
            all, notes,
            (qll_remark){.id = is_hotel ? QLL_REMARK_ROOMS_HOTEL : QLL_REMARK_ROOMS_HOSPITAL});
    }
    if (sum->other != NULL) {
        qll_peaks_note(all, notes,
                       (qll_remark){.id = QLL_REMARK_UNITS_OTHER,
                                    .name = sum->other->word,
                                    .figures = {sum->other_is_private ? 1.0 : 0.0}});
    }
}

static void note_units(qll_peaks *all, const qll_unit_curve *curve, const qll_unit_sum *sum,
                       qll_remarks *notes)
{
    const bool is_tank = sum->column == QLL_COLUMN_TANK;
    qll_peaks_note(all, notes,
                   (qll_remark){.id = is_tank ? QLL_REMARK_UNITS_TANK : QLL_REMARK_UNITS_FLUSH,
                                .figures = {sum->units, sum->private_units, sum->public_units}});
    note_occupancy(all, sum, notes);
    note_other_count(all, curve, sum, notes);
    note_flushometers(all, curve, sum, notes);
    const double end = qll_unit_curve_end(curve);
    if (sum->units > end) {
        const double held_m3s = flow_of(curve, sum->units, sum->column, sum->least_m3s);
        qll_peaks_note(all, notes, (qll_remark){.id = QLL_REMARK_UNITS_HELD});
        all->beyond_code = qll_peaks_remark(
            all, (qll_remark){.id = QLL_REMARK_UNITS_END,
                              .code = QLL_CODE_OUT_OF_RANGE,
                              .figures = {sum->units, held_m3s + all->continuous_m3s}});
    }
    qll_peaks_note(all, notes, (qll_remark){.id = QLL_REMARK_NOT_UPC});
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
    all->reasons[QLL_PEAK_FIXTURE_UNITS_IPC] = units_reason(all, &sum);
    if (all->reasons[QLL_PEAK_FIXTURE_UNITS_IPC] != NULL) {
        return QLL_OK;
    }
    const double flow_m3s = flow_of(&curve, sum.units, sum.column, sum.least_m3s);
    qll_remarks notes = {0};
    note_units(all, &curve, &sum, &notes);
    qll_peaks_add(all, (qll_peak_estimate){
                           .method = QLL_PEAK_FIXTURE_UNITS_IPC,
                           .peak_m3s = flow_m3s + all->continuous_m3s,
                           .table = {.id = QLL_TEXT_TABLE_IPC},
                           .source = {.id = QLL_TEXT_SOURCE_IPC},
                           .notes = notes.first,
                       });
    return QLL_OK;
}
