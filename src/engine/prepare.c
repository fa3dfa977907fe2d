/* From a survey's bytes to what the questions are asked of. */
#include "base/digest.h"
#include "base/files.h"
#include "engine/builds.h"
#include "engine/engine.h"
#include "engine/find.h"
#include "engine/keep.h"
#include "engine/progress.h"

#include <math.h>

/* Flow classes of the duty, evenly spaced in the logarithm of flow (our choice). */
static const size_t class_count = 48;

static qll_status read_document(qll_asked *asked, const qll_input *input, qll_document *document)
{
    qll_text source = {.bytes = input->bytes, .size = input->size};
    const char *name = input->name == NULL ? "" : input->name;
    return qll_document_read(source, name, asked->arena, document, &asked->problems);
}

void qll_prepared_source(qll_asked *asked, qll_prepared *prepared, qll_said source)
{
    if (source.id == QLL_TEXT_NONE) {
        return;
    }
    for (size_t i = 0; i < prepared->source_count; i++) {
        if (qll_said_equal(&prepared->sources[i], &source)) {
            return;
        }
    }
    if (prepared->source_count == prepared->source_room) {
        size_t room = prepared->source_room == 0 ? 16 : prepared->source_room * 2;
        qll_said *sources = qll_arena_take(asked->arena, room, sizeof *sources);
        if (sources == NULL) {
            return;
        }
        for (size_t i = 0; i < prepared->source_count; i++) {
            sources[i] = prepared->sources[i];
        }
        prepared->sources = sources;
        prepared->source_room = room;
    }
    prepared->sources[prepared->source_count] = source;
    prepared->source_count += 1;
}

/* What a station is judged by, whatever the survey says. */
static void add_station_sources(qll_asked *asked, qll_prepared *prepared, bool invented)
{
    qll_prepared_source(asked, prepared, (qll_said){.id = QLL_TEXT_SOURCE_KV});
    qll_prepared_source(asked, prepared, (qll_said){.id = QLL_TEXT_SOURCE_XFZ});
    qll_prepared_source(asked, prepared, (qll_said){.id = QLL_TEXT_SOURCE_COLEBROOK});
    qll_prepared_source(asked, prepared,
                        (qll_said){QLL_TEXT_SOURCE_BANDS,
                                   {qll_as_written(qll_text_of("3 ft/s"), QLL_KIND_VELOCITY),
                                    qll_as_written(qll_text_of("6 ft/s"), QLL_KIND_VELOCITY)}});
    if (invented) {
        qll_prepared_source(asked, prepared, (qll_said){.id = QLL_TEXT_SOURCE_INVENTED});
    }
}

/* A demand does not know where its scenario stands in the document: put the finger there. */
static void place_problems(qll_asked *asked, const qll_prepared *prepared, size_t first,
                           size_t scenario)
{
    const qll_node *list = qll_node_find(prepared->document.root, "scenarios");
    const qll_node *node = list == NULL ? NULL : list->first_child;
    for (size_t i = 0; i < scenario && node != NULL; i++) {
        node = node->next;
    }
    if (node == NULL) {
        return;
    }
    qll_place place = qll_node_place(&prepared->document, node, false, asked->arena);
    for (size_t i = first; i < asked->problems.kept_count; i++) {
        if (asked->problems.kept[i].place.source[0] == '\0') {
            asked->problems.kept[i].place = place;
        }
    }
}

/* What was remarked on a scenario, as a problem; at its place in the survey by place_problems(). */
static void add_remark(qll_asked *asked, const qll_prepared *prepared, const qll_demand *demand,
                       const qll_remark *remark, qll_level level)
{
    const qll_wording wording = {.units = prepared->survey.units, .language = asked->language};
    qll_writer what = qll_writer_new(asked->arena);
    qll_wording_remark(&what, &wording, remark);
    const qll_filling fillings[] = {
        {"name", qll_wording_scenario(asked->arena, &wording, demand->scenario)},
        {"what", qll_writer_text(&what).bytes}};
    qll_writer text = qll_writer_new(asked->arena);
    qll_say_with(&text, wording.language, QLL_SAYS_OF_SCENARIO, fillings, 2);
    qll_problems_add(
        &asked->problems,
        (qll_fault){.code = remark->code,
                    .level = level,
                    .says = QLL_SAYS_WITH(VALUE, qll_as_is_text(qll_writer_text(&text)))});
}

static void add_remarks(qll_asked *asked, const qll_prepared *prepared, const qll_demand *demand)
{
    for (const qll_remark *one = demand->warnings; one != NULL; one = one->next) {
        add_remark(asked, prepared, demand, one, QLL_WARNING);
    }
    if (demand->refusal != NULL) {
        add_remark(asked, prepared, demand, demand->refusal, QLL_REFUSAL);
    }
}

static qll_status make_demands(qll_asked *asked, qll_prepared *prepared)
{
    size_t count = prepared->survey.scenario_count;
    prepared->demands = qll_arena_take(asked->arena, count, sizeof *prepared->demands);
    if (prepared->demands == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        size_t first = asked->problems.kept_count;
        qll_demand *demand = &prepared->demands[i];
        const qll_scenario *scenario = &prepared->survey.scenarios[i];
        qll_status status = QLL_OK;
        if (prepared->kept[i] != NULL) {
            *demand = prepared->kept[i]->demand;
            demand->scenario = scenario;
        } else {
            status = qll_demand_of(scenario, asked->arena, demand);
        }
        if (status == QLL_NO_MEMORY || status == QLL_STOPPED) {
            return status;
        }
        add_remarks(asked, prepared, demand);
        place_problems(asked, prepared, first, i);
        for (size_t e = 0; status == QLL_OK && e < demand->estimate_count; e++) {
            qll_prepared_source(asked, prepared, demand->estimates[e].source);
        }
        if (qll_progress_step(asked, i, count) != QLL_OK) {
            return QLL_STOPPED;
        }
    }
    qll_status status = qll_problems_status(&asked->problems);
    return status == QLL_OK
               ? qll_find_scenarios(prepared->demands, count, asked->arena, &prepared->figures)
               : status;
}

qll_status qll_prepare_survey(qll_asked *asked, qll_prepared *prepared)
{
    *prepared = (qll_prepared){0};
    qll_status status = QLL_OK;
    if (asked->survey != NULL) {
        prepared->document = *asked->survey;
    } else {
        status = read_document(asked, &asked->question->document, &prepared->document);
    }
    const qll_tables *tables = qll_keep_tables(asked->kept);
    if (status == QLL_OK && tables != NULL) {
        prepared->tables = *tables;
    } else if (status == QLL_OK) {
        status = qll_tables_read(asked->arena, &prepared->tables);
    }
    if (status == QLL_OK) {
        status = qll_survey_read(&prepared->document, &prepared->tables, asked->arena,
                                 &prepared->survey, &asked->assumed, &asked->problems);
    }
    if (status != QLL_OK) {
        return status;
    }
    if (asked->question->units != NULL) {
        prepared->survey.units = asked->units;
    }
    asked->units = prepared->survey.units;
    /* Reading survey and logs, then the demands, are the first part of every answer about them. */
    const bool is_demand = asked->question->verb == QLL_VERB_DEMAND;
    const double ready = is_demand ? 0.9 : QLL_SHARE_PREPARED;
    qll_progress_phase(asked, 0.0, 0.5 * ready);
    status = qll_keep_scenarios(asked, prepared);
    status = status == QLL_OK ? qll_prepare_logs(asked, prepared) : status;
    qll_progress_phase(asked, 0.5 * ready, ready);
    return status == QLL_OK ? make_demands(asked, prepared) : status;
}

static double design_peak_m3s(const qll_service *service, const qll_demand *demand)
{
    bool is_metered = demand->estimates[demand->chosen].method == QLL_PEAK_METERED;
    return qll_service_peak_m3s(service, demand->peak_m3s, is_metered);
}

static void assume_size(qll_asked *asked, double nominal_m, qll_text_id what, qll_text_id why)
{
    qll_assumed_add(&asked->assumed, qll_as_text(what), qll_as_size(nominal_m),
                    (qll_said){.id = why});
}

/* No valve is larger than the service or the station pipe, the smaller; where neither is known, than the
 * smallest that carries the peak. */
static void limit_to_pipe(qll_asked *asked, qll_survey *survey, double peak_m3s)
{
    qll_site *site = &survey->site;
    site->pipe_limit_m = fmin(site->pipe_limit_m, site->service_m); /* fmin passes over NaN */
    if (!isnan(site->pipe_limit_m)) {
        return;
    }
    const qll_pipe_size *size =
        qll_site_smallest_size(site, peak_m3s, site->limits.velocity_max_m_s);
    if (size != NULL) {
        site->pipe_limit_m = size->nominal_m;
        assume_size(asked, size->nominal_m, QLL_TEXT_WHAT_PIPE_LIMIT, QLL_TEXT_WHY_NO_PIPE_SIZE);
    }
}

void qll_prepare_header(qll_asked *asked, qll_prepared *prepared)
{
    qll_survey *survey = &prepared->survey;
    qll_site *site = &survey->site;
    prepared->service = qll_service_of(site);
    double peak_m3s = 0.0;
    for (size_t i = 0; i < survey->scenario_count; i++) {
        peak_m3s = fmax(peak_m3s, design_peak_m3s(&prepared->service, &prepared->demands[i]));
    }
    bool has_service = survey->service_size != NULL;
    limit_to_pipe(asked, survey, peak_m3s);
    if (survey->station_size != NULL) {
        site->header = survey->station_size;
        return;
    }
    site->header = qll_site_header(site, site->service_m, peak_m3s);
    if (site->header != NULL) {
        assume_size(asked, site->header->nominal_m, QLL_TEXT_WHAT_HEADER,
                    has_service ? QLL_TEXT_WHY_SERVICE_SIZE : QLL_TEXT_WHY_WITHIN_BAND);
    }
}

static qll_status read_catalogue(qll_asked *asked, const qll_input *input, qll_arena *arena,
                                 qll_catalogue *catalogue, qll_assumed *assumed,
                                 qll_problems *problems)
{
    const qll_text source = {.bytes = input->bytes, .size = input->size};
    const char *name = input->name == NULL ? "" : input->name;
    qll_document *document = qll_arena_take(arena, 1, sizeof *document);
    if (document == NULL) {
        return QLL_NO_MEMORY;
    }
    const qll_status status = qll_document_read(source, name, arena, document, problems);
    if (status != QLL_OK) {
        return status;
    }
    const qll_status read = qll_catalogue_read(document, arena, catalogue, assumed, problems);
    return read == QLL_OK ? qll_builds_find(asked, catalogue, arena) : read;
}

/* The same, kept: what was assumed and warned of is said again. False where it cannot be kept. */
static bool take_kept(qll_asked *asked, const qll_input *input, qll_catalogue *catalogue)
{
    bool is_found = false;
    qll_kept_catalogue *kept = qll_keep_catalogue(asked->kept, input, &is_found);
    if (kept == NULL) {
        return false;
    }
    if (!is_found) {
        const qll_input own = {kept->name.bytes, kept->bytes.bytes, kept->bytes.size};
        const qll_status status = read_catalogue(asked, &own, kept->arena, &kept->catalogue,
                                                 &kept->assumed, &kept->problems);
        if (status != QLL_OK || kept->problems.count > kept->problems.kept_count
            || qll_arena_refused(kept->arena) > 0) {
            qll_drop_catalogue(asked->kept);
            return false;
        }
    }
    for (const qll_assumption *one = kept->assumed.first; one != NULL; one = one->next) {
        qll_assumed_add(&asked->assumed, one->what, one->value, one->why);
    }
    for (size_t i = 0; i < kept->problems.kept_count; i++) {
        (void)qll_problems_add(&asked->problems, kept->problems.kept[i]);
    }
    *catalogue = kept->catalogue;
    return true;
}

qll_status qll_read_catalogue(qll_asked *asked, qll_catalogue *catalogue)
{
    const qll_input generic = {
        .name = "generic catalog",
        .bytes = (const char *)qll_file_generic_catalogue,
        .size = qll_file_generic_catalogue_size,
    };
    bool given = asked->question->catalogue.bytes != NULL;
    const qll_input *input = given ? &asked->question->catalogue : &generic;
    qll_status status = QLL_OK;
    if (!take_kept(asked, input, catalogue)) {
        status = read_catalogue(asked, input, asked->arena, catalogue, &asked->assumed,
                                &asked->problems);
    }
    if (status == QLL_OK && !given) {
        catalogue->name = generic.name;
        catalogue->invented = true;
    }
    return status;
}

qll_status qll_prepare_catalogue(qll_asked *asked, qll_prepared *prepared, qll_catalogue *catalogue)
{
    qll_status status = qll_read_catalogue(asked, catalogue);
    if (status != QLL_OK) {
        return status;
    }
    add_station_sources(asked, prepared, catalogue->invented);
    if (asked->problems.refusal_count > 0) {
        return QLL_OK; /* of the survey: the caller says so */
    }
    return qll_costs_merge(&prepared->tables.costs, catalogue, asked->arena, &prepared->survey,
                           &asked->assumed);
}

/* Points of a duration at which nothing flows but leaks: the least flows for the time at which nobody
 * draws and nothing runs by the clock, as hardly a use draws less than a leak. */
static size_t leak_points(const qll_demand *demand)
{
    const qll_duration *duration = &demand->day.duration;
    double share = demand->is_metered ? duration->idle_share
                                      : fmax(demand->day.weep_share, duration->idle_share);
    size_t count = 0;
    while (count < duration->count && duration->points[count].time_share <= share + 1e-9) {
        count += 1;
    }
    return count;
}

/* The flow duration of a day as the two curves a duty is made from. The time at which only a leak
 * runs counts as idle: a valve weeps then, it does not throttle (docs/theory/duty.md, 7). */
static bool scenario_duty(qll_arena *arena, const qll_service *service, const qll_demand *demand,
                          qll_duty_scenario *scenario)
{
    const qll_duration *duration = &demand->day.duration;
    size_t leaks = leak_points(demand);
    qll_duration_point before = {0};
    if (leaks > 0 && leaks < duration->count) {
        before = duration->points[leaks - 1];
    } else {
        leaks = 0;
    }
    size_t count = duration->count - leaks;
    qll_point *time = qll_arena_take(arena, count, sizeof *time);
    qll_point *volume = qll_arena_take(arena, count, sizeof *volume);
    if (time == NULL || volume == NULL) {
        return false;
    }
    double water = 1.0 - before.volume_share;
    for (size_t i = 0; i < count; i++) {
        const qll_duration_point *point = &duration->points[leaks + i];
        double share = (point->volume_share - before.volume_share) / water;
        time[i] = (qll_point){.x = point->flow_m3s, .y = point->time_share};
        volume[i] = (qll_point){.x = point->flow_m3s, .y = share};
    }
    *scenario = (qll_duty_scenario){
        .peak_m3s = design_peak_m3s(service, demand),
        .code_peak_m3s = demand->peak_m3s,
        .idle_share = leaks > 0 ? before.time_share : duration->idle_share,
        .weight = demand->scenario->weight,
        .volume_ln_sigma = demand->is_metered ? 0.0 : demand->scenario->volume_ln_sigma,
        .time_at_or_below = time,
        .volume_at_or_below = volume,
        .count = count,
    };
    return true;
}

qll_status qll_prepare_duty(qll_asked *asked, const qll_prepared *prepared, qll_duty *duty)
{
    size_t count = prepared->survey.scenario_count;
    qll_duty_scenario *scenarios = qll_arena_take(asked->arena, count, sizeof *scenarios);
    if (scenarios == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        if (!scenario_duty(asked->arena, &prepared->service, &prepared->demands[i],
                           &scenarios[i])) {
            return QLL_NO_MEMORY;
        }
        const qll_wording wording = {.units = asked->units, .language = asked->language};
        scenarios[i].name =
            qll_wording_scenario(asked->arena, &wording, prepared->demands[i].scenario);
    }
    qll_status status =
        qll_duty_make(&prepared->survey.site, scenarios, count, class_count, asked->arena, duty);
    duty->service_flow_m3s = prepared->service.flow_m3s;
    return status;
}

/* So many bytes of a digest name one survey among all of a lifetime. */
#define QLL_DIGEST_SHOWN 6

qll_provenance qll_provenance_of(const qll_asked *asked)
{
    const qll_input *document = &asked->question->document;
    qll_writer digest = qll_writer_new(asked->arena);
    qll_digest_write(&digest, (qll_text){document->bytes, document->size}, QLL_DIGEST_SHOWN);
    return (qll_provenance){
        .survey_file = qll_text_file_name(document->name),
        .survey_digest = qll_writer_text(&digest).bytes,
        .date = asked->question->date,
    };
}

qll_demand_findings qll_prepared_findings(const qll_asked *asked, const qll_prepared *prepared)
{
    return (qll_demand_findings){
        .provenance = qll_provenance_of(asked),
        .survey = &prepared->survey,
        .language = asked->language,
        .demands = prepared->demands,
        .figures = prepared->figures,
        .low_flow_m3s = qll_demand_low_flow_m3s(prepared->demands, prepared->survey.scenario_count),
        .service = &prepared->service,
        .logs = prepared->logs,
        .assumed = &asked->assumed,
        .problems = &asked->problems,
        .sources = prepared->sources,
        .source_count = prepared->source_count,
        .left_out = asked->left_out,
    };
}
