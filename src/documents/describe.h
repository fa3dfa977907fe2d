/* What documents may hold, told from the tables of fields that read them. */
#ifndef QUELL_DOCUMENTS_DESCRIBE_H
#define QUELL_DOCUMENTS_DESCRIBE_H

#include "quell/records.h"

#include "diagnosis/knowledge.h"
#include "documents/field.h"
#include "documents/read_survey.h"
#include "wording/wording.h"

/** X(NAME, word): what may be described. */
#define QLL_DESCRIBED_LIST(X) \
    X(SURVEY, "survey")       \
    X(CATALOGUE, "catalogue") \
    X(CASE, "case")           \
    X(RECORD, "record")       \
    X(WORDS, "words")

typedef enum qll_described {
#define QLL_DESCRIBED_NAME(name, word) QLL_DESCRIBED_##name,
    QLL_DESCRIBED_LIST(QLL_DESCRIBED_NAME)
#undef QLL_DESCRIBED_NAME
    QLL_DESCRIBED_COUNT
} qll_described;

extern const char *const qll_described_words[QLL_DESCRIBED_COUNT];

/** What a description is told from. */
typedef struct qll_description {
    const qll_wording *wording; /* units and language */
    unsigned shown;             /* a bit of every qll_described in it */
    const char *key;            /* the path of the one key that is shown; NULL = all */
    qll_names names[QLL_VOCABULARY_COUNT];
    const qll_tables *tables;
    const qll_knowledge *knowledge;
    const qll_catalogue *catalogue;
    const qll_assumed *assumed;
    const qll_problems *problems;
} qll_description;

/** The groups of a document that its first one, the whole, leads to; those that are left are of other documents.
 * NULL without memory. */
const qll_field_group **qll_described_groups(qll_described what, qll_arena *arena, size_t *count);

/** Objects that share a path differ in their first key; no path has more kinds. */
#define QLL_GROUPS_INSIDE 8

typedef struct qll_groups_inside {
    const qll_field_group *groups[QLL_GROUPS_INSIDE];
    size_t count;
} qll_groups_inside;

/** The groups of what stands at @p field of @p group, an object or the entries of a list, among @p all. */
qll_groups_inside qll_groups_in(const qll_field_group *const *all, size_t count,
                                const qll_field_group *group, const qll_field *field);

/** What a group is called in schemas: "survey", "survey.supply.flow_test", "survey.upstream.pipe". */
const char *qll_group_id(qll_arena *arena, qll_described what, const qll_field_group *const *all,
                         size_t count, const qll_field_group *group);

/** What stands in the body of a record of @p kind, as in qll_group_id(): "record.body.name", "case.readings", "survey"; NULL of a
 * likelihood table. */
const char *qll_record_body_id(qll_arena *arena, qll_record_kind kind);

/** "supply.static_high". */
const char *qll_field_path(qll_arena *arena, const qll_field_group *group, const qll_field *field);

/** Is @p path the one that @p key asks for, brackets of lists left out or not? NULL asks for all. */
bool qll_is_asked_key(const char *key, const char *path);

/** What @p field is called by those who do not write it: "highest street pressure, static". */
const char *qll_field_label(qll_arena *arena, const qll_wording *wording,
                            const qll_field_group *group, const qll_field *field);

/** How its value is written: "a pressure, "95 psi"", "one of "us", "si"". */
const char *qll_field_takes(qll_arena *arena, const qll_wording *wording, const qll_field *field);

/** Does a limit or default of a table begin with a figure? Else it is a word. */
bool qll_is_figure(const char *text);

/** A limit or default of @p kind as people read it in their units, never rounded to nothing. */
const char *qll_limit_text(qll_arena *arena, const qll_wording *wording, const char *text,
                           qll_kind kind);

/** How a value of it may be written, as JSON: "\"95 psi\"", "[\"3 ft/s\", \"6 ft/s\"]". */
const char *qll_field_example(qll_arena *arena, const qll_field *field);

/** The word of a value for machines: "quantity". */
const char *qll_value_word(qll_value value);

/** The word of a kind for machines: "pressure_difference". */
const char *qll_kind_word(qll_arena *arena, qll_kind kind);

/** A rule that no schema can say. */
typedef struct qll_unsayable {
    const char *name;
    qll_code code;           /* of what it refuses */
    const char *const *keys; /* at which it is refused; NULL = at any */
    size_t key_count;
    qll_text_id says;
} qll_unsayable;

/** All of them. */
const qll_unsayable *qll_unsayables(size_t *count);

/** describe/1 of docs/formats/answers.md. */
void qll_describe_write(qll_json *json, const qll_description *of);

/** The member "words" of it. */
void qll_describe_write_words(qll_json *json, const qll_description *of);

/** The JSON Schema, 2020-12, of a document. */
void qll_schema_write(qll_json *json, const qll_description *of, qll_described what);

#endif
