/* An event in the pipes as a sheet: what happens, the verdicts, what cures it, where, and by which pipes. */
#include "base/count.h"
#include "report/report_parts.h"
#include "report/simulate_figures.h"
#include "wording/texts.h"

#include <math.h>

static const char *said(const qll_report *report, const qll_said *says)
{
    return qll_said_text(report->arena, &report->wording, says);
}

static const char *text(const qll_report *report, qll_text_id id)
{
    return said(report, &(qll_said){.id = id});
}

static void section(qll_report *report, qll_section_kind kind, qll_text_id heading)
{
    qll_sheet_section(report->sheet, kind, text(report, heading));
}

static void heads(qll_report *report, const qll_text_id *ids, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        qll_sheet_cell(report->sheet, text(report, ids[i]));
    }
}

/* Closes a table right under the heading that says what it is. */
static void close_table(qll_report *report, qll_text_id caption, const char *align)
{
    qll_sheet_table(report->sheet, report->is_plain ? "" : text(report, caption), align, true);
    qll_table_block *table = qll_sheet_last_table(report->sheet);
    if (table != NULL) {
        table->names_itself = true;
    }
}

/* To the millisecond where waves run; of what takes minutes to the second. */
static const char *seconds(const qll_report *report, double time_s)
{
    qll_writer writer = qll_writer_new(report->arena);
    qll_write_format(&writer, time_s < 10.0 ? "%.3f" : "%.0f", time_s);
    return qll_writer_text(&writer).bytes;
}

/* What was taken of the event itself where the question is silent: of options, which begin with dashes. On a terminal the
 * rest is left to the JSON. */
static void write_taken(qll_report *report, const qll_simulated_findings *found)
{
    for (const qll_assumption *one = found->demand.assumed->first; one != NULL; one = one->next) {
        if (one->what.form == QLL_ARGUMENT_AS_IS && one->what.text.size > 0
            && one->what.text.bytes[0] == '-') {
            qll_sheet_item(report->sheet, qll_report_assumed_line(report, one));
        }
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
}

static void write_cover(qll_report *report, const qll_simulated_findings *found)
{
    qll_sheet_text(report->sheet, QLL_BLOCK_LEAD, said(report, &found->says));
    for (size_t i = 0; i < QLL_COUNT(found->verdicts); i++) {
        const qll_event_verdict *verdict = &found->verdicts[i];
        const qll_message mark =
            (qll_message)((size_t)QLL_SAYS_GRADE_GOOD + (size_t)verdict->grade);
        qll_writer line = qll_writer_new(report->arena);
        qll_write_format(&line, "%s. %s",
                         qll_text_capital(report->arena, qll_report_says(report, mark)),
                         said(report, &verdict->says));
        qll_sheet_item(report->sheet, qll_writer_text(&line).bytes);
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
    for (size_t i = 0; i < found->note_count; i++) {
        qll_sheet_text(report->sheet, QLL_BLOCK_PARAGRAPH, said(report, &found->notes[i]));
    }
    if (report->is_plain) {
        write_taken(report, found);
    }
}

static void write_cures(qll_report *report, const qll_simulated_findings *found)
{
    for (size_t i = 0; i < found->cure_count; i++) {
        qll_sheet_item(report->sheet, said(report, &found->cure_says[i]));
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_STEPS);
}

static void write_places(qll_report *report, const qll_simulated_findings *found)
{
    static const qll_text_id ids[] = {QLL_TEXT_SIM_HEAD_PLACE, QLL_TEXT_SIM_HEAD_BEFORE,
                                      QLL_TEXT_SIM_HEAD_HIGH,  QLL_TEXT_SIM_HEAD_HIGH_S,
                                      QLL_TEXT_SIM_HEAD_LOW,   QLL_TEXT_SIM_HEAD_LIMIT};
    heads(report, ids, QLL_COUNT(ids));
    for (size_t i = 0; i < found->place_count; i++) {
        const qll_place_found *place = &found->places[i];
        qll_sheet_cell(report->sheet, said(report, &place->name));
        qll_sheet_cell(report->sheet, qll_report_quantity(report, place->seen->before_pa_gauge,
                                                          QLL_KIND_PRESSURE));
        qll_sheet_cell(report->sheet,
                       qll_report_quantity(report, place->seen->high_pa_gauge, QLL_KIND_PRESSURE));
        qll_sheet_cell(report->sheet, seconds(report, place->seen->high_s));
        qll_sheet_cell(report->sheet,
                       qll_report_quantity(report, place->seen->low_pa_gauge, QLL_KIND_PRESSURE));
        qll_sheet_cell(report->sheet, isfinite(place->limit_pa_gauge) ? qll_report_quantity(
                                          report, place->limit_pa_gauge, QLL_KIND_PRESSURE)
                                                                      : "-");
    }
    close_table(report, QLL_TEXT_SIM_PLACES, "lrrrrr");
}

static void write_pipes(qll_report *report, const qll_simulated_findings *found)
{
    static const qll_text_id ids[] = {QLL_TEXT_SIM_HEAD_PIPE, QLL_TEXT_SIM_HEAD_SPEED,
                                      QLL_TEXT_SIM_HEAD_OFF,  QLL_TEXT_SIM_HEAD_CELLS,
                                      QLL_TEXT_SIM_HEAD_HIGH, QLL_TEXT_SIM_HEAD_LIMIT};
    heads(report, ids, QLL_COUNT(ids));
    for (size_t i = 0; i < found->run->tree.network.line_count; i++) {
        const qll_pipe_found *pipe = &found->pipes[i];
        qll_writer off = qll_writer_new(report->arena);
        qll_write_format(&off, "%.2f %%", 100 * pipe->speed_off);
        qll_sheet_cell(report->sheet, said(report, &pipe->name));
        qll_sheet_cell(report->sheet,
                       qll_report_quantity(report, pipe->wave_speed_m_s, QLL_KIND_SPEED_OF_SOUND));
        qll_sheet_cell(report->sheet, qll_writer_text(&off).bytes);
        qll_sheet_cell(report->sheet, qll_report_count(report, pipe->cells));
        qll_sheet_cell(report->sheet,
                       qll_report_quantity(report, pipe->high_pa_gauge, QLL_KIND_PRESSURE));
        qll_sheet_cell(report->sheet,
                       qll_report_quantity(report, pipe->rating_pa_gauge, QLL_KIND_PRESSURE));
    }
    close_table(report, QLL_TEXT_SIM_PIPES, "lrrrrr");
}

static void write_sources(qll_report *report, const qll_simulated_findings *found)
{
    for (size_t i = 0; i < found->demand.source_count; i++) {
        qll_sheet_item(report->sheet, said(report, &found->demand.sources[i]));
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
}

static void write_sheet(qll_report *report, const qll_simulated_findings *found)
{
    qll_sheet *sheet = report->sheet;
    sheet->title = text(report, QLL_TEXT_SIM_NAME);
    sheet->subject = found->demand.survey->name;
    sheet->runs_on = true;
    qll_sheet_section(sheet, QLL_SECTION_COVER, "");
    write_cover(report, found);
    section(report, QLL_SECTION_ALTERNATIVES, QLL_TEXT_SIM_CURES);
    write_cures(report, found);
    section(report, QLL_SECTION_EXPECT, QLL_TEXT_SIM_PLACES);
    write_places(report, found);
    if (!report->is_plain) {
        section(report, QLL_SECTION_FIGURES, QLL_TEXT_SIM_DRAWINGS);
        qll_simulate_figures(sheet, found);
    }
    section(report, QLL_SECTION_SURVEY, QLL_TEXT_SIM_PIPES);
    write_pipes(report, found);
    if (!report->is_plain) {
        qll_report_assumed(report);
        qll_sheet_section(sheet, QLL_SECTION_SOURCES,
                          qll_report_says(report, QLL_SAYS_SECTION_SOURCES));
        write_sources(report, found);
    }
    qll_sheet_section(sheet, QLL_SECTION_CAUTIONS,
                      qll_report_says(report, QLL_SAYS_SECTION_CAUTIONS));
    qll_report_cautions(report);
}

static qll_report begin(const qll_simulated_findings *found, qll_arena *arena, qll_sheet *sheet)
{
    const qll_wording wording = {.units = found->demand.survey->units,
                                 .language = found->demand.language,
                                 .site = &found->demand.survey->site};
    return qll_report_begin_bare(&wording, found->demand.assumed, arena, sheet);
}

void qll_simulated_print(qll_writer *writer, const qll_simulated_findings *findings)
{
    qll_sheet sheet;
    qll_report report = begin(findings, writer->arena, &sheet);
    write_sheet(&report, findings);
    qll_report_print(&report, writer);
}

void qll_simulated_make(const qll_simulated_findings *findings, qll_arena *arena, qll_sheet *sheet)
{
    qll_report report = begin(findings, arena, sheet);
    report.is_plain = false;
    write_sheet(&report, findings);
    qll_sheet_end(sheet);
}
