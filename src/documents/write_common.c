#include "documents/write_common.h"

#include <math.h>
#include <stdint.h>

void qll_json_figure(qll_json *json, double value)
{
    if (isfinite(value)) {
        qll_json_number(json, value);
    } else {
        qll_json_null(json);
    }
}

void qll_json_put_values(qll_json *json, const char *key, const double *values, size_t count)
{
    qll_json_put_list(json, key);
    for (size_t i = 0; i < count; i++) {
        qll_json_figure(json, values[i]);
    }
    qll_json_close_list(json);
}

void qll_json_put_figure(qll_json *json, const char *key, double value)
{
    qll_json_key(json, key);
    qll_json_figure(json, value);
}

void qll_json_put_index(qll_json *json, const char *key, size_t index)
{
    qll_json_key(json, key);
    if (index == SIZE_MAX) {
        qll_json_null(json);
    } else {
        qll_json_whole(json, (long long)index);
    }
}

void qll_json_put_gauge(qll_json *json, const char *key, double absolute_pa, double barometric_pa)
{
    qll_json_put_figure(json, key, absolute_pa > 0.0 ? absolute_pa - barometric_pa : (double)NAN);
}

void qll_json_put_written(qll_json *json, const char *key, qll_writer *says)
{
    qll_json_put_text(json, key, qll_writer_text(says).bytes);
}

/* "survey.json:41:22: stages[1].branches[0]", as far as the place is known. */
static void put_where(qll_json *json, const qll_place *place)
{
    qll_writer where = qll_writer_new(json->writer->arena);
    qll_write(&where, place->source);
    if (place->line > 0) {
        qll_write_format(&where, ":%d", place->line);
        if (place->column > 0) {
            qll_write_format(&where, ":%d", place->column);
        }
    }
    if (place->path != NULL && place->path[0] != '\0') {
        qll_write(&where, place->source[0] == '\0' ? "" : ": ");
        qll_write(&where, place->path);
    }
    qll_json_put_written(json, "where", &where);
}

static void put_fix(qll_json *json, const qll_fix *fix)
{
    qll_json_key(json, "fix");
    if (fix->op == QLL_FIX_NONE) {
        qll_json_null(json);
        return;
    }
    qll_json_open_object(json);
    qll_json_put_text(json, "path", fix->path);
    qll_json_put_text(json, "op", qll_fix_word(fix->op));
    qll_json_key(json, "value");
    if (fix->value[0] == '\0') {
        qll_json_null(json);
    } else {
        qll_json_literal(json, qll_text_of(fix->value));
    }
    qll_json_close_object(json);
}

void qll_json_problem(qll_json *json, const qll_problem *problem)
{
    qll_json_open_object(json);
    qll_json_put_text(json, "severity", problem->level == QLL_REFUSAL ? "refusal" : "warning");
    qll_json_put_text(json, "code", qll_code_word(problem->code));
    put_where(json, &problem->place);
    qll_json_put_whole(json, "line", problem->place.line);
    qll_json_put_whole(json, "column", problem->place.column);
    qll_json_put_text(json, "path", problem->place.path);
    qll_json_put_text(json, "says", problem->text);
    qll_json_put_text(json, "hint", problem->hint);
    put_fix(json, &problem->fix);
    qll_json_close_object(json);
}

void qll_json_put_head(qll_json *json, const char *verb, const qll_wording *wording,
                       const qll_problems *problems)
{
    qll_writer version = qll_writer_new(json->writer->arena);
    qll_write(&version, verb);
    qll_write(&version, "/1");
    qll_json_put_written(json, "quell", &version);
    qll_json_put_list(json, "problems");
    for (size_t i = 0; i < problems->kept_count; i++) {
        const qll_problem problem =
            qll_wording_problem(json->writer->arena, wording, &problems->kept[i]);
        qll_json_problem(json, &problem);
    }
    qll_json_close_list(json);
}

static void put_argument(qll_json *json, const char *key, const qll_wording *wording,
                         const qll_argument *argument)
{
    qll_json_put_text(json, key, qll_argument_text(json->writer->arena, wording, argument));
}

/* A word stands as it does in a survey, where a machine may put it. */
static void put_value(qll_json *json, const qll_wording *wording, const qll_argument *value)
{
    const bool is_word = value->form == QLL_ARGUMENT_WORD;
    const qll_argument shown = is_word ? qll_as_is_text(value->text) : *value;
    put_argument(json, "value", wording, &shown);
}

void qll_json_put_said(qll_json *json, const char *key, const qll_wording *wording,
                       const qll_said *said)
{
    const char *text = qll_said_text(json->writer->arena, wording, said);
    if (key == NULL) {
        qll_json_text(json, text);
    } else {
        qll_json_put_text(json, key, text);
    }
}

void qll_json_put_sentences(qll_json *json, const qll_wording *wording, const qll_said *sentences,
                            size_t count)
{
    qll_json_put_list(json, "says");
    for (size_t i = 0; i < count; i++) {
        qll_json_put_said(json, NULL, wording, &sentences[i]);
    }
    qll_json_close_list(json);
}

void qll_json_put_parents(qll_json *json, const qll_wording *wording, const qll_assumed *assumed,
                          const qll_said *sources, size_t source_count)
{
    qll_json_put_list(json, "assumed");
    for (const qll_assumption *one = assumed->first; one != NULL; one = one->next) {
        qll_json_open_object(json);
        put_argument(json, "what", wording, &one->what);
        put_value(json, wording, &one->value);
        qll_json_put_said(json, "why", wording, &one->why);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
    qll_json_put_list(json, "sources");
    for (size_t i = 0; i < source_count; i++) {
        qll_json_put_said(json, NULL, wording, &sources[i]);
    }
    qll_json_close_list(json);
    qll_json_put_list(json, "cautions");
    for (size_t i = 0; i < QLL_CAUTION_COUNT; i++) {
        qll_json_text(json, qll_caution(wording->language, i));
    }
    qll_json_close_list(json);
}

void qll_json_put_common(qll_json *json, const char *verb, const qll_demand_findings *findings)
{
    const qll_wording wording = {.units = findings->survey->units, .language = findings->language};
    qll_json_put_head(json, verb, &wording, findings->problems);
    qll_json_put_parents(json, &wording, findings->assumed, findings->sources,
                         findings->source_count);
    qll_json_put_text(json, "survey", findings->survey->name == NULL ? "" : findings->survey->name);
}

void qll_refusal_write(qll_json *json, const char *verb, const qll_wording *wording,
                       const qll_problems *problems)
{
    qll_json_open_object(json);
    qll_json_put_head(json, verb, wording, problems);
    qll_json_put_whole(json, "problem_total", (long long)problems->count);
    qll_json_close_object(json);
}

const char *qll_method_word(qll_peak_method method)
{
    if (method == QLL_PEAK_FIXTURE_UNITS_IPC || method == QLL_PEAK_FIXTURE_UNITS_UPC) {
        return "fixture-units";
    }
    return qll_peak_method_words[method];
}

static void put_remarks(qll_json *json, const qll_wording *wording, const qll_demand *demand)
{
    qll_json_put_list(json, "remarks");
    for (const qll_remark *one = demand->remarks; one != NULL; one = one->next) {
        qll_writer says = qll_writer_new(json->writer->arena);
        qll_wording_remark(&says, wording, one);
        qll_json_text(json, qll_writer_text(&says).bytes);
    }
    qll_json_close_list(json);
}

void qll_json_put_scenario_head(qll_json *json, const qll_wording *wording,
                                const qll_demand *demand, const qll_duty *duty, size_t index)
{
    const qll_peak_estimate *chosen = &demand->estimates[demand->chosen];
    qll_json_put_text(json, "name", demand->scenario->name);
    qll_json_put_number(json, "peak_flow_m3s",
                        duty == NULL ? demand->peak_m3s : duty->scenarios[index].peak_m3s);
    if (duty != NULL) {
        qll_json_put_number(json, "code_peak_flow_m3s", duty->scenarios[index].code_peak_m3s);
        qll_json_put_figure(json, "service_flow_m3s", duty->service_flow_m3s);
    }
    qll_writer basis = qll_writer_new(json->writer->arena);
    qll_write(&basis, qll_method_word(chosen->method));
    if (chosen->table.id != QLL_TEXT_NONE) {
        qll_write(&basis, ", ");
        qll_wording_said(&basis, wording, &chosen->table);
    }
    qll_json_put_written(json, "basis", &basis);
    put_remarks(json, wording, demand);
}

void qll_json_put_scenario_heads(qll_json *json, const qll_demand_findings *findings,
                                 const qll_duty *duty)
{
    const qll_wording wording = {.units = findings->survey->units, .language = findings->language};
    qll_json_put_list(json, "scenarios");
    for (size_t i = 0; i < findings->survey->scenario_count; i++) {
        qll_json_open_object(json);
        qll_json_put_scenario_head(json, &wording, &findings->demands[i], duty, i);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_corner(qll_json *json, const qll_wording *wording,
                       const qll_cavitation_corner *corner)
{
    qll_json_put_object(json, "corner");
    qll_json_put_figure(json, "flow_m3s", corner->flow_m3s);
    qll_json_put_gauge(json, "inlet_pa_gauge", corner->inlet_pa, wording->site->barometric_pa);
    qll_json_put_figure(json, "ratio_gauge", corner->indices.ratio_gauge);
    qll_json_put_figure(json, "ratio_absolute", corner->indices.ratio_absolute);
    qll_json_put_figure(json, "xf", corner->indices.xf);
    qll_json_put_figure(json, "onset_xf", corner->indices.xfzp1);
    qll_json_put_figure(json, "split_pa_gauge", corner->split_pa_gauge);
    qll_json_close_object(json);
}

static void put_verdict(qll_json *json, const qll_wording *wording, const qll_station *station,
                        const qll_verdict *verdict)
{
    qll_json_open_object(json);
    qll_json_put_text(json, "rule", qll_rule_words[verdict->rule]);
    qll_json_put_text(json, "verdict", qll_grade_words[verdict->grade]);
    qll_json_put_figure(json, "value", verdict->value);
    qll_json_put_figure(json, "limit", verdict->limit);
    bool is_level = verdict->rule == QLL_RULE_NOISE;
    qll_json_put_text(json, "unit", is_level ? "dB(A)" : qll_units_si(verdict->kind));
    qll_writer says = qll_writer_new(json->writer->arena);
    qll_wording_verdict(&says, wording, station, verdict);
    qll_json_put_written(json, "says", &says);
    qll_json_put_figure(json, "value_at_peak", verdict->value_at_peak);
    if (isfinite(verdict->past_share)) {
        qll_json_put_figure(json, "past_limit_share", verdict->past_share);
    }
    if (verdict->rule == QLL_RULE_VELOCITY) {
        qll_json_put_figure(json, "right_size_mm", verdict->right_size_m * 1000.0);
    }
    if (verdict->rule == QLL_RULE_CAVITATION && verdict->corner.flow_m3s > 0.0) {
        put_corner(json, wording, &verdict->corner);
    }
    qll_json_put_index(json, "stage", verdict->spot.stage);
    qll_json_put_index(json, "branch", verdict->spot.branch);
    qll_json_put_index(json, "scenario", verdict->spot.scenario);
    qll_json_put_index(json, "outlet", verdict->spot.outlet);
    qll_json_close_object(json);
}

static void put_sensitivity(qll_json *json, const qll_assessment *assessment)
{
    qll_json_put_list(json, "sensitivity");
    for (size_t i = 0; i < assessment->verdict_count; i++) {
        const qll_verdict *verdict = &assessment->verdicts[i];
        qll_json_open_object(json);
        qll_json_put_text(json, "verdict", qll_rule_words[verdict->rule]);
        qll_json_put_figure(json, "holds_share", verdict->holds_share);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_time_shares(qll_json *json, const qll_time_shares *shares)
{
    qll_json_put_object(json, "time_shares");
    qll_json_put_number(json, "idle", shares->idle);
    qll_json_put_number(json, "below_stable", shares->below_stable);
    qll_json_put_number(json, "below_band", shares->below_band);
    qll_json_put_number(json, "in_band", shares->in_band);
    qll_json_put_number(json, "above_band", shares->above_band);
    qll_json_put_number(json, "full_travel", shares->full_travel);
    qll_json_put_number(json, "cavitating", shares->cavitating);
    qll_json_close_object(json);
}

void qll_json_put_verdicts(qll_json *json, const qll_wording *wording, const qll_station *station,
                           const qll_assessment *assessment)
{
    qll_json_put_list(json, "verdicts");
    for (size_t i = 0; i < assessment->verdict_count; i++) {
        put_verdict(json, wording, station, &assessment->verdicts[i]);
    }
    qll_json_close_list(json);
    put_sensitivity(json, assessment);
    put_time_shares(json, &assessment->shares);
}

void qll_json_put_cost(qll_json *json, const qll_cost *cost, const char *currency)
{
    qll_json_put_object(json, "cost");
    qll_json_put_number(json, "installed", cost->installed);
    qll_json_put_number(json, "callback_share", cost->callback_share);
    qll_json_put_number(json, "callback", cost->callback);
    qll_json_put_number(json, "expected", cost->expected);
    qll_json_put_text_or_null(json, "currency", currency);
    qll_json_put_list(json, "mechanisms");
    for (size_t m = 0; m < QLL_MECHANISM_COUNT; m++) {
        qll_json_open_object(json);
        qll_json_put_text(json, "mechanism", qll_mechanism_words[m]);
        qll_json_put_number(json, "share", cost->mechanism_share[m]);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}

void qll_json_put_breaches(qll_json *json, const qll_fitness *fitness)
{
    qll_json_put_bool(json, "fit", fitness->is_fit);
    qll_json_put_list(json, "breaks");
    for (size_t r = 0; r < QLL_PRACTICE_COUNT; r++) {
        if (fitness->breach[r] > 0.0) {
            qll_json_open_object(json);
            qll_json_put_text(json, "rule", qll_practice_words[r]);
            qll_json_put_figure(json, "breach", fitness->breach[r]);
            qll_json_put_figure(json, "value", fitness->value[r]);
            qll_json_put_figure(json, "limit", fitness->limit[r]);
            qll_json_close_object(json);
        }
    }
    qll_json_close_list(json);
}
