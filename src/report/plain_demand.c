#include "report/columns.h"
#include "report/plain.h"
#include "report/sections.h"
#include "wording/wording.h"

#include <math.h>

static void write_estimates(qll_writer *writer, const qll_demand *demand, qll_unit_system units)
{
    qll_columns table = qll_columns_new(writer, "lrll");
    for (size_t i = 0; i < demand->estimate_count; i++) {
        const qll_peak_estimate *estimate = &demand->estimates[i];
        qll_columns_put(&table, qll_peak_method_words[estimate->method]);
        qll_units_write(&table.cell, estimate->peak_m3s, QLL_KIND_FLOW, units);
        qll_columns_next(&table);
        qll_columns_put(&table, i == demand->chosen ? "<- design peak" : "");
        qll_columns_put(&table, estimate->table);
    }
    qll_columns_flush(&table);
    for (size_t i = 0; i < demand->estimate_count; i++) {
        if (demand->estimates[i].note[0] != '\0') {
            qll_writer first = qll_writer_new(writer->arena);
            qll_write_format(&first, "  %s: ", qll_peak_method_words[demand->estimates[i].method]);
            writer->no_memory = writer->no_memory || first.no_memory;
            qll_text head = qll_writer_text(&first);
            qll_write_wrapped(writer, head.bytes == NULL ? "" : head.bytes,
                              qll_text_of(demand->estimates[i].note));
        }
    }
}

static void write_disagreements(qll_writer *writer, const qll_demand *demand, qll_unit_system units)
{
    for (size_t i = 0; i < demand->disagreement_count; i++) {
        qll_writer says = qll_writer_new(writer->arena);
        qll_wording_disagreement(&says, units, demand, &demand->disagreements[i]);
        writer->no_memory = writer->no_memory || says.no_memory;
        if (!says.no_memory) {
            qll_write_wrapped(writer, "  ", qll_writer_text(&says));
        }
    }
}

static void write_duration(qll_writer *writer, const qll_demand *demand, qll_unit_system units)
{
    static const double shares[] = {0.5, 0.75, 0.9, 0.95, 0.99, 0.999};
    const qll_duration *duration = &demand->day.duration;
    qll_write_format(writer, "  nobody draws %.0f %% of the time; mean ",
                     100 * demand->day.none_share);
    qll_units_write(writer, duration->mean_m3s, QLL_KIND_FLOW, units);
    if (demand->day.leak_m3s > 0) {
        qll_write(writer, ", of it leaks ");
        qll_units_write(writer, demand->day.leak_m3s, QLL_KIND_FLOW, units);
    }
    qll_write(writer, "\n");
    qll_columns table = qll_columns_new(writer, "rrll");
    for (size_t i = 0; i < sizeof shares / sizeof shares[0]; i++) {
        double flow = qll_duration_quantile(duration, shares[i]);
        qll_write_format(&table.cell, "%.4g %%", 100 * shares[i]);
        qll_columns_next(&table);
        qll_units_write(&table.cell, flow, QLL_KIND_FLOW, units);
        qll_columns_next(&table);
        qll_columns_put(&table, "or less");
        double share = demand->peak_m3s > 0 ? fmin(flow / demand->peak_m3s, 1.5) : 0;
        qll_write_byte(&table.cell, '#', (size_t)(share * 40 + 0.5));
        qll_columns_next(&table);
    }
    qll_write(&table.cell, "peak");
    qll_columns_next(&table);
    qll_units_write(&table.cell, demand->peak_m3s, QLL_KIND_FLOW, units);
    qll_columns_next(&table);
    qll_columns_put(&table, "design");
    qll_write_byte(&table.cell, '#', 40);
    qll_columns_next(&table);
    qll_columns_flush(&table);
}

static void write_hours(qll_writer *writer, const qll_demand *demand, qll_unit_system units)
{
    double greatest = 0;
    for (int hour = 0; hour < 24; hour++) {
        greatest = fmax(greatest, demand->day.hours[hour].mean_m3s);
    }
    qll_columns table = qll_columns_new(writer, "rrl");
    for (int hour = 0; hour < 24; hour++) {
        double mean = demand->day.hours[hour].mean_m3s;
        qll_write_format(&table.cell, "%02d:00", hour);
        qll_columns_next(&table);
        qll_units_write(&table.cell, mean, QLL_KIND_FLOW, units);
        qll_columns_next(&table);
        qll_write_byte(&table.cell, '#', greatest > 0 ? (size_t)(mean / greatest * 40 + 0.5) : 0);
        qll_columns_next(&table);
    }
    qll_columns_flush(&table);
}

static const char *day_of(const qll_demand *demand)
{
    static const char *const days[QLL_DAY_KIND_COUNT] = {
        [QLL_DAY_WEEKDAY] = "a weekday",
        [QLL_DAY_SATURDAY] = "a saturday",
        [QLL_DAY_SUNDAY] = "a sunday",
    };
    return demand->is_metered ? "as metered" : days[demand->scenario->day];
}

void qll_demand_print(qll_writer *writer, const qll_demand_findings *findings)
{
    const qll_survey *survey = findings->survey;
    qll_write(writer, "DEMAND: ");
    qll_write(writer, survey->name);
    qll_write(writer, "\n");
    for (size_t i = 0; i < survey->scenario_count; i++) {
        const qll_demand *demand = &findings->demands[i];
        qll_section(writer, demand->scenario->name);
        qll_write(writer, "  What the station must deliver:\n");
        write_estimates(writer, demand, survey->units);
        write_disagreements(writer, demand, survey->units);
        qll_write_format(writer, "\n  Where it lives (%s):\n", day_of(demand));
        write_duration(writer, demand, survey->units);
        if (!isnan(demand->day.hours[0].mean_m3s)) {
            qll_write(writer, "\n  Mean flow by the hour:\n");
            write_hours(writer, demand, survey->units);
        }
    }
    qll_section_assumed(writer, findings->assumed);
    qll_section_sources(writer, findings->sources, findings->source_count);
    qll_section_cautions(writer);
}
