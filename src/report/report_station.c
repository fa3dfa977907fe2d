/* Parts and settings. */
#include "base/count.h"
#include "report/report_parts.h"

#include <math.h>

/* ---- parts ---- */

static void part_row(qll_report *report, const char *mark, const char *part, const char *size,
                     size_t count)
{
    qll_sheet_cell(report->sheet, mark);
    qll_sheet_cell(report->sheet, part);
    qll_sheet_cell(report->sheet, size);
    qll_sheet_cell(report->sheet, qll_report_count(report, count));
}

static const char *acting_of(const qll_report *report, const qll_valve *valve)
{
    return qll_report_says(report,
                           (qll_message)((size_t)QLL_SAYS_ACTING_DIRECT + (size_t)valve->acting));
}

static void write_branch_parts(qll_report *report, size_t stage, size_t branch)
{
    const qll_station *station = &report->chosen->station;
    const qll_valve *valve = station->stages[stage].branches[branch].valve;
    const qll_strainer *strainer = &report->chosen->assessment.strainers[stage][branch];
    const char *mark = qll_report_branch(report, stage, branch);
    const qll_filling named[] = {{"valve", valve->id}, {"acting", acting_of(report, valve)}};
    part_row(report, mark, qll_report_fill(report, QLL_SAYS_PART_VALVE, named, 2),
             qll_report_size(report, valve->nominal_m), 1);
    const qll_filling mesh = {
        "mesh", qll_report_count(report, strainer->mesh > 0 ? (size_t)strainer->mesh : 0)};
    part_row(report, mark,
             strainer->in_body ? qll_report_says(report, QLL_SAYS_PART_STRAINER_BODY)
                               : qll_report_fill(report, QLL_SAYS_PART_STRAINER, &mesh, 1),
             qll_report_size(report, strainer->nominal_m), 1);
    part_row(report, mark, qll_report_says(report, QLL_SAYS_PART_STOPS),
             qll_report_size(report, valve->nominal_m), 2);
}

static void write_parts(qll_report *report)
{
    static const qll_message heads[] = {QLL_MESSAGE_COUNT, QLL_SAYS_HEAD_PART, QLL_SAYS_HEAD_SIZE,
                                        QLL_SAYS_HEAD_COUNT};
    const qll_station *station = &report->chosen->station;
    const qll_closed_system *closed = &report->chosen->assessment.closed;
    qll_report_heads(report, heads, 4);
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            write_branch_parts(report, s, b);
        }
    }
    part_row(report, "", qll_report_says(report, QLL_SAYS_PART_GAUGES), "",
             station->stage_count + 1);
    double tank_m3 = report->figures->tank_part_m3;
    if (isfinite(tank_m3)) {
        const qll_filling charge = {
            "precharge",
            qll_report_quantity(report, closed->precharge_pa_gauge, QLL_KIND_PRESSURE)};
        part_row(report, "", qll_report_fill(report, QLL_SAYS_PART_TANK, &charge, 1),
                 qll_report_quantity(report, tank_m3, QLL_KIND_VOLUME), 1);
    }
    qll_report_table(report, QLL_SAYS_PARTS, "lllr", true);
    qll_report_paragraph(report, QLL_SAYS_PARTS_ARE, NULL, 0);
}

/* ---- how the valves work together ---- */

static void write_handovers(qll_report *report)
{
    const qll_station *station = &report->chosen->station;
    for (size_t s = 0; s < station->stage_count; s++) {
        const qll_handover handover = report->chosen->assessment.handovers[s];
        if (station->stages[s].branch_count < 2 || !isfinite(handover.flow_m3s)) {
            continue;
        }
        double outlet_pa_gauge = handover.outlet_pa - report->wording.site->barometric_pa;
        const qll_filling names[] = {
            {"first", qll_report_branch(report, s, 0)},
            {"flow", qll_report_reading(report, handover.flow_m3s, QLL_KIND_FLOW)},
            {"pressure", qll_report_reading(report, outlet_pa_gauge, QLL_KIND_PRESSURE)},
            {"second", qll_report_branch(report, s, 1)},
        };
        qll_sheet_item(report->sheet, qll_report_fill(report, QLL_SAYS_HANDOVER, names, 4));
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
}

static void write_strainers(qll_report *report)
{
    const qll_station *station = &report->chosen->station;
    qll_sheet_text(report->sheet, QLL_BLOCK_HEADING, qll_report_says(report, QLL_SAYS_STRAINERS));
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            qll_writer line = qll_writer_new(report->arena);
            qll_wording_strainer(&line, &report->wording, qll_report_branch(report, s, b),
                                 &report->chosen->assessment.strainers[s][b]);
            qll_sheet_item(report->sheet, qll_writer_text(&line).bytes);
        }
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
}

void qll_report_drawing(qll_report *report)
{
    qll_report_picture(report, QLL_PICTURE_SCHEMATIC, 0);
}

/* What is told of strainers stands among the parts and in the service log; on a terminal there is no log. */
void qll_report_station(qll_report *report)
{
    qll_report_drawing(report);
    write_parts(report);
    write_handovers(report);
    if (report->is_plain) {
        write_strainers(report);
    }
}
