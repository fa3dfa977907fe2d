/* What a design came to, on one glance: what to install and how to set it; or what stands in the way; or that
 * no valve is needed. The cover of the report and the first lines of the plain text. */
#include "base/count.h"
#include "report/report_parts.h"
#include "wording/texts.h"

#include <math.h>

/* ---- what to set ---- */

static const char *reads_text(qll_report *report, const qll_setting *setting)
{
    if (!isfinite(setting->reading_pa_gauge)) {
        return "-";
    }
    const qll_filling fillings[] = {
        {"pressure", qll_report_quantity(report, setting->reading_pa_gauge, QLL_KIND_PRESSURE)},
        {"flow", qll_report_quantity(report, setting->flow_m3s, QLL_KIND_FLOW)},
    };
    return qll_report_fill(report, QLL_SAYS_READS_AT, fillings, 2);
}

static void setting_row(qll_report *report, size_t stage, size_t branch)
{
    const qll_station *station = &report->chosen->station;
    const qll_valve *valve = station->stages[stage].branches[branch].valve;
    const qll_setting *setting = &report->figures->settings[stage][branch];
    qll_sheet *sheet = report->sheet;
    qll_sheet_cell(sheet, qll_report_branch(report, stage, branch));
    qll_sheet_cell(sheet, valve->id);
    qll_sheet_cell(sheet, qll_report_size(report, valve->nominal_m));
    qll_report_cell(report, (qll_message)((size_t)QLL_SAYS_ACTING_DIRECT + (size_t)valve->acting));
    qll_sheet_cell(sheet, qll_report_quantity(report, setting->set_pa_gauge, QLL_KIND_PRESSURE));
    qll_sheet_cell(sheet, reads_text(report, setting));
    qll_sheet_cell(sheet, qll_report_quantity(report, setting->lockup_pa_gauge, QLL_KIND_PRESSURE));
}

/* How the valves of a stage work together. */
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
            {"flow", qll_report_quantity(report, handover.flow_m3s, QLL_KIND_FLOW)},
            {"pressure", qll_report_quantity(report, outlet_pa_gauge, QLL_KIND_PRESSURE)},
            {"second", qll_report_branch(report, s, 1)},
            {"gauge", qll_gauge_name(report->arena, s + 1)},
        };
        qll_sheet_item(report->sheet, qll_report_fill(report, QLL_SAYS_HANDOVER, names, 5));
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
}

void qll_report_schedule(qll_report *report)
{
    static const qll_message heads[] = {
        QLL_MESSAGE_COUNT,       QLL_SAYS_HEAD_VALVE, QLL_SAYS_HEAD_SIZE,   QLL_SAYS_HEAD_ACTING,
        QLL_SAYS_HEAD_SET_POINT, QLL_SAYS_HEAD_READS, QLL_SAYS_HEAD_LOCKUP,
    };
    const qll_station *station = &report->chosen->station;
    qll_report_heads(report, heads, QLL_COUNT(heads));
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            setting_row(report, s, b);
        }
    }
    qll_report_table(report, report->is_plain ? QLL_MESSAGE_COUNT : QLL_SAYS_SET, "lllllll", true);
    write_handovers(report);
}

static void set_valve(qll_report *report, size_t stage, size_t branch)
{
    qll_writer says = qll_writer_new(report->arena);
    qll_wording_set_valve(&says, &report->wording, qll_report_branch(report, stage, branch), stage,
                          &report->figures->settings[stage][branch],
                          &report->found->job->setting_tests[stage][branch].run);
    qll_report_paragraph_of(report, &says);
}

static void write_how_to_set(qll_report *report)
{
    const qll_station *station = &report->chosen->station;
    for (size_t s = 0; s < station->stage_count; s++) {
        const qll_stage *stage = &station->stages[s];
        const qll_filling fillings[] = {
            {"stage", station->stage_count > 1 ? qll_report_count(report, s + 1) : NULL},
            {"first", qll_report_branch(report, s, 0)},
        };
        if (stage->branch_count > 1) {
            qll_report_paragraph(report, QLL_SAYS_HOW_TO_SET, fillings, 2);
        }
        for (size_t b = 0; b < stage->branch_count; b++) {
            set_valve(report, s, b);
        }
    }
}

/* ---- what it costs, and why ---- */

/* Below this nobody needs to know what a callback would come from. */
#define QLL_CHANCE_EXPLAINED 0.02

static void write_chance(qll_report *report)
{
    const qll_cost *cost = &report->chosen->cost;
    qll_language language = report->wording.language;
    qll_writer chance = qll_writer_new(report->arena);
    qll_wording_chance(&chance, language, cost->callback_share, QLL_CHANCE_ABOUT);
    bool is_explained = cost->callback_share >= QLL_CHANCE_EXPLAINED;
    const qll_filling fillings[] = {
        {"chance", qll_writer_text(&chance).bytes},
        {"why", is_explained ? qll_say_mechanism(language, cost) : NULL},
    };
    qll_report_paragraph(report, QLL_SAYS_CALLBACK, fillings, 2);
}

static void write_cost(qll_report *report)
{
    const qll_cost *cost = &report->chosen->cost;
    qll_writer installed = qll_writer_new(report->arena);
    qll_writer total = qll_writer_new(report->arena);
    qll_wording_amount(&installed, &report->wording, cost->installed);
    qll_wording_about(&total, &report->wording, cost->expected);
    const qll_filling fillings[] = {{"value", qll_writer_text(&installed).bytes},
                                    {"total", qll_writer_text(&total).bytes}};
    qll_message says = report->wording.currency == NULL ? QLL_SAYS_COST_OWN : QLL_SAYS_COST_IN;
    qll_report_paragraph(report, says, fillings, 2);
}

static void write_reason(qll_report *report)
{
    qll_writer reason = qll_writer_new(report->arena);
    qll_wording_reason(&reason, &report->wording, report->found->design);
    const qll_filling what = {"what", qll_writer_text(&reason).bytes};
    qll_report_paragraph(report, QLL_SAYS_WHY_THIS, &what, 1);
}

/* "delivery, ratio": the rules of one grade. */
static const char *rules_of(const qll_report *report, qll_grade grade)
{
    const qll_assessment *found = &report->chosen->assessment;
    qll_writer writer = qll_writer_new(report->arena);
    for (size_t i = 0; i < found->verdict_count; i++) {
        if (found->verdicts[i].grade == grade) {
            qll_write(&writer, writer.size == 0 ? "" : ", ");
            qll_write(&writer, qll_say_rule(report->wording.language, found->verdicts[i].rule));
        }
    }
    return qll_writer_text(&writer).bytes;
}

static void write_grades(qll_report *report)
{
    const qll_assessment *found = &report->chosen->assessment;
    const qll_filling fillings[] = {
        {"fails", found->fail_count > 0 ? rules_of(report, QLL_GRADE_FAIL) : NULL},
        {"cautions", found->caution_count > 0 ? rules_of(report, QLL_GRADE_CAUTION) : NULL},
        {"section", report->is_short ? NULL : qll_report_says(report, QLL_SAYS_SECTION_VERDICTS)},
    };
    if (found->fail_count > 0) {
        qll_report_paragraph(report, QLL_SAYS_COVER_FAILS, fillings, 3);
    } else if (found->caution_count > 0 && !report->is_plain) {
        qll_report_paragraph(report, QLL_SAYS_COVER_CAUTIONS, fillings, 3);
    }
}

static const char *purchase(qll_report *report, qll_message message)
{
    qll_writer name = qll_writer_new(report->arena);
    qll_wording_purchase(&name, &report->wording, &report->chosen->station);
    const qll_filling station = {"station", qll_writer_text(&name).bytes};
    return qll_report_fill(report, message, &station, 1);
}

static void write_stopped(qll_report *report)
{
    const qll_design *design = report->found->design;
    if (!design->stopped) {
        return;
    }
    qll_writer floor = qll_writer_new(report->arena);
    qll_wording_amount(&floor, &report->wording, design->floor);
    const qll_filling value = {"value", qll_writer_text(&floor).bytes};
    bool has_floor = design->is_fit && isfinite(design->floor);
    qll_report_paragraph(report, QLL_SAYS_STOPPED, &value, has_floor ? 1 : 0);
}

static void write_install(qll_report *report)
{
    qll_sheet_text(report->sheet, QLL_BLOCK_LEAD, purchase(report, QLL_SAYS_INSTALL));
    write_stopped(report);
    qll_report_schedule(report);
    if (report->is_plain) {
        write_how_to_set(report); /* on paper the commissioning sheet says it */
    }
    write_chance(report);
    write_cost(report);
    write_reason(report);
    write_grades(report);
}

/* ---- not fit ---- */

static void write_breaches(qll_report *report)
{
    const qll_fitness *fitness = &report->chosen->fitness;
    qll_sheet_text(report->sheet, QLL_BLOCK_HEADING, qll_report_says(report, QLL_SAYS_IN_THE_WAY));
    for (size_t r = 0; r < QLL_PRACTICE_COUNT; r++) {
        if (fitness->breach[r] > 0.0) {
            qll_writer says = qll_writer_new(report->arena);
            qll_wording_breach(&says, &report->wording, &report->chosen->station,
                               &report->chosen->fitness, (qll_practice)r);
            qll_sheet_item(report->sheet, qll_writer_text(&says).bytes);
        }
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
}

static void write_mends(qll_report *report)
{
    qll_sheet_text(report->sheet, QLL_BLOCK_HEADING, qll_report_says(report, QLL_SAYS_WOULD_MEND));
    for (size_t r = 0; report->chosen != NULL && r < QLL_PRACTICE_COUNT; r++) {
        if (report->chosen->fitness.breach[r] > 0.0) {
            qll_sheet_item(
                report->sheet,
                qll_report_says(report, (qll_message)((size_t)QLL_SAYS_MENDS_RATING + r)));
        }
    }
    qll_sheet_item(report->sheet, qll_report_says(report, QLL_SAYS_MENDS_CATALOGUE));
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
}

static void write_not_fit(qll_report *report)
{
    const qll_filling count = {"count", qll_report_count(report, report->found->catalogue->count)};
    bool has_nearest = report->chosen != NULL;
    qll_sheet_text(report->sheet, QLL_BLOCK_LEAD,
                   has_nearest ? qll_report_says(report, QLL_SAYS_NOT_FIT)
                               : qll_report_fill(report, QLL_SAYS_NOTHING_FITS, &count, 1));
    write_stopped(report);
    if (!has_nearest) {
        write_mends(report);
        return;
    }
    write_breaches(report);
    write_mends(report);
    qll_sheet_text(report->sheet, QLL_BLOCK_HEADING, purchase(report, QLL_SAYS_NEAREST));
    qll_report_schedule(report);
    write_chance(report);
    write_cost(report);
}

/* ---- no valve is needed ---- */

/* Below no pressure at all the water does not reach the place. */
static const char *bare_pressure(qll_report *report, double pa_gauge)
{
    return pa_gauge < 0.0 ? qll_report_says(report, QLL_SAYS_NO_WATER)
                          : qll_report_quantity(report, pa_gauge, QLL_KIND_PRESSURE);
}

static void bare_row(qll_report *report, const char *name, const qll_bare_outlet *outlet)
{
    qll_sheet *sheet = report->sheet;
    qll_sheet_cell(sheet, name);
    qll_sheet_cell(sheet, bare_pressure(report, outlet->still_pa_gauge));
    qll_sheet_cell(sheet, bare_pressure(report, outlet->peak_pa_gauge));
    double in_hand_pa = outlet->in_hand_pa_gauge;
    qll_writer scratch = qll_writer_new(report->arena);
    const char *shown = qll_text_bare_difference(&scratch, fabs(in_hand_pa), report->wording.units);
    if (!(in_hand_pa < 0.0)) {
        qll_sheet_cell(sheet, shown);
        return;
    }
    const qll_filling value = {"value", shown};
    qll_sheet_cell_tone(sheet, qll_report_fill(report, QLL_SAYS_SHORT_BY, &value, 1),
                        QLL_TONE_FAIL);
}

/* True if an outlet is short. */
static bool write_bare_outlets(qll_report *report)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_OUTLET_NAME, QLL_SAYS_HEAD_STILL,
                                        QLL_SAYS_HEAD_AT_PEAK, QLL_SAYS_HEAD_IN_HAND};
    const qll_need *need = &report->found->design->need;
    const qll_site *site = report->wording.site;
    bool is_short = false;
    qll_report_heads(report, heads, 4);
    for (size_t i = 0; i < site->outlet_count; i++) {
        bare_row(report, site->outlets[i].name, &need->outlets[i]);
        is_short = is_short || need->outlets[i].in_hand_pa_gauge < 0.0;
    }
    if (site->outlet_count == 0) {
        const qll_bare_outlet place = {need->lowest_still_pa_gauge, need->inlet_peak_pa_gauge,
                                       (double)NAN};
        bare_row(report, qll_report_says(report, QLL_SAYS_NO_VALVE_PLACE), &place);
    }
    qll_report_table(report, QLL_SAYS_WITHOUT_VALVE, "lrrr", true);
    return is_short;
}

static void write_no_valve(qll_report *report)
{
    const qll_need *need = &report->found->design->need;
    const qll_site *site = report->wording.site;
    double limit_pa_gauge = site->static_max_pa_gauge;
    double still_pa_gauge = fmax(need->lowest_still_pa_gauge, 0.0);
    const qll_filling fillings[] = {
        {"outlet", need->lowest < site->outlet_count
                       ? site->outlets[need->lowest].name
                       : qll_report_says(report, QLL_SAYS_NO_VALVE_PLACE)},
        {"value", qll_report_beside(report, still_pa_gauge, limit_pa_gauge, QLL_KIND_PRESSURE)},
        {"limit", qll_report_beside(report, limit_pa_gauge, still_pa_gauge, QLL_KIND_PRESSURE)},
    };
    qll_sheet_text(report->sheet, QLL_BLOCK_LEAD,
                   qll_report_fill(report, QLL_SAYS_NO_VALVE, fillings, 3));
    if (write_bare_outlets(report)) {
        qll_report_paragraph(report, QLL_SAYS_NO_VALVE_SHORT, NULL, 0);
    }
    if (report->is_plain) { /* for whoever writes the survey, not for whoever signs */
        qll_report_paragraph(report, QLL_SAYS_NO_VALVE_ALWAYS, NULL, 0);
    }
}

/* ---- the figures to remember ---- */

void qll_report_remember(qll_report *report)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_FIGURE, QLL_SAYS_HEAD_VALUE};
    const qll_site *site = report->wording.site;
    const qll_duty *duty = report->found->duty;
    qll_report_heads(report, heads, 2);
    qll_report_fact(report, QLL_SAYS_FACT_PEAK,
                    qll_report_quantity(report, duty->peak_m3s, QLL_KIND_FLOW));
    qll_report_fact(report, QLL_SAYS_FACT_IDLE, qll_report_share(report, duty->idle_share));
    qll_report_fact(report, QLL_SAYS_FACT_SUPPLY,
                    qll_report_range(report, site->supply.static_low_pa_gauge,
                                     site->supply.static_high_pa_gauge, QLL_KIND_PRESSURE));
    qll_sheet_cell(report->sheet, qll_report_key_name(report, "downstream.set_pressure"));
    qll_sheet_cell(report->sheet,
                   qll_report_quantity(report, site->set_pa_gauge, QLL_KIND_PRESSURE));
    if (report->chosen != NULL) {
        qll_report_fact(report, QLL_SAYS_FACT_LOCKUP,
                        qll_report_quantity(report, report->chosen->assessment.lockup_pa_gauge,
                                            QLL_KIND_PRESSURE));
    }
    qll_report_table(report, QLL_SAYS_FIGURES, "lr", true);
}

void qll_report_cover(qll_report *report)
{
    const qll_design *design = report->found->design;
    if (!design->need.is_needed) {
        write_no_valve(report);
    } else if (design->is_fit && report->chosen != NULL) {
        write_install(report);
    } else {
        write_not_fit(report);
    }
}
