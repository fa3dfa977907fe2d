/* One calculation: its results, its steps with the numbers in them, where each formula comes from. */
#include "report/report_parts.h"
#include "wording/says_calc.h"

#include <string.h>

/* The only result, which is no table. */
static void write_result(qll_report *report, const qll_calc_result *result)
{
    const qll_wording *wording = &report->wording;
    qll_writer line = qll_writer_new(report->arena);
    qll_write(&line, qll_say_calc_figure(wording->language, result->key));
    qll_write(&line, " ");
    qll_wording_calc_value(&line, wording->language, wording->units, result, 0);
    qll_sheet_text(report->sheet, QLL_BLOCK_LEAD, qll_writer_text(&line).bytes);
}

static void write_results(qll_report *report, const qll_calc_answer *answer)
{
    const qll_wording *wording = &report->wording;
    for (size_t r = 0; r < answer->result_count; r++) {
        const qll_calc_result *result = &answer->results[r];
        size_t count = result->field_count > 0 ? 0 : result->word != NULL ? 1 : result->count;
        for (size_t i = 0; i < count; i++) {
            qll_writer value = qll_writer_new(report->arena);
            qll_wording_calc_value(&value, wording->language, wording->units, result, i);
            qll_sheet_cell(report->sheet,
                           i == 0 ? qll_say_calc_figure(wording->language, result->key) : "");
            qll_sheet_cell(report->sheet, qll_writer_text(&value).bytes);
        }
    }
    qll_report_table(report, QLL_MESSAGE_COUNT, "lr", true);
}

/* A list of objects as a table of its own. */
static void write_objects(qll_report *report, const qll_calc_result *result)
{
    const qll_language language = report->wording.language;
    char *align = qll_arena_take(report->arena, result->field_count + 1, 1);
    if (align == NULL) {
        return;
    }
    memset(align, 'r', result->field_count);
    align[result->field_count] = '\0';
    for (size_t f = 0; f < result->field_count; f++) {
        qll_sheet_cell(report->sheet, qll_say_calc_figure(language, result->fields[f]));
    }
    for (size_t i = 0; i < result->count * result->field_count; i++) {
        qll_writer text = qll_writer_new(report->arena);
        qll_wording_calc_bare(&text, result->fields[i % result->field_count], result->values[i]);
        qll_sheet_cell(report->sheet, qll_writer_text(&text).bytes);
    }
    qll_sheet_table(report->sheet, qll_say_calc_figure(language, result->key), align, false);
}

static void write_step(qll_report *report, const qll_calc_step *step)
{
    const qll_wording *wording = &report->wording;
    qll_writer found = qll_writer_new(report->arena);
    qll_wording_calc_found(&found, wording->language, wording->units, step);
    qll_sheet_text(report->sheet, QLL_BLOCK_HEADING, qll_writer_text(&found).bytes);
    qll_writer formula = qll_writer_new(report->arena);
    qll_wording_calc_formula(&formula, wording->language, wording->units, step);
    qll_report_paragraph_of(report, &formula);
    const qll_filling source = {"source", qll_say_calc_from(wording->language, step->id)};
    qll_report_paragraph(report, QLL_SAYS_CALC_TEXT_FROM, &source, 1);
}

void qll_calc_print(qll_writer *writer, const qll_calc_answer *answer, const qll_wording *wording)
{
    const qll_language language = wording->language;
    qll_sheet sheet;
    qll_report report = qll_report_begin_bare(wording, answer->assumed, writer->arena, &sheet);
    sheet.title = answer->calc->name;
    sheet.subject = qll_say_calc_title(language, answer->calc);
    qll_sheet_section(&sheet, QLL_SECTION_COVER, "");
    if (answer->result_count == 1 && answer->results[0].count == 1) {
        write_result(&report, &answer->results[0]);
    } else {
        write_results(&report, answer);
    }
    for (size_t r = 0; r < answer->result_count; r++) {
        if (answer->results[r].field_count > 0) {
            write_objects(&report, &answer->results[r]);
        }
    }
    qll_sheet_section(&sheet, QLL_SECTION_EXPECT,
                      qll_report_says(&report, QLL_SAYS_CALC_TEXT_STEPS));
    for (size_t i = 0; i < answer->step_count; i++) {
        write_step(&report, &answer->steps[i]);
    }
    qll_sheet_section(&sheet, QLL_SECTION_SOURCES,
                      qll_report_says(&report, QLL_SAYS_CALC_TEXT_SOURCE));
    qll_sheet_text(&sheet, QLL_BLOCK_PARAGRAPH, qll_say_calc_source(language, answer->calc));
    const qll_filling what = {"validity", qll_say_calc_validity(language, answer->calc)};
    qll_report_paragraph(&report, QLL_SAYS_CALC_TEXT_HOLDS, &what, 1);
    qll_sheet_section(&sheet, QLL_SECTION_SURVEY, qll_report_says(&report, QLL_SAYS_ASSUMED_SHORT));
    qll_report_assumed(&report);
    qll_report_print(&report, writer);
}
