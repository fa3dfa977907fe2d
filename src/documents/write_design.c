#include "documents/write_common.h"

#include <math.h>
#include <stdint.h>

static void put_point(qll_json *json, const char *key, const qll_wording *wording,
                      const qll_station *station, const qll_operating_point *point)
{
    qll_json_key(json, key);
    qll_json_open_point(json, wording, station, point);
    qll_json_close_object(json);
}

static void put_roles(qll_json *json, unsigned roles)
{
    qll_json_put_list(json, "roles");
    for (unsigned role = 0; role < QLL_ROLE_COUNT; role++) {
        if ((roles & (1U << role)) != 0) {
            qll_json_text(json, qll_role_words[role]);
        }
    }
    qll_json_close_list(json);
}

/* Why it is not the one; null for the first. */
static void put_why_not(qll_json *json, const qll_wording *wording, const qll_design *design,
                        size_t index)
{
    if (index == 0) {
        qll_json_put_null(json, "why_not");
        return;
    }
    qll_writer why = qll_writer_new(json->writer->arena);
    qll_wording_why_not(&why, wording, design, index);
    qll_json_put_written(json, "why_not", &why);
}

static void put_shown(qll_json *json, const qll_wording *wording,
                      const qll_design_findings *findings, size_t index)
{
    const qll_design *design = findings->design;
    const qll_station_figures *figures = &findings->figures[index];
    const qll_shown *shown = &design->shown[index];
    const qll_station *station = &shown->station;
    const qll_assessment *assessment = &shown->assessment;
    qll_json_open_object(json);
    qll_json_put_station_name(json, "name", wording, station);
    put_roles(json, shown->roles);
    put_why_not(json, wording, design, index);
    qll_json_put_cost(json, &shown->cost, wording->currency);
    qll_json_put_breaches(json, &shown->fitness);
    qll_json_put_stages(json, wording, station, assessment, figures);
    if (qll_has_part(findings->demand.left_out, QLL_PART_VERDICTS)) {
        qll_json_put_verdicts(json, wording, station, assessment);
        put_point(json, "worst", wording, station, &assessment->worst);
        put_point(json, "typical", wording, station, &assessment->typical);
    }
    qll_json_put_figure(json, "price", figures->list_price);
    qll_json_put_whole(json, "valve_count", (long long)qll_station_valve_count(station));
    qll_json_close_object(json);
}

static void put_counts(qll_json *json, const qll_search_counts *counts)
{
    qll_json_put_object(json, "search");
    qll_json_put_whole(json, "admitted", (long long)counts->admitted);
    qll_json_put_whole(json, "bounded", (long long)counts->bounded);
    qll_json_put_whole(json, "measured", (long long)counts->measured);
    qll_json_put_object(json, "refused_by");
    for (size_t rule = 0; rule < QLL_PRACTICE_COUNT; rule++) {
        qll_json_put_whole(json, qll_practice_words[rule], (long long)counts->by_practice[rule]);
    }
    qll_json_close_object(json);
    qll_json_close_object(json);
}

static void put_catalogue(qll_json *json, const qll_catalogue *catalogue)
{
    qll_json_put_object(json, "catalogue");
    qll_json_put_text(json, "name", catalogue->name);
    qll_json_put_bool(json, "invented", catalogue->invented);
    qll_json_put_text_or_null(json, "currency", catalogue->currency);
    qll_json_put_whole(json, "valve_count", (long long)catalogue->count);
    qll_json_close_object(json);
}

/* ---- is one needed ---- */

static void put_outlet(qll_json *json, const qll_outlet *outlet, const qll_bare_outlet *bare)
{
    qll_json_open_object(json);
    qll_json_put_text(json, "name", outlet->name);
    qll_json_put_figure(json, "static_pa_gauge", bare->still_pa_gauge);
    qll_json_put_figure(json, "peak_pa_gauge", bare->peak_pa_gauge);
    qll_json_put_figure(json, "in_hand_pa", bare->in_hand_pa_gauge);
    qll_json_close_object(json);
}

/* The building without a valve. */
static void put_need(qll_json *json, const qll_site *site, const qll_need *need)
{
    qll_json_put_object(json, "need");
    qll_json_put_figure(json, "static_pa_gauge", need->lowest_still_pa_gauge);
    qll_json_put_figure(json, "permitted_pa_gauge", site->static_max_pa_gauge);
    qll_json_put_figure(json, "inlet_peak_pa_gauge", need->inlet_peak_pa_gauge);
    qll_json_put_index(json, "lowest_outlet", need->lowest);
    qll_json_put_list(json, "outlets");
    for (size_t i = 0; i < site->outlet_count; i++) {
        put_outlet(json, &site->outlets[i], &need->outlets[i]);
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}

/* ---- what the choice hangs on ---- */

static void put_datum(qll_json *json, const char *key, qll_datum datum, double value)
{
    if (datum != QLL_DATUM_PEOPLE) {
        qll_json_put_figure(json, key, value);
    } else if (value >= 0.0 && value < (double)QLL_PEOPLE_COUNT) {
        qll_json_put_text(json, key, qll_people_words[(size_t)value]);
    } else {
        qll_json_put_null(json, key);
    }
}

static void put_hang(qll_json *json, const qll_wording *wording, const qll_hang *hang)
{
    qll_arena *arena = json->writer->arena;
    qll_writer says = qll_writer_new(arena);
    qll_wording_hang(&says, wording, hang);
    qll_json_open_object(json);
    qll_json_put_text(json, "what", qll_datum_words[hang->datum]);
    put_datum(json, "now", hang->datum, hang->now);
    put_datum(json, "at", hang->datum, hang->at);
    if (hang->is_needed && hang->is_fit && hang->instead.stage_count > 0) {
        qll_json_put_station_name(json, "instead", wording, &hang->instead);
    } else {
        qll_json_put_null(json, "instead");
    }
    qll_json_put_bool(json, "no_valve_needed", !hang->is_needed);
    qll_json_put_written(json, "says", &says);
    qll_json_close_object(json);
}

static void put_hangs(qll_json *json, const qll_wording *wording, const qll_design *design)
{
    qll_json_put_list(json, "hangs_on");
    for (size_t i = 0; i < design->hang_count; i++) {
        put_hang(json, wording, &design->hangs[i]);
    }
    qll_json_close_list(json);
}

static void put_close_call(qll_json *json, const qll_wording *wording, const qll_design *design)
{
    static const char *const words[QLL_CLOSE_COUNT] = {
        [QLL_CLOSE_NOT] = "",
        [QLL_CLOSE_WITHIN] = "within",
        [QLL_CLOSE_VISIT_HALVED] = "visit-halved",
        [QLL_CLOSE_VISIT_DOUBLED] = "visit-doubled",
        [QLL_CLOSE_WEIGHTS_HALVED] = "weights-halved",
        [QLL_CLOSE_WEIGHTS_DOUBLED] = "weights-doubled",
        [QLL_CLOSE_DEMAND_HALVED] = "demand-halved",
        [QLL_CLOSE_DEMAND_DOUBLED] = "demand-doubled",
    };
    const qll_close_call *close = &design->close;
    qll_json_key(json, "close_call");
    qll_writer says = qll_writer_new(json->writer->arena);
    if (!qll_wording_close(&says, wording, design)) {
        qll_json_null(json);
        return;
    }
    qll_json_open_object(json);
    qll_json_put_text(json, "why", words[close->why]);
    qll_json_put_index(json, "other", close->other);
    qll_json_put_figure(json, "dearer_share", close->dearer_share);
    qll_json_put_written(json, "says", &says);
    qll_json_close_object(json);
}

static void put_choice(qll_json *json, const qll_wording *wording, const qll_design *design,
                       unsigned left_out)
{
    qll_json_put_bool(json, "no_valve_needed", !design->need.is_needed);
    qll_json_put_bool(json, "fit_to_install", design->is_fit);
    qll_json_put_index(json, "recommended", design->count > 0 ? 0 : SIZE_MAX);
    qll_writer glance = qll_writer_new(json->writer->arena);
    qll_wording_glance(&glance, wording, design);
    qll_json_put_written(json, "glance", &glance);
    qll_writer reason = qll_writer_new(json->writer->arena);
    qll_wording_reason(&reason, wording, design);
    qll_json_put_written(json, "reason", &reason);
    qll_json_put_index(json, "simpler_than_recommended", design->simpler);
    qll_json_put_bool(json, "stopped", design->stopped);
    qll_json_put_figure(json, "floor", design->is_fit ? design->floor : (double)NAN);
    put_need(json, wording->site, &design->need);
    if (qll_has_part(left_out, QLL_PART_ALTERNATIVES)) {
        put_close_call(json, wording, design);
    }
    if (qll_has_part(left_out, QLL_PART_HANGS_ON)) {
        put_hangs(json, wording, design);
    }
}

/* What the recommended station does over its flows at the middle supply. */
static void put_points(qll_json *json, const qll_wording *wording,
                       const qll_design_findings *findings)
{
    qll_json_put_list(json, "points");
    for (size_t i = 0; i < findings->point_count; i++) {
        qll_json_open_point(json, wording, &findings->design->shown[0].station,
                            &findings->points[i]);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

/* Without alternatives the one recommended and the simpler one that it beat, which stands next. */
static size_t listed_count(const qll_design *design, unsigned left_out)
{
    if (qll_has_part(left_out, QLL_PART_ALTERNATIVES) || design->count == 0) {
        return design->count;
    }
    return design->simpler < design->count ? design->simpler + 1 : 1;
}

void qll_json_put_design(qll_json *json, const qll_design_findings *findings)
{
    const qll_survey *survey = findings->demand.survey;
    const qll_design *design = findings->design;
    const unsigned left_out = findings->demand.left_out;
    const qll_wording wording = {
        .units = survey->units,
        .language = findings->demand.language,
        .site = &survey->site,
        .duty = findings->duty,
        .currency = findings->catalogue->currency,
    };
    put_catalogue(json, findings->catalogue);
    qll_json_put_list(json, "stations");
    for (size_t i = 0; i < listed_count(design, left_out); i++) {
        put_shown(json, &wording, findings, i);
    }
    qll_json_close_list(json);
    put_choice(json, &wording, design, left_out);
    if (qll_has_part(left_out, QLL_PART_POINTS)) {
        put_points(json, &wording, findings);
    }
    qll_json_put_way(json, &wording, &findings->way, left_out);
    qll_json_put_moving(json, &wording, findings->moving);
    put_counts(json, &design->counts);
}

void qll_design_write(qll_json *json, const qll_design_findings *findings)
{
    qll_json_open_object(json);
    qll_json_put_common(json, "design", &findings->demand);
    qll_json_put_scenario_heads(json, &findings->demand, findings->duty);
    qll_json_put_design(json, findings);
    qll_json_put_figures(json, findings->demand.drawn, findings->demand.drawn_count);
    qll_json_close_object(json);
}
