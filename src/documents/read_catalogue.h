/* A catalogue's JSON or CSV to valves and their opening laws. */
#ifndef QUELL_DOCUMENTS_READ_CATALOGUE_H
#define QUELL_DOCUMENTS_READ_CATALOGUE_H

#include "base/assumed.h"
#include "base/document.h"
#include "base/table.h"
#include "search/design.h"

/** Reads catalogue JSON (docs/formats/catalogue.md). */
QLL_MUST_USE qll_status qll_catalogue_read(const qll_document *document, qll_arena *arena,
                                           qll_catalogue *catalogue, qll_assumed *assumed,
                                           qll_problems *problems);

/** Reads a catalogue from CSV: one valve a row, columns and units in docs/formats/catalogue.md. */
QLL_MUST_USE qll_status qll_catalogue_import(const qll_table *table, qll_arena *arena,
                                             qll_catalogue *catalogue, qll_assumed *assumed,
                                             qll_problems *problems);

/** Writes a catalogue as JSON that qll_catalogue_read() reads back to equal valves. */
void qll_catalogue_write(qll_json *json, const qll_catalogue *catalogue);

#endif
