#include "documents/write_common.h"

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
    qll_json_put_stages(json, &survey->site, findings->station, findings->assessment);
    qll_json_key(json, "points");
    qll_json_open_list(json);
    for (size_t i = 0; i < findings->point_count; i++) {
        qll_json_open_point(json, &survey->site, findings->station, &findings->points[i]);
        qll_json_put_text(json, "supply", findings->point_supplies[i]);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
    qll_json_put_verdicts(json, &wording, findings->station, findings->assessment);
    qll_json_put_time_shares(json, &findings->assessment->shares);
    put_causes(json, findings);
    qll_json_put_way(json, &wording, &findings->way);
    qll_json_close_object(json);
}
