#include "report/report_parts.h"

#include "wording/texts.h"

#include <math.h>
#include <string.h>

/* ---- texts ---- */

const char *qll_report_says(const qll_report *report, qll_message message)
{
    return qll_say(report->wording.language, message);
}

const char *qll_report_fill(const qll_report *report, qll_message message,
                            const qll_filling *fillings, size_t count)
{
    qll_writer writer = qll_writer_new(report->arena);
    qll_say_with(&writer, report->wording.language, message, fillings, count);
    return qll_writer_text(&writer).bytes;
}

const char *qll_report_quantity(const qll_report *report, double si, qll_kind kind)
{
    return qll_quantity_text(report->arena, si, kind, report->wording.units);
}

const char *qll_report_bare(const qll_report *report, double si, qll_kind kind)
{
    if (!isfinite(si)) {
        return "-";
    }
    qll_writer writer = qll_writer_new(report->arena);
    qll_units_write_bare(&writer, si, kind, report->wording.units);
    return qll_writer_text(&writer).bytes;
}

const char *qll_report_beside(const qll_report *report, double si, double other_si, qll_kind kind)
{
    if (!isfinite(si)) {
        return "-";
    }
    qll_writer writer = qll_writer_new(report->arena);
    qll_units_write_beside(&writer, si, other_si, kind, report->wording.units);
    return qll_writer_text(&writer).bytes;
}

const char *qll_report_bare_beside(const qll_report *report, double si, double other_si,
                                   qll_kind kind)
{
    const char *text = qll_report_beside(report, si, other_si, kind);
    const char *unit = strrchr(text, ' ');
    if (unit == NULL) {
        return text;
    }
    qll_writer writer = qll_writer_new(report->arena);
    qll_write_text(&writer, (qll_text){text, (size_t)(unit - text)});
    return qll_writer_text(&writer).bytes;
}

const char *qll_report_range(const qll_report *report, double low, double high, qll_kind kind)
{
    const qll_filling fillings[] = {{"low", qll_report_quantity(report, low, kind)},
                                    {"high", qll_report_quantity(report, high, kind)}};
    if (strcmp(fillings[0].text, fillings[1].text) == 0) {
        return fillings[0].text;
    }
    return qll_report_fill(report, QLL_SAYS_RANGE, fillings, 2);
}

const char *qll_report_size(const qll_report *report, double nominal_m)
{
    if (!isfinite(nominal_m)) {
        return "-";
    }
    qll_writer writer = qll_writer_new(report->arena);
    qll_units_write_pipe_size(&writer, nominal_m, report->wording.units);
    return qll_writer_text(&writer).bytes;
}

const char *qll_report_share(const qll_report *report, double share)
{
    qll_writer writer = qll_writer_new(report->arena);
    return qll_text_bare_share(&writer, share);
}

const char *qll_report_count(const qll_report *report, size_t count)
{
    qll_writer writer = qll_writer_new(report->arena);
    qll_write_format(&writer, "%zu", count);
    return qll_writer_text(&writer).bytes;
}

const char *qll_report_branch(const qll_report *report, size_t stage, size_t branch)
{
    qll_writer writer = qll_writer_new(report->arena);
    qll_valve_name_write(&writer, &report->chosen->station, stage, branch);
    return qll_writer_text(&writer).bytes;
}

const char *qll_report_scenario(const qll_report *report, const qll_scenario *scenario)
{
    return qll_wording_scenario(report->arena, &report->wording, scenario);
}

const char *qll_report_head(const qll_report *report, qll_message head, qll_kind kind)
{
    const qll_filling fillings[] = {{"what", qll_report_says(report, head)},
                                    {"unit", qll_units_name(kind, report->wording.units)}};
    return qll_report_fill(report, QLL_SAYS_WITH_UNIT, fillings, 2);
}

void qll_report_picture(qll_report *report, qll_picture_kind kind, size_t number)
{
    if (report->is_plain || number >= qll_picture_count(report->found, kind)) {
        return;
    }
    const qll_picture picture = {kind, number};
    qll_figure_block figure;
    if (qll_picture_draw(report->found, picture, report->arena, &figure) == QLL_OK) {
        qll_sheet_figure(report->sheet, &figure);
    }
}

/* ---- blocks and cells ---- */

void qll_report_paragraph(qll_report *report, qll_message message, const qll_filling *fillings,
                          size_t count)
{
    qll_sheet_text(report->sheet, QLL_BLOCK_PARAGRAPH,
                   qll_report_fill(report, message, fillings, count));
}

void qll_report_paragraph_of(qll_report *report, qll_writer *writer)
{
    const char *text = qll_writer_text(writer).bytes;
    if (text[0] != '\0') {
        qll_sheet_text(report->sheet, QLL_BLOCK_PARAGRAPH, text);
    }
}

void qll_report_cautions(qll_report *report)
{
    for (size_t i = 0; i < QLL_CAUTION_COUNT; i++) {
        qll_sheet_item(report->sheet, qll_caution(report->wording.language, i));
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_CAUTIONS);
}

void qll_report_heading(qll_report *report, qll_message message)
{
    if (!report->is_plain) {
        qll_sheet_text(report->sheet, QLL_BLOCK_HEADING, qll_report_says(report, message));
    }
}

void qll_report_table(qll_report *report, qll_message caption, const char *align,
                      bool has_row_heads)
{
    bool has_caption = caption != QLL_MESSAGE_COUNT;
    qll_sheet_table(report->sheet, has_caption ? qll_report_says(report, caption) : "", align,
                    has_row_heads);
}

/* So many marks are a whole bar. */
#define QLL_BAR_MARKS 32.0

void qll_report_bar(qll_report *report, double share)
{
    if (report->is_plain) {
        qll_writer marks = qll_writer_new(report->arena);
        double shown = isfinite(share) ? fmin(share, 1.5) : 0.0;
        qll_write_byte(&marks, '#', (size_t)(shown * QLL_BAR_MARKS + 0.5));
        qll_sheet_cell(report->sheet, qll_writer_text(&marks).bytes);
    }
}

void qll_report_cell(qll_report *report, qll_message message)
{
    qll_sheet_cell(report->sheet, qll_report_says(report, message));
}

const char *qll_report_money(const qll_report *report, qll_message in, qll_message own)
{
    return qll_wording_money(report->arena, report->wording.language,
                             report->found->catalogue->currency, in, own);
}

void qll_report_heads(qll_report *report, const qll_message *heads, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        qll_sheet_cell(report->sheet,
                       heads[i] == QLL_MESSAGE_COUNT ? "" : qll_report_says(report, heads[i]));
    }
}

const char *qll_report_key_name(const qll_report *report, const char *key)
{
    const qll_argument what = qll_as_is(key);
    return qll_wording_key_name(report->arena, &report->wording, &what);
}

void qll_report_fact(qll_report *report, qll_message what, const char *value)
{
    qll_report_cell(report, what);
    qll_sheet_cell(report->sheet, value);
}

qll_tone qll_report_tone(qll_grade grade)
{
    static const qll_tone tones[QLL_GRADE_COUNT] = {
        [QLL_GRADE_GOOD] = QLL_TONE_GOOD,
        [QLL_GRADE_UNKNOWN] = QLL_TONE_PLAIN,
        [QLL_GRADE_CAUTION] = QLL_TONE_CAUTION,
        [QLL_GRADE_FAIL] = QLL_TONE_FAIL,
    };
    return tones[grade];
}
