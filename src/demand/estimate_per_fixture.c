/* The old trade rule of so many gallons per minute for each fixture: a sanity band, no code. */
#include "base/customary.h"
#include "base/files.h"
#include "base/table.h"
#include "demand/peaks.h"

#include <math.h>

static const char *const buildings[QLL_USE_COUNT] = {
#define QLL_USE_BUILDING(name, word, set, profile, din, building) [QLL_USE_##name] = (building),
    QLL_USE_LIST(QLL_USE_BUILDING)
#undef QLL_USE_BUILDING
};

static double count_outlets(const qll_scenario *scenario)
{
    double count = 0.0;
    for (size_t i = 0; i < scenario->load_count; i++) {
        count += scenario->loads[i].kind->outlet_count * (double)scenario->loads[i].count;
    }
    return count;
}

/* The row of data/gpm_per_fixture.csv for so many fixtures; the row count if there is none. */
static size_t find_band(const qll_table *table, const char *building, double outlets)
{
    const size_t building_at = qll_table_column(table, "building");
    const size_t to_at = qll_table_column(table, "fixtures_to");
    size_t row = 0;
    while (row < table->row_count) {
        const double most = qll_table_number(table, row, to_at);
        if (qll_text_is(qll_table_cell(table, row, building_at), building)
            && (isnan(most) || outlets <= most)) {
            break;
        }
        row += 1;
    }
    return row;
}

static void add_band(qll_peaks *all, const qll_table *table, size_t row, double outlets)
{
    const double each = qll_table_number_in(table, row, "gpm_per_fixture");
    const double least = qll_table_number_in(table, row, "min_gpm");
    const double most = qll_table_number_in(table, row, "max_gpm");
    double gpm = fmax(each * outlets, least);
    if (!isnan(most)) {
        gpm = fmin(gpm, most);
    }
    qll_remarks notes = {0};
    qll_peaks_note(all, &notes,
                   (qll_remark){.id = QLL_REMARK_BAND,
                                .figures = {outlets, each * QLL_GPM_M3S, least * QLL_GPM_M3S,
                                            most * QLL_GPM_M3S}});
    qll_peaks_note_continuous(all, &notes);
    qll_peaks_add(all, (qll_peak_estimate){
                           .method = QLL_PEAK_PER_FIXTURE,
                           .peak_m3s = gpm * QLL_GPM_M3S + all->continuous_m3s,
                           .table = {.id = QLL_TEXT_TABLE_TRADE},
                           .source = {.id = QLL_TEXT_SOURCE_TRADE},
                           .notes = notes.first,
                       });
}

qll_status qll_estimate_per_fixture(qll_peaks *all)
{
    const char *building = buildings[all->scenario->use];
    const double outlets = count_outlets(all->scenario);
    if (outlets <= 0.0) {
        all->reasons[QLL_PEAK_PER_FIXTURE] =
            qll_peaks_remark(all, (qll_remark){.id = QLL_REMARK_NO_FIXTURES});
        return QLL_OK;
    }
    qll_table table;
    const qll_status status = qll_table_read_own(qll_file_gpm_per_fixture,
                                                 qll_file_gpm_per_fixture_size, all->arena, &table);
    if (status != QLL_OK) {
        return status;
    }
    const size_t row = find_band(&table, building, outlets);
    if (row == table.row_count) {
        all->reasons[QLL_PEAK_PER_FIXTURE] =
            qll_peaks_remark(all, (qll_remark){.id = QLL_REMARK_NO_BAND});
        return QLL_OK;
    }
    add_band(all, &table, row, outlets);
    return QLL_OK;
}
