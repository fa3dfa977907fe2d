/* What else was in question, and what the choice hangs on. */
#include "report/report_parts.h"

/* ---- the other stations ---- */

/* "cheapest within the rules, quietest": why it is shown. */
static const char *roles_text(qll_report *report, size_t index)
{
    const qll_design *design = report->found->design;
    qll_writer writer = qll_writer_new(report->arena);
    unsigned roles = design->shown[index].roles;
    if (index == 0 && !design->is_fit) {
        qll_write(&writer, qll_report_says(report, QLL_SAYS_NEAREST_ONE));
        roles &= ~(1U << (unsigned)QLL_ROLE_RECOMMENDED);
    }
    for (unsigned role = 0; role < QLL_ROLE_COUNT; role++) {
        if ((roles & (1U << role)) != 0) {
            qll_write(&writer, writer.size == 0 ? "" : ", ");
            qll_write(&writer,
                      qll_report_says(report, (qll_message)(QLL_SAYS_ROLE_RECOMMENDED + role)));
        }
    }
    if (writer.size == 0) {
        bool is_simpler = index == design->simpler;
        qll_write(&writer, qll_report_says(report, is_simpler ? QLL_SAYS_SIMPLER_ONE
                                                              : QLL_SAYS_AS_GOOD_ONE));
    }
    return qll_writer_text(&writer).bytes;
}

static void station_row(qll_report *report, size_t index)
{
    const qll_shown *shown = &report->found->design->shown[index];
    qll_writer name = qll_writer_new(report->arena);
    qll_writer installed = qll_writer_new(report->arena);
    qll_writer chance = qll_writer_new(report->arena);
    qll_writer why = qll_writer_new(report->arena);
    qll_wording_kind(&name, &report->wording, &shown->station);
    qll_write_format(&installed, "%.0f", shown->cost.installed);
    qll_wording_chance(&chance, report->wording.language, shown->cost.callback_share,
                       QLL_CHANCE_BARE);
    qll_wording_why_not(&why, &report->wording, report->found->design, index);
    if (!report->is_plain) {
        qll_sheet_cell(report->sheet, qll_report_count(report, index + 1)); /* as in the figure */
    }
    qll_sheet_cell(report->sheet, roles_text(report, index));
    qll_sheet_cell(report->sheet, qll_writer_text(&name).bytes);
    qll_sheet_cell(report->sheet, qll_writer_text(&installed).bytes);
    qll_sheet_cell(report->sheet, qll_writer_text(&chance).bytes);
    qll_sheet_cell_tone(report->sheet, qll_writer_text(&why).bytes,
                        shown->fitness.is_fit ? QLL_TONE_PLAIN : QLL_TONE_FAIL);
}

static void write_stations(qll_report *report)
{
    const qll_design *design = report->found->design;
    if (design->count < 2 || !qll_report_has(report, QLL_PART_ALTERNATIVES)) {
        if (design->count == 1 && !report->is_plain) {
            qll_report_paragraph(report, QLL_SAYS_NO_OTHERS, NULL, 0);
        }
        return;
    }
    if (!report->is_plain) {
        qll_sheet_cell(report->sheet, "");
    }
    qll_sheet_cell(report->sheet, "");
    qll_report_cell(report, QLL_SAYS_HEAD_STATION);
    qll_sheet_cell(report->sheet,
                   qll_report_money(report, QLL_SAYS_HEAD_INSTALLED_IN, QLL_SAYS_HEAD_INSTALLED));
    qll_report_cell(report, QLL_SAYS_HEAD_CALLBACK);
    qll_report_cell(report, QLL_SAYS_HEAD_WHY_NOT);
    for (size_t i = 0; i < design->count; i++) {
        station_row(report, i);
    }
    qll_report_table(report, report->is_plain ? QLL_MESSAGE_COUNT : QLL_SAYS_ALSO,
                     report->is_plain ? "llrll" : "lllrll", true);
}

/* ---- what it hangs on ---- */

static void write_close(qll_report *report)
{
    qll_writer says = qll_writer_new(report->arena);
    (void)qll_wording_close(&says, &report->wording, report->found->design);
    qll_report_paragraph_of(report, &says);
}

void qll_report_hangs(qll_report *report)
{
    const qll_design *design = report->found->design;
    if (!qll_report_has(report, QLL_PART_HANGS_ON)) {
        return;
    }
    if (design->hang_count == 0 && report->chosen == NULL) {
        return; /* there is no station whose kind could change */
    }
    qll_report_heading(report, QLL_SAYS_HANGS_ON);
    if (design->hang_count == 0) {
        qll_report_paragraph(report, QLL_SAYS_HANGS_ON_NOTHING, NULL, 0);
        return;
    }
    for (size_t i = 0; i < design->hang_count; i++) {
        qll_writer says = qll_writer_new(report->arena);
        qll_wording_hang(&says, &report->wording, &design->hangs[i]);
        qll_sheet_item(report->sheet, qll_writer_text(&says).bytes);
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
}

void qll_report_others(qll_report *report)
{
    write_stations(report);
    write_close(report);
}

void qll_report_alternatives(qll_report *report)
{
    qll_report_others(report);
    qll_report_hangs(report);
}
