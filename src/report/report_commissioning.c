/* The sheet to fill in on the day a station is started. Every line says what to open, what to read, by the letters of the
 * drawing, and what it should be. Limits of the tests are our assumption unless the sheet names a source. */
#include "base/count.h"
#include "report/forms.h"
#include "report/report_parts.h"
#include "wording/texts.h"

#include <math.h>
#include <string.h>

/* A table whose heads say what it is: its caption is for those who do not see them. */
static void self_named_table(qll_report *report, qll_message caption, const char *align,
                             bool has_row_heads)
{
    qll_report_table(report, caption, align, has_row_heads);
    qll_sheet_name_by_heads(report->sheet, qll_report_says(report, caption));
}

/* The gauge behind the whole station. */
static const char *outlet_gauge(const qll_report *report)
{
    return qll_form_gauge(report, report->chosen->station.stage_count);
}

static const char *pressure_of(const qll_report *report, double pa_gauge)
{
    return qll_report_quantity(report, pa_gauge, QLL_KIND_PRESSURE);
}

static const char *difference_of(const qll_report *report, double pa)
{
    return qll_report_quantity(report, pa, QLL_KIND_PRESSURE_DIFFERENCE);
}

/* What is added to a reading for another pressure at @p gauge; NULL where nothing is. */
static const char *correction_of(const qll_report *report, const char *gauge, double pa_per_10psi)
{
    qll_writer scratch = qll_writer_new(report->arena);
    return qll_wording_correction(&scratch, &report->wording, gauge, pa_per_10psi);
}

static const char *how_to_run(const qll_report *report, const qll_flow_run *run)
{
    qll_flow_run plain =
        *run; /* with the hose valve at hand; the cover says which faucet is like it */
    plain.has_lavatory = false;
    plain.has_shower = false;
    qll_writer how = qll_writer_new(report->arena);
    qll_wording_make_flow(&how, &report->wording, &plain);
    return qll_writer_text(&how).bytes;
}

/* Whether more than the hose valve is opened for it. */
static bool opens_fixtures(const qll_flow_run *run)
{
    bool opens = run->is_short;
    for (size_t t = 0; t < QLL_TAP_COUNT; t++) {
        opens = opens || run->opened[t] > 0;
    }
    return opens;
}

/* ---- lines of the first test ---- */

typedef struct test_sheet {
    qll_report *report;
    size_t line;
} test_sheet;

static void write_line_heads(qll_report *report)
{
    static const qll_message heads[] = {
        QLL_SAYS_HEAD_LINE,  QLL_SAYS_HEAD_DO,   QLL_SAYS_HEAD_SHOULD, QLL_SAYS_HEAD_INLET_NOW,
        QLL_SAYS_HEAD_FOUND, QLL_SAYS_HEAD_LEFT, QLL_SAYS_HEAD_PASS,   QLL_SAYS_HEAD_FAIL};
    qll_report_heads(report, heads, QLL_COUNT(heads));
}

static void write_line(test_sheet *sheet, const char *what, const char *should)
{
    qll_report *report = sheet->report;
    sheet->line += 1;
    qll_sheet_cell(report->sheet, qll_report_count(report, sheet->line));
    qll_sheet_cell(report->sheet, what);
    qll_sheet_cell(report->sheet, should);
    for (int box = 0; box < 3; box++) {
        qll_form_reading(report);
    }
    qll_form_box(report, QLL_BOX_TICK_MM);
    qll_form_box(report, QLL_BOX_TICK_MM);
}

/* ---- each valve alone ---- */

/* "B", "B, C": the other valves of the stage; NULL if there is none. */
static const char *others_of(const qll_report *report, size_t stage, size_t branch)
{
    qll_writer names = qll_writer_new(report->arena);
    for (size_t b = 0; b < report->chosen->station.stages[stage].branch_count; b++) {
        if (b != branch) {
            qll_write(&names, names.size == 0 ? "" : ", ");
            qll_valve_name_write(&names, &report->chosen->station, stage, b);
        }
    }
    return names.size == 0 ? NULL : qll_writer_text(&names).bytes;
}

static void write_set_lines(test_sheet *sheet, size_t stage, size_t branch)
{
    qll_report *report = sheet->report;
    const qll_setting *setting = &report->figures->settings[stage][branch];
    const qll_setting_test *test = &report->found->job->setting_tests[stage][branch];
    const char *inlet = qll_form_gauge(report, stage);
    const char *outlet = qll_form_gauge(report, stage + 1);
    double tolerance = report->found->commissioning->set_tolerance_pa;
    const qll_filling names[] = {{"valve", qll_report_branch(report, stage, branch)},
                                 {"others", others_of(report, stage, branch)}};
    const qll_filling what[] = {
        {"alone",
         names[1].text == NULL ? NULL : qll_report_fill(report, QLL_SAYS_DO_ALONE, names, 2)},
        {"run", how_to_run(report, &test->run)},
        {"valve", names[0].text},
        {"inlet", inlet},
        {"outlet", outlet}};
    const qll_filling should[] = {
        {"outlet", outlet},
        {"low", qll_report_bare(report, setting->reading_pa_gauge - tolerance, QLL_KIND_PRESSURE)},
        {"high", pressure_of(report, test->most_pa_gauge)},
        {"gauge", inlet},
        {"inlet", pressure_of(report, setting->inlet_pa_gauge)},
        {"note", correction_of(report, inlet, setting->correction_pa_per_10psi)}};
    const qll_filling lockup[] = {{"outlet", outlet},
                                  {"pressure", pressure_of(report, setting->lockup_pa_gauge)}};
    const bool uses_fixtures = opens_fixtures(&test->run);
    if (isfinite(setting->reading_pa_gauge)) {
        write_line(sheet, qll_report_fill(report, QLL_SAYS_DO_SET, what, QLL_COUNT(what)),
                   qll_report_fill(report, QLL_SAYS_SHOULD_SET, should, QLL_COUNT(should)));
    }
    write_line(sheet,
               qll_report_fill(report, uses_fixtures ? QLL_SAYS_DO_LOCKUP_ALL : QLL_SAYS_DO_LOCKUP,
                               what, QLL_COUNT(what)),
               qll_report_fill(report, QLL_SAYS_SHOULD_LOCKUP, lockup, 2));
}

/* ---- all valves in service ---- */

/* How far two gauges differ that should show the same: a strainer's loss is read between them later on. */
static void write_cock_line(test_sheet *sheet, size_t stage, size_t branch)
{
    qll_report *report = sheet->report;
    const qll_filling names[] = {
        {"gauge", qll_form_gauge(report, stage)},
        {"cock", qll_cock_name(report->arena, &report->chosen->station, stage, branch)}};
    if (report->found->job->sizes[stage][branch].has_cock) {
        write_line(sheet, qll_report_fill(report, QLL_SAYS_DO_COCK, names, 2),
                   qll_report_fill(report, QLL_SAYS_SHOULD_COCK, names, 2));
    }
}

static void write_falloff_line(test_sheet *sheet, size_t index)
{
    qll_report *report = sheet->report;
    const qll_falloff_test *test = &report->found->commissioning->falloff[index];
    const char *inlet = qll_form_gauge(report, 0);
    const qll_filling what[] = {
        {"run", how_to_run(report, &report->found->job->falloff_runs[index])},
        {"inlet", inlet},
        {"outlet", outlet_gauge(report)}};
    const qll_filling should[] = {
        {"outlet", outlet_gauge(report)},
        {"pressure", pressure_of(report, test->outlet_pa_gauge)},
        {"least", pressure_of(report, test->least_pa_gauge)},
        {"gauge", inlet},
        {"inlet", pressure_of(report, test->inlet_pa_gauge)},
        {"note", correction_of(report, inlet, test->correction_pa_per_10psi)}};
    if (isfinite(test->outlet_pa_gauge)) {
        write_line(sheet, qll_report_fill(report, QLL_SAYS_DO_FALLOFF, what, QLL_COUNT(what)),
                   qll_report_fill(report, QLL_SAYS_SHOULD_FALLOFF, should, QLL_COUNT(should)));
    }
}

typedef void branch_lines(test_sheet *sheet, size_t stage, size_t branch);

static void each_branch(test_sheet *sheet, branch_lines *lines)
{
    const qll_station *station = &sheet->report->chosen->station;
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            lines(sheet, s, b);
        }
    }
}

static void write_settings_test(qll_report *report)
{
    test_sheet sheet = {report, 0};
    write_line_heads(report);
    each_branch(&sheet, write_set_lines);
    each_branch(&sheet, write_cock_line);
    for (size_t i = 0; i < QLL_FALLOFF_TESTS; i++) {
        write_falloff_line(&sheet, i);
    }
    qll_report_table(report, QLL_SAYS_TEST_SET, "llllllll", true);
}

/* ---- creep ---- */

static void write_creep_steps(qll_report *report)
{
    static const qll_message steps[] = {QLL_SAYS_CREEP_STEP_SAFE, QLL_SAYS_CREEP_STEP_SHUT,
                                        QLL_SAYS_CREEP_STEP_DRAW, QLL_SAYS_CREEP_STEP_SEAT,
                                        QLL_SAYS_CREEP_STEP_BACK};
    const qll_commissioning *tests = report->found->commissioning;
    const qll_station *station = &report->chosen->station;
    const size_t valves = qll_station_valve_count(station);
    const qll_filling fillings[] = {
        {"count", valves > 1 ? qll_report_count(report, valves) : NULL},
        {"readings", qll_form_gauges_from(report, 0)},
        {"low", qll_report_quantity(report, tests->creep_draw_low_m3s, QLL_KIND_FLOW)},
        {"high", qll_report_quantity(report, tests->creep_draw_high_m3s, QLL_KIND_FLOW)},
        {"run", qll_report_count(report, QLL_CREEP_DRAW_MIN)},
        {"first", qll_report_count(report, QLL_CREEP_FIRST_S)},
        {"last", qll_report_count(report, QLL_CREEP_LAST_MIN)},
        {"outlet", qll_form_gauges_from(report, 1)},
        {"tight", difference_of(report, tests->creep_tight_pa)},
        {"leaks", difference_of(report, tests->creep_leaks_pa)}};
    qll_sheet_text(report->sheet, QLL_BLOCK_HEADING, qll_report_says(report, QLL_SAYS_TEST_CREEP));
    for (size_t i = 0; i < QLL_COUNT(steps); i++) {
        qll_sheet_item(report->sheet,
                       qll_report_fill(report, steps[i], fillings, QLL_COUNT(fillings)));
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_STEPS);
}

/* Readings of every gauge; behind each stage there is a verdict. */
static void write_creep_readings(qll_report *report)
{
    static const size_t minutes[] = {1, 2, 5, QLL_CREEP_LAST_MIN, 15, 30};
    const qll_filling first = {"first", qll_report_count(report, QLL_CREEP_FIRST_S)};
    static const qll_message verdicts[] = {QLL_SAYS_HEAD_PASS, QLL_SAYS_HEAD_FAIL};
    qll_report_cell(report, QLL_SAYS_HEAD_MINUTES);
    qll_sheet_cell(report->sheet, qll_report_fill(report, QLL_SAYS_AT_SECONDS, &first, 1));
    for (size_t i = 0; i < QLL_COUNT(minutes); i++) {
        qll_sheet_cell(report->sheet, qll_report_count(report, minutes[i]));
    }
    qll_report_heads(report, verdicts, QLL_COUNT(verdicts));
    for (size_t r = 0; r <= report->chosen->station.stage_count; r++) {
        qll_sheet_cell(report->sheet, qll_form_gauge(report, r));
        for (size_t i = 0; i < 1 + QLL_COUNT(minutes); i++) {
            qll_form_reading(report);
        }
        if (r == 0) {
            qll_sheet_cell(report->sheet, "");
            qll_sheet_cell(report->sheet, "");
        } else {
            qll_form_box(report, QLL_BOX_TICK_MM);
            qll_form_box(report, QLL_BOX_TICK_MM);
        }
    }
    self_named_table(report, QLL_SAYS_CREEP_READINGS, "llllllllll", true);
}

/* ---- before and after ---- */

static void write_before(qll_report *report)
{
    const qll_filling gauge = {"gauge", qll_form_gauge(report, 0)};
    qll_report_cell(report, QLL_SAYS_GAUGES_USED);
    qll_sheet_cell(report->sheet, qll_report_fill(report, QLL_SAYS_AT_REST, &gauge, 1));
    qll_form_box(report, 3 * QLL_BOX_NAME_MM);
    qll_sheet_cell_box(report->sheet, qll_units_name(QLL_KIND_PRESSURE, report->wording.units),
                       QLL_BOX_NAME_MM);
    self_named_table(report, QLL_SAYS_BEFORE_START, "ll", false);
}

/* Remarks have a line of their own; on the few sheets of a house they share that of the signature. */
static void write_signed(qll_report *report)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_REMARKS, QLL_SAYS_DONE_BY,
                                        QLL_SAYS_HEAD_LICENSE, QLL_SAYS_HEAD_DATE,
                                        QLL_SAYS_HEAD_SIGNATURE};
    const size_t first = report->is_short ? 0 : 1;
    if (!report->is_short) {
        qll_report_cell(report, QLL_SAYS_HEAD_REMARKS);
        qll_form_box(report, 4 * QLL_BOX_NAME_MM);
        self_named_table(report, QLL_SAYS_HEAD_REMARKS, "l", false);
    }
    qll_report_heads(report, heads + first, QLL_COUNT(heads) - first);
    for (size_t c = first; c < QLL_COUNT(heads); c++) {
        const bool is_brief =
            report->is_short
            && (heads[c] == QLL_SAYS_HEAD_LICENSE || heads[c] == QLL_SAYS_HEAD_DATE);
        qll_form_box(report, is_brief ? QLL_BOX_DATE_MM : QLL_BOX_NAME_MM);
    }
    self_named_table(report, QLL_SAYS_SIGNED, &"lllll"[first], false);
}

/* What the meter does not show of the flows that valves are set with. */
static const char *meter_note(const qll_report *report)
{
    const qll_station *station = &report->chosen->station;
    double least_m3s = INFINITY;
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            least_m3s = fmin(least_m3s, report->figures->settings[s][b].flow_m3s);
        }
    }
    qll_writer scratch = qll_writer_new(report->arena);
    return qll_wording_meter_note(&scratch, &report->wording, least_m3s);
}

void qll_report_commissioning(qll_report *report)
{
    const qll_filling note = {"note", meter_note(report)};
    qll_report_paragraph(report, QLL_SAYS_COMMISSION_FIRST, &note, 1);
    if (!report->is_short) {
        write_before(report); /* who has a house to do has one gauge */
    }
    write_settings_test(report);
    qll_report_paragraph(report, QLL_SAYS_LIMITS_ARE, NULL, 0);
    write_creep_steps(report);
    write_creep_readings(report);
    write_signed(report);
}
