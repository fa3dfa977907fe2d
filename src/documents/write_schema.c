#include "documents/pattern.h"
#include "documents/record_fields.h"
#include "documents/schema.h"
#include "documents/write_common.h"

#include <math.h>
#include <string.h>

static qll_arena *arena_of(const qll_schema *to)
{
    return to->json->writer->arena;
}

/* ---- parts of schemas ---- */

static void put_type(const qll_schema *to, const char *type)
{
    qll_json_put_text(to->json, "type", type);
}

/* All words of a vocabulary, other ones too; NULL without memory. */
static const char **words_of(const qll_schema *to, qll_vocabulary which, size_t *count)
{
    const qll_names *names = &to->of->names[which];
    size_t most = names->count;
    for (size_t i = 0; i < names->count; i++) {
        most += names->names[i].also_count;
    }
    const char **words = qll_arena_take(arena_of(to), most, sizeof *words);
    *count = 0;
    for (size_t i = 0; words != NULL && i < names->count; i++) {
        words[*count] = names->names[i].word;
        *count += 1;
        for (size_t k = 0; k < names->names[i].also_count; k++) {
            words[*count] = names->names[i].also[k];
            *count += 1;
        }
    }
    return words;
}

static void put_names(const qll_schema *to, const qll_field *field)
{
    size_t count = 0;
    const char **words = words_of(to, field->names, &count);
    qll_schema_put_words(to, words, count, to->of->names[field->names].any_case);
}

static void put_range(const qll_schema *to, const qll_field *field)
{
    const qll_pair range = qll_field_range(field, arena_of(to));
    if (isfinite(range.low) && isfinite(range.high)) {
        qll_json_put_number(to->json, "minimum", range.low);
        qll_json_put_number(to->json, "maximum", range.high);
    }
}

static void put_quantity(const qll_schema *to, const qll_field *field)
{
    if (field->kind == QLL_KIND_NUMBER) {
        put_type(to, "number");
        put_range(to, field);
    } else {
        qll_schema_put_ref(to, qll_kind_word(arena_of(to), field->kind));
    }
}

/* ---- values ---- */

static void put_list_bounds(const qll_schema *to, const qll_field *field)
{
    put_type(to, "array");
    qll_json_put_whole(to->json, "minItems", 1);
    qll_json_put_whole(to->json, "maxItems", (long long)field->entries_most);
}

/* Objects of one path are told apart by their first keys, the last first: an entry that has it is of that kind. */
static void put_inside(const qll_schema *to, const qll_groups_inside *inside)
{
    for (size_t i = inside->count; i-- > 1;) {
        qll_json_put_object(to->json, "if");
        qll_json_put_list(to->json, "required");
        qll_json_text(to->json, inside->groups[i]->fields[0].key);
        qll_json_close_list(to->json);
        qll_json_close_object(to->json);
        qll_json_put_object(to->json, "then");
        qll_schema_put_ref(
            to, qll_group_id(arena_of(to), to->what, to->all, to->count, inside->groups[i]));
        qll_json_close_object(to->json);
        qll_json_put_object(to->json, "else");
    }
    if (inside->count > 0) {
        qll_schema_put_ref(
            to, qll_group_id(arena_of(to), to->what, to->all, to->count, inside->groups[0]));
    }
    for (size_t i = 1; i < inside->count; i++) {
        qll_json_close_object(to->json);
    }
}

static void put_list(const qll_schema *to, const qll_field_group *group, const qll_field *field)
{
    const qll_groups_inside inside = qll_groups_in(to->all, to->count, group, field);
    put_list_bounds(to, field);
    qll_json_put_object(to->json, "items");
    /* Without an object there is no key to tell by. */
    put_type(to, "object");
    put_inside(to, &inside);
    qll_json_close_object(to->json);
}

static void put_texts(const qll_schema *to, const qll_field *field)
{
    put_list_bounds(to, field);
    qll_json_put_object(to->json, "items");
    put_type(to, "string");
    qll_json_close_object(to->json);
}

static void put_pair(const qll_schema *to, const qll_field *field)
{
    put_type(to, "array");
    qll_json_put_whole(to->json, "minItems", 2);
    qll_json_put_whole(to->json, "maxItems", 2);
    qll_json_put_object(to->json, "items");
    put_quantity(to, field);
    qll_json_close_object(to->json);
}

static void put_word_or_quantity(const qll_schema *to, const qll_field *field)
{
    qll_json_put_list(to->json, "anyOf");
    qll_json_open_object(to->json);
    qll_schema_put_words(to, field->words, field->word_count, false);
    qll_json_close_object(to->json);
    qll_json_open_object(to->json);
    put_quantity(to, field);
    qll_json_close_object(to->json);
    qll_json_close_list(to->json);
}

/* Keys are taken to the letter. */
static void put_counts(const qll_schema *to, const qll_field *field)
{
    size_t count = 0;
    const char **words = words_of(to, field->names, &count);
    put_type(to, "object");
    qll_json_put_object(to->json, "propertyNames");
    qll_json_put_list(to->json, "enum");
    for (size_t i = 0; i < count && words != NULL; i++) {
        qll_json_text(to->json, words[i]);
    }
    qll_json_close_list(to->json);
    qll_json_close_object(to->json);
    qll_json_put_object(to->json, "additionalProperties");
    put_type(to, "integer");
    put_range(to, field);
    qll_json_close_object(to->json);
}

static void put_mesh(const qll_schema *to, const qll_field *field)
{
    const qll_names *names = &to->of->names[field->names];
    qll_json_put_list(to->json, "anyOf");
    qll_json_open_object(to->json);
    qll_json_put_list(to->json, "enum");
    for (size_t i = 0; i < names->count; i++) {
        qll_json_literal(to->json, qll_text_of(names->names[i].word));
    }
    qll_json_close_list(to->json);
    qll_json_close_object(to->json);
    qll_json_open_object(to->json);
    put_type(to, "string");
    qll_schema_put_pattern(to, "^" QLL_PATTERN_BLANKS "[-+.0-9eE]+" QLL_PATTERN_BLANKS,
                           qll_text_of("(?:mesh)?"), QLL_PATTERN_BLANKS "$");
    qll_json_close_object(to->json);
    qll_json_close_list(to->json);
}

static void put_meter_size(const qll_schema *to)
{
    qll_json_put_list(to->json, "anyOf");
    qll_json_open_object(to->json);
    qll_schema_put_ref(to, qll_kind_word(arena_of(to), QLL_KIND_LENGTH));
    qll_json_close_object(to->json);
    qll_json_open_object(to->json);
    put_type(to, "string");
    qll_schema_put_pattern(to, "", qll_text_of(qll_pattern_meter_size(arena_of(to))), "");
    qll_json_close_object(to->json);
    qll_json_close_list(to->json);
}

static void put_hourly(const qll_schema *to, const qll_field *field)
{
    put_type(to, "array");
    qll_json_put_whole(to->json, "minItems", 24);
    qll_json_put_whole(to->json, "maxItems", 24);
    qll_json_put_object(to->json, "items");
    put_type(to, "number");
    put_range(to, field);
    qll_json_close_object(to->json);
    qll_json_put_object(to->json, "contains");
    qll_json_put_number(to->json, "exclusiveMinimum", 0.0);
    qll_json_close_object(to->json);
}

/* Answers go by their words, and by parts of them that no other has. */
static void put_answers_to(const qll_schema *to, const qll_evidence *evidence)
{
    qll_json_put_object(to->json, evidence->word);
    qll_json_put_list(to->json, "enum");
    for (size_t o = 0; o < evidence->outcome_count; o++) {
        qll_json_text(to->json, evidence->outcomes[o].word);
    }
    for (size_t o = 0; o < evidence->outcome_count; o++) {
        const char *at = evidence->outcomes[o].word;
        const bool has_parts = strchr(at, '_') != NULL;
        while (has_parts && *at != '\0') {
            const qll_text part = {at, strcspn(at, "_")};
            if (qll_outcome_called(evidence, part) != QLL_NOT_KNOWN) {
                const char *closed = qll_text_closed(part, arena_of(to));
                qll_json_text(to->json, closed == NULL ? "" : closed);
            }
            at += part.size;
            at += *at == '_' ? 1 : 0;
        }
    }
    qll_json_close_list(to->json);
    qll_json_close_object(to->json);
}

static void put_answers(const qll_schema *to)
{
    const qll_knowledge *knowledge = to->of->knowledge;
    put_type(to, "object");
    qll_json_put_object(to->json, "properties");
    for (size_t e = 0; e < knowledge->evidence_count; e++) {
        put_answers_to(to, &knowledge->evidence[e]);
    }
    qll_json_close_object(to->json);
    qll_json_put_bool(to->json, "additionalProperties", false);
}

static void put_types(const qll_schema *to, const char *first, const char *second)
{
    qll_json_put_list(to->json, "type");
    qll_json_text(to->json, first);
    qll_json_text(to->json, second);
    qll_json_close_list(to->json);
}

static void put_text(const qll_schema *to, const char *pattern)
{
    put_type(to, "string");
    qll_schema_put_pattern(to, "", qll_text_of(pattern), "");
}

#define QLL_ID_PATTERN  "[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}"
#define QLL_DAY_PATTERN "[0-9]{4}-[0-9]{2}-[0-9]{2}"

static void put_text_alone(const qll_schema *to, const char *pattern)
{
    put_type(to, "string");
    qll_schema_put_pattern(to, "^" QLL_PATTERN_BLANKS, qll_text_of(pattern),
                           QLL_PATTERN_BLANKS "$");
}

static void put_ids(const qll_schema *to, const qll_field *field)
{
    put_type(to, "array");
    qll_json_put_whole(to->json, "maxItems", (long long)field->entries_most);
    qll_json_put_object(to->json, "items");
    put_text(to, "^" QLL_ID_PATTERN "$");
    qll_json_close_object(to->json);
}

#define QLL_CLOCK "(?:(?:[01][0-9]|2[0-3]):[0-5][0-9]|24:00)"

static void put_value(const qll_schema *to, const qll_field_group *group, const qll_field *field)
{
    const qll_groups_inside inside = qll_groups_in(to->all, to->count, group, field);
    switch (field->value) {
    case QLL_VALUE_TEXT: put_text(to, "[^ \\t\\r\\n\\u00a0]"); break;
    case QLL_VALUE_HOURS:
        put_text(to, "^" QLL_PATTERN_BLANKS QLL_CLOCK "-" QLL_CLOCK QLL_PATTERN_BLANKS "$");
        break;
    case QLL_VALUE_CURRENCY:
        put_text(to, "^" QLL_PATTERN_BLANKS "[A-Z]{3}" QLL_PATTERN_BLANKS "$");
        break;
    case QLL_VALUE_WORD: qll_schema_put_words(to, field->words, field->word_count, false); break;
    case QLL_VALUE_NAME: put_names(to, field); break;
    case QLL_VALUE_QUANTITY: put_quantity(to, field); break;
    case QLL_VALUE_PAIR: put_pair(to, field); break;
    case QLL_VALUE_WHOLE:
        put_type(to, "integer");
        put_range(to, field);
        break;
    case QLL_VALUE_VERSION: qll_json_put_whole(to->json, "const", 1); break;
    case QLL_VALUE_FLAG: put_type(to, "boolean"); break;
    case QLL_VALUE_OBJECT: put_inside(to, &inside); break;
    case QLL_VALUE_LIST: put_list(to, group, field); break;
    case QLL_VALUE_WORD_OR_QUANTITY: put_word_or_quantity(to, field); break;
    case QLL_VALUE_COUNTS: put_counts(to, field); break;
    case QLL_VALUE_MESH: put_mesh(to, field); break;
    case QLL_VALUE_METER_SIZE: put_meter_size(to); break;
    case QLL_VALUE_HOURLY: put_hourly(to, field); break;
    case QLL_VALUE_TEXTS: put_texts(to, field); break;
    case QLL_VALUE_SURVEY: qll_schema_put_ref(to, qll_described_words[QLL_DESCRIBED_SURVEY]); break;
    case QLL_VALUE_ANSWERS: put_answers(to); break;
    case QLL_VALUE_MEASURED: put_types(to, "string", "number"); break;
    case QLL_VALUE_SHARES: put_type(to, "object"); break;
    case QLL_VALUE_FIGURE: put_types(to, "number", "null"); break;
    case QLL_VALUE_ID: put_text_alone(to, QLL_ID_PATTERN); break;
    case QLL_VALUE_IDS: put_ids(to, field); break;
    case QLL_VALUE_DAY: put_text_alone(to, QLL_DAY_PATTERN); break;
    case QLL_VALUE_MOMENT: put_text_alone(to, QLL_DAY_PATTERN "T[0-9:.]+(?:Z|[-+][0-9:]+)"); break;
    case QLL_VALUE_HASH: put_text_alone(to, "[0-9a-f]{64}"); break;
    case QLL_VALUE_CASE: qll_schema_put_ref(to, qll_described_words[QLL_DESCRIBED_CASE]); break;
    case QLL_VALUE_BODY: put_type(to, "object"); break; /* by the record's kind */
    }
}

/* ---- the document ---- */

static void put_property(const qll_schema *to, const qll_field_group *group, const qll_field *field)
{
    const qll_wording *wording = to->of->wording;
    qll_json_put_object(to->json, field->key);
    qll_json_put_text(to->json, "title", qll_field_label(arena_of(to), wording, group, field));
    qll_json_put_said(to->json, "description", wording, &(const qll_said){.id = field->means});
    put_value(to, group, field);
    qll_json_close_object(to->json);
}

static void put_group(const qll_schema *to, const qll_field_group *group)
{
    qll_json *json = to->json;
    qll_json_put_object(json, qll_group_id(arena_of(to), to->what, to->all, to->count, group));
    put_type(to, "object");
    qll_json_put_object(json, "properties");
    for (size_t f = 0; f < group->count; f++) {
        put_property(to, group, &group->fields[f]);
    }
    qll_json_close_object(json);
    qll_json_put_list(json, "required");
    for (size_t f = 0; f < group->count; f++) {
        if (group->fields[f].obligatory) {
            qll_json_text(json, group->fields[f].key);
        }
    }
    qll_json_close_list(json);
    if (!group->is_open) {
        qll_json_put_bool(json, "additionalProperties", false);
    }
    if (group == &qll_group_record) {
        qll_schema_put_by_kind(to);
    }
    qll_json_close_object(json);
}

static void put_groups(qll_schema *to, qll_described what)
{
    to->what = what;
    to->all = qll_described_groups(what, arena_of(to), &to->count);
    for (size_t i = 0; i < to->count; i++) {
        put_group(to, to->all[i]);
    }
}

static void put_kind(const qll_schema *to, qll_kind kind)
{
    const qll_argument name = qll_as_kind(kind);
    qll_json *json = to->json;
    qll_json_put_object(json, qll_kind_word(arena_of(to), kind));
    qll_json_put_text(json, "title", qll_argument_text(arena_of(to), to->of->wording, &name));
    put_type(to, "string");
    qll_schema_put_pattern(to, "", qll_text_of(qll_pattern_quantity(arena_of(to), kind)), "");
    qll_json_put_list(json, "examples");
    qll_json_text(json, qll_units_example(kind));
    qll_json_close_list(json);
    qll_json_close_object(json);
}

/* The kinds that keys of the groups written last are of. */
static void mark_kinds(const qll_schema *to, bool *used)
{
    for (size_t i = 0; i < to->count; i++) {
        for (size_t f = 0; f < to->all[i]->count; f++) {
            const qll_field *field = &to->all[i]->fields[f];
            used[field->kind] = used[field->kind] || field->least != NULL;
        }
    }
}

/* Whether a document of @p what is one of @p part, or holds one. */
static bool holds(qll_described what, qll_described part)
{
    return what == part || (what == QLL_DESCRIBED_CASE && part == QLL_DESCRIBED_SURVEY)
           || (what == QLL_DESCRIBED_RECORD
               && (part == QLL_DESCRIBED_CASE || part == QLL_DESCRIBED_SURVEY));
}

void qll_schema_write(qll_json *json, const qll_description *of, qll_described what)
{
    qll_schema to = {.json = json, .of = of};
    qll_writer title = qll_writer_new(json->writer->arena);
    qll_write_format(&title, "quell %s", qll_described_words[what]);
    qll_json_open_object(json);
    qll_json_put_text(json, "$schema", "https://json-schema.org/draft/2020-12/schema");
    qll_json_put_written(json, "title", &title);
    qll_json_put_said(json, "$comment", of->wording, QLL_SAYS(SCHEMA_COMMENT));
    qll_schema_put_ref(&to, qll_described_words[what]);
    qll_json_put_object(json, "$defs");
    bool used[QLL_KIND_COUNT] = {false};
    for (unsigned part = 0; part < QLL_DESCRIBED_WORDS; part++) {
        if (holds(what, (qll_described)part)) {
            put_groups(&to, (qll_described)part);
            mark_kinds(&to, used);
        }
    }
    for (unsigned kind = QLL_KIND_NUMBER + 1; kind < QLL_KIND_COUNT; kind++) {
        if (used[kind]) {
            put_kind(&to, (qll_kind)kind);
        }
    }
    qll_json_close_object(json);
    qll_json_close_object(json);
}
