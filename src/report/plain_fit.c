#include "documents/read_catalogue.h"
#include "report/columns.h"
#include "report/plain.h"
#include "report/sections.h"

static void write_points(qll_writer *writer, const qll_fit_findings *findings)
{
    static const char *const heads[] = {"inlet",   "set",    "fall-off", "flow",
                                        "opening", "fitted", "off by"};
    static const qll_kind kinds[] = {
        QLL_KIND_PRESSURE, QLL_KIND_PRESSURE,         QLL_KIND_PRESSURE_DIFFERENCE,
        QLL_KIND_FLOW,     QLL_KIND_FLOW_COEFFICIENT, QLL_KIND_FLOW};
    qll_columns table = qll_columns_new(writer, "rrrrrrr");
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++) {
        qll_columns_put(&table, heads[i]);
    }
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        qll_columns_put(&table, qll_units_name(kinds[i], findings->units));
    }
    qll_columns_put(&table, "");
    for (size_t i = 0; i < findings->sheet->count; i++) {
        const qll_capacity_point *point = &findings->sheet->points[i];
        const qll_fit_row *row = &findings->fit->rows[i];
        const double values[] = {point->inlet_pa_gauge, point->set_pa_gauge, point->falloff_pa,
                                 point->flow_m3s,       row->kv_m3h,         row->fitted_flow_m3s};
        for (size_t k = 0; k < sizeof values / sizeof values[0]; k++) {
            qll_cell_quantity(&table, values[k], kinds[k], findings->units);
        }
        qll_write_format(&table.cell, "%+.1f %%", 100 * row->residual_share);
        qll_columns_next(&table);
    }
    qll_columns_flush(&table);
}

void qll_fit_print(qll_writer *writer, const qll_fit_findings *findings)
{
    const qll_valve_fit *fit = findings->fit;
    qll_write(writer, "FIT: ");
    qll_write(writer, findings->sheet->id);
    qll_write(writer, "\n\nStraight law: full open at ");
    qll_units_write(writer, fit->kv_m3h, QLL_KIND_FLOW_COEFFICIENT, findings->units);
    qll_write(writer, ", reached at a fall-off of ");
    qll_units_write(writer, fit->band_pa, QLL_KIND_PRESSURE_DIFFERENCE, findings->units);
    qll_write(writer, ".\n");
    qll_section(writer, "THE POINTS, and what the straight law makes of them");
    write_points(writer, findings);
    qll_write_wrapped(
        writer, "  ",
        qll_text_of(findings->is_straight
                        ? "The straight law misses no point by more than 5 %: the entry "
                          "has it as its band."
                        : "The straight law misses points by more than 5 %: the entry "
                          "has the points themselves."));
    qll_section(writer, "THE ENTRY");
    qll_json json = qll_json_new(writer);
    qll_catalogue_write(&json, &findings->catalogue);
    qll_write(writer, "\n");
    const qll_wording wording = {.units = findings->units};
    qll_section_assumed(writer, &wording, findings->assumed);
}
