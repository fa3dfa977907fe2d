#include "documents/write_common.h"
#include "station/level.h"

static void put_causes(qll_json *json, const qll_check_findings *findings)
{
    qll_json_key(json, "causes");
    qll_json_open_list(json);
    for (size_t i = 0; i < findings->cause_count; i++) {
        const qll_noise_cause *cause = &findings->causes[i];
        qll_json_open_object(json);
        qll_json_put_text(json, "rule", qll_rule_words[cause->rule]);
        qll_json_put_figure(json, "weight", cause->weight);
        qll_json_put_text(json, "says", cause->says);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_help(qll_json *json, const qll_wording *wording, const qll_check_findings *findings)
{
    qll_json_key(json, "help");
    qll_json_open_list(json);
    for (size_t i = 0; i < findings->assessment->help_count; i++) {
        const qll_low_flow_help *help = &findings->assessment->help[i];
        qll_json_open_object(json);
        qll_json_put_text(json, "kind", qll_help_words[help->kind]);
        qll_json_key(json, "stage");
        qll_json_whole(json, (long long)help->spot.stage);
        qll_json_key(json, "branch");
        qll_json_whole(json, (long long)help->spot.branch);
        qll_json_put_figure(json, "share_now", help->time_now);
        qll_json_put_figure(json, "share_then", help->time_then);
        qll_json_put_figure(json, "between_pa_gauge", help->between_pa_gauge);
        qll_writer says = qll_writer_new(json->writer->arena);
        qll_wording_help(&says, wording, findings->station, help);
        qll_json_put_written(json, "says", &says);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_spectrum(qll_json *json, const char *key, const qll_check_findings *findings,
                         const qll_operating_point *point)
{
    qll_spectrum_band bands[QLL_NOISE_BAND_COUNT];
    bool has_level =
        qll_point_spectrum(findings->station, &findings->demand.survey->site, point, bands);
    qll_json_key(json, key);
    qll_json_open_object(json);
    qll_json_put_number(json, "flow_m3s", point->flow_m3s);
    qll_json_put_figure(json, "level_dba", point->level.level_dba);
    qll_json_put_figure(json, "level_low_dba", point->level.low_dba);
    qll_json_put_figure(json, "level_high_dba", point->level.high_dba);
    bool is_beyond = point->level.limit != QLL_NOISE_WITHIN;
    qll_json_put_text(json, "level_note",
                      is_beyond ? qll_noise_limit_words[point->level.limit] : "");
    qll_json_key(json, "bands");
    qll_json_open_list(json);
    for (size_t b = 0; has_level && b < QLL_NOISE_BAND_COUNT; b++) {
        qll_json_open_object(json);
        qll_json_put_number(json, "centre_hz", bands[b].centre_hz);
        qll_json_put_figure(json, "level_db", bands[b].level_db);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}

static void put_noise(qll_json *json, const qll_check_findings *findings)
{
    qll_json_key(json, "noise");
    qll_json_open_object(json);
    put_spectrum(json, "loudest", findings, &findings->assessment->loudest);
    put_spectrum(json, "typical", findings, &findings->assessment->typical);
    qll_json_close_object(json);
}

void qll_check_write(qll_json *json, const qll_check_findings *findings)
{
    const qll_survey *survey = findings->demand.survey;
    qll_wording wording = {
        .units = survey->units,
        .site = &survey->site,
        .duty = findings->duty,
    };
    qll_json_open_object(json);
    qll_json_put_common(json, "check", &findings->demand);
    qll_writer name = qll_writer_new(json->writer->arena);
    qll_wording_station(&name, &wording, findings->station);
    qll_json_put_written(json, "name", &name);
    qll_json_put_stages(json, &wording, findings->station, findings->assessment);
    qll_json_key(json, "points");
    qll_json_open_list(json);
    for (size_t i = 0; i < findings->point_count; i++) {
        qll_json_open_point(json, &survey->site, findings->station, &findings->points[i]);
        qll_json_put_gauge(json, "outlet_rising_pa_gauge", findings->outlet_rising_pa[i],
                           survey->site.barometric_pa);
        qll_json_put_gauge(json, "outlet_falling_pa_gauge", findings->outlet_falling_pa[i],
                           survey->site.barometric_pa);
        qll_json_put_text(json, "supply", findings->point_supplies[i]);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
    qll_json_put_verdicts(json, &wording, findings->station, findings->assessment);
    qll_json_put_sensitivity(json, findings->assessment, &findings->sensitivity);
    qll_json_put_time_shares(json, &findings->assessment->shares);
    put_noise(json, findings);
    put_causes(json, findings);
    put_help(json, &wording, findings);
    qll_json_put_way(json, &wording, &findings->way);
    qll_json_close_object(json);
}
