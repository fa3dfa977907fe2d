#include "report/columns.h"
#include "report/plain.h"
#include "report/plain_metered.h"
#include "report/sections.h"
#include "wording/wording.h"

#include <math.h>

static void put_phrase(qll_columns *table, qll_language language, const char *text)
{
    const char *says = qll_phrase(table->cell.arena, language, text);
    table->writer->no_memory = table->writer->no_memory || says == NULL;
    qll_columns_put(table, says == NULL ? "" : says);
}

static void write_estimates(qll_writer *writer, const qll_wording *wording,
                            const qll_demand *demand)
{
    qll_language language = wording->language;
    qll_columns table = qll_columns_new(writer, "lrll");
    for (size_t i = 0; i < demand->estimate_count; i++) {
        const qll_peak_estimate *estimate = &demand->estimates[i];
        qll_columns_put(&table, qll_say_method(language, estimate->method));
        qll_units_write(&table.cell, estimate->peak_m3s, QLL_KIND_FLOW, wording->units);
        qll_columns_next(&table);
        qll_columns_put(&table,
                        i == demand->chosen ? qll_say(language, QLL_SAYS_PLAIN_CHOSEN) : "");
        put_phrase(&table, language, estimate->table);
    }
    qll_columns_flush(&table);
    for (size_t i = 0; i < demand->estimate_count; i++) {
        if (demand->estimates[i].notes != NULL) {
            qll_writer first = qll_writer_new(writer->arena);
            qll_write_format(&first,
                             "  %s: ", qll_say_method(language, demand->estimates[i].method));
            writer->no_memory = writer->no_memory || first.no_memory;
            qll_text head = qll_writer_text(&first);
            const char *note =
                qll_wording_notes(writer->arena, wording, demand->estimates[i].notes);
            writer->no_memory = writer->no_memory || note == NULL;
            qll_write_wrapped(writer, head.bytes == NULL ? "" : head.bytes,
                              qll_text_of(note == NULL ? "" : note));
        }
    }
}

static void write_disagreements(qll_writer *writer, const qll_wording *wording,
                                const qll_demand *demand)
{
    for (size_t i = 0; i < demand->disagreement_count; i++) {
        qll_writer says = qll_writer_new(writer->arena);
        qll_wording_disagreement(&says, wording, demand, &demand->disagreements[i]);
        writer->no_memory = writer->no_memory || says.no_memory;
        if (!says.no_memory) {
            qll_write_wrapped(writer, "  ", qll_writer_text(&says));
        }
    }
}

/* NULL where it is not known. */
static const char *share_text(qll_writer *writer, double share)
{
    if (isnan(share)) {
        return NULL;
    }
    qll_writer text = qll_writer_new(writer->arena);
    qll_write_format(&text, "%.0f %%", 100 * share);
    writer->no_memory = writer->no_memory || text.no_memory;
    return qll_writer_text(&text).bytes;
}

static void write_remarks(qll_writer *writer, const qll_wording *wording,
                          const qll_demand_findings *findings, const qll_demand *demand)
{
    for (const qll_remark *one = demand->remarks; one != NULL; one = one->next) {
        qll_writer says = qll_writer_new(writer->arena);
        qll_wording_remark(&says, wording, one);
        writer->no_memory = writer->no_memory || says.no_memory;
        qll_write_wrapped(writer, "  ", qll_writer_text(&says));
    }
    qll_writer says = qll_writer_new(writer->arena);
    if (findings->service != NULL
        && qll_wording_carries(&says, wording, findings->service, demand)) {
        writer->no_memory = writer->no_memory || says.no_memory;
        qll_write_wrapped(writer, "  ", qll_writer_text(&says));
    }
}

static void write_time_drawn(qll_writer *writer, const qll_wording *wording,
                             const qll_demand *demand)
{
    qll_arena *arena = writer->arena;
    bool leaks = demand->day.leak_m3s > 0;
    const qll_filling fillings[] = {
        {"idle", share_text(writer, demand->no_flow_share)},
        {"only", leaks ? share_text(writer, demand->leak_only_share) : NULL},
        {"share", share_text(writer, demand->no_fixture_open_share)},
        {"mean",
         qll_quantity_text(arena, demand->day.duration.mean_m3s, QLL_KIND_FLOW, wording->units)},
        {"leak", leaks
                     ? qll_quantity_text(arena, demand->day.leak_m3s, QLL_KIND_FLOW, wording->units)
                     : NULL},
    };
    qll_section_says_with(writer, wording->language, QLL_SAYS_PLAIN_NOBODY_DRAWS, fillings, 5);
    if (demand->continuous_peak_m3s > 0.0 && !demand->is_metered) {
        qll_section_says_with(writer, wording->language, QLL_SAYS_CLOCK_NO_DRAW, NULL, 0);
    }
}

/* What the peak stands for, after the flows seldom passed where those are asked for. */
static void write_duration(qll_writer *writer, const qll_wording *wording, const qll_demand *demand,
                           bool has_flows)
{
    static const double shares[] = {0.5, 0.75, 0.9, 0.95, 0.99, 0.999};
    qll_language language = wording->language;
    write_time_drawn(writer, wording, demand);
    qll_columns table = qll_columns_new(writer, "rrll");
    for (size_t i = 0; has_flows && i < sizeof shares / sizeof shares[0]; i++) {
        double flow = qll_duration_quantile(&demand->day.duration, shares[i]);
        qll_write_format(&table.cell, "%.4g %%", 100 * shares[i]);
        qll_columns_next(&table);
        qll_units_write(&table.cell, flow, QLL_KIND_FLOW, wording->units);
        qll_columns_next(&table);
        qll_columns_put(&table, qll_say(language, QLL_SAYS_PLAIN_OR_LESS));
        double share = demand->peak_m3s > 0 ? fmin(flow / demand->peak_m3s, 1.5) : 0;
        qll_write_byte(&table.cell, '#', (size_t)(share * 40 + 0.5));
        qll_columns_next(&table);
    }
    qll_columns_put(&table, qll_say(language, QLL_SAYS_PLAIN_PEAK));
    qll_units_write(&table.cell, demand->peak_m3s, QLL_KIND_FLOW, wording->units);
    qll_columns_next(&table);
    qll_columns_put(&table, qll_say(language, QLL_SAYS_PLAIN_DESIGN));
    qll_write_byte(&table.cell, '#', 40);
    qll_columns_next(&table);
    qll_columns_flush(&table);
}

static void write_hours(qll_writer *writer, const qll_demand *demand, qll_unit_system units)
{
    double greatest = 0;
    for (int hour = 0; hour < 24; hour++) {
        greatest = fmax(greatest, demand->day.hours[hour].flow_mean_m3s);
    }
    qll_columns table = qll_columns_new(writer, "rrl");
    for (int hour = 0; hour < 24; hour++) {
        double mean = demand->day.hours[hour].flow_mean_m3s;
        qll_write_format(&table.cell, "%02d:00", hour);
        qll_columns_next(&table);
        qll_units_write(&table.cell, mean, QLL_KIND_FLOW, units);
        qll_columns_next(&table);
        qll_write_byte(&table.cell, '#', greatest > 0 ? (size_t)(mean / greatest * 40 + 0.5) : 0);
        qll_columns_next(&table);
    }
    qll_columns_flush(&table);
}

static qll_message day_of(const qll_demand *demand)
{
    static const qll_message days[QLL_DAY_KIND_COUNT] = {
        [QLL_DAY_WEEKDAY] = QLL_SAYS_DAY_WEEKDAY,
        [QLL_DAY_SATURDAY] = QLL_SAYS_DAY_SATURDAY,
        [QLL_DAY_SUNDAY] = QLL_SAYS_DAY_SUNDAY,
    };
    return demand->is_metered ? QLL_SAYS_DAY_METERED : days[demand->scenario->day];
}

static void write_scenario(qll_writer *writer, const qll_wording *wording,
                           const qll_demand_findings *findings, size_t index)
{
    const qll_demand *demand = &findings->demands[index];
    const qll_flow_log_result *log = findings->logs[index];
    const unsigned left_out = findings->left_out;
    qll_language language = wording->language;
    qll_section(writer, demand->scenario->name);
    if (qll_has_part(left_out, QLL_PART_ESTIMATES)) {
        qll_section_says_with(writer, language, QLL_SAYS_PLAIN_MUST_DELIVER, NULL, 0);
        write_estimates(writer, wording, demand);
        write_disagreements(writer, wording, demand);
    }
    write_remarks(writer, wording, findings, demand);
    qll_write(writer, "\n");
    const qll_filling day = {"day", qll_say(language, day_of(demand))};
    qll_section_says_with(writer, language, QLL_SAYS_PLAIN_LIVES, &day, 1);
    write_duration(writer, wording, demand, qll_has_part(left_out, QLL_PART_DURATION));
    const bool has_hours = qll_has_part(left_out, QLL_PART_HOURS);
    if (log != NULL && qll_has_part(left_out, QLL_PART_LOG)) {
        qll_section_log(writer, wording, demand->scenario->metered->name, log);
    }
    if (log != NULL && has_hours) {
        qll_section_week(writer, wording, demand->scenario->metered);
    } else if (has_hours && !isnan(demand->day.hours[0].flow_mean_m3s)) {
        qll_write(writer, "\n");
        qll_section_says_with(writer, language, QLL_SAYS_PLAIN_HOURS, NULL, 0);
        write_hours(writer, demand, wording->units);
    }
}

void qll_demand_print(qll_writer *writer, const qll_demand_findings *findings)
{
    const qll_survey *survey = findings->survey;
    const qll_language language = findings->language;
    const qll_wording wording = {
        .units = survey->units, .language = language, .site = &survey->site};
    qll_write(writer, qll_say(language, QLL_SAYS_PLAIN_DEMAND));
    qll_write(writer, ": ");
    qll_write(writer, survey->name);
    qll_write(writer, "\n");
    for (size_t i = 0; i < survey->scenario_count; i++) {
        write_scenario(writer, &wording, findings, i);
    }
    if (qll_has_part(findings->left_out, QLL_PART_COMPARISON)) {
        qll_section_changes(writer, &wording, findings);
    }
    qll_section_assumed(writer, &wording, findings->assumed);
    qll_section_sources(writer, &wording, findings->sources, findings->source_count);
    qll_section_cautions(writer, language);
}
