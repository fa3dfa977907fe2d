/* What a log of pressures says: what to act on, each finding with the readings it rests on, the figures, and what the log
 * cannot show. */
#include "findings/pressure.h"
#include "report/log_figure.h"
#include "report/report.h"
#include "report/report_parts.h"
#include "report/sheet_text.h"
#include "report/text_plot.h"
#include "wording/says_pressure.h"
#include "wording/texts.h"

#include <math.h>

typedef struct log_report {
    qll_report report;
    const qll_pressure_findings *found;
    size_t figure_count;
} log_report;

/* "2026-03-01 02:13:05", or "125.3 s" since the log began. */
static const char *moment_text(log_report *r, const qll_log_moment *moment)
{
    qll_writer text = qll_writer_new(r->report.arena);
    if (moment->is_elapsed) {
        qll_writer seconds = qll_writer_new(r->report.arena);
        qll_write_format(&seconds, "%.1f", moment->elapsed_s);
        const qll_filling filling = {"seconds", qll_writer_text(&seconds).bytes};
        return qll_report_fill(&r->report, QLL_SAYS_LOG_ELAPSED, &filling, 1);
    }
    qll_write_format(&text, "%04d-%02d-%02d %02d:%02d:%s%.0f", moment->year, moment->month,
                     moment->day, moment->hour, moment->minute, moment->second < 9.5 ? "0" : "",
                     floor(moment->second));
    return qll_writer_text(&text).bytes;
}

/* "creep, hammer": the findings [from, to), each word once. */
static const char *words_text(log_report *r, size_t from, size_t to)
{
    qll_writer list = qll_writer_new(r->report.arena);
    unsigned said = 0;
    for (size_t i = from; i < to; i++) {
        const qll_pressure_word word = r->found->result->findings[i].word;
        if ((said & 1U << word) == 0) {
            qll_write(&list, list.size == 0 ? "" : ", ");
            qll_write(&list, qll_say_pressure_word(r->report.wording.language, word));
        }
        said |= 1U << word;
    }
    return qll_writer_text(&list).bytes;
}

static void write_cover(log_report *r)
{
    qll_report *report = &r->report;
    const qll_pressure_findings *found = r->found;
    const qll_pressure_result *result = found->result;
    const qll_filling act = {"list", words_text(r, 0, found->act_count)};
    qll_sheet_section(report->sheet, QLL_SECTION_COVER, "");
    qll_sheet_text(report->sheet, QLL_BLOCK_LEAD,
                   found->act_count > 0 ? qll_report_fill(report, QLL_SAYS_LOG_ACT, &act, 1)
                                        : qll_report_says(report, QLL_SAYS_LOG_NOTHING));
    if (found->act_count < result->finding_count) {
        const qll_filling look = {"list", words_text(r, found->act_count, result->finding_count)};
        qll_report_paragraph(report, QLL_SAYS_LOG_LOOK, &look, 1);
    }
    qll_writer channels = qll_writer_new(report->arena);
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        if (result->has[c]) {
            qll_write(&channels, channels.size == 0 ? "" : ", ");
            qll_write(&channels,
                      qll_report_says(report, (qll_message)((size_t)QLL_SAYS_CHANNEL_INLET + c)));
        }
    }
    const qll_filling what[] = {
        {"count", qll_report_count(report, (size_t)result->log.row_count)},
        {"interval", qll_report_quantity(report, result->log.interval_s, QLL_KIND_TIME)},
        {"from", moment_text(r, &found->whole.from)},
        {"to", moment_text(r, &found->whole.to)},
        {"list", qll_writer_text(&channels).bytes},
    };
    qll_report_paragraph(report, QLL_SAYS_LOG_IS, what, 5);
    if (found->survey != NULL) {
        const qll_filling survey = {"name", found->survey};
        qll_report_paragraph(report, QLL_SAYS_LOG_COMPARED, &survey, 1);
    }
}

/* ---- findings ---- */

/* What a plot shows; @p flow_m3s NaN where it is no one flow. */
static const char *title_of(log_report *r, qll_message what, qll_kind kind, double flow_m3s)
{
    const qll_filling fillings[] = {
        {"unit", qll_units_name(kind, r->report.wording.units)},
        {"flow",
         isfinite(flow_m3s) ? qll_report_quantity(&r->report, flow_m3s, QLL_KIND_FLOW) : NULL},
    };
    return qll_report_fill(&r->report, what, fillings, 2);
}

static bool any_known(const double *values, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (isfinite(values[i])) {
            return true;
        }
    }
    return false;
}

static void plot_one(log_report *r, qll_writer *text, const char *title, qll_kind kind,
                     const qll_pressure_stretch *stretch, const double *values,
                     const char *const ends[2])
{
    if (!any_known(values, stretch->count)) {
        return;
    }
    if (!r->report.is_plain) {
        r->figure_count += 1;
        const qll_figure_block figure = qll_log_figure(&r->report.wording, r->report.arena, stretch,
                                                       values, kind, title, r->figure_count);
        if (figure.canvas != NULL) {
            qll_sheet_figure(r->report.sheet, &figure);
        }
    } else {
        qll_write(text, title);
        qll_write(text, "\n");
        qll_text_plot(text, values, stretch->count, kind, r->report.wording.units, ends);
    }
}

/* Does the inlet tell something here? */
static bool shows_inlet(qll_pressure_word word)
{
    return word == QLL_PRESSURE_WORD_SUPPLY_SWING || word == QLL_PRESSURE_WORD_INLET_EFFECT
           || word == QLL_PRESSURE_WORD_CREEP || word == QLL_PRESSURE_WORD_THERMAL_EXPANSION;
}

/* Seconds into the stretch: what it is of the log the sentence above says. */
static const char *length_text(log_report *r, double length_s)
{
    return qll_report_quantity(&r->report, length_s, QLL_KIND_TIME);
}

static void write_plot(log_report *r, const qll_pressure_finding *of)
{
    const qll_pressure_stretch *stretch = of->stretch;
    if (stretch == NULL || stretch->count < 2) {
        return;
    }
    const char *const ends[2] = {length_text(r, 0.0),
                                 length_text(r, stretch->to_unix_s - stretch->from_unix_s)};
    qll_writer text = qll_writer_new(r->report.arena);
    const bool is_drift = of->word == QLL_PRESSURE_WORD_FALL_OFF_DRIFT;
    const qll_kind kind = QLL_KIND_PRESSURE;
    if (shows_inlet(of->word)) {
        plot_one(r, &text, title_of(r, QLL_SAYS_PLOT_INLET, kind, (double)NAN), kind, stretch,
                 stretch->inlet_pa, ends);
    }
    const qll_message outlet = is_drift ? QLL_SAYS_PLOT_OUTLET_AT : QLL_SAYS_PLOT_OUTLET;
    plot_one(r, &text, title_of(r, outlet, kind, is_drift ? of->flow_m3s : (double)NAN), kind,
             stretch, stretch->outlet_pa, ends);
    if (of->word == QLL_PRESSURE_WORD_FALL_OFF || of->word == QLL_PRESSURE_WORD_STRAINER) {
        plot_one(r, &text, title_of(r, QLL_SAYS_PLOT_FLOW, QLL_KIND_FLOW, (double)NAN),
                 QLL_KIND_FLOW, stretch, stretch->flow_m3s, ends);
    }
    if (text.size > 0) {
        qll_sheet_text(r->report.sheet, QLL_BLOCK_VERBATIM, qll_writer_text(&text).bytes);
    }
}

static void write_finding(log_report *r, size_t i)
{
    qll_report *report = &r->report;
    const qll_pressure_finding *of = &r->found->result->findings[i];
    qll_writer strength = qll_writer_new(report->arena);
    qll_write_format(&strength, "%.2f", of->strength);
    const qll_filling when[] = {
        {"from", moment_text(r, &r->found->at[i].from)},
        {"to", moment_text(r, &r->found->at[i].to)},
        {"strength", qll_writer_text(&strength).bytes},
        {"word",
         qll_report_says(report, of->strength >= QLL_STRENGTH_ACT ? QLL_SAYS_STRENGTH_ACT
                                                                  : QLL_SAYS_STRENGTH_LOOK)},
    };
    qll_writer says = qll_writer_new(report->arena);
    qll_wording_pressure(&says, &report->wording, of);
    qll_sheet_text(
        report->sheet, QLL_BLOCK_HEADING,
        qll_text_capital(report->arena, qll_say_pressure_word(report->wording.language, of->word)));
    qll_report_paragraph_of(report, &says);
    qll_report_paragraph(report, QLL_SAYS_LOG_WHEN, when, 4);
    write_plot(r, of);
}

/* ---- figures ---- */

static void write_range(log_report *r, qll_message what, double low, double high)
{
    if (isfinite(low) && isfinite(high)) {
        qll_report_fact(&r->report, what,
                        qll_report_range(&r->report, low, high, QLL_KIND_PRESSURE));
    }
}

static void write_fact(log_report *r, qll_message what, double value, qll_kind kind)
{
    if (isfinite(value)) {
        qll_report_fact(&r->report, what, qll_report_quantity(&r->report, value, kind));
    }
}

static void write_number(log_report *r, qll_message what, double value, int decimals)
{
    if (isfinite(value)) {
        qll_writer text = qll_writer_new(r->report.arena);
        qll_write_format(&text, "%.*f", decimals, value);
        qll_report_fact(&r->report, what, qll_writer_text(&text).bytes);
    }
}

static void write_figures(log_report *r)
{
    qll_report *report = &r->report;
    const qll_pressure_features *f = &r->found->result->features;
    qll_sheet_section(report->sheet, QLL_SECTION_EXPECT,
                      qll_report_says(report, QLL_SAYS_LOG_FIGURES));
    const qll_message heads[] = {QLL_SAYS_HEAD_FIGURE, QLL_SAYS_HEAD_VALUE};
    qll_report_heads(report, heads, 2);
    write_range(r, QLL_SAYS_FACT_INLET, f->inlet_p05_pa_gauge, f->inlet_p95_pa_gauge);
    write_range(r, QLL_SAYS_FACT_OUTLET, f->outlet_p05_pa_gauge, f->outlet_p95_pa_gauge);
    write_fact(r, QLL_SAYS_FACT_SET_POINT, f->set_point_pa_gauge, QLL_KIND_PRESSURE);
    write_fact(r, QLL_SAYS_FACT_SHOULD_SET, f->should_set_pa_gauge, QLL_KIND_PRESSURE);
    write_fact(r, QLL_SAYS_FACT_LOCK_UP, f->lock_up_pa_gauge, QLL_KIND_PRESSURE);
    write_fact(r, QLL_SAYS_FACT_SHOULD_LOCK_UP, f->should_lock_up_pa_gauge, QLL_KIND_PRESSURE);
    if (isfinite(f->fall_off_pa)) {
        const qll_filling flow = {"flow",
                                  qll_report_quantity(report, f->high_flow_m3s, QLL_KIND_FLOW)};
        qll_sheet_cell(report->sheet, qll_report_fill(report, QLL_SAYS_FACT_FALL_OFF, &flow, 1));
        qll_sheet_cell(report->sheet,
                       qll_report_quantity(report, f->fall_off_pa, QLL_KIND_PRESSURE_DIFFERENCE));
    }
    write_number(r, QLL_SAYS_FACT_EFFECT, f->inlet_effect, 2);
    write_number(r, QLL_SAYS_FACT_WINDOWS, f->window_count, 0);
    write_number(r, QLL_SAYS_FACT_RUNS, f->run_count, 0);
    if (isfinite(f->cycles_per_day)) {
        const qll_filling swing = {
            "value", qll_report_quantity(report, QLL_CYCLE_PA, QLL_KIND_PRESSURE_DIFFERENCE)};
        qll_writer text = qll_writer_new(report->arena);
        qll_write_format(&text, "%.1f", f->cycles_per_day);
        qll_sheet_cell(report->sheet, qll_report_fill(report, QLL_SAYS_FACT_CYCLES, &swing, 1));
        qll_sheet_cell(report->sheet, qll_writer_text(&text).bytes);
    }
    write_fact(r, QLL_SAYS_FACT_NOISE, f->outlet_noise_pa, QLL_KIND_PRESSURE_DIFFERENCE);
    write_fact(r, QLL_SAYS_FACT_STEP, f->outlet_step_pa, QLL_KIND_PRESSURE_DIFFERENCE);
    qll_report_table(report, QLL_MESSAGE_COUNT, "lr", true);
}

static void write_unjudged(log_report *r)
{
    qll_report *report = &r->report;
    const qll_pressure_result *result = r->found->result;
    qll_sheet_section(report->sheet, QLL_SECTION_VERDICTS,
                      qll_report_says(report, QLL_SAYS_LOG_UNJUDGED));
    for (size_t w = 0; w < QLL_PRESSURE_WORD_COUNT; w++) {
        if (result->unjudged[w].holds) {
            qll_writer says = qll_writer_new(report->arena);
            qll_wording_unjudged(&says, &report->wording, (qll_pressure_word)w,
                                 &result->unjudged[w], result->log.interval_s,
                                 result->features.outlet_step_pa);
            qll_sheet_item(report->sheet, qll_writer_text(&says).bytes);
        }
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
}

/* ---- what is missing, and what was put right ---- */

static void write_gaps(log_report *r)
{
    qll_report *report = &r->report;
    const qll_pressure_result *result = r->found->result;
    if (result->gap_total == 0) {
        return;
    }
    const qll_filling more[] = {
        {"count", qll_report_count(report, (size_t)result->gap_total)},
        {"time", qll_report_quantity(report, result->gap_s, QLL_KIND_TIME)}};
    qll_report_heading(report, QLL_SAYS_LOG_GAPS);
    qll_report_paragraph(report, QLL_SAYS_LOG_GAPS_MORE, more, 2);
    const qll_message heads[] = {QLL_SAYS_HEAD_FROM, QLL_SAYS_HEAD_TO};
    qll_report_heads(report, heads, 2);
    for (size_t i = 0; i < result->gap_count; i++) {
        qll_sheet_cell(report->sheet, moment_text(r, &r->found->gaps[i].from));
        qll_sheet_cell(report->sheet, moment_text(r, &r->found->gaps[i].to));
    }
    qll_report_table(report, QLL_SAYS_LOG_GAPS, "ll", false);
}

static void write_mends(log_report *r)
{
    qll_report *report = &r->report;
    const qll_flow_log_result *log = &r->found->result->log;
    static const qll_log_note_kind orders[] = {QLL_LOG_NOTE_NEWEST_FIRST, QLL_LOG_NOTE_JOINED};
    for (size_t i = 0; i < 2; i++) {
        if (log->notes[orders[i]].holds) {
            qll_writer text = qll_writer_new(report->arena);
            qll_wording_log_note(&text, &report->wording, orders[i], &log->notes[orders[i]]);
            qll_report_paragraph_of(report, &text);
        }
    }
    for (size_t k = 0; k < QLL_LOG_MEND_COUNT; k++) {
        if (log->mends[k].count > 0) {
            qll_writer text = qll_writer_new(report->arena);
            qll_write_format(&text, "%lld  ", log->mends[k].count);
            qll_write(&text, qll_say_mend(report->wording.language, (qll_log_mend_kind)k));
            qll_sheet_item(report->sheet, qll_writer_text(&text).bytes);
        }
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
}

static void write_cautions(log_report *r)
{
    qll_report *report = &r->report;
    qll_sheet_section(report->sheet, QLL_SECTION_CAUTIONS,
                      qll_report_says(report, QLL_SAYS_SECTION_CAUTIONS));
    qll_report_cautions(report);
}

void qll_pressure_sheet(const qll_pressure_findings *findings, qll_arena *arena, bool is_plain,
                        qll_sheet *sheet)
{
    const qll_wording wording = {.units = findings->units, .language = findings->language};
    log_report r = {.report = qll_report_begin_bare(&wording, findings->assumed, arena, sheet),
                    .found = findings};
    r.report.is_plain = is_plain;
    sheet->runs_on = true;
    sheet->title = qll_report_says(&r.report, QLL_SAYS_NAME_LOG);
    sheet->subject = findings->name;
    write_cover(&r);
    for (size_t i = 0; i < findings->result->finding_count; i++) {
        write_finding(&r, i);
    }
    write_unjudged(&r);
    write_figures(&r);
    qll_sheet_section(sheet, QLL_SECTION_SURVEY, qll_report_says(&r.report, QLL_SAYS_LOG_MENDS));
    write_mends(&r);
    write_gaps(&r);
    write_cautions(&r);
    qll_sheet_end(sheet);
}

void qll_pressure_print(qll_writer *writer, const qll_pressure_findings *findings)
{
    qll_sheet sheet;
    qll_pressure_sheet(findings, writer->arena, true, &sheet);
    qll_sheet_print(writer, &sheet);
}
