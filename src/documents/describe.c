#include "documents/describe.h"

#include "documents/case_fields.h"
#include "documents/catalogue_fields.h"
#include "documents/record_fields.h"
#include "documents/survey_fields.h"

#include <assert.h>
#include <string.h>

const char *const qll_described_words[QLL_DESCRIBED_COUNT] = {
#define QLL_DESCRIBED_WORD(name, word) [QLL_DESCRIBED_##name] = (word),
    QLL_DESCRIBED_LIST(QLL_DESCRIBED_WORD)
#undef QLL_DESCRIBED_WORD
};

/* ---- groups ---- */

static const qll_field_group *const *groups_of(qll_described what, size_t *count)
{
    switch (what) {
    case QLL_DESCRIBED_SURVEY: return qll_survey_groups(count);
    case QLL_DESCRIBED_CATALOGUE: return qll_catalogue_groups(count);
    case QLL_DESCRIBED_CASE: return qll_case_groups(count);
    case QLL_DESCRIBED_RECORD: return qll_record_groups(count);
    case QLL_DESCRIBED_WORDS:
    case QLL_DESCRIBED_COUNT: break;
    }
    *count = 0;
    return NULL;
}

/* Takes @p part off the front of @p path; false where it does not begin so. */
static bool takes_off(const char **path, const char *part)
{
    const size_t size = strlen(part);
    const bool is_so = strncmp(*path, part, size) == 0;
    *path += is_so ? size : 0;
    return is_so;
}

static bool is_inside(const qll_field_group *inner, const qll_field_group *group,
                      const qll_field *field)
{
    const char *path = inner->path;
    return (field->value == QLL_VALUE_OBJECT || field->value == QLL_VALUE_LIST
            || field->value == QLL_VALUE_BODY)
           && takes_off(&path, group->path) && takes_off(&path, group->path[0] == '\0' ? "" : ".")
           && takes_off(&path, field->key)
           && takes_off(&path, field->value == QLL_VALUE_LIST ? "[]" : "") && path[0] == '\0';
}

static bool leads_to(const qll_field_group *group, const qll_field_group *inner)
{
    bool does = false;
    for (size_t f = 0; f < group->count && !does; f++) {
        does = is_inside(inner, group, &group->fields[f]);
    }
    return does;
}

const qll_field_group **qll_described_groups(qll_described what, qll_arena *arena, size_t *count)
{
    size_t all_count = 0;
    const qll_field_group *const *all = groups_of(what, &all_count);
    const qll_field_group **found = qll_arena_take(arena, all_count, sizeof(void *));
    *count = 0;
    if (found == NULL) {
        return NULL;
    }
    /* A group stands behind the one that leads to it. */
    for (size_t i = 0; i < all_count; i++) {
        bool is_led_to = i == 0;
        for (size_t j = 0; j < *count && !is_led_to; j++) {
            is_led_to = leads_to(found[j], all[i]);
        }
        if (is_led_to) {
            found[*count] = all[i];
            *count += 1;
        }
    }
    return found;
}

qll_groups_inside qll_groups_in(const qll_field_group *const *all, size_t count,
                                const qll_field_group *group, const qll_field *field)
{
    qll_groups_inside inside = {.count = 0};
    for (size_t i = 0; i < count; i++) {
        if (is_inside(all[i], group, field)) {
            assert(inside.count < QLL_GROUPS_INSIDE);
            inside.groups[inside.count] = all[i];
            inside.count += 1;
        }
    }
    return inside;
}

const char *qll_group_id(qll_arena *arena, qll_described what, const qll_field_group *const *all,
                         size_t count, const qll_field_group *group)
{
    qll_writer id = qll_writer_new(arena);
    qll_write(&id, qll_described_words[what]);
    qll_write(&id, group->path[0] == '\0' ? "" : ".");
    for (const char *at = group->path; *at != '\0'; at++) {
        qll_write_byte(&id, *at, *at == '[' || *at == ']' ? 0 : 1);
    }
    for (size_t i = 0; i < count; i++) {
        if (all[i] != group && strcmp(all[i]->path, group->path) == 0) {
            qll_write(&id, ".");
            qll_write(&id, group->fields[0].key);
            break;
        }
    }
    return qll_writer_text(&id).bytes;
}

/* The id of @p group, or of the one at @p path where it is NULL; NULL where @p what has none such. */
static const char *find_id(qll_arena *arena, qll_described what, const qll_field_group *group,
                           const char *path)
{
    size_t count = 0;
    const qll_field_group **all = qll_described_groups(what, arena, &count);
    for (size_t i = 0; i < count; i++) {
        if (group == NULL ? strcmp(all[i]->path, path) == 0 : all[i] == group) {
            return qll_group_id(arena, what, all, count, all[i]);
        }
    }
    return NULL;
}

const char *qll_record_body_id(qll_arena *arena, qll_record_kind kind)
{
    const qll_field_group *group = qll_record_body_group(kind);
    if (group != NULL) {
        const char *id = find_id(arena, QLL_DESCRIBED_RECORD, group, NULL);
        return id != NULL ? id : find_id(arena, QLL_DESCRIBED_CASE, group, NULL);
    }
    return kind == QLL_RECORD_SURVEY    ? qll_described_words[QLL_DESCRIBED_SURVEY]
           : kind == QLL_RECORD_STATION ? find_id(arena, QLL_DESCRIBED_SURVEY, NULL, "existing")
                                        : NULL;
}

/* ---- a field ---- */

const char *qll_field_path(qll_arena *arena, const qll_field_group *group, const qll_field *field)
{
    qll_writer path = qll_writer_new(arena);
    qll_write(&path, group->path);
    qll_write(&path, group->path[0] == '\0' ? "" : ".");
    qll_write(&path, field->key);
    return qll_writer_text(&path).bytes;
}

bool qll_is_asked_key(const char *key, const char *path)
{
    static const char brackets[] = "[]";
    if (key == NULL) {
        return true;
    }
    while (*key != '\0' || *path != '\0') {
        key += strspn(key, brackets);
        path += strspn(path, brackets);
        if (*key != *path) {
            return false;
        }
        key += *key == '\0' ? 0 : 1;
        path += *path == '\0' ? 0 : 1;
    }
    return true;
}

const char *qll_field_label(qll_arena *arena, const qll_wording *wording,
                            const qll_field_group *group, const qll_field *field)
{
    const qll_argument what = qll_as_is(qll_field_path(arena, group, field));
    return qll_wording_key_name(arena, wording, &what);
}

static const char *example_of(const qll_field *field)
{
    return field->example != NULL ? field->example : qll_units_example(field->kind);
}

static const char *words_of(qll_arena *arena, const qll_field *field)
{
    qll_writer words = qll_writer_new(arena);
    for (size_t i = 0; i < field->word_count; i++) {
        qll_write_format(&words, "%s\"%s\"", i == 0 ? "" : ", ", field->words[i]);
    }
    return qll_writer_text(&words).bytes;
}

static qll_said takes(qll_arena *arena, const qll_field *field)
{
    if (field->form != QLL_TEXT_NONE) {
        return (qll_said){.id = field->form};
    }
    switch (field->value) {
    case QLL_VALUE_TEXT:
        return field->example == NULL
                   ? (qll_said){.id = QLL_TEXT_TAKES_TEXT}
                   : (qll_said){QLL_TEXT_TAKES_TEXT_SUCH, {qll_as_is(field->example)}};
    case QLL_VALUE_WORD: return (qll_said){QLL_TEXT_VALUE, {qll_as_is(words_of(arena, field))}};
    case QLL_VALUE_QUANTITY:
        return field->kind == QLL_KIND_NUMBER
                   ? (qll_said){.id = QLL_TEXT_TAKES_NUMBER}
                   : (qll_said){QLL_TEXT_TAKES_QUANTITY,
                                {qll_as_kind(field->kind), qll_as_is(example_of(field))}};
    case QLL_VALUE_PAIR: return (qll_said){QLL_TEXT_TAKES_PAIR, {qll_as_kind(field->kind)}};
    case QLL_VALUE_WHOLE: return (qll_said){.id = QLL_TEXT_TAKES_WHOLE};
    case QLL_VALUE_VERSION: return (qll_said){QLL_TEXT_VALUE, {qll_as_is("1")}};
    case QLL_VALUE_FLAG: return (qll_said){.id = QLL_TEXT_TAKES_FLAG};
    case QLL_VALUE_SURVEY:
    case QLL_VALUE_OBJECT: return (qll_said){.id = QLL_TEXT_TAKES_OBJECT};
    case QLL_VALUE_TEXTS:
    case QLL_VALUE_LIST: return (qll_said){.id = QLL_TEXT_TAKES_LIST};
    case QLL_VALUE_NAME:
    case QLL_VALUE_WORD_OR_QUANTITY:
    case QLL_VALUE_COUNTS:
    case QLL_VALUE_MESH:
    case QLL_VALUE_METER_SIZE:
    case QLL_VALUE_HOURS:
    case QLL_VALUE_HOURLY:
    case QLL_VALUE_CURRENCY:
    case QLL_VALUE_ANSWERS:
    case QLL_VALUE_MEASURED:
    case QLL_VALUE_FIGURE:
    case QLL_VALUE_SHARES:
    case QLL_VALUE_ID:
    case QLL_VALUE_IDS:
    case QLL_VALUE_DAY:
    case QLL_VALUE_MOMENT:
    case QLL_VALUE_HASH:
    case QLL_VALUE_CASE:
    case QLL_VALUE_BODY: break;
    }
    assert(field->form != QLL_TEXT_NONE); /* a rule of its own is told by its form */
    return (qll_said){.id = QLL_TEXT_NONE};
}

const char *qll_field_takes(qll_arena *arena, const qll_wording *wording, const qll_field *field)
{
    const qll_said said = takes(arena, field);
    return qll_said_text(arena, wording, &said);
}

bool qll_is_figure(const char *text)
{
    return text[0] != '\0' && strchr("-0123456789", text[0]) != NULL;
}

const char *qll_limit_text(qll_arena *arena, const qll_wording *wording, const char *text,
                           qll_kind kind)
{
    const qll_argument written = qll_as_written(qll_text_of(text), kind);
    const char *shown = qll_argument_text(arena, wording, &written);
    qll_quantity quantity = {0};
    qll_units_refusal refusal;
    if (strcmp(shown, text) == 0 || kind == QLL_KIND_NUMBER
        || !qll_units_read(qll_text_of(text), kind, arena, &quantity, &refusal)
        || quantity.base == QLL_PRESSURE_ABSOLUTE || quantity.si == 0.0) {
        return shown;
    }
    qll_writer writer = qll_writer_new(arena);
    qll_units_write_beside(&writer, quantity.si, 0.0, kind, wording->units);
    return qll_writer_text(&writer).bytes;
}

static const char *quoted(qll_arena *arena, const char *text)
{
    qll_writer writer = qll_writer_new(arena);
    qll_json json = qll_json_new(&writer);
    qll_json_text(&json, text);
    return qll_writer_text(&writer).bytes;
}

/* "3 ft/s to 6 ft/s" as a list; of a pair without a default its limits. */
static const char *example_pair(qll_arena *arena, const qll_field *field)
{
    const char *to = field->fallback == NULL ? NULL : strstr(field->fallback, " to ");
    qll_writer writer = qll_writer_new(arena);
    if (to == NULL) {
        qll_write_format(&writer, "[\"%s\", \"%s\"]", field->least, field->most);
        return qll_writer_text(&writer).bytes;
    }
    qll_write(&writer, "[\"");
    qll_write_text(&writer, (qll_text){field->fallback, (size_t)(to - field->fallback)});
    qll_write_format(&writer, "\", \"%s\"]", to + strlen(" to "));
    return qll_writer_text(&writer).bytes;
}

const char *qll_field_example(qll_arena *arena, const qll_field *field)
{
    const bool is_number = field->kind == QLL_KIND_NUMBER;
    switch (field->value) {
    case QLL_VALUE_WORD: return quoted(arena, field->words[0]);
    case QLL_VALUE_WORD_OR_QUANTITY:
    case QLL_VALUE_QUANTITY:
        if (is_number) {
            return field->fallback != NULL ? field->fallback : field->most;
        }
        return quoted(arena, field->fallback != NULL ? field->fallback : example_of(field));
    case QLL_VALUE_PAIR: return example_pair(arena, field);
    case QLL_VALUE_WHOLE: return field->most;
    case QLL_VALUE_VERSION: return "1";
    case QLL_VALUE_FLAG: return "true";
    case QLL_VALUE_TEXT:
    case QLL_VALUE_NAME:
    case QLL_VALUE_HOURS:
        return field->example != NULL    ? quoted(arena, field->example)
               : field->fallback != NULL ? quoted(arena, field->fallback)
                                         : "";
    case QLL_VALUE_OBJECT:
    case QLL_VALUE_LIST:
    case QLL_VALUE_COUNTS:
    case QLL_VALUE_MESH:
    case QLL_VALUE_METER_SIZE:
    case QLL_VALUE_HOURLY:
    case QLL_VALUE_CURRENCY:
    case QLL_VALUE_TEXTS:
    case QLL_VALUE_SURVEY:
    case QLL_VALUE_ANSWERS:
    case QLL_VALUE_MEASURED:
    case QLL_VALUE_FIGURE:
    case QLL_VALUE_SHARES:
    case QLL_VALUE_ID:
    case QLL_VALUE_IDS:
    case QLL_VALUE_DAY:
    case QLL_VALUE_MOMENT:
    case QLL_VALUE_HASH:
    case QLL_VALUE_CASE:
    case QLL_VALUE_BODY: break;
    }
    return field->example != NULL ? field->example : "";
}

/* ---- words for machines ---- */

const char *qll_value_word(qll_value value)
{
    static const char *const words[] = {
        [QLL_VALUE_TEXT] = "text",
        [QLL_VALUE_WORD] = "word",
        [QLL_VALUE_QUANTITY] = "quantity",
        [QLL_VALUE_PAIR] = "pair",
        [QLL_VALUE_WHOLE] = "whole",
        [QLL_VALUE_VERSION] = "version",
        [QLL_VALUE_FLAG] = "flag",
        [QLL_VALUE_OBJECT] = "object",
        [QLL_VALUE_LIST] = "list",
        [QLL_VALUE_NAME] = "name",
        [QLL_VALUE_WORD_OR_QUANTITY] = "word_or_quantity",
        [QLL_VALUE_COUNTS] = "counts",
        [QLL_VALUE_MESH] = "mesh",
        [QLL_VALUE_METER_SIZE] = "meter_size",
        [QLL_VALUE_HOURS] = "hours",
        [QLL_VALUE_HOURLY] = "hourly",
        [QLL_VALUE_CURRENCY] = "currency",
        [QLL_VALUE_TEXTS] = "texts",
        [QLL_VALUE_SURVEY] = "survey",
        [QLL_VALUE_ANSWERS] = "answers",
        [QLL_VALUE_MEASURED] = "measured",
        [QLL_VALUE_FIGURE] = "figure",
        [QLL_VALUE_SHARES] = "shares",
        [QLL_VALUE_ID] = "id",
        [QLL_VALUE_IDS] = "ids",
        [QLL_VALUE_DAY] = "day",
        [QLL_VALUE_MOMENT] = "moment",
        [QLL_VALUE_HASH] = "hash",
        [QLL_VALUE_CASE] = "case",
        [QLL_VALUE_BODY] = "body",
    };
    return words[value];
}

const char *qll_kind_word(qll_arena *arena, qll_kind kind)
{
    static const char *const names[QLL_KIND_COUNT] = {
#define QLL_KIND_TEXT(name, ...) #name,
        QLL_KIND_LIST(QLL_KIND_TEXT)
#undef QLL_KIND_TEXT
    };
    qll_writer word = qll_writer_new(arena);
    for (const char *at = names[kind]; *at != '\0'; at++) {
        qll_write_byte(&word, *at >= 'A' && *at <= 'Z' ? (char)(*at - 'A' + 'a') : *at, 1);
    }
    return qll_writer_text(&word).bytes;
}
