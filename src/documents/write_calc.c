#include "documents/write_common.h"
#include "wording/says_calc.h"

/* What is hung on a key to name its SI unit. */
static const char *unit_suffix(qll_kind kind, qll_pressure_base base)
{
    bool is_absolute = kind == QLL_KIND_PRESSURE && base == QLL_PRESSURE_ABSOLUTE;
    return is_absolute ? "_pa_absolute" : qll_units_key_end(kind);
}

/* A quantity in SI with its unit in the key; a word, or what is several things in one, as typed. */
static void put_input(qll_json *json, const qll_calc_input *input, qll_text value)
{
    qll_arena *arena = json->writer->arena;
    qll_quantity quantity = {0};
    qll_units_refusal refusal = {0};
    if (!input->is_word && qll_units_read(value, input->kind, arena, &quantity, &refusal)) {
        qll_writer key = qll_writer_new(arena);
        qll_write(&key, input->key);
        qll_write(&key, unit_suffix(input->kind, quantity.base));
        qll_json_put_number(json, qll_writer_text(&key).bytes, quantity.si);
        return;
    }
    const char *closed = qll_text_closed(value, arena);
    qll_json_put_text(json, input->key, closed == NULL ? "" : closed);
}

static void put_repeated(qll_json *json, const qll_calc_answer *answer, const qll_calc_input *input)
{
    qll_json_put_list(json, input->key);
    for (size_t a = 0; a < answer->argument_count; a++) {
        if (qll_text_is(answer->arguments[a].key, input->key)) {
            const char *closed = qll_text_closed(answer->arguments[a].value, json->writer->arena);
            qll_json_text(json, closed == NULL ? "" : closed);
        }
    }
    qll_json_close_list(json);
}

static const qll_calc_argument *find_argument(const qll_calc_answer *answer, const char *key)
{
    for (size_t a = 0; a < answer->argument_count; a++) {
        if (qll_text_is(answer->arguments[a].key, key)) {
            return &answer->arguments[a];
        }
    }
    return NULL;
}

static void put_inputs(qll_json *json, const qll_calc_answer *answer)
{
    qll_json_put_object(json, "inputs");
    for (size_t i = 0; i < answer->calc->input_count; i++) {
        const qll_calc_input *input = &answer->calc->inputs[i];
        const qll_calc_argument *argument = find_argument(answer, input->key);
        if (argument != NULL && input->repeated) {
            put_repeated(json, answer, input);
        } else if (argument != NULL) {
            put_input(json, input, argument->value);
        } else if (input->fallback != NULL) {
            put_input(json, input, qll_text_of(input->fallback));
        }
    }
    qll_json_close_object(json);
}

static void put_value(qll_json *json, const char *key, const qll_calc_result *result)
{
    if (result->word != NULL) {
        qll_json_put_text(json, key, result->word);
    } else if (result->is_flag) {
        qll_json_put_bool(json, key, result->values[0] != 0.0);
    } else {
        qll_json_put_figure(json, key, result->values[0]);
    }
}

static void put_objects(qll_json *json, const qll_calc_result *result)
{
    for (size_t v = 0; v < result->count; v++) {
        qll_json_open_object(json);
        for (size_t f = 0; f < result->field_count; f++) {
            qll_json_put_figure(json, result->fields[f],
                                result->values[v * result->field_count + f]);
        }
        qll_json_close_object(json);
    }
}

static void put_results(qll_json *json, const qll_calc_answer *answer)
{
    qll_json_put_object(json, "results");
    for (size_t i = 0; i < answer->result_count; i++) {
        const qll_calc_result *result = &answer->results[i];
        if (!result->is_list) {
            put_value(json, result->key, result);
            continue;
        }
        qll_json_put_list(json, result->key);
        if (result->field_count > 0) {
            put_objects(json, result);
        }
        for (size_t v = 0; v < result->count && result->field_count == 0; v++) {
            qll_json_figure(json, result->values[v]);
        }
        qll_json_close_list(json);
    }
    qll_json_close_object(json);
}

void qll_calc_write(qll_json *json, const qll_calc_answer *answer, const qll_wording *wording,
                    const qll_problems *problems)
{
    const qll_language language = wording->language;
    const char *source = qll_say_calc_source(language, answer->calc);
    const qll_said said = {QLL_TEXT_VALUE, {qll_as_is(source)}};
    qll_json_open_object(json);
    qll_json_put_head(json, "calc", wording, problems);
    qll_json_put_parents(json, wording, answer->assumed, &said, 1);
    qll_json_put_text(json, "name", answer->calc->name);
    put_inputs(json, answer);
    put_results(json, answer);
    qll_json_put_list(json, "steps");
    for (size_t i = 0; i < answer->step_count; i++) {
        qll_json_open_object(json);
        qll_json_put_text(json, "formula", qll_say_calc_step(language, answer->steps[i].id));
        qll_json_put_text(json, "numbers", answer->steps[i].numbers);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
    qll_json_put_text(json, "source", source);
    qll_json_put_text(json, "validity", qll_say_calc_validity(language, answer->calc));
    qll_json_close_object(json);
}

static void put_calc_input(qll_json *json, const qll_wording *wording, const qll_calc_input *input)
{
    qll_json_open_object(json);
    qll_json_put_text(json, "key", input->key);
    qll_json_put_text(json, "kind", input->is_word ? "a word" : qll_units_kind_phrase(input->kind));
    qll_json_put_bool(json, "required", input->required);
    qll_json_put_bool(json, "repeated", input->repeated);
    qll_json_put_text_or_null(json, "fallback", input->fallback);
    qll_json_put_said(json, "help", wording, &(const qll_said){.id = input->help});
    qll_json_close_object(json);
}

void qll_calc_list_write(qll_json *json, const qll_wording *wording)
{
    qll_problems none = qll_problems_none(json->writer->arena);
    qll_assumed nothing = qll_assumed_none(json->writer->arena);
    size_t count = 0;
    const qll_calc *const *calcs = qll_calcs(&count);
    qll_json_open_object(json);
    qll_json_put_head(json, "calc", wording, &none);
    qll_json_put_parents(json, wording, &nothing, NULL, 0);
    qll_json_put_list(json, "calculations");
    for (size_t i = 0; i < count; i++) {
        qll_json_open_object(json);
        qll_json_put_text(json, "name", calcs[i]->name);
        qll_json_put_text(json, "question", qll_say_calc_title(wording->language, calcs[i]));
        qll_json_put_list(json, "inputs");
        for (size_t k = 0; k < calcs[i]->input_count; k++) {
            put_calc_input(json, wording, &calcs[i]->inputs[k]);
        }
        qll_json_close_list(json);
        qll_json_put_text(json, "formula", calcs[i]->formula);
        qll_json_put_text(json, "validity", qll_say_calc_validity(wording->language, calcs[i]));
        qll_json_put_text(json, "source", qll_say_calc_source(wording->language, calcs[i]));
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}
