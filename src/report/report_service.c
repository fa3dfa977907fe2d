/* The sheet that stays with a station: what to do and when, and a log of it. */
#include "base/count.h"
#include "report/forms.h"
#include "report/report_parts.h"
#include "wording/texts.h"

#include <math.h>
#include <string.h>

/* Tasks go by letters, from "a". */
typedef struct task_list {
    qll_report *report;
    size_t count;
} task_list;

#define QLL_LETTERS 26

static void task_row(task_list *list, const char *task, qll_message every, const char *act_when)
{
    qll_report *report = list->report;
    qll_writer letter = qll_writer_new(report->arena);
    qll_write_format(&letter, "%c", (char)('a' + list->count % QLL_LETTERS));
    if (list->count >= QLL_LETTERS) {
        qll_write_format(&letter, "%zu", list->count / QLL_LETTERS);
    }
    list->count += 1;
    qll_sheet_cell(report->sheet, qll_writer_text(&letter).bytes);
    qll_sheet_cell(report->sheet, task);
    qll_report_cell(report, every);
    qll_sheet_cell(report->sheet, act_when);
}

/* The drop at which a strainer is cleaned, as a gauge reads it; "" where none is read. */
static const char *dirty_of(const qll_report *report, size_t stage, size_t branch)
{
    const qll_strainer *strainer = &report->chosen->assessment.strainers[stage][branch];
    bool is_read = isfinite(strainer->clean_me_pa) && !strainer->in_body;
    return is_read ? qll_text_reading(report->arena, strainer->clean_me_pa, report->wording.units)
                   : "";
}

static void append(qll_writer *list, const char *text)
{
    qll_write(list, list->size == 0 ? "" : ", ");
    qll_write(list, text);
}

/* A row for all strainers that are cleaned at the drop of this one, if it is the first of them. */
static void strainer_row(task_list *list, size_t stage, size_t branch)
{
    qll_report *report = list->report;
    const qll_station *station = &report->chosen->station;
    const char *dirty = dirty_of(report, stage, branch);
    qll_writer valves = qll_writer_new(report->arena);
    qll_writer readings = qll_writer_new(report->arena);
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            if (strcmp(dirty_of(report, s, b), dirty) != 0) {
                continue;
            }
            if (valves.size == 0 && (s != stage || b != branch)) {
                return;
            }
            const qll_filling gauges[] = {{"gauge", qll_form_gauge(report, s)},
                                          {"cock", qll_cock_name(report->arena, station, s, b)}};
            append(&valves, qll_report_branch(report, s, b));
            append(&readings, qll_report_fill(report, QLL_SAYS_SERVICE_READING, gauges, 2));
        }
    }
    const bool is_read = dirty[0] != '\0';
    const qll_filling fillings[] = {{"valves", qll_writer_text(&valves).bytes},
                                    {"readings", qll_writer_text(&readings).bytes},
                                    {"dirty", dirty}};
    task_row(list,
             qll_report_fill(report, is_read ? QLL_SAYS_SERVICE_STRAINER : QLL_SAYS_SERVICE_SCREEN,
                             fillings, QLL_COUNT(fillings)),
             QLL_SAYS_EVERY_6_MONTHS,
             qll_report_fill(
                 report, is_read ? QLL_SAYS_SERVICE_STRAINER_WHEN : QLL_SAYS_SERVICE_SCREEN_WHEN,
                 fillings, QLL_COUNT(fillings)));
}

/* What the gauge behind a stage may show at no flow: what the valve that holds the most does. */
static const char *most_of(const qll_report *report, size_t stage)
{
    double most_pa_gauge = 0.0;
    for (size_t b = 0; b < report->chosen->station.stages[stage].branch_count; b++) {
        most_pa_gauge = fmax(most_pa_gauge, report->figures->settings[stage][b].lockup_pa_gauge);
    }
    return qll_report_quantity(report, most_pa_gauge, QLL_KIND_PRESSURE);
}

/* "130 psi (P1), 67 psi (P2)": behind each stage; of one alone its pressure. */
static void gauges_row(task_list *list)
{
    qll_report *report = list->report;
    const size_t stages = report->chosen->station.stage_count;
    qll_writer limits = qll_writer_new(report->arena);
    for (size_t s = 0; s < stages; s++) {
        append(&limits, most_of(report, s));
        if (stages > 1) {
            qll_write_format(&limits, " (%s)", qll_form_gauge(report, s + 1));
        }
    }
    const qll_filling rest[] = {{"outlet", qll_form_gauges_from(report, 1)},
                                {"limit", qll_writer_text(&limits).bytes}};
    task_row(list, qll_report_fill(report, QLL_SAYS_SERVICE_GAUGES, rest, 2),
             QLL_SAYS_EVERY_3_MONTHS,
             qll_report_fill(report, QLL_SAYS_SERVICE_GAUGES_WHEN, rest, 2));
}

static void plain_task(task_list *list, qll_message task, qll_message every, qll_message act_when)
{
    task_row(list, qll_report_says(list->report, task), every,
             qll_report_says(list->report, act_when));
}

static void write_tasks(qll_report *report)
{
    static const qll_message heads[] = {QLL_MESSAGE_COUNT, QLL_SAYS_HEAD_TASK, QLL_SAYS_HEAD_EVERY,
                                        QLL_SAYS_HEAD_ACT_WHEN};
    const qll_station *station = &report->chosen->station;
    const qll_assessment *found = &report->chosen->assessment;
    const qll_filling creep[] = {
        {"last", qll_report_count(report, QLL_CREEP_LAST_MIN)},
        {"limit", qll_report_quantity(report, report->found->commissioning->creep_tight_pa,
                                      QLL_KIND_PRESSURE_DIFFERENCE)}};
    task_list list = {report, 0};
    qll_report_heads(report, heads, 4);
    gauges_row(&list);
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            strainer_row(&list, s, b);
        }
    }
    task_row(&list, qll_report_says(report, QLL_SAYS_SERVICE_CREEP), QLL_SAYS_EVERY_YEAR,
             qll_report_fill(report, QLL_SAYS_SERVICE_CREEP_WHEN, creep, QLL_COUNT(creep)));
    plain_task(&list, QLL_SAYS_SERVICE_STOPS, QLL_SAYS_EVERY_YEAR, QLL_SAYS_SERVICE_STOPS_WHEN);
    if (found->closed.has_heater || isfinite(report->found->job->installing.relief_pa_gauge)) {
        plain_task(&list, QLL_SAYS_SERVICE_RELIEF, QLL_SAYS_EVERY_YEAR,
                   QLL_SAYS_SERVICE_RELIEF_WHEN);
    }
    plain_task(&list, QLL_SAYS_SERVICE_REBUILD, QLL_SAYS_EVERY_5_YEARS,
               QLL_SAYS_SERVICE_REBUILD_WHEN);
    qll_report_table(report, QLL_SAYS_SERVICE, "llll", true);
}

/* Rows of the log that a page holds in any case; one on paper goes on to the page's foot. */
#define QLL_LOG_ROWS 10U

static void write_log(qll_report *report)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_DATE, QLL_SAYS_HEAD_BY_WHOM,
                                        QLL_SAYS_HEAD_TASK, QLL_SAYS_HEAD_FOUND,
                                        QLL_SAYS_HEAD_LEFT, QLL_SAYS_HEAD_REMARKS};
    qll_report_heads(report, heads, QLL_COUNT(heads));
    for (size_t row = 0; row < (report->is_short ? 1U : QLL_LOG_ROWS); row++) {
        qll_form_box(report, QLL_BOX_NAME_MM);
        qll_form_box(report, QLL_BOX_NAME_MM);
        qll_form_box(report, QLL_BOX_TICK_MM);
        qll_form_reading(report);
        qll_form_reading(report);
        qll_form_box(report, QLL_BOX_NAME_MM);
    }
    qll_report_table(report, QLL_SAYS_SERVICE_LOG, "llllll", false);
    qll_table_block *made = qll_sheet_last_table(report->sheet);
    if (made != NULL) {
        made->fills_page = true;
    }
}

void qll_report_service(qll_report *report)
{
    write_tasks(report);
    qll_report_paragraph(report, QLL_SAYS_INTERVALS_ARE, NULL, 0);
    write_log(report);
}
