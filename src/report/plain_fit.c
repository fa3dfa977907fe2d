#include "documents/read_catalogue.h"
#include "report/columns.h"
#include "report/plain.h"
#include "report/sections.h"

static void write_points(qll_writer *writer, const qll_fit_findings *findings)
{
    static const qll_message heads[] = {
        QLL_SAYS_HEAD_INLET,   QLL_SAYS_HEAD_SET,    QLL_SAYS_HEAD_FALLOFF, QLL_SAYS_HEAD_FLOW,
        QLL_SAYS_HEAD_OPENING, QLL_SAYS_HEAD_FITTED, QLL_SAYS_HEAD_OFF_BY};
    static const qll_kind kinds[] = {
        QLL_KIND_PRESSURE, QLL_KIND_PRESSURE,         QLL_KIND_PRESSURE_DIFFERENCE,
        QLL_KIND_FLOW,     QLL_KIND_FLOW_COEFFICIENT, QLL_KIND_FLOW};
    qll_columns table = qll_columns_new(writer, "rrrrrrr");
    qll_columns_heads(&table, findings->language, heads, sizeof heads / sizeof heads[0]);
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

static void write_straight(qll_writer *writer, const qll_fit_findings *findings)
{
    const qll_valve_fit *fit = findings->fit;
    const qll_filling fillings[] = {
        {"value",
         qll_quantity_text(writer->arena, fit->kv_m3h, QLL_KIND_FLOW_COEFFICIENT, findings->units)},
        {"limit", qll_quantity_text(writer->arena, fit->band_pa, QLL_KIND_PRESSURE_DIFFERENCE,
                                    findings->units)},
    };
    qll_line_says_with(writer, findings->language, QLL_SAYS_FIT_STRAIGHT, fillings, 2);
}

void qll_fit_print(qll_writer *writer, const qll_fit_findings *findings)
{
    const qll_language language = findings->language;
    const qll_wording wording = {.units = findings->units, .language = language};
    qll_write(writer, qll_say(language, QLL_SAYS_PLAIN_FIT));
    qll_write(writer, ": ");
    qll_write(writer, findings->sheet->id);
    qll_write(writer, "\n\n");
    write_straight(writer, findings);
    qll_section_says(writer, language, QLL_SAYS_PLAIN_FIT_POINTS);
    write_points(writer, findings);
    qll_write_wrapped(
        writer, "  ",
        qll_text_of(qll_say(language, findings->is_straight ? QLL_SAYS_FIT_HAS_BAND
                                                            : QLL_SAYS_FIT_HAS_POINTS)));
    qll_section_says(writer, language, QLL_SAYS_PLAIN_FIT_ENTRY);
    qll_json json = qll_json_new(writer);
    qll_catalogue_write(&json, &findings->catalogue);
    qll_write(writer, "\n");
    qll_section_assumed(writer, &wording, findings->assumed);
}
