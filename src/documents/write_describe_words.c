/* The words of tables, for lists to choose from. */
#include "documents/describe.h"
#include "documents/survey_fields.h"
#include "documents/write_common.h"

#include <string.h>

static void open_name(qll_json *json, const qll_wording *wording, const qll_name *name)
{
    qll_arena *arena = json->writer->arena;
    const qll_argument word = qll_as_word(name->word);
    qll_json_open_object(json);
    qll_json_put_text(json, "word", name->word);
    qll_json_put_list(json, "also");
    for (size_t i = 0; i < name->also_count; i++) {
        qll_json_text(json, name->also[i]);
    }
    qll_json_close_list(json);
    if (name->says != QLL_TEXT_NONE) {
        qll_json_put_said(json, "says", wording, &(const qll_said){.id = name->says});
    } else {
        qll_json_put_text(json, "says", qll_argument_text(arena, wording, &word));
    }
}

/* ---- what a word brings with it ---- */

static void put_size(qll_json *json, const qll_wording *wording, double nominal_m)
{
    qll_writer size = qll_writer_new(json->writer->arena);
    qll_units_write_pipe_size(&size, nominal_m, wording->units);
    qll_json_open_object(json);
    qll_json_put_number(json, "nominal_m", nominal_m);
    qll_json_put_written(json, "shown", &size);
    qll_json_close_object(json);
}

/* A standard may have several walls for one size: each size once. */
static void put_pipe(qll_json *json, const qll_description *of, const char *word)
{
    const qll_pipe_family *family = qll_pipe_family_find(qll_text_of(word));
    const qll_pipe_table *pipes = &of->tables->pipes;
    double last_m = 0.0;
    qll_json_put_text(json, "standard", family->standard);
    qll_json_put_list(json, "sizes");
    for (size_t i = 0; i < pipes->count; i++) {
        const qll_pipe_size *size = &pipes->sizes[i];
        if (qll_text_is(qll_text_of(size->standard), family->standard)
            && size->nominal_m != last_m) {
            qll_json_open_object(json);
            qll_json_put_text(json, "nominal", size->nominal);
            qll_json_put_number(json, "nominal_m", size->nominal_m);
            qll_json_put_number(json, "bore_m", size->bore_m);
            qll_json_close_object(json);
            last_m = size->nominal_m;
        }
    }
    qll_json_close_list(json);
}

static void put_question(qll_json *json, const qll_description *of, size_t index)
{
    const qll_evidence *evidence = &of->knowledge->evidence[index];
    qll_arena *arena = json->writer->arena;
    qll_json_put_text(json, "way", qll_evidence_kind_words[evidence->kind]);
    qll_json_put_number(json, "minutes", evidence->minutes);
    qll_json_put_text_or_null(
        json, "measured", evidence->is_measured ? qll_kind_word(arena, evidence->measure) : NULL);
    qll_json_put_list(json, "answers");
    for (size_t o = 0; o < evidence->outcome_count; o++) {
        qll_json_text(json, evidence->outcomes[o].word);
    }
    qll_json_close_list(json);
}

static void put_names(qll_json *json, const qll_description *of, qll_vocabulary which)
{
    const qll_names *names = &of->names[which];
    qll_json_put_list(json, qll_vocabulary_words[which]);
    for (size_t i = 0; i < names->count; i++) {
        open_name(json, of->wording, &names->names[i]);
        if (which == QLL_VOCABULARY_PIPES) {
            put_pipe(json, of, names->names[i].word);
        } else if (which == QLL_VOCABULARY_QUESTIONS) {
            put_question(json, of, i);
        } else if (which == QLL_VOCABULARY_FIXTURES) {
            qll_json_put_figure(json, "flow_m3s", of->tables->fixtures.kinds[i].flow_m3s);
        }
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

/* ---- what is in no vocabulary ---- */

static void put_uses(qll_json *json, const qll_wording *wording)
{
    qll_json_put_list(json, "uses");
    for (size_t i = 0; i < QLL_USE_COUNT; i++) {
        open_name(json, wording, &(const qll_name){.word = qll_use_words[i]});
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_meters(qll_json *json, const qll_description *of)
{
    qll_json_put_list(json, "meters");
    for (size_t i = 0; i < of->tables->meters.count; i++) {
        put_size(json, of->wording, of->tables->meters.meters[i].nominal_m);
    }
    qll_json_close_list(json);
}

static void put_assemblies(qll_json *json, const qll_description *of)
{
    size_t count = 0;
    const double *sizes_m = qll_backflow_sizes_m(&count);
    qll_json_put_list(json, "backflow_preventers");
    for (size_t i = 0; i < count; i++) {
        put_size(json, of->wording, sizes_m[i]);
    }
    qll_json_close_list(json);
}

static void put_valves(qll_json *json, const qll_description *of)
{
    qll_json_put_list(json, "valves");
    for (size_t i = 0; i < of->catalogue->count; i++) {
        const qll_valve *valve = &of->catalogue->valves[i];
        qll_writer size = qll_writer_new(json->writer->arena);
        qll_units_write_pipe_size(&size, valve->nominal_m, of->wording->units);
        qll_json_open_object(json);
        qll_json_put_text(json, "word", valve->id);
        qll_json_put_number(json, "nominal_m", valve->nominal_m);
        qll_json_put_written(json, "shown", &size);
        qll_json_put_text(json, "acting", qll_acting_words[valve->acting]);
        qll_json_put_number(json, "set_min_pa_gauge", valve->set_min_pa_gauge);
        qll_json_put_number(json, "set_max_pa_gauge", valve->set_max_pa_gauge);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

void qll_describe_write_words(qll_json *json, const qll_description *of)
{
    qll_json_put_object(json, "words");
    for (unsigned v = QLL_VOCABULARY_NONE + 1; v < QLL_VOCABULARY_COUNT; v++) {
        put_names(json, of, (qll_vocabulary)v);
    }
    put_uses(json, of->wording);
    put_meters(json, of);
    put_assemblies(json, of);
    put_valves(json, of);
    qll_json_close_object(json);
}
