/* The valves of a catalogue, a row each. */
#include "report/report_parts.h"

#include <math.h>

static void write_heads(qll_report *report)
{
    static const qll_message names[] = {QLL_SAYS_HEAD_VALVE, QLL_SAYS_HEAD_SIZE,
                                        QLL_SAYS_HEAD_ACTING};
    static const qll_message pressures[] = {QLL_SAYS_HEAD_LEAST_SET, QLL_SAYS_HEAD_MOST_SET,
                                            QLL_SAYS_HEAD_MOST_INLET};
    qll_report_heads(report, names, 3);
    qll_sheet_cell(report->sheet,
                   qll_report_head(report, QLL_SAYS_HEAD_FULL_OPEN, QLL_KIND_FLOW_COEFFICIENT));
    for (size_t i = 0; i < 3; i++) {
        qll_sheet_cell(report->sheet, qll_report_head(report, pressures[i], QLL_KIND_PRESSURE));
    }
    const qll_filling price[] = {{"what", qll_report_says(report, QLL_SAYS_HEAD_PRICE)},
                                 {"unit", report->wording.currency}};
    qll_sheet_cell(report->sheet, report->wording.currency == NULL
                                      ? price[0].text
                                      : qll_report_fill(report, QLL_SAYS_WITH_UNIT, price, 2));
}

static void write_valve(qll_report *report, const qll_valve *valve)
{
    const double pressures_pa_gauge[] = {valve->set_min_pa_gauge, valve->set_max_pa_gauge,
                                         valve->inlet_max_pa_gauge};
    qll_sheet_cell(report->sheet, valve->id);
    qll_sheet_cell(report->sheet, qll_report_size(report, valve->nominal_m));
    qll_report_cell(report, (qll_message)((size_t)QLL_SAYS_ACTING_DIRECT + (size_t)valve->acting));
    qll_sheet_cell(report->sheet,
                   qll_report_bare(report, valve->kv_m3h, QLL_KIND_FLOW_COEFFICIENT));
    for (size_t i = 0; i < 3; i++) {
        qll_sheet_cell(report->sheet,
                       qll_report_bare(report, pressures_pa_gauge[i], QLL_KIND_PRESSURE));
    }
    qll_writer price = qll_writer_new(report->arena);
    qll_write_format(&price, isfinite(valve->price) ? "%.0f" : "-", valve->price);
    qll_sheet_cell(report->sheet, qll_writer_text(&price).bytes);
}

void qll_list_print(qll_writer *writer, const qll_list_findings *findings)
{
    const qll_catalogue *catalogue = findings->catalogue;
    const qll_wording wording = {
        .units = findings->units, .language = findings->language, .currency = catalogue->currency};
    qll_sheet sheet;
    qll_report report = qll_report_begin_bare(&wording, NULL, writer->arena, &sheet);
    sheet.title = qll_report_says(&report, QLL_SAYS_NAME_LIST);
    sheet.subject = catalogue->name;
    qll_sheet_section(&sheet, QLL_SECTION_STATION, "");
    write_heads(&report);
    for (size_t i = 0; i < catalogue->count; i++) {
        write_valve(&report, &catalogue->valves[i]);
    }
    qll_report_table(&report, QLL_MESSAGE_COUNT, "lllrrrrr", true);
    qll_sheet_section(&sheet, QLL_SECTION_SURVEY, "");
    if (catalogue->invented) {
        qll_report_paragraph(&report, QLL_SAYS_LIST_INVENTED, NULL, 0);
    }
    qll_report_paragraph(&report, QLL_SAYS_LIST_NAMES, NULL, 0);
    qll_report_print(&report, writer);
}
