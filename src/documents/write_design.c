#include "documents/write_common.h"
#include "station/score.h"

#include <math.h>
#include <stdint.h>

static void put_objectives(qll_json *json, const qll_assessment *assessment)
{
    const qll_objectives *objectives = &assessment->objectives;
    qll_json_key(json, "objectives");
    qll_json_open_object(json);
    qll_json_put_figure(json, "noise", objectives->noise);
    qll_json_put_figure(json, "loudness", assessment->loudness);
    qll_json_put_figure(json, "unsteady_pa", objectives->unsteady);
    qll_json_put_figure(json, "wear", objectives->wear);
    qll_json_put_figure(json, "price", objectives->price);
    qll_json_close_object(json);
}

static void put_point(qll_json *json, const char *key, const qll_site *site,
                      const qll_station *station, const qll_operating_point *point)
{
    qll_json_key(json, key);
    qll_json_open_point(json, site, station, point);
    qll_json_close_object(json);
}

/* @p sensitivity NULL = nothing was drawn. */
static void put_candidate(qll_json *json, const qll_wording *wording,
                          const qll_candidate *candidate, const qll_sensitivity *sensitivity)
{
    const qll_station *station = &candidate->station;
    const qll_assessment *assessment = &candidate->assessment;
    qll_json_open_object(json);
    qll_writer name = qll_writer_new(json->writer->arena);
    qll_wording_station(&name, wording, station);
    qll_json_put_written(json, "name", &name);
    qll_json_put_stages(json, wording, station, assessment);
    qll_json_put_verdicts(json, wording, station, assessment);
    if (sensitivity != NULL) {
        qll_json_put_sensitivity(json, assessment, sensitivity);
    }
    qll_json_put_time_shares(json, &assessment->shares);
    put_point(json, "worst", wording->site, station, &assessment->worst);
    put_point(json, "typical", wording->site, station, &assessment->typical);
    qll_json_put_figure(json, "price", qll_station_list_price(station));
    qll_json_key(json, "valve_count");
    qll_json_whole(json, (long long)candidate->part_count);
    put_objectives(json, assessment);
    qll_json_close_object(json);
}

static void put_counts(qll_json *json, const qll_search_counts *counts)
{
    qll_json_key(json, "search");
    qll_json_open_object(json);
    qll_json_key(json, "arrangements");
    qll_json_whole(json, (long long)counts->arrangements);
    qll_json_key(json, "refused_by");
    qll_json_open_object(json);
    for (size_t rule = 0; rule < QLL_RULE_COUNT; rule++) {
        qll_json_key(json, qll_rule_words[rule]);
        qll_json_whole(json, (long long)counts->by_rule[rule]);
    }
    qll_json_key(json, "hand-over");
    qll_json_whole(json, (long long)counts->by_handover);
    qll_json_close_object(json);
    qll_json_key(json, "beaten");
    qll_json_whole(json, (long long)counts->beaten);
    qll_json_key(json, "scored");
    qll_json_whole(json, (long long)counts->scored);
    qll_json_key(json, "front");
    qll_json_whole(json, (long long)counts->front);
    qll_json_close_object(json);
}

static void put_catalogue(qll_json *json, const qll_catalogue *catalogue)
{
    qll_json_key(json, "catalogue");
    qll_json_open_object(json);
    qll_json_put_text(json, "name", catalogue->name);
    qll_json_put_bool(json, "invented", catalogue->invented);
    qll_json_key(json, "currency");
    if (catalogue->currency == NULL) {
        qll_json_null(json);
    } else {
        qll_json_text(json, catalogue->currency);
    }
    qll_json_key(json, "valve_count");
    qll_json_whole(json, (long long)catalogue->count);
    qll_json_close_object(json);
}

static void put_choice(qll_json *json, const qll_wording *wording, const qll_design *design)
{
    qll_json_key(json, "recommended");
    qll_json_whole(json, (long long)design->recommended);
    qll_writer reason = qll_writer_new(json->writer->arena);
    qll_wording_reason(&reason, wording, design);
    qll_json_put_written(json, "reason", &reason);
    qll_json_key(json, "simpler_than_recommended");
    if (design->runner_up == SIZE_MAX) {
        qll_json_null(json);
    } else {
        qll_json_whole(json, (long long)design->runner_up);
    }
    qll_json_key(json, "by_pipe_size");
    if (design->by_pipe_size == NULL) {
        qll_json_null(json);
    } else {
        put_candidate(json, wording, design->by_pipe_size, NULL);
    }
    qll_json_put_bool(json, "stopped", design->stopped);
}

/* What the recommended station does over its flows at the middle supply. */
static void put_points(qll_json *json, const qll_design_findings *findings)
{
    const qll_station *station =
        &findings->design->candidates[findings->design->recommended].station;
    qll_json_key(json, "points");
    qll_json_open_list(json);
    for (size_t i = 0; i < findings->point_count; i++) {
        qll_json_open_point(json, &findings->demand.survey->site, station, &findings->points[i]);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

void qll_json_put_design(qll_json *json, const qll_design_findings *findings)
{
    const qll_survey *survey = findings->demand.survey;
    const qll_design *design = findings->design;
    const qll_wording wording = {
        .units = survey->units,
        .site = &survey->site,
        .duty = findings->duty,
    };
    put_catalogue(json, findings->catalogue);
    qll_json_key(json, "stations");
    qll_json_open_list(json);
    for (size_t i = 0; i < design->count; i++) {
        put_candidate(json, &wording, &design->candidates[i], &findings->sensitivities[i]);
    }
    qll_json_close_list(json);
    put_choice(json, &wording, design);
    put_points(json, findings);
    qll_json_put_way(json, &wording, &findings->way);
    put_counts(json, &design->counts);
}

void qll_design_write(qll_json *json, const qll_design_findings *findings)
{
    qll_json_open_object(json);
    qll_json_put_common(json, "design", &findings->demand);
    qll_json_key(json, "scenarios");
    qll_json_open_list(json);
    for (size_t i = 0; i < findings->demand.survey->scenario_count; i++) {
        qll_json_open_object(json);
        qll_json_put_scenario_head(json, &findings->demand.demands[i]);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
    qll_json_put_design(json, findings);
    qll_json_close_object(json);
}
