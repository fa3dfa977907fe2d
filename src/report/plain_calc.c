#include "report/columns.h"
#include "report/plain.h"
#include "report/sections.h"

static void write_value(qll_columns *table, const qll_calc_answer *answer,
                        const qll_calc_result *result, size_t i)
{
    if (result->word != NULL) {
        qll_write(&table->cell, result->word);
    } else if (result->is_flag) {
        qll_write(&table->cell, result->values[i] != 0 ? "yes" : "no");
    } else if (result->kind == QLL_KIND_NUMBER) {
        qll_write_format(&table->cell, "%.6g", result->values[i]);
    } else {
        qll_units_write(&table->cell, result->values[i], result->kind, answer->units);
    }
    qll_columns_next(table);
    if (result->word == NULL && !result->is_flag) {
        qll_write_format(&table->cell, "%.9g", result->values[i]);
    }
    qll_columns_next(table);
}

/* A list of objects as a table of its own. */
static void print_objects(qll_writer *writer, const qll_calc_result *result)
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
    qll_section(writer, result->key);
    qll_columns table = qll_columns_new(writer, closed);
    for (size_t f = 0; f < result->field_count; f++) {
        qll_columns_put(&table, result->fields[f]);
    }
    for (size_t i = 0; i < result->count * result->field_count; i++) {
        qll_write_format(&table.cell, "%.6g", result->values[i]);
        qll_columns_next(&table);
    }
    qll_columns_flush(&table);
}

void qll_calc_print(qll_writer *writer, const qll_calc_answer *answer)
{
    qll_write(writer, answer->calc->name);
    qll_write(writer, ": ");
    qll_write(writer, answer->calc->question);
    qll_write(writer, "\n\n");
    qll_columns table = qll_columns_new(writer, "lrr");
    for (size_t r = 0; r < answer->result_count; r++) {
        const qll_calc_result *result = &answer->results[r];
        size_t count = result->word != NULL ? 1 : result->count;
        if (result->field_count > 0) {
            continue;
        }
        for (size_t i = 0; i < count; i++) {
            qll_columns_put(&table, i == 0 ? result->key : "");
            write_value(&table, answer, result, i);
        }
    }
    qll_columns_flush(&table);
    for (size_t r = 0; r < answer->result_count; r++) {
        if (answer->results[r].field_count > 0) {
            print_objects(writer, &answer->results[r]);
        }
    }
    if (answer->step_count > 0) {
        qll_section(writer, "STEPS");
    }
    for (size_t i = 0; i < answer->step_count; i++) {
        qll_write_wrapped(writer, "  ", qll_text_of(answer->steps[i].formula));
        qll_write_wrapped(writer, "    = ", qll_text_of(answer->steps[i].numbers));
    }
    qll_section(writer, "SOURCE");
    qll_write_wrapped(writer, "  ", qll_text_of(answer->calc->source));
    qll_write_wrapped(writer, "  Valid: ", qll_text_of(answer->calc->validity));
    const qll_wording wording = {.units = answer->units};
    qll_section_assumed(writer, &wording, answer->assumed);
}
