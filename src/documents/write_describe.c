#include "base/units_table.h"
#include "documents/describe.h"
#include "documents/write_common.h"

#include <string.h>

static void put_said_or_null(qll_json *json, const char *key, const qll_wording *wording,
                             qll_text_id id)
{
    if (id == QLL_TEXT_NONE) {
        qll_json_put_null(json, key);
    } else {
        qll_json_put_said(json, key, wording, &(const qll_said){.id = id});
    }
}

/* ---- keys ---- */

/* SI; null of what is no quantity. */
static void put_si(qll_json *json, qll_text text, qll_kind kind)
{
    qll_quantity quantity = {0};
    qll_units_refusal refusal;
    if (qll_units_read(text, kind, json->writer->arena, &quantity, &refusal)) {
        qll_json_number(json, quantity.si);
    } else {
        qll_json_null(json);
    }
}

/* "3 ft/s to 6 ft/s". */
static void put_own_pair(qll_json *json, const qll_wording *wording, qll_text low, qll_text high,
                         qll_kind kind)
{
    qll_json_put_said(
        json, "shown", wording,
        QLL_SAYS_WITH(VALUE_RANGE, qll_as_written(low, kind), qll_as_written(high, kind)));
    qll_json_put_list(json, "si");
    put_si(json, low, kind);
    put_si(json, high, kind);
    qll_json_close_list(json);
}

/* A text of a table: as it stands there, as people read it, and in SI where it is a quantity. */
static void put_own(qll_json *json, const qll_wording *wording, const qll_field *field,
                    const char *text)
{
    qll_arena *arena = json->writer->arena;
    const qll_text whole = qll_text_of(text);
    qll_json_put_text(json, "text", text);
    const char *to = field->value == QLL_VALUE_PAIR ? strstr(text, " to ") : NULL;
    if (to != NULL) {
        put_own_pair(json, wording, (qll_text){text, (size_t)(to - text)},
                     qll_text_of(to + strlen(" to ")), field->kind);
        return;
    }
    const bool is_word = !qll_is_figure(text);
    const qll_argument word = qll_as_word(text);
    qll_json_put_text(json, "shown",
                      is_word ? qll_argument_text(arena, wording, &word)
                              : qll_limit_text(arena, wording, text, field->kind));
    qll_json_key(json, "si");
    put_si(json, whole, field->kind);
}

static void put_limit(qll_json *json, const char *key, const qll_wording *wording,
                      const qll_field *field, const char *text)
{
    if (text == NULL) {
        qll_json_put_null(json, key);
        return;
    }
    qll_json_put_object(json, key);
    put_own(json, wording, field, text);
    qll_json_close_object(json);
}

static void put_default(qll_json *json, const qll_wording *wording, const qll_field *field)
{
    if (field->fallback == NULL) {
        qll_json_put_null(json, "default");
        return;
    }
    qll_json_put_object(json, "default");
    put_own(json, wording, field, field->fallback);
    qll_json_put_said(json, "why", wording, &field->why);
    qll_json_close_object(json);
}

static void put_words(qll_json *json, const qll_wording *wording, const qll_field *field)
{
    qll_json_put_list(json, "words");
    for (size_t i = 0; i < field->word_count; i++) {
        const qll_argument word = qll_as_word(field->words[i]);
        qll_json_open_object(json);
        qll_json_put_text(json, "word", field->words[i]);
        qll_json_put_text(json, "says", qll_argument_text(json->writer->arena, wording, &word));
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

/* The groups of a document that is being written. */
typedef struct described_groups {
    qll_described what;
    const qll_field_group **all;
    size_t count;
} described_groups;

static void put_holds(qll_json *json, const described_groups *of, const qll_field_group *group,
                      const qll_field *field)
{
    const qll_groups_inside inside = qll_groups_in(of->all, of->count, group, field);
    qll_json_put_list(json, "holds");
    for (size_t i = 0; i < inside.count; i++) {
        qll_json_text(json, qll_group_id(json->writer->arena, of->what, of->all, of->count,
                                         inside.groups[i]));
    }
    if (field->value == QLL_VALUE_SURVEY || field->value == QLL_VALUE_CASE) {
        qll_json_text(json,
                      qll_described_words[field->value == QLL_VALUE_SURVEY ? QLL_DESCRIBED_SURVEY
                                                                           : QLL_DESCRIBED_CASE]);
    }
    qll_json_close_list(json);
}

static void put_key(qll_json *json, const qll_wording *wording, const described_groups *of,
                    const qll_field_group *group, const qll_field *field)
{
    qll_arena *arena = json->writer->arena;
    const bool has_kind = field->least != NULL || field->value == QLL_VALUE_QUANTITY
                          || field->value == QLL_VALUE_PAIR;
    qll_json_open_object(json);
    qll_json_put_text(json, "key", field->key);
    qll_json_put_text(json, "path", qll_field_path(arena, group, field));
    qll_json_put_text(json, "label", qll_field_label(arena, wording, group, field));
    put_said_or_null(json, "means", wording, field->means);
    qll_json_put_text(json, "value", qll_value_word(field->value));
    qll_json_put_text_or_null(json, "kind", has_kind ? qll_kind_word(arena, field->kind) : NULL);
    qll_json_put_text(json, "takes", qll_field_takes(arena, wording, field));
    const char *example = qll_field_example(arena, field);
    qll_json_put_text_or_null(json, "example", example[0] == '\0' ? NULL : example);
    qll_json_put_bool(json, "needed", field->obligatory);
    put_limit(json, "least", wording, field, field->least);
    put_limit(json, "most", wording, field, field->most);
    put_said_or_null(json, "because", wording, field->because);
    put_default(json, wording, field);
    put_said_or_null(json, "otherwise", wording, field->computed);
    put_words(json, wording, field);
    qll_json_put_text_or_null(json, "names", qll_vocabulary_words[field->names]);
    if (field->entries_most > 0) {
        qll_json_put_whole(json, "entries_most", (long long)field->entries_most);
    } else {
        qll_json_put_null(json, "entries_most");
    }
    put_holds(json, of, group, field);
    qll_json_close_object(json);
}

/* Does @p group have the key that is asked for? */
static bool has_asked(const qll_description *of, qll_arena *arena, const qll_field_group *group)
{
    bool has = of->key == NULL;
    for (size_t f = 0; f < group->count && !has; f++) {
        has = qll_is_asked_key(of->key, qll_field_path(arena, group, &group->fields[f]));
    }
    return has;
}

static void put_group(qll_json *json, const qll_description *description,
                      const described_groups *of, const qll_field_group *group)
{
    const qll_wording *wording = description->wording;
    qll_arena *arena = json->writer->arena;
    if (!has_asked(description, arena, group)) {
        return;
    }
    qll_json_open_object(json);
    qll_json_put_text(json, "id", qll_group_id(arena, of->what, of->all, of->count, group));
    qll_json_put_text(json, "path", group->path);
    put_said_or_null(json, "name", wording, group->name);
    qll_json_put_bool(json, "may_hold_more", group->is_open);
    qll_json_put_list(json, "keys");
    for (size_t f = 0; f < group->count; f++) {
        if (qll_is_asked_key(description->key, qll_field_path(arena, group, &group->fields[f]))) {
            put_key(json, wording, of, group, &group->fields[f]);
        }
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}

/* What the body of a record holds, by its kind. */
static void put_bodies(qll_json *json, const qll_wording *wording)
{
    qll_arena *arena = json->writer->arena;
    qll_json_put_list(json, "bodies");
    for (unsigned kind = 0; kind < QLL_RECORD_KIND_COUNT; kind++) {
        qll_json_open_object(json);
        qll_json_put_text(json, "kind", qll_record_kind_words[kind]);
        put_said_or_null(json, "says", wording,
                         (qll_text_id)((unsigned)QLL_TEXT_RECORD_IS_VISIT + kind));
        qll_json_put_bool(json, "fact", qll_record_is_fact((qll_record_kind)kind));
        qll_json_put_text_or_null(json, "holds", qll_record_body_id(arena, (qll_record_kind)kind));
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static void put_document(qll_json *json, const qll_description *description, qll_described what)
{
    described_groups of = {.what = what};
    of.all = qll_described_groups(what, json->writer->arena, &of.count);
    qll_json_open_object(json);
    qll_json_put_text(json, "document", qll_described_words[what]);
    qll_json_put_list(json, "groups");
    for (size_t i = 0; i < of.count; i++) {
        put_group(json, description, &of, of.all[i]);
    }
    qll_json_close_list(json);
    if (what == QLL_DESCRIBED_RECORD) {
        put_bodies(json, description->wording);
    }
    qll_json_close_object(json);
}

/* ---- kinds and their units ---- */

static void put_unit(qll_json *json, const qll_unit *unit)
{
    qll_unit_system system = QLL_UNITS_US;
    qll_writer one = qll_writer_new(json->writer->arena);
    qll_write_format(&one, "1 %s", unit->name);
    const bool is_of_one = qll_units_system_of(qll_writer_text(&one), &system);
    const char *word = system == QLL_UNITS_US ? "us" : "si";
    qll_json_open_object(json);
    qll_json_put_text(json, "unit", unit->name);
    qll_json_put_list(json, "also");
    for (size_t i = 0; i < QLL_UNIT_SPELLINGS && unit->spellings[i] != NULL; i++) {
        qll_json_text(json, unit->spellings[i]);
    }
    qll_json_close_list(json);
    qll_json_put_text_or_null(json, "system", is_of_one ? word : NULL);
    qll_json_put_bool(json, "absolute", unit->absolute);
    qll_json_close_object(json);
}

static void put_kind(qll_json *json, const qll_wording *wording, qll_kind kind)
{
    qll_arena *arena = json->writer->arena;
    const qll_argument name = qll_as_kind(kind);
    qll_json_open_object(json);
    qll_json_put_text(json, "kind", qll_kind_word(arena, kind));
    qll_json_put_text(json, "name", qll_argument_text(arena, wording, &name));
    qll_json_put_text(json, "si_unit", qll_units_si(kind));
    qll_json_put_text(json, "example", qll_units_example(kind));
    qll_json_put_text(json, "us", qll_units_name(kind, QLL_UNITS_US));
    qll_json_put_text(json, "si", qll_units_name(kind, QLL_UNITS_SI));
    qll_json_put_list(json, "units");
    for (size_t i = 0; i < qll_units_table_count; i++) {
        if ((qll_units_table[i].kinds & qll_unit_kind_bit(kind)) != 0) {
            put_unit(json, &qll_units_table[i]);
        }
    }
    qll_json_close_list(json);
    qll_json_close_object(json);
}

/* ---- the whole ---- */

static void put_rules(qll_json *json, const qll_wording *wording)
{
    size_t count = 0;
    const qll_unsayable *rules = qll_unsayables(&count);
    qll_json_put_list(json, "not_in_schema");
    for (size_t i = 0; i < count; i++) {
        qll_json_open_object(json);
        qll_json_put_text(json, "rule", rules[i].name);
        qll_json_put_text(json, "code", qll_code_word(rules[i].code));
        qll_json_put_list(json, "keys");
        for (size_t k = 0; k < rules[i].key_count; k++) {
            qll_json_text(json, rules[i].keys[k]);
        }
        qll_json_close_list(json);
        put_said_or_null(json, "says", wording, rules[i].says);
        qll_json_close_object(json);
    }
    qll_json_close_list(json);
}

static bool shows(const qll_description *of, qll_described what)
{
    return (of->shown & (1U << (unsigned)what)) != 0;
}

void qll_describe_write(qll_json *json, const qll_description *of)
{
    const qll_wording *wording = of->wording;
    qll_json_open_object(json);
    qll_json_put_head(json, "describe", wording, of->problems);
    qll_json_put_parents(json, wording, of->assumed, NULL, 0);
    qll_json_put_list(json, "documents");
    for (unsigned i = 0; i < QLL_DESCRIBED_WORDS; i++) {
        if (shows(of, (qll_described)i)) {
            put_document(json, of, (qll_described)i);
        }
    }
    qll_json_close_list(json);
    qll_json_put_list(json, "kinds");
    for (unsigned i = 0; i < QLL_KIND_COUNT; i++) {
        put_kind(json, wording, (qll_kind)i);
    }
    qll_json_close_list(json);
    put_rules(json, wording);
    if (shows(of, QLL_DESCRIBED_WORDS)) {
        qll_describe_write_words(json, of);
    }
    qll_json_close_object(json);
}
