#include "report/plain_metered.h"

#include "report/columns.h"
#include "report/sections.h"

#include <math.h>

void qll_section_log(qll_writer *writer, const qll_wording *wording, const char *name,
                     const qll_flow_log_result *log)
{
    qll_writer says = qll_writer_new(writer->arena);
    qll_wording_log(&says, wording, name, log);
    writer->no_memory = writer->no_memory || says.no_memory;
    qll_write(writer, "\n");
    qll_write_wrapped(writer, "  ", qll_writer_text(&says));
    bool has_any = false;
    qll_columns table = qll_columns_new(writer, "rl");
    for (size_t kind = 0; kind < QLL_LOG_MEND_COUNT; kind++) {
        if (log->mends[kind].count > 0) {
            has_any = true;
            qll_write_format(&table.cell, "%lld", log->mends[kind].count);
            qll_columns_next(&table);
            qll_columns_put(&table, qll_say_mend(wording->language, (qll_log_mend_kind)kind));
        }
    }
    if (has_any) {
        qll_section_says_with(writer, wording->language, QLL_SAYS_LOG_MENDED, NULL, 0);
        qll_columns_flush(&table);
    }
}

/* Nothing where the log holds none of the hour. */
static void put_mean(qll_columns *table, double mean_m3s, qll_unit_system units)
{
    if (isfinite(mean_m3s)) {
        qll_units_write(&table->cell, mean_m3s, QLL_KIND_FLOW, units);
    }
    qll_columns_next(table);
}

static void put_bar(qll_columns *table, double mean_m3s, double greatest_m3s)
{
    if (isfinite(mean_m3s) && greatest_m3s > 0.0) {
        qll_write_byte(&table->cell, '#', (size_t)(mean_m3s / greatest_m3s * 40.0 + 0.5));
    }
    qll_columns_next(table);
}

void qll_section_week(qll_writer *writer, const qll_wording *wording, const qll_metered *log)
{
    static const qll_message heads[] = {QLL_MESSAGE_COUNT, QLL_SAYS_HEAD_WEEKDAYS,
                                        QLL_SAYS_HEAD_WEEKENDS, QLL_MESSAGE_COUNT};
    double greatest_m3s = 0.0;
    for (size_t h = 0; h < 24; h++) {
        greatest_m3s = fmax(greatest_m3s, log->hours[h].mean_m3s);
    }
    qll_write(writer, "\n");
    qll_section_says_with(writer, wording->language, QLL_SAYS_PLAIN_HOURS_WEEK, NULL, 0);
    qll_columns table = qll_columns_new(writer, "rrrl");
    qll_columns_heads(&table, wording->language, heads, 4);
    for (size_t h = 0; h < 24; h++) {
        if (isnan(log->hours[h].mean_m3s)) {
            continue;
        }
        qll_write_format(&table.cell, "%02zu:00", h);
        qll_columns_next(&table);
        put_mean(&table, log->hours[h].weekday_m3s, wording->units);
        put_mean(&table, log->hours[h].weekend_m3s, wording->units);
        put_bar(&table, log->hours[h].mean_m3s, greatest_m3s);
    }
    qll_columns_flush(&table);
}

/* ---- scenarios side by side ---- */

static void put_flow(qll_columns *table, double flow_m3s, qll_unit_system units)
{
    qll_units_write(&table->cell, flow_m3s, QLL_KIND_FLOW, units);
    qll_columns_next(table);
}

static void put_share(qll_columns *table, double share)
{
    if (isnan(share)) { /* a log does not tell */
        qll_write(&table->cell, "-");
    } else {
        qll_write_format(&table->cell, "%.0f %%", 100.0 * share);
    }
    qll_columns_next(table);
}

static void write_table(qll_writer *writer, const qll_wording *wording,
                        const qll_demand_findings *findings, double low_m3s)
{
    static const qll_message heads[] = {QLL_MESSAGE_COUNT,     QLL_SAYS_HEAD_DESIGN_PEAK,
                                        QLL_SAYS_HEAD_MEAN,    QLL_SAYS_HEAD_99_PERCENT,
                                        QLL_SAYS_HEAD_NO_FLOW, QLL_SAYS_HEAD_NOBODY_DRAWS};
    qll_columns table = qll_columns_new(writer, "lrrrrrr");
    qll_columns_heads(&table, wording->language, heads, 6);
    const qll_filling low = {
        "flow", qll_quantity_text(writer->arena, low_m3s, QLL_KIND_FLOW, wording->units)};
    qll_say_with(&table.cell, wording->language, QLL_SAYS_HEAD_OR_LESS, &low, 1);
    qll_columns_next(&table);
    for (size_t i = 0; i < findings->survey->scenario_count; i++) {
        const qll_demand *demand = &findings->demands[i];
        const qll_demand_figures figures = findings->figures[i].change.after;
        qll_columns_put(&table, demand->scenario->name);
        put_flow(&table, figures.peak_m3s, wording->units);
        put_flow(&table, figures.mean_m3s, wording->units);
        put_flow(&table, figures.quantile_m3s, wording->units);
        put_share(&table, demand->no_flow_share);
        put_share(&table, demand->no_fixture_open_share);
        put_share(&table, figures.below_share);
    }
    qll_columns_flush(&table);
    qll_section_says_with(writer, wording->language, QLL_SAYS_LOW_FLOW_MEANS, &low, 1);
}

void qll_section_changes(qll_writer *writer, const qll_wording *wording,
                         const qll_demand_findings *findings)
{
    const size_t count = findings->survey->scenario_count;
    if (count < 2) {
        return;
    }
    const double low_m3s = findings->low_flow_m3s;
    qll_section_says(writer, wording->language, QLL_SAYS_PLAIN_CHANGES);
    write_table(writer, wording, findings, low_m3s);
    for (size_t i = 1; i < count; i++) {
        qll_writer says = qll_writer_new(writer->arena);
        qll_wording_change(&says, wording, findings->demands[0].scenario->name,
                           findings->demands[i].scenario->name, &findings->figures[i].change,
                           low_m3s);
        writer->no_memory = writer->no_memory || says.no_memory;
        qll_write_wrapped(writer, "  ", qll_writer_text(&says));
    }
}
