#include "engine/engine.h"
#include "report/plain.h"

/* Where the main itself falls short at the design peak, no valve mends it: that comes first. */
static bool write_short_main(qll_writer *hint, const qll_designed *designed)
{
    const qll_site *site = &designed->prepared.survey.site;
    const qll_duty *duty = &designed->duty;
    qll_unit_system units = designed->prepared.survey.units;
    double inlet_pa_gauge = qll_site_inlet_pa(site, duty->supply_static_pa_gauge[0], duty->peak_m3s)
                            - site->barometric_pa;
    double least_pa_gauge = (1.0 - site->limits.falloff_share) * site->set_pa_gauge;
    if (inlet_pa_gauge >= least_pa_gauge) {
        return false;
    }
    qll_write(hint, "at the design peak, ");
    qll_units_write(hint, duty->peak_m3s, QLL_KIND_FLOW, units);
    qll_write(hint, ", the lowest supply leaves ");
    if (inlet_pa_gauge > 0.0) {
        qll_units_write(hint, inlet_pa_gauge, QLL_KIND_PRESSURE, units);
    } else {
        qll_write(hint, "nothing");
    }
    qll_write(hint, " before the station, and ");
    qll_units_write(hint, site->set_pa_gauge, QLL_KIND_PRESSURE, units);
    qll_write(hint, " is wanted behind it");
    return true;
}

/* Why nothing is left, with the counts: the reader sees which rule to look at. */
static void refuse_empty(qll_asked *asked, const qll_designed *designed)
{
    const qll_catalogue *catalogue = &designed->catalogue;
    const qll_search_counts *counts = &designed->design.counts;
    qll_writer text = qll_writer_new(asked->arena);
    qll_write_format(&text,
                     "no arrangement of the catalogue's %zu valve%s meets the hard rules; of %zu "
                     "tried",
                     catalogue->count, catalogue->count == 1 ? "" : "s", counts->arrangements);
    size_t worst = 0;
    for (size_t rule = 0; rule < QLL_RULE_COUNT; rule++) {
        if (counts->by_rule[rule] > 0) {
            qll_write_format(&text, ", %zu broke %s", counts->by_rule[rule], qll_rule_words[rule]);
        }
        if (counts->by_rule[rule] > counts->by_rule[worst]) {
            worst = rule;
        }
    }
    if (counts->by_handover > 0) {
        qll_write_format(&text, ", %zu had no hand-over between their valves", counts->by_handover);
    }
    qll_writer hint = qll_writer_new(asked->arena);
    if (!write_short_main(&hint, designed) && counts->by_rule[worst] > 0) {
        qll_write_format(&hint, "look at %s first", qll_rule_words[worst]);
    }
    qll_text first = qll_writer_text(&hint);
    qll_asked_refuse(asked, QLL_CODE_NO_STATION, asked->question->document.name,
                     qll_writer_text(&text).bytes, first.bytes == NULL ? "" : first.bytes);
}

static qll_search_options options_of(const qll_asked *asked, const qll_survey *survey)
{
    const qll_question *question = asked->question;
    qll_search_options options = qll_search_options_default();
    options.seed = asked->seed;
    options.progress = question->progress;
    options.progress_context = question->progress_context;
    if (survey->service_size != NULL) {
        options.pipe_size_m = survey->service_size->nominal_m;
    }
    return options;
}

/* The recommended station at no flow and at every flow class, at the middle supply. */
static qll_status operate(qll_asked *asked, const qll_site *site, qll_design_findings *findings)
{
    const qll_design *design = findings->design;
    const qll_station *station = &design->candidates[design->recommended].station;
    const qll_duty *duty = findings->duty;
    size_t middle = duty->supply_count / 2;
    size_t count = duty->flow_count;
    qll_operating_point *points = qll_arena_take(asked->arena, count + 1, sizeof *points);
    if (points == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_status status = qll_station_operate(station, site, duty->inlet_static_pa[middle], 0.0,
                                            asked->arena, &points[0]);
    for (size_t f = 0; f < count && status == QLL_OK; f++) {
        status = qll_station_operate(station, site, duty->inlet_pa[middle * count + f],
                                     duty->flow_m3s[f], asked->arena, &points[f + 1]);
    }
    findings->points = points;
    findings->point_count = count + 1;
    return status == QLL_OK ? qll_prepare_way(asked, station, site, duty, &findings->way) : status;
}

/* How often the verdicts of every station hold: most draws for the recommended one. */
static qll_status draw(qll_asked *asked, const qll_site *site, qll_design_findings *findings)
{
    const qll_design *design = findings->design;
    qll_sensitivity *found = qll_arena_take(asked->arena, design->count, sizeof *found);
    qll_drawing *drawing = NULL;
    if (found == NULL || qll_prepare_drawing(asked, site, findings->duty, &drawing) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < design->count; i++) {
        const qll_candidate *candidate = &design->candidates[i];
        size_t count = i == design->recommended ? QLL_DRAWS : QLL_DRAWS_BESIDE;
        qll_status status = qll_sensitivity_of(drawing, &candidate->station, &candidate->assessment,
                                               count, asked->arena, &found[i]);
        if (status != QLL_OK) {
            return status;
        }
    }
    findings->sensitivities = found;
    return QLL_OK;
}

static void write_answer(qll_asked *asked, const qll_design_findings *findings)
{
    if (asked->question->form == QLL_FORM_JSON) {
        qll_json json = qll_json_new(&asked->writer);
        qll_design_write(&json, findings);
        qll_write(&asked->writer, "\n");
    } else {
        qll_design_print(&asked->writer, findings);
    }
}

/* Survey, catalogue and duty. The catalogue is read even after a refused survey: one pass shows the
 * problems of both. */
static qll_status prepare(qll_asked *asked, qll_designed *designed)
{
    qll_status status = qll_prepare_survey(asked, &designed->prepared);
    if (status == QLL_NO_MEMORY) {
        return status;
    }
    qll_status second = qll_prepare_catalogue(asked, &designed->prepared, &designed->catalogue);
    if (status != QLL_OK || second != QLL_OK) {
        return status != QLL_OK ? status : second;
    }
    qll_prepare_header(asked, &designed->prepared);
    return qll_prepare_duty(asked, &designed->prepared, &designed->duty);
}

qll_status qll_find_design(qll_asked *asked, qll_designed *designed)
{
    *designed = (qll_designed){0};
    qll_status status = prepare(asked, designed);
    if (status != QLL_OK) {
        return status;
    }
    const qll_site *site = &designed->prepared.survey.site;
    qll_search_options options = options_of(asked, &designed->prepared.survey);
    status = qll_search(site, &designed->duty, &designed->catalogue, &options, asked->arena,
                        &designed->design);
    if (status != QLL_OK) {
        return status;
    }
    if (designed->design.count == 0) {
        refuse_empty(asked, designed);
        return qll_problems_status(&asked->problems);
    }
    designed->findings = (qll_design_findings){
        .demand = qll_prepared_findings(asked, &designed->prepared),
        .catalogue = &designed->catalogue,
        .duty = &designed->duty,
        .design = &designed->design,
    };
    status = operate(asked, site, &designed->findings);
    return status == QLL_OK ? draw(asked, site, &designed->findings) : status;
}

qll_status qll_ask_design(qll_asked *asked)
{
    qll_designed designed;
    qll_status status = qll_find_design(asked, &designed);
    if (status != QLL_OK) {
        return status;
    }
    write_answer(asked, &designed.findings);
    return qll_asked_finish(asked);
}
