#include "documents/write_common.h"
#include "wording/wording.h"

#include <math.h>

static void put_estimates(qll_json *json, const qll_wording *wording, const qll_demand *demand)
{
    qll_json_put_list(json, "estimates");
    for (size_t i = 0; i < demand->estimate_count; i++) {
        const qll_peak_estimate *estimate = &demand->estimates[i];
        qll_json_open_object(json);
        qll_json_put_text(json, "method", qll_method_word(estimate->method));
        qll_json_put_number(json, "peak_flow_m3s", estimate->peak_m3s);
        qll_json_put_said(json, "table", wording, &estimate->table);
        qll_json_put_said(json, "source", wording, &estimate->source);
        const char *note = qll_wording_notes(json->writer->arena, wording, estimate->notes);
        qll_json_put_text(json, "note", note);
        qll_json_put_bool(json, "chosen", i == demand->chosen);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

/* Null where the table does not list a fixture. */
static void put_loading_units(qll_json *json, const qll_demand *demand)
{
    static const char *const keys[QLL_LOADING_TABLE_COUNT] = {
        [QLL_LOADING_EN] = "en_806_3",
        [QLL_LOADING_BS] = "bs_6700",
    };
    qll_json_put_object(json, "loading_units");
    for (size_t t = 0; t < QLL_LOADING_TABLE_COUNT; t++) {
        const qll_loading_sum *sum = &demand->loading[t];
        qll_json_put_figure(json, keys[t], sum->missing == NULL ? sum->units : (double)NAN);
    }
    qll_json_close_object(json);
}

static void put_disagreements(qll_json *json, const qll_wording *wording, const qll_demand *demand)
{
    qll_json_put_list(json, "disagreements");
    for (size_t i = 0; i < demand->disagreement_count; i++) {
        const qll_disagreement *one = &demand->disagreements[i];
        const qll_peak_estimate *estimate = &demand->estimates[one->estimate];
        qll_writer says = qll_writer_new(json->writer->arena);
        qll_wording_disagreement(&says, wording, demand, i, false);
        qll_json_open_object(json);
        qll_json_put_text(json, "method", qll_method_word(estimate->method));
        qll_json_put_said(json, "table", wording, &estimate->table);
        qll_json_put_number(json, "ratio", one->ratio);
        qll_json_put_written(json, "says", &says);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_duration_point(qll_json *json, qll_duration_point point)
{
    qll_json_open_object(json);
    qll_json_put_number(json, "flow_m3s", point.flow_m3s);
    qll_json_put_number(json, "time_share", point.time_share);
    qll_json_put_number(json, "volume_share", point.volume_share);
    qll_json_close_object(json);
}

/* The list begins at no flow even where a leak or a cooling tower never lets the flow stop. */
static void put_duration(qll_json *json, const qll_duration *duration)
{
    qll_json_put_list(json, "flow_duration");
    if (duration->count > 0 && duration->points[0].flow_m3s > 0.0) {
        put_duration_point(json, (qll_duration_point){0});
    }
    for (size_t i = 0; i < duration->count; i++) {
        put_duration_point(json, duration->points[i]);
    }
    qll_json_close_list(json);
}

/* What may be left out of a day. */
static void put_day(qll_json *json, const qll_wording *wording, const qll_demand_findings *findings,
                    size_t scenario)
{
    const qll_demand *demand = &findings->demands[scenario];
    if (qll_has_part(findings->left_out, QLL_PART_LOG)) {
        qll_json_put_log(json, wording, demand, findings->logs[scenario]);
    }
    if (qll_has_part(findings->left_out, QLL_PART_HOURS)) {
        qll_json_put_hours(json, demand);
    }
    if (qll_has_part(findings->left_out, QLL_PART_DURATION)) {
        put_duration(json, &demand->day.duration);
    }
}

void qll_json_put_scenarios(qll_json *json, const qll_demand_findings *findings,
                            const qll_duty *duty)
{
    const qll_wording wording = {.units = findings->survey->units, .language = findings->language};
    qll_json_put_list(json, "scenarios");
    for (size_t i = 0; i < findings->survey->scenario_count; i++) {
        const qll_demand *demand = &findings->demands[i];
        qll_json_open_object(json);
        qll_json_put_scenario_head(json, &wording, demand, duty, i);
        if (qll_has_part(findings->left_out, QLL_PART_ESTIMATES)) {
            put_estimates(json, &wording, demand);
            put_disagreements(json, &wording, demand);
        }
        if (duty == NULL) {
            qll_json_put_figure(json, "service_flow_m3s", findings->service->flow_m3s);
        }
        put_loading_units(json, demand);
        qll_json_put_number(json, "continuous_peak_flow_m3s", demand->continuous_peak_m3s);
        qll_json_put_figure(json, "idle_share", demand->no_flow_share);
        qll_json_put_figure(json, "no_fixture_open_share", demand->no_fixture_open_share);
        qll_json_put_figure(json, "leak_only_share", demand->leak_only_share);
        qll_json_put_number(json, "mean_flow_m3s", demand->day.duration.mean_m3s);
        qll_json_put_number(json, "day_volume_m3", demand->day.volume_m3);
        qll_json_put_number(json, "leak_flow_m3s", demand->day.leak_m3s);
        put_day(json, &wording, findings, i);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

void qll_demand_write(qll_json *json, const qll_demand_findings *findings)
{
    const qll_wording wording = {.units = findings->survey->units, .language = findings->language};
    qll_json_open_object(json);
    qll_json_put_common(json, "demand", findings);
    qll_json_put_scenarios(json, findings, NULL);
    if (qll_has_part(findings->left_out, QLL_PART_COMPARISON)) {
        qll_json_put_comparison(json, &wording, findings);
    }
    qll_json_put_figures(json, findings->drawn, findings->drawn_count);
    qll_json_close_object(json);
}
