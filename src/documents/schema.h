/* A JSON Schema that is being written. */
#ifndef QUELL_DOCUMENTS_SCHEMA_H
#define QUELL_DOCUMENTS_SCHEMA_H

#include "documents/describe.h"

typedef struct qll_schema {
    qll_json *json;
    const qll_description *of;
    qll_described what; /* the document whose groups are being written */
    const qll_field_group **all;
    size_t count;
} qll_schema;

/** A reference to what is defined as @p id. */
void qll_schema_put_ref(const qll_schema *to, const char *id);

/** The member "pattern", in three pieces. */
void qll_schema_put_pattern(const qll_schema *to, const char *before, qll_text pattern,
                            const char *after);

/** Words to choose from, and what else readers take for them: blanks round them, capitals where they are forgiven. */
void qll_schema_put_words(const qll_schema *to, const char *const *words, size_t count,
                          bool any_case);

/** Of a record: what each kind must and may not have, and what its body holds. */
void qll_schema_put_by_kind(const qll_schema *to);

#endif
