#include "report/columns.h"
#include "report/plain.h"
#include "report/sections.h"
#include "station/setting.h"

#include <math.h>

/* The alternatives a reader can take in at a glance. */
#define QLL_ALTERNATIVES_SHOWN 6

static void write_name(qll_writer *writer, const qll_station *station, size_t stage, size_t branch)
{
    if (station->stage_count > 1) {
        qll_write_format(writer, "%zu", stage + 1);
    }
    qll_write_byte(writer, (char)('A' + (int)(branch < 26 ? branch : 25)), 1);
}

static void schedule_row(qll_columns *table, const qll_wording *wording, const qll_station *station,
                         size_t stage, size_t branch)
{
    const qll_branch *valve = &station->stages[stage].branches[branch];
    qll_setting setting = qll_setting_of(station, wording->site, stage, branch);
    write_name(&table->cell, station, stage, branch);
    qll_columns_next(table);
    qll_columns_put(table, valve->valve->id);
    qll_units_write_pipe_size(&table->cell, valve->valve->nominal_m, wording->units);
    qll_columns_next(table);
    qll_columns_put(table, qll_acting_words[valve->valve->acting]);
    qll_units_write(&table->cell, setting.set_pa_gauge, QLL_KIND_PRESSURE, wording->units);
    qll_columns_next(table);
    if (isfinite(setting.reading_pa_gauge)) {
        qll_units_write(&table->cell, setting.reading_pa_gauge, QLL_KIND_PRESSURE, wording->units);
        qll_write(&table->cell, " at ");
        qll_units_write(&table->cell, setting.flow_m3s, QLL_KIND_FLOW, wording->units);
    }
    qll_columns_next(table);
    qll_units_write(&table->cell, setting.lockup_pa_gauge, QLL_KIND_PRESSURE, wording->units);
    qll_columns_next(table);
}

static void write_schedule(qll_writer *writer, const qll_wording *wording,
                           const qll_station *station)
{
    static const char *const heads[] = {"",      "valve",           "size", "acting", "set-point",
                                        "reads", "no flow, at most"};
    qll_columns table = qll_columns_new(writer, "lllllll");
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++) {
        qll_columns_put(&table, heads[i]);
    }
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            schedule_row(&table, wording, station, s, b);
        }
    }
    qll_columns_flush(&table);
}

static void write_how_to_set(qll_writer *writer, const qll_wording *wording,
                             const qll_station *station)
{
    for (size_t s = 0; s < station->stage_count; s++) {
        const qll_stage *stage = &station->stages[s];
        qll_writer line = qll_writer_new(writer->arena);
        if (station->stage_count > 1) {
            qll_write_format(&line, "Stage %zu: ", s + 1);
        }
        qll_write(&line, "set it with ");
        qll_units_write(&line, stage->set_inlet_pa_gauge, QLL_KIND_PRESSURE, wording->units);
        qll_write(&line, " on its inlet gauge and the flow above running");
        if (stage->branch_count > 1) {
            qll_write(&line, "; shut the other branch's stops while you set one, and start with ");
            write_name(&line, station, s, 0);
        }
        qll_write(&line, ".");
        writer->no_memory = writer->no_memory || line.no_memory;
        qll_write_wrapped(writer, "  ", qll_writer_text(&line));
    }
}

static void write_strainer(qll_writer *writer, const qll_wording *wording,
                           const qll_strainer *strainer)
{
    qll_write(writer, strainer->in_body ? "has its strainer in its body" : "wants a strainer of ");
    if (!strainer->in_body) {
        qll_write_format(writer, "%d mesh, ", strainer->mesh);
        qll_units_write_pipe_size(writer, strainer->nominal_m, wording->units);
        qll_write(writer, ", ahead of it");
    }
    if (isfinite(strainer->clean_me_pa)) {
        qll_write(writer, ": ");
        qll_units_write(writer, strainer->clean_pa, QLL_KIND_PRESSURE_DIFFERENCE, wording->units);
        qll_write(writer, " when clean at ");
        qll_units_write(writer, strainer->at_flow_m3s, QLL_KIND_FLOW, wording->units);
        qll_write(writer, "; clean it when gauges before and behind it differ by ");
        qll_units_write(writer, strainer->clean_me_pa, QLL_KIND_PRESSURE_DIFFERENCE,
                        wording->units);
        qll_write(writer, " more than with no flow");
    }
    qll_write(writer, ".");
}

static void write_strainers(qll_writer *writer, const qll_wording *wording,
                            const qll_station *station, const qll_assessment *assessment)
{
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            qll_writer line = qll_writer_new(writer->arena);
            write_name(&line, station, s, b);
            qll_write(&line, " ");
            write_strainer(&line, wording, &assessment->strainers[s][b]);
            writer->no_memory = writer->no_memory || line.no_memory;
            qll_write_wrapped(writer, "  ", qll_writer_text(&line));
        }
    }
}

static void write_handovers(qll_writer *writer, const qll_wording *wording,
                            const qll_station *station, const qll_assessment *assessment)
{
    for (size_t s = 0; s < station->stage_count; s++) {
        qll_handover handover = assessment->handovers[s];
        if (station->stages[s].branch_count < 2 || !isfinite(handover.flow_m3s)) {
            continue;
        }
        qll_writer line = qll_writer_new(writer->arena);
        write_name(&line, station, s, 0);
        qll_write(&line, " works alone up to ");
        qll_units_write(&line, handover.flow_m3s, QLL_KIND_FLOW, wording->units);
        qll_write(&line, "; there the outlet reads ");
        qll_units_write(&line, handover.outlet_pa - wording->site->barometric_pa, QLL_KIND_PRESSURE,
                        wording->units);
        qll_write(&line, " and ");
        write_name(&line, station, s, 1);
        qll_write(&line, " begins to open.");
        writer->no_memory = writer->no_memory || line.no_memory;
        qll_write_wrapped(writer, "  ", qll_writer_text(&line));
    }
}

static void alternative_row(qll_columns *table, const qll_wording *wording,
                            const qll_candidate *candidate, bool recommended)
{
    const qll_assessment *found = &candidate->assessment;
    qll_columns_put(table, recommended ? "->" : "");
    qll_wording_station(&table->cell, wording, &candidate->station);
    qll_columns_next(table);
    qll_write_format(&table->cell, "%zu fail, %zu caution", found->fail_count,
                     found->caution_count);
    qll_columns_next(table);
    qll_write_format(&table->cell, "%.3f", found->objectives.noise);
    qll_columns_next(table);
    qll_write_format(&table->cell, "%.0f", found->objectives.price);
    qll_columns_next(table);
}

static void write_alternatives(qll_writer *writer, const qll_wording *wording,
                               const qll_design *design)
{
    qll_columns table = qll_columns_new(writer, "lllrr");
    const char *const heads[] = {"", "station", "verdicts", "noise score", "price"};
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++) {
        qll_columns_put(&table, heads[i]);
    }
    size_t shown = design->count < QLL_ALTERNATIVES_SHOWN ? design->count : QLL_ALTERNATIVES_SHOWN;
    for (size_t i = 0; i < shown; i++) {
        alternative_row(&table, wording, &design->candidates[i], i == design->recommended);
    }
    if (design->by_pipe_size != NULL) {
        alternative_row(&table, wording, design->by_pipe_size, false);
    }
    qll_columns_flush(&table);
    qll_write_wrapped(writer, "  ",
                      qll_text_of("Noise score: penalties weighted by time and by "
                                  "water, 0 is silent; for comparing only."));
}

/* A valve chosen by the pipe's size, and what would be wrong with it. */
static void write_by_pipe_size(qll_writer *writer, const qll_wording *wording,
                               const qll_design *design)
{
    if (design->by_pipe_size == NULL) {
        return;
    }
    const qll_candidate *candidate = design->by_pipe_size;
    if (candidate->assessment.fail_count + candidate->assessment.caution_count == 0) {
        return;
    }
    qll_section(writer, "A VALVE OF THE PIPE'S SIZE, for comparison");
    for (size_t i = 0; i < candidate->assessment.verdict_count; i++) {
        const qll_verdict *verdict = &candidate->assessment.verdicts[i];
        if (verdict->grade == QLL_GRADE_GOOD) {
            continue;
        }
        qll_writer line = qll_writer_new(writer->arena);
        qll_wording_verdict(&line, wording, &candidate->station, verdict);
        writer->no_memory = writer->no_memory || line.no_memory;
        qll_write_wrapped(writer, verdict->grade == QLL_GRADE_FAIL ? "  FAIL    " : "  CAUTION ",
                          qll_writer_text(&line));
    }
}

static void write_demand(qll_writer *writer, const qll_design_findings *findings)
{
    const qll_survey *survey = findings->demand.survey;
    qll_columns table = qll_columns_new(writer, "lrrrrl");
    const char *const heads[] = {"",  "design peak", "mean", "99 % of the time", "nobody draws",
                                 "by"};
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++) {
        qll_columns_put(&table, heads[i]);
    }
    for (size_t i = 0; i < survey->scenario_count; i++) {
        const qll_demand *demand = &findings->demand.demands[i];
        const qll_duration *duration = &demand->day.duration;
        qll_columns_put(&table, demand->scenario->name);
        qll_units_write(&table.cell, demand->peak_m3s, QLL_KIND_FLOW, survey->units);
        qll_columns_next(&table);
        qll_units_write(&table.cell, duration->mean_m3s, QLL_KIND_FLOW, survey->units);
        qll_columns_next(&table);
        qll_units_write(&table.cell, qll_duration_quantile(duration, 0.99), QLL_KIND_FLOW,
                        survey->units);
        qll_columns_next(&table);
        qll_write_format(&table.cell, "%.0f %%", 100 * demand->day.none_share);
        qll_columns_next(&table);
        qll_columns_put(&table, qll_peak_method_words[demand->estimates[demand->chosen].method]);
    }
    qll_columns_flush(&table);
}

void qll_design_print(qll_writer *writer, const qll_design_findings *findings)
{
    const qll_survey *survey = findings->demand.survey;
    const qll_design *design = findings->design;
    const qll_candidate *chosen = &design->candidates[design->recommended];
    const qll_wording wording = {
        .units = survey->units, .site = &survey->site, .duty = findings->duty};
    qll_write(writer, "STATION: ");
    qll_write(writer, survey->name);
    qll_write(writer, "\n\nInstall ");
    qll_wording_station(writer, &wording, &chosen->station);
    qll_write(writer, ".\n");
    qll_section(writer, "SET (gauge pressures)");
    write_schedule(writer, &wording, &chosen->station);
    write_handovers(writer, &wording, &chosen->station, &chosen->assessment);
    write_how_to_set(writer, &wording, &chosen->station);
    write_strainers(writer, &wording, &chosen->station, &chosen->assessment);
    qll_section(writer, "WHY");
    qll_writer reason = qll_writer_new(writer->arena);
    qll_wording_reason(&reason, &wording, design);
    writer->no_memory = writer->no_memory || reason.no_memory;
    qll_write_wrapped(writer, "  ", qll_writer_text(&reason));
    qll_section_verdicts(writer, &wording, &chosen->station, &chosen->assessment);
    qll_section(writer, "WHAT HAPPENS, from no flow to the design peak");
    qll_section_points(writer, &wording, &chosen->station, findings->points, findings->point_count);
    qll_section(writer, "WHERE THE TIME GOES");
    qll_section_shares(writer, &chosen->assessment.shares);
    qll_section(writer, "THE WATER");
    write_demand(writer, findings);
    qll_section(writer, "ALSO POSSIBLE");
    write_alternatives(writer, &wording, design);
    write_by_pipe_size(writer, &wording, design);
    qll_section_assumed(writer, findings->demand.assumed);
    qll_section_sources(writer, findings->demand.sources, findings->demand.source_count);
    qll_section_cautions(writer);
}
