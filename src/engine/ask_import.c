#include "documents/valve_table.h"
#include "engine/engine.h"

/* A catalogue is its own answer: what comes out is what design and check read. */
qll_status qll_ask_import(qll_asked *asked)
{
    const qll_input *input = &asked->question->document;
    qll_text source = {.bytes = input->bytes, .size = input->size};
    const char *name = input->name == NULL ? "" : input->name;
    qll_table table;
    qll_status status = qll_valve_table_read(source, name, asked->arena, &table, &asked->problems);
    if (status != QLL_OK) {
        return status;
    }
    qll_catalogue catalogue;
    status =
        qll_catalogue_import(&table, asked->arena, &catalogue, &asked->assumed, &asked->problems);
    if (status != QLL_OK) {
        return status;
    }
    qll_json json = qll_json_new(&asked->writer);
    qll_catalogue_write(&json, &catalogue);
    qll_write(&asked->writer, "\n");
    return qll_asked_finish(asked);
}
