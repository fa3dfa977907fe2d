#include "report/columns.h"
#include "report/plain.h"
#include "report/sections.h"
#include "wording/says_calc.h"

/* A list of objects as a table of its own. */
static void print_objects(qll_writer *writer, const qll_wording *wording,
                          const qll_calc_result *result)
{
    qll_writer align = qll_writer_new(writer->arena);
    for (size_t f = 0; f < result->field_count; f++) {
        qll_write(&align, "r");
    }
    const char *closed = qll_writer_text(&align).bytes;
    if (closed == NULL) {
        writer->no_memory = true;
        return;
    }
    qll_section(writer, qll_say_calc_figure(wording->language, result->key));
    qll_columns table = qll_columns_new(writer, closed);
    for (size_t f = 0; f < result->field_count; f++) {
        qll_columns_put(&table, qll_say_calc_figure(wording->language, result->fields[f]));
    }
    for (size_t i = 0; i < result->count * result->field_count; i++) {
        qll_wording_calc_bare(&table.cell, result->fields[i % result->field_count],
                              result->values[i]);
        qll_columns_next(&table);
    }
    qll_columns_flush(&table);
}

static void print_results(qll_writer *writer, const qll_wording *wording,
                          const qll_calc_answer *answer)
{
    qll_columns table = qll_columns_new(writer, "lr");
    for (size_t r = 0; r < answer->result_count; r++) {
        const qll_calc_result *result = &answer->results[r];
        size_t count = result->word != NULL ? 1 : result->count;
        if (result->field_count > 0) {
            continue;
        }
        for (size_t i = 0; i < count; i++) {
            qll_columns_put(&table,
                            i == 0 ? qll_say_calc_figure(wording->language, result->key) : "");
            qll_wording_calc_value(&table.cell, wording->language, wording->units, result, i);
            qll_columns_next(&table);
        }
    }
    qll_columns_flush(&table);
    for (size_t r = 0; r < answer->result_count; r++) {
        if (answer->results[r].field_count > 0) {
            print_objects(writer, wording, &answer->results[r]);
        }
    }
}

/* A text made by @p made, wrapped behind @p first. */
static void print_made(qll_writer *writer, const char *first, qll_writer *made)
{
    writer->no_memory = writer->no_memory || made->no_memory;
    if (!made->no_memory) {
        qll_write_wrapped(writer, first, qll_writer_text(made));
    }
}

static void print_step(qll_writer *writer, const qll_wording *wording, const qll_calc_step *step)
{
    qll_writer found = qll_writer_new(writer->arena);
    qll_wording_calc_found(&found, wording->language, wording->units, step);
    print_made(writer, "  ", &found);
    qll_writer formula = qll_writer_new(writer->arena);
    qll_wording_calc_formula(&formula, wording->language, wording->units, step);
    print_made(writer, "    ", &formula);
    const qll_filling source = {"source", qll_say_calc_from(wording->language, step->id)};
    qll_writer from = qll_writer_new(writer->arena);
    qll_say_with(&from, wording->language, QLL_SAYS_CALC_TEXT_FROM, &source, 1);
    print_made(writer, "    ", &from);
}

void qll_calc_print(qll_writer *writer, const qll_calc_answer *answer, const qll_wording *wording)
{
    qll_write(writer, answer->calc->name);
    qll_write(writer, ": ");
    qll_write(writer, qll_say_calc_title(wording->language, answer->calc));
    qll_write(writer, "\n\n");
    print_results(writer, wording, answer);
    if (answer->step_count > 0) {
        qll_section_says(writer, wording->language, QLL_SAYS_CALC_TEXT_STEPS);
    }
    for (size_t i = 0; i < answer->step_count; i++) {
        print_step(writer, wording, &answer->steps[i]);
    }
    qll_section_says(writer, wording->language, QLL_SAYS_CALC_TEXT_SOURCE);
    qll_write_wrapped(writer, "  ",
                      qll_text_of(qll_say_calc_source(wording->language, answer->calc)));
    const qll_filling validity = {"validity",
                                  qll_say_calc_validity(wording->language, answer->calc)};
    qll_section_says_with(writer, wording->language, QLL_SAYS_CALC_TEXT_HOLDS, &validity, 1);
    qll_section_assumed(writer, wording, answer->assumed);
}
