/* How much water, and when. */
#include "base/count.h"
#include "report/report_parts.h"
#include "wording/texts.h"

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
        qll_sheet_cell(report->sheet,
                       qll_said_text(report->arena, &report->wording, &estimate->table));
    }
    qll_report_table(report, QLL_SAYS_ESTIMATES, "lrl", true);
}

/* Between what the methods lie that were not chosen: one sentence. */
static void write_between(qll_report *report, const qll_demand *demand)
{
    double low_m3s = INFINITY;
    double high_m3s = 0.0;
    for (size_t i = 0; i < demand->estimate_count; i++) {
        if (i != demand->chosen) {
            low_m3s = fmin(low_m3s, demand->estimates[i].peak_m3s);
            high_m3s = fmax(high_m3s, demand->estimates[i].peak_m3s);
        }
    }
    const qll_filling fillings[] = {
        {"low", qll_report_quantity(report, low_m3s, QLL_KIND_FLOW)},
        {"high", qll_report_quantity(report, high_m3s, QLL_KIND_FLOW)},
        {"peak", qll_report_quantity(report, demand->peak_m3s, QLL_KIND_FLOW)},
    };
    if (demand->estimate_count > 1) {
        qll_report_paragraph(
            report, demand->estimate_count > 2 ? QLL_SAYS_METHODS_BETWEEN : QLL_SAYS_METHOD_OTHER,
            fillings, 3);
    }
}

/* How far the estimates lie apart, and what is to be known of each; on a station's sheets of the one it was
 * designed for. */
static void write_notes(qll_report *report, const qll_demand *demand)
{
    qll_language language = report->wording.language;
    if (report->is_plain) {
        for (size_t i = 0; i < demand->disagreement_count; i++) {
            qll_writer says = qll_writer_new(report->arena);
            if (qll_wording_disagreement(&says, &report->wording, demand, i, true)) {
                qll_sheet_item(report->sheet, qll_writer_text(&says).bytes);
            }
        }
    } else {
        write_between(report, demand);
    }
    for (size_t i = 0; i < demand->estimate_count; i++) {
        const qll_peak_estimate *estimate = &demand->estimates[i];
        bool is_told = report->of == QLL_REPORT_OF_DEMAND || i == demand->chosen;
        if (is_told && estimate->notes != NULL) {
            const qll_filling fillings[] = {
                {"method", qll_say_method(language, estimate->method)},
                {"note", qll_wording_notes(report->arena, &report->wording, estimate->notes)}};
            qll_sheet_item(report->sheet, qll_report_fill(report, QLL_SAYS_NOTE_OF, fillings, 2));
        }
    }
    qll_sheet_list(report->sheet, QLL_BLOCK_LIST);
}

static void write_remarks(qll_report *report, const qll_demand *demand)
{
    for (const qll_remark *one = demand->remarks; one != NULL; one = one->next) {
        qll_writer says = qll_writer_new(report->arena);
        qll_wording_remark(&says, &report->wording, one);
        qll_report_paragraph_of(report, &says);
    }
}

/* ---- where it lives ---- */

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
    qll_report_paragraph(report, demand->is_metered ? QLL_SAYS_DRAWN_METERED : QLL_SAYS_DRAWN,
                         fillings, 6);
    if (demand->continuous_peak_m3s > 0.0 && !demand->is_metered) {
        qll_report_paragraph(report, QLL_SAYS_CLOCK_NO_DRAW, NULL, 0);
    }
}

/* Flows below one another: all with a tenth of a gpm or 0.01 L/s, as a meter is read; a hundredth and 0.001 where all are
 * small. None, and what is too little to be seen so, is told by itself. */
static const char *flow_in_column(const qll_report *report, double flow_m3s, bool is_small)
{
    const bool is_si = report->wording.units == QLL_UNITS_SI;
    const int decimals = (is_si ? 2 : 1) + (is_small ? 1 : 0);
    const double shown = flow_m3s / (is_si ? 1e-3 : QLL_GPM_M3S);
    if (!isfinite(shown) || shown < 0.5 * pow(10.0, -decimals)) {
        return qll_report_quantity(report, flow_m3s, QLL_KIND_FLOW);
    }
    qll_writer writer = qll_writer_new(report->arena);
    qll_write_format(&writer, "%.*f %s", decimals, shown,
                     qll_units_name(QLL_KIND_FLOW, report->wording.units));
    return qll_writer_text(&writer).bytes;
}

static void write_duration(qll_report *report, const qll_scenario_figures *figures)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_SHARE, QLL_SAYS_HEAD_AT_OR_BELOW,
                                        QLL_SAYS_HEAD_OF_PEAK, QLL_MESSAGE_COUNT};
    qll_report_heads(report, heads, report->is_plain ? 4 : 3);
    for (size_t i = 0; i < QLL_FLOW_QUANTILES; i++) {
        const qll_flow_quantile *at = &figures->quantiles[i];
        qll_sheet_cell(report->sheet, qll_report_share(report, at->share));
        qll_sheet_cell(report->sheet, flow_in_column(report, at->flow_m3s, false));
        qll_sheet_cell(report->sheet, qll_report_share(report, at->of_peak));
        qll_report_bar(report, at->of_peak);
    }
    qll_report_table(report, QLL_SAYS_DURATION, report->is_plain ? "rrrl" : "rrr", false);
}

/* Below this a day's hours all read alike when they are rounded as a meter is read: 1 gpm, 0.1 L/s. */
static bool are_small(const qll_report *report, double greatest_m3s)
{
    return greatest_m3s < (report->wording.units == QLL_UNITS_SI ? 1e-4 : QLL_GPM_M3S);
}

/* Mean flows by the hour: of a log, weekdays beside weekends. */
static void write_hours(qll_report *report, const qll_demand *demand, const qll_metered *log)
{
    const qll_message heads[] = {
        QLL_SAYS_FIGURE_HOUR, log == NULL ? QLL_SAYS_HEAD_MEAN : QLL_SAYS_HEAD_WEEKDAYS,
        log == NULL ? QLL_MESSAGE_COUNT : QLL_SAYS_HEAD_WEEKENDS, QLL_MESSAGE_COUNT};
    size_t figures = log == NULL ? 2 : 3;
    double means_m3s[24];
    double greatest_m3s = 0.0;
    for (size_t h = 0; h < 24; h++) {
        means_m3s[h] = log == NULL ? demand->day.hours[h].flow_mean_m3s : log->hours[h].mean_m3s;
        greatest_m3s = fmax(greatest_m3s, means_m3s[h]);
    }
    qll_report_heads(report, heads, report->is_plain ? figures + 1 : figures);
    for (size_t h = 0; h < 24; h++) {
        if (isnan(means_m3s[h])) {
            continue;
        }
        qll_writer hour = qll_writer_new(report->arena);
        qll_write_format(&hour, "%02zu:00", h);
        qll_sheet_cell(report->sheet, qll_writer_text(&hour).bytes);
        const bool is_small = are_small(report, greatest_m3s);
        const double first_m3s = log == NULL ? means_m3s[h] : log->hours[h].weekday_m3s;
        qll_sheet_cell(report->sheet, flow_in_column(report, first_m3s, is_small));
        if (log != NULL) { /* "-" where it holds none of the hour */
            qll_sheet_cell(report->sheet,
                           flow_in_column(report, log->hours[h].weekend_m3s, is_small));
        }
        qll_report_bar(report, greatest_m3s > 0.0 ? means_m3s[h] / greatest_m3s : 0.0);
    }
    const char *align = report->is_plain ? "rrrl" : "rrr";
    qll_report_table(report, log == NULL ? QLL_SAYS_HOURS : QLL_SAYS_HOURS_WEEK,
                     log == NULL ? align + 1 : align, false);
}

/* What was read of a log, and what was mended. */
static void write_log(qll_report *report, const char *name, const qll_flow_log_result *log)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_COUNT, QLL_SAYS_HEAD_MENDED};
    qll_writer says = qll_writer_new(report->arena);
    qll_wording_log(&says, &report->wording, name, log);
    qll_report_paragraph_of(report, &says);
    qll_report_heads(report, heads, 2);
    for (size_t kind = 0; kind < QLL_LOG_MEND_COUNT; kind++) {
        if (log->mends[kind].count > 0) {
            qll_sheet_cell(report->sheet, qll_report_count(report, (size_t)log->mends[kind].count));
            qll_sheet_cell(report->sheet,
                           qll_say_mend(report->wording.language, (qll_log_mend_kind)kind));
        }
    }
    qll_report_table(report, QLL_SAYS_LOG_MENDED, "rl", false);
}

/* ---- scenarios side by side ---- */

/* The same of few scenarios, where every line counts. */
static void write_water_lines(qll_report *report)
{
    const qll_demand_findings *findings = &report->found->demand;
    for (size_t i = 0; i < findings->survey->scenario_count; i++) {
        const qll_demand *demand = &findings->demands[i];
        const qll_filling fillings[] = {
            {"scenario",
             qll_text_capital(report->arena, qll_report_scenario(report, demand->scenario))},
            {"peak", qll_report_quantity(report, report->found->duty->scenarios[i].peak_m3s,
                                         QLL_KIND_FLOW)},
            {"method",
             qll_say_method(report->wording.language, demand->estimates[demand->chosen].method)},
            {"mean", qll_report_quantity(report, demand->day.duration.mean_m3s, QLL_KIND_FLOW)},
            {"seldom",
             qll_report_quantity(report, findings->figures[i].seldom_more_m3s, QLL_KIND_FLOW)},
            {"closed",
             demand->is_metered ? NULL : qll_report_share(report, demand->no_fixture_open_share)}};
        qll_report_paragraph(report, QLL_SAYS_WATER_OF, fillings, QLL_COUNT(fillings));
    }
    qll_writer says = qll_writer_new(report->arena);
    (void)qll_wording_service(&says, &report->wording, findings->service, findings->demands);
    qll_report_paragraph_of(report, &says);
}

void qll_report_water(qll_report *report)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_SCENARIO,     QLL_SAYS_HEAD_DESIGN_PEAK,
                                        QLL_SAYS_HEAD_MEAN,         QLL_SAYS_HEAD_99_PERCENT,
                                        QLL_SAYS_HEAD_NOBODY_DRAWS, QLL_SAYS_HEAD_BY};
    const qll_demand_findings *findings = &report->found->demand;
    if (report->is_short) {
        write_water_lines(report);
        return;
    }
    qll_report_heads(report, heads, sizeof heads / sizeof heads[0]);
    for (size_t i = 0; i < findings->survey->scenario_count; i++) {
        const qll_demand *demand = &findings->demands[i];
        const qll_duration *duration = &demand->day.duration;
        double peak_m3s = report->found->duty->scenarios[i].peak_m3s;
        qll_sheet_cell(report->sheet, qll_report_scenario(report, demand->scenario));
        qll_sheet_cell(report->sheet, qll_report_quantity(report, peak_m3s, QLL_KIND_FLOW));
        qll_sheet_cell(report->sheet,
                       qll_report_quantity(report, duration->mean_m3s, QLL_KIND_FLOW));
        qll_sheet_cell(
            report->sheet,
            qll_report_quantity(report, findings->figures[i].seldom_more_m3s, QLL_KIND_FLOW));
        qll_sheet_cell(
            report->sheet,
            demand->is_metered ? "-" : qll_report_share(report, demand->no_fixture_open_share));
        qll_sheet_cell(report->sheet, qll_say_method(report->wording.language,
                                                     demand->estimates[demand->chosen].method));
    }
    qll_report_table(report, report->is_plain ? QLL_MESSAGE_COUNT : QLL_SAYS_WATER, "lrrrrl", true);
    qll_writer says = qll_writer_new(report->arena);
    (void)qll_wording_service(&says, &report->wording, findings->service, findings->demands);
    qll_report_paragraph_of(report, &says);
    for (size_t i = 0; report->is_plain && i < findings->survey->scenario_count; i++) {
        write_remarks(report, &findings->demands[i]);
    }
}

static void change_row(qll_report *report, const qll_demand *demand, const qll_scenario_figures *of)
{
    const qll_demand_figures figures = of->change.after;
    qll_sheet_cell(report->sheet, qll_report_scenario(report, demand->scenario));
    qll_sheet_cell(report->sheet, qll_report_quantity(report, figures.peak_m3s, QLL_KIND_FLOW));
    qll_sheet_cell(report->sheet, qll_report_quantity(report, figures.mean_m3s, QLL_KIND_FLOW));
    qll_sheet_cell(report->sheet, qll_report_quantity(report, figures.quantile_m3s, QLL_KIND_FLOW));
    qll_sheet_cell(report->sheet, qll_report_share(report, demand->no_flow_share));
    qll_sheet_cell(report->sheet, qll_report_share(report, demand->no_fixture_open_share));
    qll_sheet_cell(report->sheet, qll_report_share(report, figures.below_share));
}

void qll_report_changes(qll_report *report)
{
    static const qll_message heads[] = {QLL_SAYS_HEAD_SCENARIO, QLL_SAYS_HEAD_DESIGN_PEAK,
                                        QLL_SAYS_HEAD_MEAN,     QLL_SAYS_HEAD_99_PERCENT,
                                        QLL_SAYS_HEAD_NO_FLOW,  QLL_SAYS_HEAD_NOBODY_DRAWS};
    const qll_demand_findings *findings = &report->found->demand;
    const size_t count = findings->survey->scenario_count;
    if (count < 2 || !qll_report_has(report, QLL_PART_COMPARISON)) {
        return;
    }
    const double low_m3s = findings->low_flow_m3s;
    const qll_filling low = {"flow", qll_report_quantity(report, low_m3s, QLL_KIND_FLOW)};
    qll_report_heads(report, heads, 6);
    qll_sheet_cell(report->sheet, qll_report_fill(report, QLL_SAYS_HEAD_OR_LESS, &low, 1));
    for (size_t i = 0; i < count; i++) {
        change_row(report, &findings->demands[i], &findings->figures[i]);
    }
    qll_report_table(report, report->is_plain ? QLL_MESSAGE_COUNT : QLL_SAYS_CHANGES, "lrrrrrr",
                     true);
    qll_report_paragraph(report, QLL_SAYS_LOW_FLOW_MEANS, &low, 1);
    for (size_t i = 1; i < count; i++) {
        qll_writer says = qll_writer_new(report->arena);
        qll_wording_change(&says, &report->wording,
                           qll_report_scenario(report, findings->demands[0].scenario),
                           qll_report_scenario(report, findings->demands[i].scenario),
                           &findings->figures[i].change, low_m3s);
        qll_report_paragraph_of(report, &says);
    }
}

/* ---- the section ---- */

static void write_scenario(qll_report *report, size_t index)
{
    const qll_demand_findings *found = &report->found->demand;
    const qll_demand *demand = &found->demands[index];
    bool is_whole =
        report->of == QLL_REPORT_OF_DEMAND; /* a station's sheets have the figures alone */
    const qll_metered *log =
        is_whole && found->logs[index] != NULL ? demand->scenario->metered : NULL;
    qll_sheet_text(report->sheet, QLL_BLOCK_HEADING, qll_report_scenario(report, demand->scenario));
    if (qll_report_has(report, QLL_PART_ESTIMATES)) {
        write_estimates(report, demand);
        write_notes(report, demand);
    }
    write_remarks(report, demand);
    if (is_whole) {
        qll_writer says = qll_writer_new(report->arena);
        (void)qll_wording_carries(&says, &report->wording, found->service, demand);
        qll_report_paragraph_of(report, &says);
    }
    write_drawn(report, demand);
    if (log != NULL && qll_report_has(report, QLL_PART_LOG)) {
        write_log(report, log->name, found->logs[index]);
    }
    bool has_duration = qll_report_has(report, QLL_PART_DURATION);
    bool has_hours = qll_report_has(report, QLL_PART_HOURS);
    if (is_whole && has_duration) {
        write_duration(report, &found->figures[index]);
    }
    if (is_whole && has_hours && (log != NULL || !isnan(demand->day.hours[0].flow_mean_m3s))) {
        write_hours(report, demand, log);
    }
    /* Those of a station are among its further figures. */
    if (is_whole && has_duration) {
        qll_report_picture(report, QLL_PICTURE_DURATION, index);
    }
    if (is_whole && has_hours) {
        qll_report_picture(report, QLL_PICTURE_DAY, index);
    }
}

void qll_report_demand(qll_report *report)
{
    bool is_of_demand = report->of == QLL_REPORT_OF_DEMAND;
    if (!is_of_demand) {
        qll_report_water(report);
    }
    for (size_t i = 0; i < report->found->demand.survey->scenario_count; i++) {
        if (is_of_demand || !report->is_short) {
            write_scenario(report, i);
        }
    }
    if (is_of_demand && !report->is_plain) {
        qll_report_changes(report);
    }
}
