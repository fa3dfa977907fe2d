/* The sheets to fill in: commissioning and service. Limits of the tests are our assumption unless the
 * sheet names a source. */
#include "base/count.h"
#include "report/report_parts.h"

#include <math.h>

/* ---- commissioning ---- */

static void write_done_by(qll_report *report)
{
    static const qll_message heads[] = {QLL_MESSAGE_COUNT, QLL_SAYS_HEAD_DATE, QLL_SAYS_HEAD_NAME,
                                        QLL_SAYS_HEAD_LICENCE, QLL_SAYS_HEAD_GAUGES};
    qll_report_heads(report, heads, 5);
    qll_report_cell(report, QLL_SAYS_SIGN);
    for (int i = 0; i < 4; i++) {
        qll_sheet_cell_box(report->sheet, "");
    }
    qll_report_table(report, QLL_SAYS_DONE_BY, "lllll", true);
}

static void measured_box(qll_report *report, qll_kind kind)
{
    qll_sheet_cell_box(report->sheet, qll_units_name(kind, report->wording.units));
}

static const char *bound_text(qll_report *report, qll_message says, double pa)
{
    const qll_filling value = {"value", qll_report_quantity(report, pa, QLL_KIND_PRESSURE)};
    return qll_report_fill(report, says, &value, 1);
}

static void set_row(qll_report *report, const qll_commissioning *tests, size_t stage, size_t branch)
{
    const qll_setting *setting = &report->figures->settings[stage][branch];
    const qll_kind kind = QLL_KIND_PRESSURE;
    double reading = setting->reading_pa_gauge;
    double tolerance = tests->set_tolerance_pa;
    qll_sheet_cell(report->sheet, qll_report_branch(report, stage, branch));
    qll_sheet_cell(report->sheet, qll_report_reading(report, setting->flow_m3s, QLL_KIND_FLOW));
    qll_sheet_cell(report->sheet, qll_report_reading(report, setting->inlet_pa_gauge, kind));
    qll_sheet_cell(report->sheet, qll_report_reading(report, reading, kind));
    qll_sheet_cell(report->sheet,
                   qll_report_reading_range(report, reading - tolerance, reading + tolerance));
    measured_box(report, kind);
    qll_sheet_cell(report->sheet, qll_report_reading(report, setting->lockup_pa_gauge, kind));
    measured_box(report, kind);
}

static void write_set_test(qll_report *report, const qll_commissioning *tests)
{
    static const qll_message heads[] = {QLL_MESSAGE_COUNT,        QLL_SAYS_HEAD_RUN,
                                        QLL_SAYS_HEAD_WITH_INLET, QLL_SAYS_HEAD_EXPECTED,
                                        QLL_SAYS_HEAD_ACCEPTABLE, QLL_SAYS_HEAD_MEASURED,
                                        QLL_SAYS_HEAD_LOCKUP,     QLL_SAYS_HEAD_MEASURED};
    const qll_station *station = &report->chosen->station;
    qll_report_heads(report, heads, QLL_COUNT(heads));
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            set_row(report, tests, s, b);
        }
    }
    qll_report_table(report, QLL_SAYS_TEST_SET, "lrrrllrl", true);
    const qll_filling tolerance = {"tolerance", qll_report_quantity(report, tests->set_tolerance_pa,
                                                                    QLL_KIND_PRESSURE_DIFFERENCE)};
    qll_report_paragraph(report, QLL_SAYS_SET_RANGE_FROM, &tolerance, 1);
}

static void falloff_row(qll_report *report, const qll_falloff_test *test)
{
    const qll_kind kind = QLL_KIND_PRESSURE;
    double least = test->least_pa_gauge;
    qll_sheet_cell(report->sheet, qll_report_quantity(report, test->flow_m3s, QLL_KIND_FLOW));
    qll_sheet_cell(report->sheet, qll_report_quantity(report, test->inlet_pa_gauge, kind));
    qll_sheet_cell(report->sheet, qll_report_quantity(report, test->outlet_pa_gauge, kind));
    qll_sheet_cell(report->sheet,
                   isfinite(least) ? bound_text(report, QLL_SAYS_AT_LEAST, least) : "-");
    measured_box(report, kind);
    measured_box(report, kind);
}

static void write_falloff_test(qll_report *report, const qll_commissioning *tests)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_RUN,       QLL_SAYS_HEAD_WITH_INLET,
                                        QLL_SAYS_HEAD_EXPECTED,  QLL_SAYS_HEAD_ACCEPTABLE,
                                        QLL_SAYS_HEAD_INLET_NOW, QLL_SAYS_HEAD_MEASURED};
    qll_report_heads(report, heads, 6);
    for (size_t i = 0; i < QLL_FALLOFF_TESTS; i++) {
        falloff_row(report, &tests->falloff[i]);
    }
    qll_report_table(report, QLL_SAYS_TEST_FALLOFF, "rrrlll", false);
    qll_report_paragraph(report, QLL_SAYS_FALLOFF_RANGE_FROM, NULL, 0);
}

static void write_creep_steps(qll_report *report, const qll_commissioning *tests)
{
    const qll_filling flows[] = {
        {"low", qll_report_quantity(report, tests->creep_draw_low_m3s, QLL_KIND_FLOW)},
        {"high", qll_report_quantity(report, tests->creep_draw_high_m3s, QLL_KIND_FLOW)}};
    qll_sheet_text(report->sheet, QLL_BLOCK_HEADING, qll_report_says(report, QLL_SAYS_TEST_CREEP));
    qll_sheet_item(report->sheet, qll_report_says(report, QLL_SAYS_CREEP_STEP_SAFE));
    qll_sheet_item(report->sheet, qll_report_says(report, QLL_SAYS_CREEP_STEP_SHUT));
    qll_sheet_item(report->sheet, qll_report_fill(report, QLL_SAYS_CREEP_STEP_DRAW, flows, 2));
    qll_sheet_item(report->sheet, qll_report_says(report, QLL_SAYS_CREEP_STEP_READ));
    qll_sheet_item(report->sheet, qll_report_says(report, QLL_SAYS_CREEP_STEP_SEAT));
    qll_sheet_item(report->sheet, qll_report_says(report, QLL_SAYS_CREEP_STEP_BACK));
    qll_sheet_list(report->sheet, QLL_BLOCK_STEPS);
}

static void write_creep_readings(qll_report *report)
{
    static const char *const minutes[] = {"1", "2", "5", "10", "15", "30"};
    qll_report_cell(report, QLL_SAYS_HEAD_MINUTES);
    qll_report_cell(report, QLL_SAYS_MINUTE_QUARTER);
    for (size_t i = 0; i < QLL_COUNT(minutes); i++) {
        qll_sheet_cell(report->sheet, minutes[i]);
    }
    static const qll_message rows[] = {QLL_SAYS_HEAD_INLET, QLL_SAYS_HEAD_OUTLET};
    for (size_t r = 0; r < 2; r++) {
        qll_report_cell(report, rows[r]);
        for (size_t i = 0; i < 1 + QLL_COUNT(minutes); i++) {
            measured_box(report, QLL_KIND_PRESSURE);
        }
    }
    qll_report_table(report, QLL_SAYS_CREEP_READINGS, "llllllll", true);
}

static void write_creep_limits(qll_report *report, const qll_commissioning *tests)
{
    const qll_kind kind = QLL_KIND_PRESSURE_DIFFERENCE;
    const qll_filling limits[] = {
        {"low", qll_report_quantity(report, tests->creep_tight_pa, kind)},
        {"high", qll_report_quantity(report, tests->creep_leaks_pa, kind)}};
    qll_report_paragraph(report, QLL_SAYS_CREEP_LIMITS, limits, 2);
}

void qll_report_commissioning(qll_report *report)
{
    const qll_commissioning *tests = report->found->commissioning;
    qll_report_paragraph(report, QLL_SAYS_COMMISSION_FIRST, NULL, 0);
    write_done_by(report);
    write_set_test(report, tests);
    write_falloff_test(report, tests);
    write_creep_steps(report, tests);
    write_creep_limits(report, tests);
    write_creep_readings(report);
}

/* ---- service ---- */

static void task_row(qll_report *report, const char *task, qll_message every, const char *act_when)
{
    qll_sheet_cell(report->sheet, task);
    qll_report_cell(report, every);
    qll_sheet_cell(report->sheet, act_when);
    qll_sheet_cell_box(report->sheet, "");
}

static void write_strainer_tasks(qll_report *report)
{
    const qll_station *station = &report->chosen->station;
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            const qll_strainer *strainer = &report->chosen->assessment.strainers[s][b];
            bool is_known = isfinite(strainer->clean_me_pa);
            const qll_filling fillings[] = {
                {"valve", qll_report_branch(report, s, b)},
                {"flow", qll_report_quantity(report, strainer->at_flow_m3s, QLL_KIND_FLOW)},
                {"dirty",
                 qll_report_quantity(report, strainer->clean_me_pa, QLL_KIND_PRESSURE_DIFFERENCE)},
            };
            task_row(report,
                     qll_report_fill(report,
                                     is_known ? QLL_SAYS_SERVICE_STRAINER
                                              : QLL_SAYS_SERVICE_STRAINER_PLAIN,
                                     fillings, 3),
                     QLL_SAYS_EVERY_6_MONTHS,
                     is_known ? qll_report_fill(report, QLL_SAYS_SERVICE_STRAINER_WHEN, fillings, 3)
                              : qll_report_says(report, QLL_SAYS_SERVICE_NEVER));
        }
    }
}

static void write_tasks(qll_report *report)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_TASK, QLL_SAYS_HEAD_EVERY,
                                        QLL_SAYS_HEAD_ACT_WHEN, QLL_SAYS_HEAD_DONE};
    const qll_filling lockup = {
        "limit",
        qll_report_quantity(report, report->chosen->assessment.lockup_pa_gauge, QLL_KIND_PRESSURE)};
    const qll_filling creep = {
        "limit", qll_report_quantity(report, report->found->commissioning->creep_tight_pa,
                                     QLL_KIND_PRESSURE_DIFFERENCE)};
    qll_report_heads(report, heads, 4);
    task_row(report, qll_report_says(report, QLL_SAYS_SERVICE_GAUGES), QLL_SAYS_EVERY_3_MONTHS,
             qll_report_fill(report, QLL_SAYS_SERVICE_GAUGES_WHEN, &lockup, 1));
    write_strainer_tasks(report);
    task_row(report, qll_report_says(report, QLL_SAYS_SERVICE_CREEP), QLL_SAYS_EVERY_YEAR,
             qll_report_fill(report, QLL_SAYS_SERVICE_CREEP_WHEN, &creep, 1));
    task_row(report, qll_report_says(report, QLL_SAYS_SERVICE_WORK), QLL_SAYS_EVERY_YEAR,
             qll_report_says(report, QLL_SAYS_SERVICE_WORK_WHEN));
    task_row(report, qll_report_says(report, QLL_SAYS_SERVICE_RELIEF), QLL_SAYS_EVERY_YEAR,
             qll_report_says(report, QLL_SAYS_SERVICE_RELIEF_WHEN));
    task_row(report, qll_report_says(report, QLL_SAYS_SERVICE_REBUILD), QLL_SAYS_EVERY_5_YEARS,
             qll_report_says(report, QLL_SAYS_SERVICE_REBUILD_WHEN));
    qll_report_table(report, QLL_SAYS_SERVICE, "llll", true);
}

void qll_report_service(qll_report *report)
{
    write_tasks(report);
    qll_report_paragraph(report, QLL_SAYS_INTERVALS_ARE, NULL, 0);
    const qll_filling leaks[] = {{"pass", "0.2 mL/min"}, {"fail", "3 mL/min"}};
    qll_report_paragraph(report, QLL_SAYS_LEAK_LIMIT, leaks, 2);
}
