/* What a meter's log says, by the hour and in all; and scenarios side by side. */
#include "documents/write_common.h"

#include <math.h>

static void put_mended(qll_json *json, const qll_flow_log_result *log)
{
    qll_json_put_object(json, "mended");
    for (size_t kind = 0; kind < QLL_LOG_MEND_COUNT; kind++) {
        if (log->mends[kind].count > 0) {
            qll_json_put_whole(json, qll_log_mend_word((qll_log_mend_kind)kind),
                               log->mends[kind].count);
        }
    }
    qll_json_close_object(json);
}

static void put_notes(qll_json *json, const qll_wording *wording, const qll_flow_log_result *log)
{
    qll_json_put_list(json, "notes");
    for (size_t i = 0; i < QLL_LOG_NOTE_COUNT; i++) {
        const qll_log_note_kind kind = (qll_log_note_kind)i;
        if (log->notes[i].holds) {
            qll_writer says = qll_writer_new(json->writer->arena);
            qll_wording_log_note(&says, wording, kind, &log->notes[i]);
            qll_json_open_object(json);
            qll_json_put_text(json, "note", qll_log_note_word(kind));
            qll_json_put_written(json, "says", &says);
            qll_json_close_object(json);
        }
    }
    qll_json_close_list(json);
}

static void put_peaks(qll_json *json, const qll_flow_log_result *log)
{
    qll_json_put_list(json, "peaks");
    for (size_t i = 0; i < QLL_LOG_PEAKS; i++) {
        const qll_log_peak *peak = &log->peaks[i];
        qll_json_open_object(json);
        qll_json_put_whole(json, "averaging_s", peak->window_s);
        qll_json_put_figure(json, "block_flow_m3s", peak->block_m3s);
        qll_json_put_figure(json, "rolling_flow_m3s", peak->rolling_m3s);
        qll_json_put_figure(json, "zero_share", peak->zero_share);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_hidden(qll_json *json, const qll_resolved *resolved)
{
    qll_json_put_object(json, "hidden");
    qll_json_put_number(json, "factor", resolved->factor);
    qll_json_put_number(json, "people", resolved->people);
    qll_json_put_number(json, "steady_flow_m3s", resolved->steady_m3s);
    qll_json_put_whole(json, "days", (long long)resolved->days);
    qll_json_close_object(json);
}

void qll_json_put_log(qll_json *json, const qll_wording *wording, const qll_demand *demand,
                      const qll_flow_log_result *log)
{
    qll_json_key(json, "log");
    if (log == NULL) {
        qll_json_null(json);
        return;
    }
    const char *name = demand->scenario->metered->name;
    qll_writer says = qll_writer_new(json->writer->arena);
    qll_wording_log(&says, wording, name, log);
    qll_json_open_object(json);
    qll_json_put_text(json, "name", name);
    qll_json_put_text(json, "kind", qll_log_kind_word(log->kind));
    qll_json_put_text(json, "column", log->value_column);
    qll_json_put_text(json, "unit", log->unit);
    qll_json_put_whole(json, "rows", log->row_count);
    qll_json_put_figure(json, "interval_s", log->interval_s);
    qll_json_put_figure(json, "first_unix_s", log->first_unix_s);
    qll_json_put_figure(json, "last_unix_s", log->last_unix_s);
    qll_json_put_number(json, "covered_s", log->covered_s);
    qll_json_put_number(json, "unknown_s", log->unknown_s);
    qll_json_put_number(json, "volume_m3", log->volume_m3);
    qll_json_put_number(json, "unplaced_m3", log->unplaced_m3);
    qll_json_put_bool(json, "hides_peaks", log->hides_peaks);
    qll_json_put_bool(json, "never_zero", log->never_zero);
    qll_json_put_figure(json, "night_least_flow_m3s", log->night_least_m3s);
    qll_json_put_figure(json, "step_flow_m3s", log->step_m3s);
    qll_json_put_figure(json, "damping_s", log->damping_s);
    put_mended(json, log);
    put_notes(json, wording, log);
    put_peaks(json, log);
    put_hidden(json, &demand->resolved);
    qll_json_put_written(json, "says", &says);
    qll_json_close_object(json);
}

void qll_json_put_hours(qll_json *json, const qll_demand *demand)
{
    const qll_metered *log = demand->scenario->metered;
    const bool is_weekday = demand->scenario->day == QLL_DAY_WEEKDAY;
    qll_json_put_list(json, "hours");
    for (size_t h = 0; h < 24; h++) {
        const double mean_m3s = demand->day.hours[h].flow_mean_m3s;
        const double unknown = (double)NAN;
        qll_metered_hour hour = {.mean_m3s = mean_m3s,
                                 .weekday_m3s = is_weekday ? mean_m3s : unknown,
                                 .weekend_m3s = is_weekday ? unknown : mean_m3s};
        hour = log == NULL ? hour : log->hours[h];
        qll_json_open_object(json);
        qll_json_put_whole(json, "hour", (long long)h);
        qll_json_put_figure(json, "mean_flow_m3s", hour.mean_m3s);
        qll_json_put_figure(json, "weekday_flow_m3s", hour.weekday_m3s);
        qll_json_put_figure(json, "weekend_flow_m3s", hour.weekend_m3s);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

void qll_json_put_comparison(qll_json *json, const qll_wording *wording,
                             const qll_demand_findings *findings)
{
    const size_t count = findings->survey->scenario_count;
    const qll_demand *first = &findings->demands[0];
    const double low_m3s = findings->low_flow_m3s;
    qll_json_put_list(json, "comparison");
    for (size_t i = 1; i < count; i++) {
        const qll_demand *other = &findings->demands[i];
        const qll_demand_change *change = &findings->figures[i].change;
        qll_arena *arena = json->writer->arena;
        qll_writer says = qll_writer_new(arena);
        qll_wording_change(&says, wording, qll_wording_scenario(arena, wording, first->scenario),
                           qll_wording_scenario(arena, wording, other->scenario), change, low_m3s);
        qll_json_open_object(json);
        qll_json_put_text(json, "from", first->scenario->name);
        qll_json_put_text(json, "to", other->scenario->name);
        qll_json_put_figure(json, "peak_ratio", change->peak_ratio);
        qll_json_put_figure(json, "mean_ratio", change->mean_ratio);
        qll_json_put_figure(json, "quantile_ratio", change->quantile_ratio);
        qll_json_put_number(json, "idle_share_from", change->before.idle_share);
        qll_json_put_number(json, "idle_share_to", change->after.idle_share);
        qll_json_put_figure(json, "no_fixture_open_share_from", first->no_fixture_open_share);
        qll_json_put_figure(json, "no_fixture_open_share_to", other->no_fixture_open_share);
        qll_json_put_number(json, "low_flow_m3s", low_m3s);
        qll_json_put_number(json, "low_share_from", change->before.below_share);
        qll_json_put_number(json, "low_share_to", change->after.below_share);
        qll_json_put_written(json, "says", &says);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}
