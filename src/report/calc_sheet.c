/* One calculation: its results, its steps with the numbers in them, where the formula comes from. */
#include "report/report_parts.h"

#include <string.h>

static const char *result_text(qll_report *report, const qll_calc_result *result, size_t index)
{
    if (result->word != NULL) {
        return result->word;
    }
    if (result->is_flag) {
        return qll_report_says(report, result->values[index] != 0 ? QLL_SAYS_YES : QLL_SAYS_NO);
    }
    qll_writer text = qll_writer_new(report->arena);
    if (result->kind == QLL_KIND_NUMBER) {
        qll_write_format(&text, "%.6g", result->values[index]);
    } else {
        qll_units_write(&text, result->values[index], result->kind, report->wording.units);
    }
    return qll_writer_text(&text).bytes;
}

/* The value in SI, as a machine reads it. */
static const char *si_text(qll_report *report, const qll_calc_result *result, size_t index)
{
    if (result->word != NULL || result->is_flag) {
        return "";
    }
    qll_writer text = qll_writer_new(report->arena);
    qll_write_format(&text, "%.9g", result->values[index]);
    return qll_writer_text(&text).bytes;
}

static void write_results(qll_report *report, const qll_calc_answer *answer)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_RESULT, QLL_SAYS_HEAD_VALUE,
                                        QLL_SAYS_HEAD_IN_SI};
    qll_report_heads(report, heads, 3);
    for (size_t r = 0; r < answer->result_count; r++) {
        const qll_calc_result *result = &answer->results[r];
        size_t count = result->field_count > 0 ? 0 : result->word != NULL ? 1 : result->count;
        for (size_t i = 0; i < count; i++) {
            qll_sheet_cell(report->sheet, i == 0 ? result->key : "");
            qll_sheet_cell(report->sheet, result_text(report, result, i));
            qll_sheet_cell(report->sheet, si_text(report, result, i));
        }
    }
    qll_report_table(report, QLL_MESSAGE_COUNT, "lrr", true);
}

/* A list of objects as a table of its own. */
static void write_objects(qll_report *report, const qll_calc_result *result)
{
    char *align = qll_arena_take(report->arena, result->field_count + 1, 1);
    if (align == NULL) {
        return;
    }
    memset(align, 'r', result->field_count);
    align[result->field_count] = '\0';
    for (size_t f = 0; f < result->field_count; f++) {
        qll_sheet_cell(report->sheet, result->fields[f]);
    }
    for (size_t i = 0; i < result->count * result->field_count; i++) {
        qll_writer text = qll_writer_new(report->arena);
        qll_write_format(&text, "%.6g", result->values[i]);
        qll_sheet_cell(report->sheet, qll_writer_text(&text).bytes);
    }
    qll_sheet_table(report->sheet, result->key, align, false);
}

static void write_steps(qll_report *report, const qll_calc_answer *answer)
{
    for (size_t i = 0; i < answer->step_count; i++) {
        qll_writer numbers = qll_writer_new(report->arena);
        qll_write(&numbers, "= ");
        qll_write(&numbers, answer->steps[i].numbers);
        qll_sheet_text(report->sheet, QLL_BLOCK_PARAGRAPH, answer->steps[i].formula);
        qll_report_paragraph_of(report, &numbers);
    }
}

void qll_calc_print(qll_writer *writer, const qll_calc_answer *answer)
{
    const qll_wording wording = {.units = answer->units};
    qll_sheet sheet;
    qll_report report = qll_report_begin_bare(&wording, answer->assumed, writer->arena, &sheet);
    sheet.title = answer->calc->name;
    sheet.subject = answer->calc->question;
    qll_sheet_section(&sheet, QLL_SECTION_COVER, "");
    write_results(&report, answer);
    for (size_t r = 0; r < answer->result_count; r++) {
        if (answer->results[r].field_count > 0) {
            write_objects(&report, &answer->results[r]);
        }
    }
    qll_sheet_section(&sheet, QLL_SECTION_EXPECT, qll_report_says(&report, QLL_SAYS_CALC_STEPS));
    write_steps(&report, answer);
    qll_sheet_section(&sheet, QLL_SECTION_SOURCES, qll_report_says(&report, QLL_SAYS_CALC_SOURCE));
    qll_sheet_text(&sheet, QLL_BLOCK_PARAGRAPH, answer->calc->source);
    const qll_filling what = {"what", answer->calc->validity};
    qll_report_paragraph(&report, QLL_SAYS_CALC_VALID, &what, 1);
    qll_sheet_section(&sheet, QLL_SECTION_SURVEY, qll_report_says(&report, QLL_SAYS_ASSUMED_SHORT));
    qll_report_assumed(&report);
    qll_report_print(&report, writer);
}
