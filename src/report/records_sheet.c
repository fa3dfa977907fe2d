#include "report/records_sheet.h"

#include "documents/write_records.h"
#include "records/day.h"
#include "report/report_parts.h"
#include "report/trend_figure.h"
#include "wording/texts.h"

#include <math.h>
#include <string.h>

/* As many characters of an id as tell sites apart on a screen. */
#define QLL_ID_SHOWN 8

static const char *says(const qll_report *report, const qll_said *said)
{
    qll_writer text = qll_writer_new(report->arena);
    qll_wording_said(&text, &report->wording, said);
    return qll_writer_text(&text).bytes;
}

static const char *word(const qll_report *report, qll_text_id id)
{
    return says(report, &(qll_said){.id = id});
}

static void paragraph(const qll_report *report, const qll_said *said)
{
    qll_sheet_text(report->sheet, QLL_BLOCK_PARAGRAPH, says(report, said));
}

static const char *day_text(const qll_report *report, double day)
{
    char text[QLL_DAY_SIZE];
    if (isnan(day)) {
        return "-";
    }
    qll_day_write((int)floor(day), text);
    const char *kept = qll_arena_copy(report->arena, text, strlen(text));
    return kept == NULL ? "" : kept;
}

static const char *id_shown(const qll_report *report, const char *id)
{
    const char *kept = qll_arena_copy(report->arena, id, QLL_ID_SHOWN);
    return kept == NULL ? "" : kept;
}

static void heads(const qll_report *report, const qll_text_id *ids, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        qll_sheet_cell(report->sheet, word(report, ids[i]));
    }
}

/* ---- sites ---- */

static void state_cell(const qll_report *report, const qll_due_site *site)
{
    static const qll_text_id ids[QLL_DUE_COUNT] = {
        [QLL_DUE_OVERDUE] = QLL_TEXT_RECORD_OVERDUE,
        [QLL_DUE_SOON] = QLL_TEXT_RECORD_SOON,
        [QLL_DUE_LATER] = QLL_TEXT_RECORD_LATER,
        [QLL_DUE_NO_PLAN] = QLL_TEXT_RECORD_NO_PLAN,
    };
    qll_writer text = qll_writer_new(report->arena);
    qll_write(&text, word(report, ids[site->state]));
    if (site->row->conflicts > 0) {
        qll_write_format(&text, ", %s", word(report, QLL_TEXT_RECORD_IN_CONFLICT));
    }
    qll_sheet_cell(report->sheet, qll_writer_text(&text).bytes);
}

static void site_row(const qll_report *report, const qll_due_site *site)
{
    qll_sheet_cell(report->sheet, site->row->name[0] == '\0' ? "-" : site->row->name);
    qll_sheet_cell(report->sheet, id_shown(report, site->row->site));
    qll_sheet_cell(report->sheet, site->row->service_day == NULL ? "-" : site->row->service_day);
    qll_sheet_cell(
        report->sheet,
        day_text(report, site->state == QLL_DUE_NO_PLAN ? (double)NAN : (double)site->due));
    state_cell(report, site);
}

static void site_table(const qll_report *report, const qll_due_site *sites, size_t count)
{
    static const qll_text_id ids[] = {QLL_TEXT_RECORD_HEAD_SITE, QLL_TEXT_RECORD_HEAD_ID,
                                      QLL_TEXT_RECORD_HEAD_SERVICED, QLL_TEXT_RECORD_HEAD_DUE,
                                      QLL_TEXT_RECORD_HEAD_STATE};
    heads(report, ids, sizeof ids / sizeof *ids);
    for (size_t i = 0; i < count; i++) {
        site_row(report, &sites[i]);
    }
    qll_sheet_table(report->sheet, "", "lllll", true);
}

void qll_sites_print(qll_writer *writer, const qll_recorded *found, bool is_due)
{
    qll_sheet sheet;
    qll_report report = qll_report_begin_bare(&found->wording, NULL, writer->arena, &sheet);
    const qll_said title = is_due ? (qll_said){QLL_TEXT_RECORD_DUE, {qll_as_is(found->today)}}
                                  : (qll_said){.id = QLL_TEXT_RECORD_SITES};
    sheet.title = says(&report, &title);
    qll_sheet_section(&sheet, QLL_SECTION_SERVICE, "");
    if (found->site_count == 0) {
        paragraph(&report, is_due ? QLL_SAYS(RECORD_NOTHING_DUE) : QLL_SAYS(RECORD_NO_SITE));
    } else {
        site_table(&report, found->sites, found->site_count);
    }
    if (is_due && found->site_count > 0) {
        paragraph(&report,
                  QLL_SAYS_WITH(RECORD_DUE_COUNTS, qll_as_whole(found->states[QLL_DUE_OVERDUE]),
                                qll_as_whole(found->states[QLL_DUE_SOON]),
                                qll_as_whole(found->states[QLL_DUE_LATER])));
    }
    qll_report_print(&report, writer);
}

/* ---- one site ---- */

static void record_row(const qll_report *report, const qll_record *record)
{
    char day[QLL_DAY_SIZE] = "";
    if (strlen(record->written_at) >= QLL_DAY_SIZE - 1) {
        memcpy(day, record->written_at, QLL_DAY_SIZE - 1);
    }
    const char *shown = record->kind == QLL_RECORD_VISIT && record->day != NULL ? record->day : day;
    const char *kept = qll_arena_copy(report->arena, shown, strlen(shown));
    qll_sheet_cell(report->sheet, kept == NULL ? "" : kept);
    qll_sheet_cell(report->sheet,
                   word(report, (qll_text_id)((int)QLL_TEXT_RECORD_IS_VISIT + (int)record->kind)));
    qll_sheet_cell(report->sheet, record->who);
    qll_sheet_cell(report->sheet, id_shown(report, record->id));
}

void qll_site_print(qll_writer *writer, const qll_recorded_site *found)
{
    static const qll_text_id ids[] = {QLL_TEXT_RECORD_HEAD_DAY, QLL_TEXT_RECORD_HEAD_KIND,
                                      QLL_TEXT_RECORD_HEAD_WHO, QLL_TEXT_RECORD_HEAD_ID};
    qll_sheet sheet;
    qll_report report = qll_report_begin_bare(&found->wording, NULL, writer->arena, &sheet);
    sheet.title = found->due.row->name;
    qll_sheet_section(&sheet, QLL_SECTION_SERVICE, "");
    site_table(&report, &found->due, 1);
    if (found->due.row->conflicts > 0) {
        paragraph(&report,
                  QLL_SAYS_WITH(RECORD_CONFLICTS, qll_as_whole(found->due.row->conflicts)));
    }
    if (found->count == 0) {
        paragraph(&report, QLL_SAYS(RECORD_NO_RECORDS));
    } else {
        qll_sheet_section(&sheet, QLL_SECTION_SURVEY, "");
        heads(&report, ids, sizeof ids / sizeof *ids);
        for (size_t i = 0; i < found->count; i++) {
            record_row(&report, &found->records[i]);
        }
        qll_sheet_table(&sheet, "", "llll", true);
    }
    qll_report_print(&report, writer);
}

/* ---- trends ---- */

/* What is said of it, in one text. */
static const char *all_said(const qll_report *report, const qll_said *sentences, size_t count)
{
    qll_writer all = qll_writer_new(report->arena);
    for (size_t i = 0; i < count; i++) {
        qll_write(&all, i == 0 ? "" : " ");
        qll_wording_said(&all, &report->wording, &sentences[i]);
    }
    return qll_writer_text(&all).bytes;
}

static void course_blocks(const qll_report *report, qll_followed followed, const qll_course *course)
{
    qll_said sentences[QLL_COURSE_SENTENCES];
    const size_t count =
        qll_course_says(&report->wording, report->arena, followed, course, sentences);
    if (report->is_plain || count == 0) {
        for (size_t i = 0; i < count; i++) {
            paragraph(report, &sentences[i]);
        }
        return;
    }
    const char *title = qll_text_capital(
        report->arena, word(report, (qll_text_id)((int)QLL_TEXT_RECORD_OF_SET + (int)followed)));
    const char *all = all_said(report, sentences, count);
    const qll_figure_block figure =
        qll_trend_figure(&report->wording, report->arena, followed, course, title, all);
    qll_sheet_text(report->sheet, QLL_BLOCK_PARAGRAPH, all);
    if (figure.canvas != NULL) {
        qll_sheet_figure(report->sheet, &figure);
    }
}

static void write_trend(const qll_report *report, const qll_recorded_trend *found)
{
    size_t readings = 0;
    report->sheet->title = says(report, QLL_SAYS_WITH(RECORD_TREND, qll_as_is(found->row->name)));
    qll_sheet_section(report->sheet, QLL_SECTION_SERVICE, "");
    for (size_t i = 0; i < QLL_FOLLOWED_COUNT; i++) {
        readings += found->courses[i].drift.count;
        course_blocks(report, (qll_followed)i, &found->courses[i]);
    }
    if (readings == 0) {
        paragraph(report, QLL_SAYS(RECORD_TREND_NO_READINGS));
    }
}

void qll_trend_print(qll_writer *writer, const qll_recorded_trend *found)
{
    qll_sheet sheet;
    qll_report report = qll_report_begin_bare(&found->wording, NULL, writer->arena, &sheet);
    write_trend(&report, found);
    qll_report_print(&report, writer);
}

void qll_trend_sheet(const qll_recorded_trend *found, qll_arena *arena, qll_sheet *sheet)
{
    qll_report report = qll_report_begin_bare(&found->wording, NULL, arena, sheet);
    report.is_plain = false;
    sheet->runs_on = true;
    write_trend(&report, found);
    qll_sheet_end(sheet);
}

/* ---- ranking ---- */

static const char *amount(const qll_report *report, const qll_ranked_site *site, double money)
{
    qll_wording wording = report->wording;
    wording.currency = site->currency;
    qll_writer text = qll_writer_new(report->arena);
    qll_wording_amount(&text, &wording, money);
    return qll_writer_text(&text).bytes;
}

static void ranked_row(const qll_report *report, const qll_ranked_site *site)
{
    qll_sheet_cell(report->sheet, site->row->name);
    qll_sheet_cell(report->sheet, id_shown(report, site->row->site));
    qll_sheet_cell(report->sheet, qll_report_share(report, site->callback_share));
    qll_sheet_cell(report->sheet, amount(report, site, site->callback));
    qll_sheet_cell(report->sheet, amount(report, site, site->expected));
    const char *because = qll_ranked_because(&report->wording, site);
    qll_sheet_cell(report->sheet, because == NULL ? "-" : because);
}

void qll_ranking_print(qll_writer *writer, const qll_recorded_ranking *found)
{
    static const qll_text_id ids[] = {QLL_TEXT_RECORD_HEAD_SITE,     QLL_TEXT_RECORD_HEAD_ID,
                                      QLL_TEXT_RECORD_HEAD_CHANCE,   QLL_TEXT_RECORD_HEAD_CALLBACK,
                                      QLL_TEXT_RECORD_HEAD_EXPECTED, QLL_TEXT_RECORD_HEAD_BECAUSE};
    qll_sheet sheet;
    qll_report report = qll_report_begin_bare(&found->wording, NULL, writer->arena, &sheet);
    sheet.title = word(&report, QLL_TEXT_RECORD_RANK);
    qll_sheet_section(&sheet, QLL_SECTION_SERVICE, "");
    heads(&report, ids, sizeof ids / sizeof *ids);
    for (size_t i = 0; i < found->site_count; i++) {
        ranked_row(&report, &found->sites[i]);
    }
    qll_sheet_table(&sheet, "", "llrrrl", true);
    if (found->without_station > 0) {
        paragraph(&report, QLL_SAYS_WITH(RECORD_NO_STATION, qll_as_whole(found->without_station)));
    }
    qll_said sentences[QLL_CALIBRATION_SENTENCES];
    const size_t count = qll_calibration_says(report.arena, &found->calibration, sentences);
    for (size_t i = 0; i < count; i++) {
        paragraph(&report, &sentences[i]);
    }
    qll_report_print(&report, writer);
}
