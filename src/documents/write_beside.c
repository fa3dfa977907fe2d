/* The member "beside" of listen/1: a log of the same minutes. */
#include "documents/write_common.h"

static void put_together(qll_json *json, const qll_wording *wording, qll_beside_kind kind,
                         const qll_together *together)
{
    qll_json_open_object(json);
    qll_json_put_text(json, "what", qll_beside_word(kind));
    qll_json_put_bool(json, "judged", together->is_judged);
    qll_json_put_bool(json, "coincides", together->coincides);
    qll_json_put_figure(json, "chance", together->chance);
    qll_json_put_figure(json, "lag_s", together->lag_s);
    if (kind == QLL_BESIDE_BANGS) {
        qll_json_put_number(json, "heard", (double)together->heard);
        qll_json_put_number(json, "logged", (double)together->logged);
        qll_json_put_number(json, "paired", (double)together->paired);
        qll_json_put_figure(json, "per_hour", together->per_hour);
    } else if (kind == QLL_BESIDE_RATIO) {
        qll_json_put_figure(json, "correlation", together->correlation);
    } else {
        qll_json_put_figure(json, "heard_hz", together->heard_hz);
        qll_json_put_figure(json, "logged_hz", together->logged_hz);
    }
    qll_writer says = qll_writer_new(json->writer->arena);
    qll_wording_together(&says, wording, kind, together);
    qll_json_put_written(json, "says", &says);
    qll_json_close_object(json);
}

static void put_column(qll_json *json, const char *key, const double *values, size_t count)
{
    if (values != NULL) {
        qll_json_put_values(json, key, values, count);
    }
}

static void put_series(qll_json *json, const qll_beside_result *result)
{
    const size_t count = result->column_count;
    qll_json_put_object(json, "series");
    put_column(json, "time_s", result->time_s, count);
    put_column(json, "level_db", result->level_db, count);
    put_column(json, "high_level_db", result->high_db, count);
    put_column(json, "inlet_pa_gauge", result->pa[QLL_CHANNEL_INLET], count);
    put_column(json, "outlet_pa_gauge", result->pa[QLL_CHANNEL_OUTLET], count);
    put_column(json, "flow_m3s", result->pa[QLL_CHANNEL_FLOW], count);
    qll_json_close_object(json);
}

void qll_beside_write(qll_json *json, const qll_wording *wording, const qll_beside_findings *beside)
{
    static const char *const began[QLL_BEGAN_COUNT] = {
#define QLL_BEGAN_WORD(name, word) [QLL_BEGAN_##name] = (word),
        QLL_BEGAN_LIST(QLL_BEGAN_WORD)
#undef QLL_BEGAN_WORD
    };
    if (beside == NULL) {
        qll_json_put_null(json, "beside");
        return;
    }
    const qll_beside_result *result = beside->result;
    qll_json_put_object(json, "beside");
    qll_json_put_text(json, "log", beside->name);
    qll_json_put_text(json, "begins_from", began[beside->began]);
    qll_json_put_number(json, "overlap_s", result->overlap_s);
    qll_json_put_number(json, "log_from_s", result->log_from_s);
    qll_json_put_number(json, "log_to_s", result->log_to_s);
    qll_json_put_number(json, "interval_s", result->interval_s);
    qll_json_put_list(json, "together");
    for (size_t kind = 0; kind < QLL_BESIDE_COUNT; kind++) {
        put_together(json, wording, (qll_beside_kind)kind, &result->together[kind]);
    }
    qll_json_close_list(json);
    qll_json_put_list(json, "surges");
    for (size_t i = 0; i < result->surge_count; i++) {
        qll_json_open_object(json);
        qll_json_put_number(json, "at_s", result->surges[i].at_s);
        qll_json_put_number(json, "change_pa", result->surges[i].change_pa);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
    put_series(json, result);
    qll_json_close_object(json);
}
