/* What a recording holds, as a sheet: the kinds, when, what was measured, and what it cannot tell. */
#include "base/count.h"
#include "report/listen_beside.h"
#include "report/listen_figures.h"
#include "report/report_parts.h"

#include <math.h>

/* More events than these nobody reads on a sheet. */
#define QLL_EVENTS_SHOWN 20

/* A figure with its unit; "-" where it is none. */
static const char *figure(const qll_report *report, double value, int decimals, const char *unit)
{
    if (!isfinite(value)) {
        return "-";
    }
    qll_writer text = qll_writer_new(report->arena);
    qll_write_format(&text, "%.*f%s", decimals, value, unit);
    return qll_writer_text(&text).bytes;
}

/* Closes a table right under the heading that says what it is. */
static void close_table(qll_report *report, qll_message caption, const char *align,
                        bool has_row_heads)
{
    qll_report_table(report, report->is_plain ? QLL_MESSAGE_COUNT : caption, align, has_row_heads);
    qll_table_block *table = qll_sheet_last_table(report->sheet);
    if (table != NULL) {
        table->names_itself = true;
    }
}

static void write_kinds(qll_report *report, const qll_listen_findings *findings)
{
    const qll_sound_result *result = findings->result;
    for (size_t i = 0; i < result->share_count; i++) {
        qll_writer says = qll_writer_new(report->arena);
        qll_wording_heard(&says, &report->wording, result, &result->shares[i]);
        qll_sheet_text(report->sheet, i == 0 ? QLL_BLOCK_LEAD : QLL_BLOCK_PARAGRAPH,
                       qll_writer_text(&says).bytes);
    }
    if (findings->seat_tone != NULL) {
        qll_writer says = qll_writer_new(report->arena);
        qll_wording_seat_tone(&says, &report->wording, findings->seat_tone, findings->tone_hz);
        qll_report_paragraph_of(report, &says);
    }
}

static void write_events(qll_report *report, const qll_sound_result *result)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_FROM_S, QLL_SAYS_HEAD_TO_S,
                                        QLL_SAYS_HEAD_HEARD, QLL_SAYS_HEAD_PITCH,
                                        QLL_SAYS_HEAD_OVER};
    qll_report_heads(report, heads, QLL_COUNT(heads));
    size_t shown = result->event_count < QLL_EVENTS_SHOWN ? result->event_count : QLL_EVENTS_SHOWN;
    for (size_t i = 0; i < shown; i++) {
        const qll_sound_event *event = &result->events[i];
        const bool is_tone = event->kind == QLL_SOUND_SQUEAL;
        qll_sheet_cell(report->sheet, figure(report, event->from_s, 1, ""));
        qll_sheet_cell(report->sheet, is_tone ? figure(report, event->to_s, 1, "") : "");
        qll_report_cell(report, is_tone ? QLL_SAYS_EVENT_TONE : QLL_SAYS_EVENT_THUMP);
        qll_sheet_cell(report->sheet, is_tone ? figure(report, event->tone_hz, 0, "") : "");
        qll_sheet_cell(report->sheet, figure(report, event->height_db, 0, ""));
    }
    close_table(report, QLL_SAYS_LISTEN_EVENTS, "rrlrr", false);
    if (shown < result->event_count) {
        const qll_filling count = {"count", qll_report_count(report, result->event_count - shown)};
        qll_report_paragraph(report, QLL_SAYS_EVENTS_MORE, &count, 1);
    }
}

static void write_measured(qll_report *report, const qll_listen_findings *findings)
{
    const qll_sound_result *result = findings->result;
    const qll_sound_features *features = &result->stretches[result->shares[0].stretch].features;

    const struct {
        double value;
        const char *unit;
        qll_message what;
        int decimals;
    } rows[] = {
        {result->duration_s, " s", QLL_SAYS_LISTEN_LASTS, 1},
        {100.0 * result->clipped_share, " %", QLL_SAYS_LISTEN_CLIPPED, 2},
        {features->level_a_db, " dB", QLL_SAYS_LISTEN_LEVEL, 0},
        {features->tone_hz, " Hz", QLL_SAYS_LISTEN_TONE, 0},
        {features->slope_db_decade, " dB", QLL_SAYS_LISTEN_SLOPE, 1},
        {features->high_ratio_db, " dB", QLL_SAYS_LISTEN_HIGH, 1},
        {features->low_ratio_db, " dB", QLL_SAYS_LISTEN_LOW, 1},
        {features->repeat_wide, "", QLL_SAYS_LISTEN_RHYTHM, 2},
        {features->thump_db, " dB", QLL_SAYS_LISTEN_THUMPS, 0},
        {features->kurtosis, "", QLL_SAYS_LISTEN_KURTOSIS, 1},
    };

    static const qll_message heads[] = {QLL_SAYS_HEAD_FIGURE, QLL_SAYS_HEAD_VALUE};
    qll_report_heads(report, heads, QLL_COUNT(heads));
    for (size_t i = 0; i < QLL_COUNT(rows); i++) {
        qll_report_fact(report, rows[i].what,
                        figure(report, rows[i].value, rows[i].decimals, rows[i].unit));
    }
    close_table(report, QLL_SAYS_LISTEN_MEASURED, "lr", true);
}

static void write_untold(qll_report *report, const qll_sound_result *result)
{
    for (unsigned limit = QLL_SOUND_LIMIT_COUNT;
         limit-- > 0;) { /* its own limits before those of all */
        if ((result->limits & (1U << limit)) != 0) {
            qll_sheet_item(report->sheet,
                           qll_say_untold(report->wording.language, (qll_sound_limit)limit));
        }
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
}

static void write_sources(qll_report *report, const qll_listen_findings *findings)
{
    for (size_t i = 0; i < findings->source_count; i++) {
        qll_sheet_item(report->sheet,
                       qll_said_text(report->arena, &report->wording, &findings->sources[i]));
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
}

static void section(qll_report *report, qll_section_kind kind, qll_message heading)
{
    qll_sheet_section(report->sheet, kind, qll_report_says(report, heading));
}

static void write_sheet(qll_report *report, const qll_listen_findings *findings)
{
    qll_sheet *sheet = report->sheet;
    sheet->title = qll_report_says(report, QLL_SAYS_NAME_LISTEN);
    sheet->subject = findings->name;
    sheet->runs_on = true;
    qll_sheet_section(sheet, QLL_SECTION_COVER, "");
    write_kinds(report, findings);
    if (qll_has_part(findings->left_out, QLL_PART_EVENTS)) {
        section(report, QLL_SECTION_EXPECT, QLL_SAYS_LISTEN_EVENTS);
        write_events(report, findings->result);
    }
    if (findings->beside != NULL) {
        section(report, QLL_SECTION_SURVEY, QLL_SAYS_BESIDE);
        qll_listen_write_beside(report, findings);
    }
    section(report, QLL_SECTION_STATION, QLL_SAYS_LISTEN_MEASURED);
    write_measured(report, findings);
    if (!report->is_plain) {
        section(report, QLL_SECTION_FIGURES, QLL_SAYS_LISTEN_DRAWINGS);
        qll_listen_figures(sheet, findings);
    }
    section(report, QLL_SECTION_VERDICTS, QLL_SAYS_LISTEN_LIMITS);
    write_untold(report, findings->result);
    section(report, QLL_SECTION_SOURCES, QLL_SAYS_SECTION_SOURCES);
    write_sources(report, findings);
    section(report, QLL_SECTION_CAUTIONS, QLL_SAYS_SECTION_CAUTIONS);
    qll_report_cautions(report);
}

void qll_listen_print(qll_writer *writer, const qll_listen_findings *findings)
{
    const qll_wording wording = {.units = findings->units, .language = findings->language};
    qll_sheet sheet;
    qll_report report = qll_report_begin_bare(&wording, findings->assumed, writer->arena, &sheet);
    write_sheet(&report, findings);
    qll_report_print(&report, writer);
}

void qll_listen_make(const qll_listen_findings *findings, qll_arena *arena, qll_sheet *sheet)
{
    const qll_wording wording = {.units = findings->units, .language = findings->language};
    qll_report report = qll_report_begin_bare(&wording, findings->assumed, arena, sheet);
    report.is_plain = false;
    write_sheet(&report, findings);
    qll_sheet_end(sheet);
}
