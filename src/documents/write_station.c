/* A station and its operating points as members of an answer. */
#include "base/count.h"
#include "documents/write_common.h"

#include <math.h>

void qll_json_put_level_note(qll_json *json, const qll_wording *wording, qll_text_id note)
{
    qll_json_put_said(json, "level_note", wording, &(const qll_said){.id = note});
}

/* Why there is no level, or how much the one there is hangs on. */
static qll_text_id level_note(const qll_branch *branch, const qll_branch_level *level)
{
    if (level->limit != QLL_NOISE_WITHIN) {
        return qll_noise_limit_texts[level->limit];
    }
    if (isnan(level->level_dba)) {
        return QLL_TEXT_NONE;
    }
    return isnan(branch->valve->xfz) ? QLL_TEXT_LEVEL_ESTIMATED : QLL_TEXT_LEVEL_FROM_SHEET;
}

static void put_level(qll_json *json, const qll_branch_level *level)
{
    qll_json_put_figure(json, "level_dba", level->level_dba);
    qll_json_put_figure(json, "level_low_dba", level->low_dba);
    qll_json_put_figure(json, "level_high_dba", level->high_dba);
}

/* A valve whose stage cannot pass the flow: nothing is known of it, and nothing is quiet. */
static void put_beyond(qll_json *json, const qll_wording *wording, const qll_branch *branch)
{
    static const char *const unknown[] = {
        "flow_m3s",    "opening",         "kv_m3h",    "velocity_m_s",  "stable",
        "full_travel", "stable_flow_m3s", "level_dba", "level_low_dba", "level_high_dba"};
    qll_json_open_object(json);
    qll_json_put_text(json, "valve", branch->valve->id);
    for (size_t i = 0; i < QLL_COUNT(unknown); i++) {
        qll_json_put_null(json, unknown[i]);
    }
    qll_json_put_level_note(json, wording, QLL_TEXT_LEVEL_BEYOND);
    qll_json_close_object(json);
}

static void put_branch_state(qll_json *json, const qll_wording *wording, const qll_branch *branch,
                             const qll_branch_state *state, const qll_branch_level *level)
{
    qll_json_open_object(json);
    qll_json_put_text(json, "valve", branch->valve->id);
    qll_json_put_figure(json, "flow_m3s", state->flow_m3s);
    qll_json_put_figure(json, "opening", state->opening);
    qll_json_put_figure(json, "kv_m3h", state->kv_m3h);
    qll_json_put_figure(json, "velocity_m_s", state->velocity_m_s);
    qll_json_put_bool(json, "stable", state->stable);
    qll_json_put_bool(json, "full_travel", state->full_travel);
    qll_json_put_figure(json, "stable_flow_m3s", state->stable_flow_m3s);
    if (state->working) {
        qll_json_put_figure(json, "cavitation_margin", state->cavitation.margin);
    }
    put_level(json, level);
    qll_json_put_level_note(json, wording, level_note(branch, level));
    qll_json_close_object(json);
}

static void put_stage_point(qll_json *json, const qll_wording *wording, const qll_stage *stage,
                            const qll_operating_point *point, size_t s)
{
    double p1 = point->stage_inlet_pa[s];
    double p2 = point->stage_outlet_pa[s];
    double atmosphere = wording->site->barometric_pa;
    const qll_stage_state *state = &point->stages[s];
    qll_json_open_object(json);
    qll_json_put_gauge(json, "inlet_pa_gauge", p1, atmosphere);
    qll_json_put_gauge(json, "outlet_pa_gauge", p2, atmosphere);
    qll_json_put_figure(json, "ratio_gauge", state->ratio_gauge);
    qll_json_put_figure(json, "xf", state->xf);
    qll_json_put_figure(json, "sigma", state->sigma);
    qll_json_put_text_or_null(json, "regime",
                              isfinite(p2) ? qll_regime_words[state->regime] : NULL);
    qll_json_put_list(json, "branches");
    for (size_t b = 0; b < stage->branch_count; b++) {
        if (isfinite(p2)) {
            put_branch_state(json, wording, &stage->branches[b], &point->branches[s][b],
                             &point->levels[s][b]);
        } else {
            put_beyond(json, wording, &stage->branches[b]);
        }
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}

void qll_json_open_point(qll_json *json, const qll_wording *wording, const qll_station *station,
                         const qll_operating_point *point)
{
    const double atmosphere = wording->site->barometric_pa;
    qll_json_open_object(json);
    qll_json_put_number(json, "flow_m3s", point->flow_m3s);
    qll_json_put_gauge(json, "inlet_pa_gauge", point->inlet_pa, atmosphere);
    qll_json_put_gauge(json, "outlet_pa_gauge", point->outlet_pa, atmosphere);
    qll_json_put_bool(json, "passes", point->passes);
    put_level(json, &point->level);
    qll_json_put_list(json, "stages");
    for (size_t s = 0; s < station->stage_count; s++) {
        put_stage_point(json, wording, &station->stages[s], point, s);
    }
    qll_json_close_list(json);
}

/* What keeps grit off the seat: the screen in the valve's body, or a strainer of its own. */
static void put_strainer(qll_json *json, const qll_branch *branch, const qll_strainer *strainer)
{
    qll_json_put_object(json, "strainer");
    qll_json_put_text(json, "place",
                      strainer->in_body ? "in the valve body" : "ahead of the valve");
    if (strainer->mesh > 0) {
        qll_json_put_whole(json, "mesh", strainer->mesh);
    } else {
        qll_json_put_null(json, "mesh");
    }
    qll_json_put_figure(json, "nominal_mm", strainer->nominal_m * 1000.0);
    qll_json_put_figure(json, "kv_m3h", branch->valve->strainer_kv_m3h);
    qll_json_put_bool(json, "loss_counted", isfinite(branch->valve->strainer_kv_m3h));
    qll_json_put_figure(json, "at_flow_m3s", strainer->at_flow_m3s);
    qll_json_put_figure(json, "clean_pa", strainer->clean_pa);
    qll_json_put_figure(json, "half_blocked_pa", strainer->half_blocked_pa);
    qll_json_put_figure(json, "clean_me_pa", strainer->clean_me_pa);
    qll_json_close_object(json);
}

static void put_setting(qll_json *json, const qll_setting *setting)
{
    qll_json_put_object(json, "setting");
    qll_json_put_figure(json, "flow_m3s", setting->flow_m3s);
    qll_json_put_figure(json, "inlet_pa_gauge", setting->inlet_pa_gauge);
    qll_json_put_figure(json, "reading_pa_gauge", setting->reading_pa_gauge);
    qll_json_put_figure(json, "correction_pa_per_10psi", setting->correction_pa_per_10psi);
    qll_json_put_figure(json, "lockup_pa_gauge", setting->lockup_pa_gauge);
    qll_json_close_object(json);
}

/* @p strainer NULL: by its valve alone. */
static void put_branch(qll_json *json, const qll_branch *branch, const qll_setting *setting,
                       const qll_strainer *strainer)
{
    qll_json_open_object(json);
    qll_json_put_text(json, "valve", branch->valve->id);
    qll_json_put_number(json, "nominal_mm", branch->valve->nominal_m * 1000.0);
    qll_json_put_number(json, "set_pressure_pa_gauge", branch->set_pa_gauge);
    if (strainer != NULL) {
        put_setting(json, setting);
        put_strainer(json, branch, strainer);
    }
    qll_json_put_text(json, "acting", qll_acting_words[branch->valve->acting]);
    if (strainer != NULL) {
        qll_json_put_figure(json, "pipe_bore_mm", branch->pipe_bore_m * 1000.0);
        qll_json_put_figure(json, "reducer_kv_m3h",
                            branch->reducer_kv_m3h > 0.0 ? branch->reducer_kv_m3h : (double)NAN);
        qll_json_put_figure(json, "price", branch->valve->price);
    }
    qll_json_close_object(json);
}

static void put_handover(qll_json *json, const qll_site *site, const qll_handover *handover)
{
    qll_json_put_object(json, "handover");
    qll_json_put_figure(json, "flow_m3s", handover->flow_m3s);
    qll_json_put_gauge(json, "outlet_pa_gauge", handover->outlet_pa, site->barometric_pa);
    qll_json_close_object(json);
}

/* What else would do where a tank has too little room. */
static void put_tank_cures(qll_json *json, const qll_tank_cures *cures)
{
    qll_json_put_list(json, "lower_settings");
    for (size_t i = 0; i < QLL_TANK_STEPS; i++) {
        qll_json_open_object(json);
        qll_json_put_number(json, "lower_by_pa", cures->lower_by_pa[i]);
        qll_json_put_figure(json, "tank_m3", cures->lower_m3[i]);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
    qll_json_put_figure(json, "tank_by_relief_m3", cures->by_relief_m3);
}

static void put_expansion(qll_json *json, const qll_closed_system *closed,
                          const qll_station_figures *figures)
{
    qll_json_key(json, "expansion");
    if (!closed->has_heater) {
        qll_json_null(json);
        return;
    }
    qll_json_open_object(json);
    qll_json_put_figure(json, "expanded_m3", closed->expanded_m3);
    qll_json_put_figure(json, "rise_pa_per_k", closed->rise_pa_per_k);
    qll_json_put_figure(json, "rise_pa", closed->rise_pa);
    qll_json_put_figure(json, "warming_to_relief_k", closed->kelvin_to_relief);
    qll_json_put_figure(json, "rest_pa_gauge", closed->rest_pa_gauge);
    qll_json_put_figure(json, "limit_pa_gauge", closed->limit_pa_gauge);
    qll_json_put_figure(json, "tank_m3", closed->tank_m3);
    qll_json_put_figure(json, "tank_sold_m3", figures->tank_sold_m3);
    qll_json_put_figure(json, "precharge_pa_gauge", closed->precharge_pa_gauge);
    qll_json_put_figure(json, "tank_at_own_precharge_m3", closed->tank_at_own_m3);
    put_tank_cures(json, &closed->cures);
    qll_json_put_figure(json, "relief_least_pa_gauge", figures->relief_least_pa_gauge);
    qll_json_put_figure(json, "relief_clear_pa_gauge", figures->relief_clear_pa_gauge);
    qll_json_close_object(json);
}

/* @p assessment NULL: by its valves alone. */
static void put_stages(qll_json *json, const qll_site *site, const qll_station *station,
                       const qll_assessment *assessment, const qll_station_figures *figures)
{
    qll_json_put_list(json, "stages");
    for (size_t s = 0; s < station->stage_count; s++) {
        const qll_stage *stage = &station->stages[s];
        qll_json_open_object(json);
        qll_json_put_figure(json, "set_at_inlet_pa_gauge", stage->set_inlet_pa_gauge);
        qll_json_put_list(json, "branches");
        for (size_t b = 0; b < stage->branch_count; b++) {
            put_branch(json, &stage->branches[b],
                       assessment == NULL ? NULL : &figures->settings[s][b],
                       assessment == NULL ? NULL : &assessment->strainers[s][b]);
        }
        qll_json_close_list(json);
        if (stage->branch_count > 1 && assessment != NULL && assessment->handovers != NULL) {
            put_handover(json, site, &assessment->handovers[s]);
        }
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

void qll_json_put_station_name(qll_json *json, const char *key, const qll_wording *wording,
                               const qll_station *station)
{
    qll_writer name = qll_writer_new(json->writer->arena);
    qll_wording_station(&name, wording, station);
    qll_json_put_written(json, key, &name);
}

void qll_json_put_layout(qll_json *json, const qll_station *station)
{
    put_stages(json, NULL, station, NULL, NULL);
}

void qll_json_put_stages(qll_json *json, const qll_wording *wording, const qll_station *station,
                         const qll_assessment *assessment, const qll_station_figures *figures)
{
    put_stages(json, wording->site, station, assessment, figures);
    qll_json_put_figure(json, "lockup_pa_gauge", assessment->lockup_pa_gauge);
    qll_json_put_figure(json, "lockup_low_pa_gauge", assessment->lockup_low_pa_gauge);
    put_expansion(json, &assessment->closed, figures);
}
