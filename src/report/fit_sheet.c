/* A valve fitted to its capacity points: the straight law, how far each point lies off, the entry. */
#include "base/count.h"
#include "documents/read_catalogue.h"
#include "report/report_parts.h"

static void write_straight(qll_report *report, const qll_valve_fit *fit)
{
    const qll_filling fillings[] = {
        {"value", qll_report_quantity(report, fit->kv_m3h, QLL_KIND_FLOW_COEFFICIENT)},
        {"limit", qll_report_quantity(report, fit->band_pa, QLL_KIND_PRESSURE_DIFFERENCE)},
    };
    qll_sheet_text(report->sheet, QLL_BLOCK_LEAD,
                   qll_report_fill(report, QLL_SAYS_FIT_STRAIGHT, fillings, 2));
}

static void write_points(qll_report *report, const qll_fit_findings *findings)
{
    static const struct {
        qll_message head;
        qll_kind kind;
    } columns[] = {
        {QLL_SAYS_HEAD_INLET, QLL_KIND_PRESSURE},
        {QLL_SAYS_HEAD_SET, QLL_KIND_PRESSURE},
        {QLL_SAYS_HEAD_FALLOFF, QLL_KIND_PRESSURE_DIFFERENCE},
        {QLL_SAYS_HEAD_FLOW, QLL_KIND_FLOW},
        {QLL_SAYS_HEAD_OPENING, QLL_KIND_FLOW_COEFFICIENT},
        {QLL_SAYS_HEAD_FITTED, QLL_KIND_FLOW},
    };

    enum {
        QLL_FIT_COLUMNS = QLL_COUNT(columns)
    };

    for (size_t c = 0; c < QLL_FIT_COLUMNS; c++) {
        qll_sheet_cell(report->sheet, qll_report_head(report, columns[c].head, columns[c].kind));
    }
    qll_report_cell(report, QLL_SAYS_HEAD_OFF_BY);
    for (size_t i = 0; i < findings->sheet->count; i++) {
        const qll_capacity_point *point = &findings->sheet->points[i];
        const qll_fit_row *row = &findings->fit->rows[i];
        const double values[QLL_FIT_COLUMNS] = {point->inlet_pa_gauge, point->set_pa_gauge,
                                                point->falloff_pa,     point->flow_m3s,
                                                row->kv_m3h,           row->fitted_flow_m3s};
        for (size_t c = 0; c < QLL_FIT_COLUMNS; c++) {
            qll_sheet_cell(report->sheet, qll_report_bare(report, values[c], columns[c].kind));
        }
        qll_writer off = qll_writer_new(report->arena);
        qll_write_format(&off, "%+.1f %%", 100.0 * row->residual_share);
        qll_sheet_cell(report->sheet, qll_writer_text(&off).bytes);
    }
    qll_report_table(report, QLL_MESSAGE_COUNT, "rrrrrrr", false);
}

void qll_fit_print(qll_writer *writer, const qll_fit_findings *findings)
{
    const qll_wording wording = {.units = findings->units, .language = findings->language};
    qll_sheet sheet;
    qll_report report = qll_report_begin_bare(&wording, findings->assumed, writer->arena, &sheet);
    sheet.title = qll_report_says(&report, QLL_SAYS_NAME_FIT);
    sheet.subject = findings->sheet->id;
    qll_sheet_section(&sheet, QLL_SECTION_COVER, "");
    write_straight(&report, findings->fit);
    qll_sheet_section(&sheet, QLL_SECTION_EXPECT, qll_report_says(&report, QLL_SAYS_FIT_POINTS));
    write_points(&report, findings);
    qll_report_paragraph(
        &report, findings->is_straight ? QLL_SAYS_FIT_HAS_BAND : QLL_SAYS_FIT_HAS_POINTS, NULL, 0);
    qll_sheet_section(&sheet, QLL_SECTION_STATION, qll_report_says(&report, QLL_SAYS_FIT_ENTRY));
    qll_writer entry = qll_writer_new(writer->arena);
    qll_json json = qll_json_new(&entry);
    qll_catalogue_write(&json, &findings->catalogue);
    qll_write(&entry, "\n");
    qll_sheet_text(&sheet, QLL_BLOCK_VERBATIM, qll_writer_text(&entry).bytes);
    qll_sheet_section(&sheet, QLL_SECTION_SURVEY, qll_report_says(&report, QLL_SAYS_ASSUMED_SHORT));
    qll_report_assumed(&report);
    qll_report_print(&report, writer);
}
