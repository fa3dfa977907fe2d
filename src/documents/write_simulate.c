/* simulate/1: an event in the pipes. */
#include "documents/write_common.h"
#include "findings/simulated.h"

#include <math.h>

static void put_event(qll_json *json, const qll_wording *wording,
                      const qll_simulated_findings *findings)
{
    qll_json_put_object(json, "event");
    qll_json_put_text(json, "event", findings->event_word);
    qll_json_put_said(json, "says", wording, &findings->says);
    qll_json_put_number(json, "static_pa_gauge", findings->static_pa_gauge);
    qll_json_put_figure(json, "within_s", findings->within_s);
    qll_json_put_figure(json, "before_m3s", findings->before_m3s);
    qll_json_put_figure(json, "after_m3s", findings->after_m3s);
    qll_json_put_figure(json, "leak_m3s", findings->leak_m3s);
    qll_json_put_number(json, "ended_s", findings->run->ended_s);
    qll_json_close_object(json);
}

static void put_verdicts(qll_json *json, const qll_wording *wording,
                         const qll_simulated_findings *findings)
{
    qll_json_put_list(json, "verdicts");
    for (size_t i = 0; i < 2; i++) {
        qll_json_put_event_verdict(json, wording, &findings->verdicts[i]);
    }
    qll_json_close_list(json);
}

static void put_places(qll_json *json, const qll_wording *wording,
                       const qll_simulated_findings *findings)
{
    qll_json_put_list(json, "places");
    for (size_t i = 0; i < findings->place_count; i++) {
        const qll_place_found *place = &findings->places[i];
        qll_json_open_object(json);
        qll_json_put_said(json, "name", wording, &place->name);
        qll_json_put_number(json, "elevation_m", findings->run->tree.network.joints[i].elevation_m);
        qll_json_put_number(json, "before_pa_gauge", place->seen->before_pa_gauge);
        qll_json_put_number(json, "after_pa_gauge", place->seen->after_pa_gauge);
        qll_json_put_number(json, "highest_pa_gauge", place->seen->high_pa_gauge);
        qll_json_put_number(json, "highest_s", place->seen->high_s);
        qll_json_put_number(json, "lowest_pa_gauge", place->seen->low_pa_gauge);
        qll_json_put_number(json, "lowest_s", place->seen->low_s);
        qll_json_put_figure(json, "limit_pa_gauge", place->limit_pa_gauge);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_pipes(qll_json *json, const qll_wording *wording,
                      const qll_simulated_findings *findings)
{
    qll_json_put_list(json, "pipes");
    for (size_t i = 0; i < findings->run->tree.network.line_count; i++) {
        const qll_pipe_found *pipe = &findings->pipes[i];
        qll_json_open_object(json);
        qll_json_put_said(json, "name", wording, &pipe->name);
        qll_json_put_index(json, "from", findings->run->tree.network.lines[i].from);
        qll_json_put_index(json, "to", findings->run->tree.network.lines[i].to);
        qll_json_put_number(json, "length_m", findings->run->tree.network.lines[i].length_m);
        qll_json_put_number(json, "wave_speed_m_s", pipe->wave_speed_m_s);
        qll_json_put_number(json, "speed_off", pipe->speed_off);
        qll_json_put_bool(json, "speed_assumed", findings->run->tree.pipes[i].is_speed_assumed);
        qll_json_put_whole(json, "cells", (long long)pipe->cells);
        qll_json_put_figure(json, "right_from_s",
                            pipe->right_from_s > 0 ? pipe->right_from_s : (double)NAN);
        qll_json_put_number(json, "highest_pa_gauge", pipe->high_pa_gauge);
        qll_json_put_number(json, "limit_pa_gauge", pipe->rating_pa_gauge);
        qll_json_put_number(json, "cavity_share", findings->run->lines[i].cavity_share);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_valves(qll_json *json, const qll_simulated_findings *findings)
{
    const bool is_judged = findings->verdicts[1].grade != QLL_GRADE_UNKNOWN;
    qll_json_put_list(json, "valves");
    for (size_t i = 0; i < findings->run->tree.valve_count; i++) {
        const qll_valve_seen *seen = &findings->run->valves[i];
        qll_json_open_object(json);
        qll_json_put_text(json, "name", findings->valve_names[i]);
        qll_json_put_text_or_null(json, "state",
                                  is_judged ? qll_motion_state_words[seen->motion.state] : NULL);
        qll_json_put_bool(json, "felt", is_judged && seen->motion.is_felt);
        qll_json_put_figure(json, "swing_pa",
                            is_judged ? (seen->motion.most_pa - seen->motion.least_pa) / 2
                                      : (double)NAN);
        qll_json_put_figure(json, "frequency_hz",
                            is_judged ? seen->motion.frequency_hz : (double)NAN);
        qll_json_put_whole(json, "blows", (long long)seen->motion.blows);
        qll_json_put_number(json, "blow_m_s", seen->motion.blow_m_s);
        qll_json_put_figure(json, "least_lift", is_judged ? seen->least_share : (double)NAN);
        qll_json_put_figure(json, "most_lift", is_judged ? seen->most_share : (double)NAN);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_cures(qll_json *json, const qll_wording *wording,
                      const qll_simulated_findings *findings)
{
    qll_json_put_list(json, "cures");
    for (size_t i = 0; i < findings->cure_count; i++) {
        const qll_event_cure *cure = &findings->cures[i];
        const bool is_air =
            cure->kind == QLL_EVENT_CURE_ARRESTER || cure->kind == QLL_EVENT_CURE_AIR;
        const bool is_offset = cure->kind == QLL_EVENT_CURE_OFFSET;
        qll_json_open_object(json);
        qll_json_put_text(json, "kind", qll_event_cure_words[cure->kind]);
        qll_json_put_bool(json, "works", cure->works);
        qll_json_put_figure(json, "air_m3", is_air ? cure->size : (double)NAN);
        qll_json_put_figure(json, "precharge_pa_gauge",
                            is_air ? cure->precharge_pa_gauge : (double)NAN);
        qll_json_put_figure(json, "within_s",
                            cure->kind == QLL_EVENT_CURE_SLOWER ? cure->size : (double)NAN);
        qll_json_put_figure(json, "offset_pa", is_offset ? cure->size : (double)NAN);
        qll_json_put_figure(json, "set_pressure_pa_gauge",
                            is_offset ? cure->set_pa_gauge : (double)NAN);
        qll_json_put_figure(json, "damping_times",
                            cure->kind == QLL_EVENT_CURE_DAMPING ? cure->size : (double)NAN);
        const bool is_peak = cure->kind <= QLL_EVENT_CURE_SLOWER;
        qll_json_put_figure(json, "peak_pa_gauge", is_peak ? cure->figure_pa : (double)NAN);
        qll_json_put_figure(json, "swing_pa", is_peak ? (double)NAN : cure->figure_pa);
        qll_json_put_said(json, "says", wording, &findings->cure_says[i]);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_traces(qll_json *json, const qll_simulated_findings *findings)
{
    const qll_run_traces *traces = &findings->run->traces;
    static const char *const keys[QLL_TRACES] = {"followed_pa_gauge", "outlet_pa_gauge",
                                                 "inlet_pa_gauge"};
    qll_json_put_object(json, "traces");
    qll_json_put_values(json, "time_s", traces->time_s, traces->count);
    for (size_t i = 0; i < QLL_TRACES; i++) {
        qll_json_put_values(json, keys[i], traces->pa_gauge[i], traces->count);
    }
    qll_json_put_list(json, "lifts");
    for (size_t i = 0; i < findings->run->tree.valve_count; i++) {
        qll_json_open_object(json);
        qll_json_put_text(json, "valve", findings->valve_names[i]);
        qll_json_put_values(json, "lift", traces->lift_share[i], traces->count);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
    const qll_run_envelope *along = &findings->run->envelope;
    qll_json_put_object(json, "envelope");
    qll_json_put_number(json, "station_m", along->station_m);
    qll_json_put_values(json, "at_m", along->at_m, along->count);
    qll_json_put_values(json, "before_pa_gauge", along->before_pa_gauge, along->count);
    qll_json_put_values(json, "highest_pa_gauge", along->high_pa_gauge, along->count);
    qll_json_put_values(json, "lowest_pa_gauge", along->low_pa_gauge, along->count);
    qll_json_close_object(json);
}

static void put_figures(qll_json *json, const qll_wording *wording,
                        const qll_simulated_findings *findings)
{
    const qll_run_found *run = findings->run;
    qll_json_put_number(json, "cavity_share", findings->hammer.cavity_share);
    qll_json_put_number(json, "force_n", findings->hammer.force_n);
    qll_json_put_object(json, "steps");
    qll_json_put_number(json, "step_s", run->grid.step_s);
    qll_json_put_whole(json, "waves", (long long)run->wave_steps);
    qll_json_put_whole(json, "quiet", (long long)run->quiet_steps);
    qll_json_put_number(json, "search_off_pa", run->worst_pa);
    qll_json_put_number(json, "drawn_m3", run->drawn_m3);
    qll_json_put_figure(json, "water_off_m3", run->water_off_m3);
    qll_json_close_object(json);
    qll_json_put_list(json, "notes");
    for (size_t i = 0; i < findings->note_count; i++) {
        qll_json_put_said(json, NULL, wording, &findings->notes[i]);
    }
    qll_json_close_list(json);
}

void qll_simulated_write(qll_json *json, const qll_simulated_findings *findings)
{
    const qll_survey *survey = findings->demand.survey;
    const qll_wording wording = {
        .units = survey->units, .language = findings->demand.language, .site = &survey->site};
    qll_json_open_object(json);
    qll_json_put_common(json, "simulate", &findings->demand);
    put_event(json, &wording, findings);
    put_verdicts(json, &wording, findings);
    put_cures(json, &wording, findings);
    put_valves(json, findings);
    put_places(json, &wording, findings);
    put_pipes(json, &wording, findings);
    put_figures(json, &wording, findings);
    put_traces(json, findings);
    qll_json_close_object(json);
}
