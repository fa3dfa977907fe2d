/* What a check came to: what is there and what it is set to, why it would be noisy, what would cure it. */
#include "report/report_parts.h"

#include <math.h>

void qll_report_causes(qll_report *report)
{
    if (!qll_report_has(report, QLL_PART_CAUSES)) {
        return;
    }
    const qll_check_findings *check = report->check;
    const qll_cost *now = &check->cures->now;
    qll_report_heading(report, QLL_SAYS_WHY_NOISY);
    for (size_t i = 0; i < check->cause_count; i++) {
        qll_sheet_item(report->sheet, check->causes[i].says);
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_STEPS);
    if (check->cause_count == 0) {
        const qll_filling why = {"why", qll_say_mechanism(report->wording.language, now)};
        qll_report_paragraph(
            report, qll_is_worth_saying(now) ? QLL_SAYS_NO_CAUSE : QLL_SAYS_NOT_NOISY, &why, 1);
    }
}

void qll_report_cures(qll_report *report)
{
    if (!qll_report_has(report, QLL_PART_CURES)) {
        return;
    }
    const qll_cures *cures = report->check->cures;
    const qll_station *there = report->check->station;
    qll_report_heading(report, QLL_SAYS_CURES);
    qll_writer now = qll_writer_new(report->arena);
    qll_wording_as_it_is(&now, &report->wording, cures, there);
    qll_report_paragraph_of(report, &now);
    /* One without figures stands behind all that have them. */
    if (cures->count == 0 || !isfinite(cures->cures[0].cost.expected)) {
        qll_report_paragraph(report, QLL_SAYS_CURE_NONE, NULL, 0);
    }
    for (size_t i = 0; i < cures->count; i++) {
        qll_writer says = qll_writer_new(report->arena);
        qll_wording_cure(&says, &report->wording, cures, there, &cures->cures[i]);
        qll_sheet_item(report->sheet, qll_writer_text(&says).bytes);
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_STEPS);
}

void qll_report_there(qll_report *report)
{
    qll_writer station = qll_writer_new(report->arena);
    qll_wording_station(&station, &report->wording, report->check->station);
    const qll_filling filling = {"station", qll_writer_text(&station).bytes};
    qll_sheet_text(report->sheet, QLL_BLOCK_LEAD,
                   qll_report_fill(report, QLL_SAYS_THERE_NOW, &filling, 1));
    qll_report_schedule(report);
}

void qll_report_causes_and_cures(qll_report *report)
{
    qll_report_causes(report);
    qll_report_cures(report);
    if (qll_report_has(report, QLL_PART_CURES)) {
        qll_report_cure_parts(report);
    }
    qll_report_strainers(report);
    qll_sheet_text(report->sheet, QLL_BLOCK_HEADING,
                   qll_report_says(report, QLL_SAYS_SECTION_DRAWING));
    qll_report_drawing(report);
    qll_report_remember(report);
}
