#include "documents/write_common.h"

static void put_causes(qll_json *json, const qll_check_findings *findings)
{
    qll_json_put_list(json, "causes");
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

static void put_cures(qll_json *json, const qll_wording *wording,
                      const qll_check_findings *findings)
{
    const qll_cures *cures = findings->cures;
    qll_json_put_list(json, "cures");
    for (size_t i = 0; i < cures->count; i++) {
        const qll_cure *cure = &cures->cures[i];
        qll_json_open_object(json);
        qll_json_put_text(json, "kind", qll_cure_words[cure->kind]);
        qll_json_put_object(json, "station");
        qll_json_put_station_name(json, "name", wording, &cure->station);
        qll_json_put_layout(json, &cure->station);
        qll_json_close_object(json);
        qll_json_put_figure(json, "installed", cure->cost.installed);
        qll_json_put_figure(json, "callback_share", cure->cost.callback_share);
        qll_json_put_figure(json, "callback", cure->cost.callback);
        qll_json_put_figure(json, "expected", cure->cost.expected);
        qll_json_put_bool(json, "fit", cure->fitness.is_fit);
        qll_json_put_pieces(json, &findings->cure_parts[i].pieces);
        qll_writer says = qll_writer_new(json->writer->arena);
        qll_wording_cure(&says, wording, cures, findings->station, cure);
        qll_json_put_written(json, "says", &says);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_sound(qll_json *json, const qll_wording *wording, const char *key,
                      const qll_operating_point *point, const qll_spectrum *spectrum)
{
    qll_json_put_object(json, key);
    qll_json_put_number(json, "flow_m3s", point->flow_m3s);
    qll_json_put_figure(json, "level_dba", point->level.level_dba);
    qll_json_put_figure(json, "level_low_dba", point->level.low_dba);
    qll_json_put_figure(json, "level_high_dba", point->level.high_dba);
    qll_json_put_level_note(json, wording, qll_noise_limit_texts[point->level.limit]);
    qll_json_put_list(json, "bands");
    for (size_t b = 0; spectrum->has_level && b < QLL_NOISE_BAND_COUNT; b++) {
        qll_json_open_object(json);
        qll_json_put_number(json, "centre_hz", spectrum->bands[b].centre_hz);
        qll_json_put_figure(json, "level_db", spectrum->bands[b].level_db);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}

static void put_noise(qll_json *json, const qll_wording *wording,
                      const qll_check_findings *findings)
{
    qll_json_put_object(json, "noise");
    put_sound(json, wording, "loudest", &findings->assessment->loudest, &findings->loudest);
    put_sound(json, wording, "typical", &findings->assessment->typical, &findings->typical);
    qll_json_close_object(json);
}

static void put_points(qll_json *json, const qll_wording *wording,
                       const qll_check_findings *findings)
{
    const qll_survey *survey = findings->demand.survey;
    qll_json_key(json, "points");
    qll_json_open_list(json);
    for (size_t i = 0; i < findings->point_count; i++) {
        qll_json_open_point(json, wording, findings->station, &findings->points[i]);
        qll_json_put_gauge(json, "outlet_rising_pa_gauge", findings->outlet_rising_pa[i],
                           survey->site.barometric_pa);
        qll_json_put_gauge(json, "outlet_falling_pa_gauge", findings->outlet_falling_pa[i],
                           survey->site.barometric_pa);
        qll_json_put_text(json, "supply", findings->point_supplies[i]);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

/* What may be left out, and the cost between. */
static void put_parts(qll_json *json, const qll_wording *wording,
                      const qll_check_findings *findings)
{
    const unsigned left_out = findings->demand.left_out;
    if (qll_has_part(left_out, QLL_PART_POINTS)) {
        put_points(json, wording, findings);
    }
    if (qll_has_part(left_out, QLL_PART_VERDICTS)) {
        qll_json_put_verdicts(json, wording, findings->station, findings->assessment);
    }
    if (qll_has_part(left_out, QLL_PART_NOISE)) {
        put_noise(json, wording, findings);
    }
    if (qll_has_part(left_out, QLL_PART_CAUSES)) {
        put_causes(json, findings);
    }
    if (qll_has_part(left_out, QLL_PART_CHANCE)) {
        qll_json_put_cost(json, &findings->cures->now, findings->catalogue->currency);
    } else {
        qll_json_put_bool(json, "nominal", findings->is_nominal);
    }
    qll_json_put_breaches(json, &findings->cures->fitness);
    if (qll_has_part(left_out, QLL_PART_CURES)) {
        put_cures(json, wording, findings);
    }
    qll_json_put_way(json, wording, &findings->way, left_out);
    qll_json_put_moving(json, wording, findings->moving);
}

void qll_json_put_check(qll_json *json, const qll_check_findings *findings)
{
    const qll_survey *survey = findings->demand.survey;
    qll_wording wording = {
        .units = survey->units,
        .language = findings->demand.language,
        .site = &survey->site,
        .duty = findings->duty,
        .currency = findings->catalogue->currency,
    };
    qll_json_put_station_name(json, "name", &wording, findings->station);
    qll_json_put_stages(json, &wording, findings->station, findings->assessment,
                        &findings->figures);
    put_parts(json, &wording, findings);
}

void qll_check_write(qll_json *json, const qll_check_findings *findings)
{
    qll_json_open_object(json);
    qll_json_put_common(json, "check", &findings->demand);
    qll_json_put_scenario_heads(json, &findings->demand, findings->duty);
    qll_json_put_check(json, findings);
    qll_json_put_figures(json, findings->demand.drawn, findings->demand.drawn_count);
    qll_json_close_object(json);
}
