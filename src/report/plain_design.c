#include "report/columns.h"
#include "report/plain.h"
#include "report/sections.h"
#include "station/setting.h"

#include <math.h>

/* The alternatives a reader can take in at a glance. */
#define QLL_ALTERNATIVES_SHOWN 6

static const char *name_of(qll_arena *arena, const qll_station *station, size_t stage,
                           size_t branch)
{
    qll_writer writer = qll_writer_new(arena);
    qll_valve_name_write(&writer, station, stage, branch);
    return qll_writer_text(&writer).bytes;
}

static void schedule_row(qll_columns *table, const qll_wording *wording, const qll_station *station,
                         size_t stage, size_t branch)
{
    const qll_branch *valve = &station->stages[stage].branches[branch];
    qll_setting setting =
        qll_setting_of(station, wording->site, wording->duty->peak_m3s, stage, branch);
    qll_valve_name_write(&table->cell, station, stage, branch);
    qll_columns_next(table);
    qll_columns_put(table, valve->valve->id);
    qll_units_write_pipe_size(&table->cell, valve->valve->nominal_m, wording->units);
    qll_columns_next(table);
    qll_columns_put(table,
                    qll_say(wording->language, (qll_message)((size_t)QLL_SAYS_ACTING_DIRECT
                                                             + (size_t)valve->valve->acting)));
    qll_units_write(&table->cell, setting.set_pa_gauge, QLL_KIND_PRESSURE, wording->units);
    qll_columns_next(table);
    if (isfinite(setting.reading_pa_gauge)) {
        qll_arena *arena = table->cell.arena;
        const qll_filling fillings[] = {
            {"pressure",
             qll_quantity_text(arena, setting.reading_pa_gauge, QLL_KIND_PRESSURE, wording->units)},
            {"flow", qll_quantity_text(arena, setting.flow_m3s, QLL_KIND_FLOW, wording->units)},
        };
        qll_say_with(&table->cell, wording->language, QLL_SAYS_READS_AT, fillings, 2);
    }
    qll_columns_next(table);
    qll_units_write(&table->cell, setting.lockup_pa_gauge, QLL_KIND_PRESSURE, wording->units);
    qll_columns_next(table);
}

static void write_schedule(qll_writer *writer, const qll_wording *wording,
                           const qll_station *station)
{
    static const qll_message heads[] = {
        QLL_MESSAGE_COUNT,       QLL_SAYS_HEAD_VALVE, QLL_SAYS_HEAD_SIZE,   QLL_SAYS_HEAD_ACTING,
        QLL_SAYS_HEAD_SET_POINT, QLL_SAYS_HEAD_READS, QLL_SAYS_HEAD_LOCKUP,
    };
    qll_columns table = qll_columns_new(writer, "lllllll");
    qll_columns_heads(&table, wording->language, heads, sizeof heads / sizeof heads[0]);
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
    qll_arena *arena = writer->arena;
    for (size_t s = 0; s < station->stage_count; s++) {
        const qll_stage *stage = &station->stages[s];
        qll_writer number = qll_writer_new(arena);
        qll_write_format(&number, "%zu", s + 1);
        const qll_filling fillings[] = {
            {"stage", station->stage_count > 1 ? qll_writer_text(&number).bytes : NULL},
            {"inlet", qll_quantity_text(arena, stage->set_inlet_pa_gauge, QLL_KIND_PRESSURE,
                                        wording->units)},
            {"first", stage->branch_count > 1 ? name_of(arena, station, s, 0) : NULL},
        };
        qll_section_says_with(writer, wording->language, QLL_SAYS_HOW_TO_SET, fillings, 3);
    }
}

static void write_strainers(qll_writer *writer, const qll_wording *wording,
                            const qll_station *station, const qll_assessment *assessment)
{
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            qll_writer line = qll_writer_new(writer->arena);
            qll_wording_strainer(&line, wording, name_of(writer->arena, station, s, b),
                                 &assessment->strainers[s][b]);
            writer->no_memory = writer->no_memory || line.no_memory;
            qll_write_wrapped(writer, "  ", qll_writer_text(&line));
        }
    }
}

static void write_handovers(qll_writer *writer, const qll_wording *wording,
                            const qll_station *station, const qll_assessment *assessment)
{
    qll_arena *arena = writer->arena;
    for (size_t s = 0; s < station->stage_count; s++) {
        qll_handover handover = assessment->handovers[s];
        if (station->stages[s].branch_count < 2 || !isfinite(handover.flow_m3s)) {
            continue;
        }
        double outlet_pa_gauge = handover.outlet_pa - wording->site->barometric_pa;
        const qll_filling fillings[] = {
            {"first", name_of(arena, station, s, 0)},
            {"flow", qll_quantity_text(arena, handover.flow_m3s, QLL_KIND_FLOW, wording->units)},
            {"pressure",
             qll_quantity_text(arena, outlet_pa_gauge, QLL_KIND_PRESSURE, wording->units)},
            {"second", name_of(arena, station, s, 1)},
        };
        qll_section_says_with(writer, wording->language, QLL_SAYS_HANDOVER, fillings, 4);
    }
}

static void alternative_row(qll_columns *table, const qll_wording *wording,
                            const qll_candidate *candidate, bool recommended)
{
    const qll_assessment *found = &candidate->assessment;
    qll_columns_put(table, recommended ? "->" : "");
    qll_wording_station(&table->cell, wording, &candidate->station);
    qll_columns_next(table);
    qll_writer fails = qll_writer_new(table->cell.arena);
    qll_writer cautions = qll_writer_new(table->cell.arena);
    qll_write_format(&fails, "%zu", found->fail_count);
    qll_write_format(&cautions, "%zu", found->caution_count);
    const qll_filling fillings[] = {{"fails", qll_writer_text(&fails).bytes},
                                    {"cautions", qll_writer_text(&cautions).bytes}};
    qll_say_with(&table->cell, wording->language, QLL_SAYS_FAILS_CAUTIONS, fillings, 2);
    qll_columns_next(table);
    qll_write_format(&table->cell, "%.3f", found->objectives.noise);
    qll_columns_next(table);
    qll_write_format(&table->cell, "%.0f", found->objectives.price);
    qll_columns_next(table);
}

/* A head or note of prices in the catalogue's currency. */
static const char *money(qll_writer *writer, const qll_wording *wording, const char *currency,
                         qll_message in, qll_message own)
{
    const char *says = qll_wording_money(writer->arena, wording->language, currency, in, own);
    writer->no_memory = writer->no_memory || says == NULL;
    return says == NULL ? "" : says;
}

static void write_alternatives(qll_writer *writer, const qll_wording *wording,
                               const qll_design *design, const char *currency)
{
    qll_columns table = qll_columns_new(writer, "lllrr");
    static const qll_message heads[] = {QLL_MESSAGE_COUNT, QLL_SAYS_HEAD_STATION,
                                        QLL_SAYS_HEAD_VERDICTS, QLL_SAYS_HEAD_NOISE_SCORE};
    qll_columns_heads(&table, wording->language, heads, sizeof heads / sizeof heads[0]);
    qll_columns_put(&table,
                    money(writer, wording, currency, QLL_SAYS_HEAD_PRICE_IN, QLL_SAYS_HEAD_PRICE));
    size_t shown = design->count < QLL_ALTERNATIVES_SHOWN ? design->count : QLL_ALTERNATIVES_SHOWN;
    for (size_t i = 0; i < shown; i++) {
        alternative_row(&table, wording, &design->candidates[i], i == design->recommended);
    }
    if (design->by_pipe_size != NULL) {
        alternative_row(&table, wording, design->by_pipe_size, false);
    }
    qll_columns_flush(&table);
    qll_section_says_with(writer, wording->language, QLL_SAYS_NOISE_SCORE_MEANS, NULL, 0);
    qll_write_wrapped(
        writer, "  ",
        qll_text_of(money(writer, wording, currency, QLL_SAYS_PRICES_ARE, QLL_SAYS_PRICES_OWN)));
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
    qll_section_says(writer, wording->language, QLL_SAYS_PLAIN_BY_PIPE_SIZE);
    for (size_t i = 0; i < candidate->assessment.verdict_count; i++) {
        const qll_verdict *verdict = &candidate->assessment.verdicts[i];
        if (verdict->grade == QLL_GRADE_GOOD) {
            continue;
        }
        qll_writer line = qll_writer_new(writer->arena);
        qll_wording_verdict(&line, wording, &candidate->station, verdict);
        qll_writer mark = qll_writer_new(writer->arena);
        qll_section_mark(&mark, wording->language, verdict->grade);
        if (line.no_memory || mark.no_memory) {
            writer->no_memory = true;
            return;
        }
        qll_write_wrapped(writer, qll_writer_text(&mark).bytes, qll_writer_text(&line));
    }
}

static void write_demand(qll_writer *writer, const qll_design_findings *findings)
{
    const qll_survey *survey = findings->demand.survey;
    qll_columns table = qll_columns_new(writer, "lrrrrl");
    static const qll_message heads[] = {QLL_MESSAGE_COUNT,          QLL_SAYS_HEAD_DESIGN_PEAK,
                                        QLL_SAYS_HEAD_MEAN,         QLL_SAYS_HEAD_99_PERCENT,
                                        QLL_SAYS_HEAD_NOBODY_DRAWS, QLL_SAYS_HEAD_BY};
    qll_columns_heads(&table, findings->demand.language, heads, sizeof heads / sizeof heads[0]);
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
        qll_columns_put(&table, qll_say_method(findings->demand.language,
                                               demand->estimates[demand->chosen].method));
    }
    qll_columns_flush(&table);
}

static void write_install(qll_writer *writer, const qll_wording *wording,
                          const qll_station *station)
{
    qll_writer name = qll_writer_new(writer->arena);
    qll_wording_station(&name, wording, station);
    writer->no_memory = writer->no_memory || name.no_memory;
    const qll_filling filling = {"station", qll_writer_text(&name).bytes};
    qll_write(writer, "\n\n");
    qll_line_says_with(writer, wording->language, QLL_SAYS_PLAIN_INSTALL, &filling, 1);
}

void qll_design_print(qll_writer *writer, const qll_design_findings *findings)
{
    const qll_survey *survey = findings->demand.survey;
    const qll_design *design = findings->design;
    const qll_candidate *chosen = &design->candidates[design->recommended];
    const qll_language language = findings->demand.language;
    const qll_wording wording = {.units = survey->units,
                                 .language = language,
                                 .site = &survey->site,
                                 .duty = findings->duty};
    qll_write(writer, qll_say(language, QLL_SAYS_PLAIN_STATION));
    qll_write(writer, ": ");
    qll_write(writer, survey->name);
    write_install(writer, &wording, &chosen->station);
    qll_section_says(writer, language, QLL_SAYS_PLAIN_SET);
    write_schedule(writer, &wording, &chosen->station);
    write_handovers(writer, &wording, &chosen->station, &chosen->assessment);
    write_how_to_set(writer, &wording, &chosen->station);
    write_strainers(writer, &wording, &chosen->station, &chosen->assessment);
    qll_section_says(writer, language, QLL_SAYS_PLAIN_WHY);
    qll_writer reason = qll_writer_new(writer->arena);
    qll_wording_reason(&reason, &wording, design);
    writer->no_memory = writer->no_memory || reason.no_memory;
    qll_write_wrapped(writer, "  ", qll_writer_text(&reason));
    qll_section_verdicts(writer, &wording, &chosen->station, &chosen->assessment);
    qll_section_how_sure(writer, language, &chosen->assessment,
                         &findings->sensitivities[design->recommended]);
    qll_section_says(writer, language, QLL_SAYS_PLAIN_WHAT_HAPPENS);
    qll_section_points(writer, &wording, &chosen->station, findings->points, findings->point_count);
    qll_section_says_with(writer, language, QLL_SAYS_PLAIN_INLET_MIDDLE, NULL, 0);
    qll_section_says(writer, language, QLL_SAYS_PLAIN_TIME);
    qll_section_shares(writer, language, &chosen->assessment.shares);
    qll_section_says(writer, language, QLL_SAYS_PLAIN_WATER);
    write_demand(writer, findings);
    qll_section_says(writer, language, QLL_SAYS_PLAIN_ALSO);
    write_alternatives(writer, &wording, design, findings->catalogue->currency);
    write_by_pipe_size(writer, &wording, design);
    qll_section_assumed(writer, &wording, findings->demand.assumed);
    qll_section_sources(writer, &wording, findings->demand.sources, findings->demand.source_count);
    qll_section_cautions(writer, language);
}
