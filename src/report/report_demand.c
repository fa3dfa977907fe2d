/* How much water, and when. */
#include "report/report_parts.h"

#include <math.h>

static void write_estimates(qll_report *report, const qll_demand *demand)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_METHOD, QLL_SAYS_HEAD_DESIGN_PEAK,
                                        QLL_SAYS_HEAD_TABLE};
    qll_language language = report->wording.language;
    qll_report_heads(report, heads, 3);
    for (size_t i = 0; i < demand->estimate_count; i++) {
        const qll_peak_estimate *estimate = &demand->estimates[i];
        const qll_filling method = {"method", qll_say_method(language, estimate->method)};
        bool chosen = i == demand->chosen;
        qll_sheet_cell(report->sheet,
                       chosen ? qll_report_fill(report, QLL_SAYS_METHOD_USED, &method, 1)
                              : method.text);
        qll_sheet_cell(report->sheet,
                       qll_report_quantity(report, estimate->peak_m3s, QLL_KIND_FLOW));
        qll_sheet_cell(report->sheet, qll_phrase(report->arena, language, estimate->table));
    }
    qll_sheet_table(report->sheet, qll_report_says(report, QLL_SAYS_ESTIMATES), "lrl", true);
}

static void write_notes(qll_report *report, const qll_demand *demand)
{
    qll_language language = report->wording.language;
    for (size_t i = 0; i < demand->disagreement_count; i++) {
        qll_writer says = qll_writer_new(report->arena);
        qll_wording_disagreement(&says, &report->wording, demand, &demand->disagreements[i]);
        qll_sheet_item(report->sheet, qll_writer_text(&says).bytes);
    }
    for (size_t i = 0; i < demand->estimate_count; i++) {
        const qll_peak_estimate *estimate = &demand->estimates[i];
        if (estimate->notes != NULL) {
            const qll_filling fillings[] = {
                {"method", qll_say_method(language, estimate->method)},
                {"note", qll_wording_notes(report->arena, &report->wording, estimate->notes)}};
            qll_sheet_item(report->sheet, qll_report_fill(report, QLL_SAYS_NOTE_OF, fillings, 2));
        }
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
}

static void write_drawn(qll_report *report, const qll_demand *demand)
{
    static const qll_message days[QLL_DAY_KIND_COUNT] = {
        [QLL_DAY_WEEKDAY] = QLL_SAYS_DAY_WEEKDAY,
        [QLL_DAY_SATURDAY] = QLL_SAYS_DAY_SATURDAY,
        [QLL_DAY_SUNDAY] = QLL_SAYS_DAY_SUNDAY,
    };
    bool leaks = demand->day.leak_m3s > 0;
    const qll_filling fillings[] = {
        {"day", qll_report_says(report, days[demand->scenario->day])},
        {"idle", qll_report_share(report, demand->no_flow_share)},
        {"only", leaks ? qll_report_share(report, demand->leak_only_share) : NULL},
        {"share", qll_report_share(report, demand->no_fixture_open_share)},
        {"mean", qll_report_quantity(report, demand->day.duration.mean_m3s, QLL_KIND_FLOW)},
        {"leak", leaks ? qll_report_quantity(report, demand->day.leak_m3s, QLL_KIND_FLOW) : NULL},
    };
    qll_message says = demand->is_metered ? QLL_SAYS_DRAWN_METERED : QLL_SAYS_DRAWN;
    qll_sheet_text(report->sheet, QLL_BLOCK_PARAGRAPH, qll_report_fill(report, says, fillings, 6));
}

static void write_duration(qll_report *report, const qll_demand *demand)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_SHARE, QLL_SAYS_HEAD_AT_OR_BELOW,
                                        QLL_SAYS_HEAD_OF_PEAK};
    static const double shares[] = {0.5, 0.75, 0.9, 0.95, 0.99, 0.999};
    qll_report_heads(report, heads, 3);
    for (size_t i = 0; i < sizeof shares / sizeof shares[0]; i++) {
        double flow_m3s = qll_duration_quantile(&demand->day.duration, shares[i]);
        qll_sheet_cell(report->sheet, qll_report_share(report, shares[i]));
        qll_sheet_cell(report->sheet, qll_report_quantity(report, flow_m3s, QLL_KIND_FLOW));
        qll_sheet_cell(report->sheet, qll_report_share(report, flow_m3s / demand->peak_m3s));
    }
    qll_sheet_table(report->sheet, qll_report_says(report, QLL_SAYS_DURATION), "rrr", false);
}

void qll_report_water(qll_report *report)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_SCENARIO,     QLL_SAYS_HEAD_DESIGN_PEAK,
                                        QLL_SAYS_HEAD_MEAN,         QLL_SAYS_HEAD_99_PERCENT,
                                        QLL_SAYS_HEAD_NOBODY_DRAWS, QLL_SAYS_HEAD_BY};
    const qll_demand_findings *findings = &report->found->demand;
    qll_report_heads(report, heads, sizeof heads / sizeof heads[0]);
    for (size_t i = 0; i < findings->survey->scenario_count; i++) {
        const qll_demand *demand = &findings->demands[i];
        const qll_duration *duration = &demand->day.duration;
        double peak_m3s = report->found->duty->scenarios[i].peak_m3s;
        qll_sheet_cell(report->sheet, demand->scenario->name);
        qll_sheet_cell(report->sheet, qll_report_quantity(report, peak_m3s, QLL_KIND_FLOW));
        qll_sheet_cell(report->sheet,
                       qll_report_quantity(report, duration->mean_m3s, QLL_KIND_FLOW));
        qll_sheet_cell(
            report->sheet,
            qll_report_quantity(report, qll_duration_quantile(duration, 0.99), QLL_KIND_FLOW));
        qll_sheet_cell(
            report->sheet,
            demand->is_metered ? "-" : qll_report_share(report, demand->no_fixture_open_share));
        qll_sheet_cell(report->sheet, qll_say_method(report->wording.language,
                                                     demand->estimates[demand->chosen].method));
    }
    const char *caption = report->is_plain ? "" : qll_report_says(report, QLL_SAYS_WATER);
    qll_sheet_table(report->sheet, caption, "lrrrrl", true);
    qll_writer says = qll_writer_new(report->arena);
    if (qll_wording_service(&says, &report->wording, findings->service, findings->demands)) {
        qll_sheet_text(report->sheet, QLL_BLOCK_PARAGRAPH, qll_writer_text(&says).bytes);
    }
    for (size_t i = 0; i < findings->survey->scenario_count; i++) {
        if (findings->demands[i].remarks != NULL) {
            qll_sheet_text(
                report->sheet, QLL_BLOCK_PARAGRAPH,
                qll_wording_notes(report->arena, &report->wording, findings->demands[i].remarks));
        }
    }
}

void qll_report_demand(qll_report *report)
{
    const qll_demand_findings *found = &report->found->demand;
    qll_report_water(report);
    for (size_t i = 0; i < found->survey->scenario_count; i++) {
        const qll_demand *demand = &found->demands[i];
        qll_sheet_text(report->sheet, QLL_BLOCK_HEADING, demand->scenario->name);
        if (qll_has_part(found->left_out, QLL_PART_ESTIMATES)) {
            write_estimates(report, demand);
            write_notes(report, demand);
        }
        write_drawn(report, demand);
        if (qll_has_part(found->left_out, QLL_PART_DURATION)) {
            write_duration(report, demand);
            qll_report_picture(report, QLL_PICTURE_DURATION, i);
        }
        if (qll_has_part(found->left_out, QLL_PART_HOURS)) {
            qll_report_picture(report, QLL_PICTURE_DAY, i);
        }
    }
}
