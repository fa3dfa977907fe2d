#include "documents/write_common.h"
#include "wording/says_pressure.h"

#include <math.h>
#include <string.h>

/* The unit of a finding's value. */
static const char *const units[QLL_PRESSURE_WORD_COUNT] = {
    [QLL_PRESSURE_WORD_CREEP] = "Pa/s",         [QLL_PRESSURE_WORD_THERMAL_EXPANSION] = "Pa",
    [QLL_PRESSURE_WORD_LOCK_UP] = "Pa",         [QLL_PRESSURE_WORD_FALL_OFF] = "Pa",
    [QLL_PRESSURE_WORD_INLET_EFFECT] = "1",     [QLL_PRESSURE_WORD_SUPPLY_SWING] = "Pa",
    [QLL_PRESSURE_WORD_SET_POINT_DRIFT] = "Pa", [QLL_PRESSURE_WORD_HUNTING] = "Pa",
    [QLL_PRESSURE_WORD_CHATTER] = "Pa",         [QLL_PRESSURE_WORD_HAMMER] = "Pa",
    [QLL_PRESSURE_WORD_STRAINER] = "Pa",        [QLL_PRESSURE_WORD_AIR] = "1/s",
    [QLL_PRESSURE_WORD_LOGGER_FAULT] = "1",     [QLL_PRESSURE_WORD_FALL_OFF_DRIFT] = "Pa",
};

/* ISO 8601: a moment of the clock with its offset where that is known, or a time since the log began. */
static void put_moment(qll_json *json, const char *key, const qll_log_moment *moment)
{
    qll_writer text = qll_writer_new(json->writer->arena);
    if (moment->is_elapsed) {
        qll_write_format(&text, "PT%.3fS", moment->elapsed_s);
    } else {
        qll_write_format(&text, "%04d-%02d-%02dT%02d:%02d:", moment->year, moment->month,
                         moment->day, moment->hour, moment->minute);
        const bool is_whole = moment->second == floor(moment->second);
        qll_write_format(&text, is_whole ? "%s%.0f" : "%s%.3f", moment->second < 9.9995 ? "0" : "",
                         moment->second);
        const int minutes = moment->offset_minutes;
        const int size = minutes < 0 ? -minutes : minutes;
        if (moment->has_offset && minutes == 0) {
            qll_write(&text, "Z");
        } else if (moment->has_offset) {
            qll_write_format(&text, "%c%02d:%02d", minutes < 0 ? '-' : '+', size / 60, size % 60);
        }
    }
    qll_json_put_text(json, key, qll_writer_text(&text).bytes);
}

static void put_stretch_of(qll_json *json, const qll_log_stretch *stretch)
{
    put_moment(json, "from", &stretch->from);
    put_moment(json, "to", &stretch->to);
}

static void put_values(qll_json *json, const char *key, const double *values, size_t count)
{
    bool any = false;
    for (size_t i = 0; i < count; i++) {
        any = any || isfinite(values[i]);
    }
    if (!any) {
        qll_json_put_null(json, key);
        return;
    }
    qll_json_put_values(json, key, values, count);
}

/* The readings that it rests on, thinned: even steps from the first to the last. */
static void put_evidence(qll_json *json, const char *key, const qll_pressure_stretch *stretch)
{
    if (stretch == NULL || stretch->count == 0) {
        qll_json_put_null(json, key);
        return;
    }
    qll_json_put_object(json, key);
    qll_json_put_number(json, "step_s",
                        (stretch->to_unix_s - stretch->from_unix_s) / (double)stretch->count);
    qll_json_put_number(json, "from_unix_s", stretch->from_unix_s);
    put_values(json, "inlet_pa_gauge", stretch->inlet_pa, stretch->count);
    put_values(json, "outlet_pa_gauge", stretch->outlet_pa, stretch->count);
    put_values(json, "flow_m3s", stretch->flow_m3s, stretch->count);
    qll_json_close_object(json);
}

static void put_finding(qll_json *json, const qll_wording *wording,
                        const qll_pressure_findings *findings, size_t i)
{
    const qll_pressure_finding *of = &findings->result->findings[i];
    qll_json_open_object(json);
    qll_json_put_text(json, "finding", qll_pressure_words[of->word]);
    put_stretch_of(json, &findings->at[i]);
    qll_json_put_number(json, "strength", of->strength);
    qll_json_put_figure(json, "value", of->value);
    qll_json_put_text(json, "unit", units[of->word]);
    qll_writer says = qll_writer_new(json->writer->arena);
    qll_wording_pressure(&says, wording, of);
    qll_json_put_written(json, "says", &says);
    qll_json_put_text_or_null(
        json, "fault",
        of->fault == QLL_LOGGER_FAULT_COUNT ? NULL : qll_logger_fault_words[of->fault]);
    qll_json_put_text_or_null(
        json, "channel", of->channel == QLL_CHANNEL_COUNT ? NULL : qll_channel_words[of->channel]);
    qll_json_put_figure(json, "flow_m3s", of->flow_m3s);
    qll_json_put_figure(json, "frequency_hz", of->frequency_hz);
    qll_json_put_figure(json, "per_hour", of->per_hour);
    qll_json_put_figure(json, "count", of->count);
    qll_json_put_figure(json, "rise_s", of->rise_s);
    qll_json_put_figure(json, "share", of->share);
    qll_json_put_figure(json, "level_pa_gauge", of->level_pa_gauge);
    qll_json_put_figure(json, "expected", of->expected);
    qll_json_put_figure(json, "ratio", of->ratio);
    put_evidence(json, "evidence", of->stretch);
    qll_json_close_object(json);
}

static void put_channels(qll_json *json, const qll_pressure_result *result)
{
    qll_json_put_list(json, "channels");
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        if (result->has[c]) {
            qll_json_open_object(json);
            qll_json_put_text(json, "channel", qll_channel_words[c]);
            qll_json_put_text(json, "column", result->log.channel_columns[c]);
            qll_json_put_text(json, "unit", result->log.channel_units[c]);
            qll_json_close_object(json);
        }
    }
    qll_json_close_list(json);
}

static void put_unjudged(qll_json *json, const qll_wording *wording,
                         const qll_pressure_result *result)
{
    qll_json_put_list(json, "unjudged");
    for (size_t w = 0; w < QLL_PRESSURE_WORD_COUNT; w++) {
        const qll_unjudged *of = &result->unjudged[w];
        if (!of->holds) {
            continue;
        }
        qll_json_open_object(json);
        qll_json_put_text(json, "finding", qll_pressure_words[w]);
        qll_json_put_text(json, "why", qll_unjudged_words[of->why]);
        qll_json_put_text_or_null(
            json, "channel",
            of->channel == QLL_CHANNEL_COUNT ? NULL : qll_channel_words[of->channel]);
        qll_json_put_figure(json, "rate_hz",
                            of->why == QLL_UNJUDGED_RATE ? of->needs : (double)NAN);
        qll_json_put_figure(json, "time_s", of->why == QLL_UNJUDGED_TIME ? of->needs : (double)NAN);
        qll_json_put_figure(json, "step_pa",
                            of->why == QLL_UNJUDGED_STEP ? of->needs : (double)NAN);
        qll_writer says = qll_writer_new(json->writer->arena);
        qll_wording_unjudged(&says, wording, (qll_pressure_word)w, of, result->log.interval_s,
                             result->features.outlet_step_pa);
        qll_json_put_written(json, "says", &says);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_features(qll_json *json, const qll_pressure_features *f)
{
    const struct {
        const char *key;
        double value;
    } members[] = {
        {"inlet_p05_pa_gauge", f->inlet_p05_pa_gauge},
        {"inlet_median_pa_gauge", f->inlet_median_pa_gauge},
        {"inlet_p95_pa_gauge", f->inlet_p95_pa_gauge},
        {"outlet_p05_pa_gauge", f->outlet_p05_pa_gauge},
        {"outlet_median_pa_gauge", f->outlet_median_pa_gauge},
        {"outlet_p95_pa_gauge", f->outlet_p95_pa_gauge},
        {"outlet_noise_pa", f->outlet_noise_pa},
        {"outlet_step_pa", f->outlet_step_pa},
        {"window_count", f->window_count},
        {"window_s", f->window_s},
        {"long_window_count", f->late_count},
        {"early_rise_share", f->early_share},
        {"late_rise_share", f->late_share},
        {"lock_up_pa_gauge", f->lock_up_pa_gauge},
        {"set_point_pa_gauge", f->set_point_pa_gauge},
        {"survey_set_point_pa_gauge", f->should_set_pa_gauge},
        {"survey_lock_up_pa_gauge", f->should_lock_up_pa_gauge},
        {"inlet_effect", f->inlet_effect},
        {"run_count", f->run_count},
        {"fall_off_pa_per_m3s", f->fall_off_slope},
        {"fall_off_pa", f->fall_off_pa},
        {"high_flow_m3s", f->high_flow_m3s},
        {"fall_off_moved_pa", f->fall_off_moved_pa},
        {"fall_off_span_count", f->fall_off_span_count},
        {"night_count", f->night_count},
        {"cycles_per_day", f->cycles_per_day},
    };

    qll_json_put_object(json, "features");
    for (size_t i = 0; i < sizeof members / sizeof *members; i++) {
        qll_json_put_figure(json, members[i].key, members[i].value);
    }
    qll_json_close_object(json);
}

static void put_mends(qll_json *json, const qll_wording *wording, const qll_flow_log_result *log)
{
    qll_json_put_list(json, "mended");
    for (size_t k = 0; k < QLL_LOG_MEND_COUNT; k++) {
        const qll_log_mend *mend = &log->mends[k];
        if (mend->count == 0) {
            continue;
        }
        qll_json_open_object(json);
        qll_json_put_text(json, "kind", qll_log_mend_word((qll_log_mend_kind)k));
        qll_json_put_whole(json, "count", mend->count);
        qll_json_put_figure(json, "first_line",
                            mend->first_line > 0 ? (double)mend->first_line : (double)NAN);
        qll_json_put_figure(json, "first_unix_s", mend->first_unix_s);
        qll_json_put_text(json, "says", qll_say_mend(wording->language, (qll_log_mend_kind)k));
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

void qll_pressure_write(qll_json *json, const qll_pressure_findings *findings)
{
    const qll_pressure_result *result = findings->result;
    const qll_wording wording = {.units = findings->units, .language = findings->language};
    qll_json_open_object(json);
    qll_json_put_head(json, "log", &wording, findings->problems);
    qll_json_put_parents(json, &wording, findings->assumed, NULL, 0);
    qll_json_put_text_or_null(json, "survey", findings->survey);
    qll_json_put_whole(json, "row_count", result->log.row_count);
    qll_json_put_number(json, "interval_s", result->log.interval_s);
    const qll_log_note *notes = result->log.notes;
    qll_json_put_text_or_null(
        json, "row_order",
        notes[QLL_LOG_NOTE_NEWEST_FIRST].holds ? qll_log_note_word(QLL_LOG_NOTE_NEWEST_FIRST)
        : notes[QLL_LOG_NOTE_JOINED].holds     ? qll_log_note_word(QLL_LOG_NOTE_JOINED)
                                               : NULL);
    put_stretch_of(json, &findings->whole);
    put_channels(json, result);
    qll_json_put_list(json, "findings");
    for (size_t i = 0; i < result->finding_count; i++) {
        put_finding(json, &wording, findings, i);
    }
    qll_json_close_list(json);
    put_unjudged(json, &wording, result);
    put_features(json, &result->features);
    qll_json_put_list(json, "gaps");
    for (size_t i = 0; i < result->gap_count; i++) {
        qll_json_open_object(json);
        put_stretch_of(json, &findings->gaps[i]);
        qll_json_put_number(json, "length_s",
                            result->gaps[i].to_unix_s - result->gaps[i].from_unix_s);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
    qll_json_put_whole(json, "gap_count", result->gap_total);
    qll_json_put_number(json, "gap_s", result->gap_s);
    put_mends(json, &wording, &result->log);
    put_evidence(json, "overview", &result->overview);
    qll_json_put_sheets(json, &findings->page);
    qll_json_close_object(json);
}
