#include "documents/field.h"

#include "base/quote.h"
#include "base/words.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

/* No group has more fields (asserted); used for the words of hints. */
#define QLL_FIELDS_MAX     32
/* A misspelt key is looked for among so many unknown ones; hostile input may hold millions. */
#define QLL_UNKNOWNS_TRIED 64

const qll_field *qll_group_field(const qll_field_group *group, const char *key)
{
    const qll_field *found = NULL;
    for (size_t i = 0; i < group->count && found == NULL; i++) {
        if (strcmp(group->fields[i].key, key) == 0) {
            found = &group->fields[i];
        }
    }
    assert(found != NULL); /* a reader asks only for keys of its group */
    return found;
}

static bool has_key(const qll_field_group *group, qll_text key)
{
    for (size_t i = 0; i < group->count; i++) {
        if (qll_text_is(key, group->fields[i].key)) {
            return true;
        }
    }
    return false;
}

static size_t keys_of(const qll_field_group *group, const char *keys[QLL_FIELDS_MAX])
{
    assert(group->count <= QLL_FIELDS_MAX);
    for (size_t i = 0; i < group->count; i++) {
        keys[i] = group->fields[i].key;
    }
    return group->count;
}

static void refuse_unknown(const qll_object *object, const qll_node *child)
{
    const char *keys[QLL_FIELDS_MAX];
    size_t count = keys_of(object->group, keys);
    if (qll_reader_drops(object->reader, qll_at_key(child))) {
        return;
    }
    qll_arena *arena = object->reader->arena;
    const char *nearest = qll_words_nearest(child->key, keys, count);
    const bool is_free = nearest != NULL && qll_node_find(object->node, nearest) == NULL;
    const qll_said says = {QLL_TEXT_KEY_UNKNOWN,
                           {qll_as_quoted(child->key), qll_as_text(object->group->name),
                            qll_as_words(arena, keys, count)}};
    (void)qll_reader_refuse_fixed(object->reader, qll_at_key(child), QLL_CODE_UNKNOWN_KEY, &says,
                                  qll_hint_word(nearest, arena),
                                  is_free ? qll_fix_text(QLL_FIX_RENAME, nearest, arena)
                                          : (qll_fix){.op = QLL_FIX_REMOVE});
}

/* A misspelt key is one problem, not a second one for the key that it was meant to be. */
static bool is_misspelt(const qll_object *object, const char *key)
{
    const char *keys[QLL_FIELDS_MAX];
    size_t count = keys_of(object->group, keys);
    size_t tried = 0;
    for (const qll_node *child = object->node->first_child;
         child != NULL && tried < QLL_UNKNOWNS_TRIED; child = child->next) {
        if (!has_key(object->group, child->key)) {
            tried += 1;
            const char *nearest = qll_words_nearest(child->key, keys, count);
            if (nearest != NULL && strcmp(nearest, key) == 0) {
                return true;
            }
        }
    }
    return false;
}

static void refuse_missing(const qll_object *object, const qll_field *field)
{
    const bool has_example = field->value == QLL_VALUE_QUANTITY && field->kind != QLL_KIND_NUMBER;
    assert(field->means != QLL_TEXT_NONE);
    const qll_said says = {has_example ? QLL_TEXT_KEY_MISSING_EXAMPLE : QLL_TEXT_KEY_MISSING,
                           {qll_as_text(object->group->name), qll_as_is(field->key),
                            qll_as_text(field->means), qll_as_is(qll_units_example(field->kind))}};
    const bool is_version = field->means == QLL_TEXT_MEANS_VERSION;
    const qll_fix version = {.op = QLL_FIX_ADD, .value = "1"};
    (void)qll_reader_refuse_fixed(object->reader, qll_at_missing(object->node, field->key),
                                  QLL_CODE_MISSING_KEY, &says, NULL,
                                  is_version ? version : (qll_fix){.op = QLL_FIX_NONE});
}

bool qll_object_needs(const qll_object *object, const char *key)
{
    if (!is_misspelt(object, key)) {
        refuse_missing(object, qll_group_field(object->group, key));
    }
    return false;
}

qll_object qll_object_open(qll_reader *reader, const qll_node *node, const qll_field_group *group)
{
    qll_object object = {.reader = reader, .node = node, .group = group};
    if (node == NULL) {
        return object;
    }
    if (node->kind != QLL_NODE_OBJECT) {
        (void)qll_reader_wrong_kind(reader, node, QLL_SAYS(EXPECT_OBJECT));
        return (qll_object){.reader = reader, .group = group, .broken = true};
    }
    for (const qll_node *child = node->first_child; child != NULL; child = child->next) {
        if (!has_key(group, child->key)) {
            refuse_unknown(&object, child);
        }
    }
    for (size_t i = 0; i < group->count; i++) {
        const qll_field *field = &group->fields[i];
        if (field->obligatory && qll_node_find(node, field->key) == NULL
            && !is_misspelt(&object, field->key)) {
            refuse_missing(&object, field);
        }
    }
    return object;
}

bool qll_reader_begins(qll_reader *reader, const qll_node *root, const qll_field_group *group)
{
    const char *what = group->fields[0].key;
    if (root->kind != QLL_NODE_OBJECT) {
        return qll_reader_wrong_kind(reader, root, QLL_SAYS(EXPECT_OBJECT));
    }
    const qll_node *version = qll_node_find(root, what);
    if (version != NULL && version->kind == QLL_NODE_NUMBER && version->number != 1.0) {
        return qll_reader_refuse(
            reader, qll_at(version), QLL_CODE_WRONG_VERSION,
            QLL_SAYS_WITH(VERSION_UNKNOWN, qll_as_is(what), qll_as_found(version)), NULL);
    }
    size_t known = 0;
    for (size_t i = 0; i < group->count; i++) {
        known += qll_node_find(root, group->fields[i].key) != NULL ? 1 : 0;
    }
    if (version != NULL || 2 * known > root->child_count) {
        return true;
    }
    return qll_reader_refuse(reader, qll_at_missing(root, what), QLL_CODE_MISSING_KEY,
                             QLL_SAYS_WITH(NO_SUCH_DOCUMENT, qll_as_is(what)), NULL);
}

const qll_node *qll_object_find(const qll_object *object, const char *key)
{
    assert(qll_group_field(object->group, key) != NULL);
    return object->node == NULL ? NULL : qll_node_find(object->node, key);
}

qll_object qll_object_inner(const qll_object *object, const char *key, const qll_field_group *group)
{
    qll_object inner = qll_object_open(object->reader, qll_object_find(object, key), group);
    inner.broken = inner.broken || object->broken;
    return inner;
}

/* ---- defaults ---- */

const char *qll_object_path(const qll_object *object, const char *key)
{
    qll_reader *reader = object->reader;
    const char *path =
        object->node == NULL ? object->group->path : qll_reader_path(reader, object->node);
    qll_writer writer = qll_writer_new(reader->arena);
    qll_write(&writer, path);
    qll_write(&writer, path[0] == '\0' ? "" : ".");
    qll_write(&writer, key);
    return qll_writer_text(&writer).bytes;
}

qll_where qll_object_where(const qll_object *object, const char *key)
{
    qll_reader *reader = object->reader;
    const qll_node *node = qll_object_find(object, key);
    if (node != NULL) {
        return qll_at(node);
    }
    if (object->node != NULL) {
        return qll_at_missing(object->node, key);
    }
    assert(reader->document != NULL); /* a table's rows are there */
    return qll_at_missing(reader->document->root, qll_object_path(object, key));
}

void qll_object_assume(const qll_object *object, const char *key, qll_argument value, qll_said why)
{
    if (!object->broken) {
        qll_assumed_add(object->reader->assumed, qll_as_is(qll_object_path(object, key)), value,
                        why);
    }
}

void qll_object_assume_quantity(const qll_object *object, const char *key, double si, qll_kind kind,
                                qll_said why)
{
    if (isfinite(si)) {
        qll_object_assume(object, key, qll_as_quantity(si, kind), why);
    }
}

void qll_object_assume_text(const qll_object *object, const char *key, qll_text_id value,
                            qll_text_id why)
{
    qll_object_assume(object, key, qll_as_text(value), (qll_said){.id = why});
}

void qll_object_assume_word(const qll_object *object, const qll_field *field)
{
    qll_object_assume(object, field->key, qll_as_word(field->fallback), field->why);
}

qll_argument qll_of_valves(qll_arena *arena, qll_writer *ids, size_t more, const char *key)
{
    const qll_argument named = qll_as_is_text(qll_writer_text(ids));
    const qll_said all = {QLL_TEXT_AND_MORE, {named, qll_as_whole(more)}};
    return qll_as_said(arena,
                       (qll_said){QLL_TEXT_WHAT_OF_VALVES,
                                  {more > 0 ? qll_as_said(arena, all) : named, qll_as_is(key)}});
}

/* SI value of a field's own text, such as its default. */
static double own_si(qll_arena *arena, const char *text, qll_kind kind)
{
    qll_quantity quantity = {0};
    qll_units_refusal refusal;
    bool is_read = qll_units_read(qll_text_of(text), kind, arena, &quantity, &refusal);
    assert(is_read);
    return is_read ? quantity.si : (double)NAN;
}

static double take_default(const qll_object *object, const qll_field *field)
{
    if (field->fallback == NULL || object->broken) {
        return NAN;
    }
    qll_object_assume(object, field->key, qll_as_written(qll_text_of(field->fallback), field->kind),
                      field->why);
    return own_si(object->reader->arena, field->fallback, field->kind);
}

/* ---- quantities ---- */

static qll_argument as_kind(qll_kind kind)
{
    return kind == QLL_KIND_NUMBER ? qll_as_text(QLL_TEXT_EXPECT_NUMBER) : qll_as_kind(kind);
}

/* A bare number is meant in the survey's own units, most likely; whoever takes the fix sees them. */
static qll_fix fix_unit(qll_reader *reader, const qll_node *node, qll_kind kind)
{
    qll_writer value = qll_writer_new(reader->arena);
    qll_write_text(&value, node->text);
    qll_write(&value, " ");
    qll_write(&value, qll_units_name(kind, reader->units));
    return qll_fix_text(QLL_FIX_REPLACE, qll_writer_text(&value).bytes, reader->arena);
}

static bool refuse_no_unit(qll_reader *reader, const qll_node *node, qll_kind kind)
{
    if (qll_reader_drops(reader, qll_at(node))) {
        return false;
    }
    return qll_reader_refuse_fixed(reader, qll_at(node), QLL_CODE_NO_UNIT,
                                   QLL_SAYS_WITH(NO_UNIT_WRITE, qll_as_found(node), as_kind(kind),
                                                 qll_as_is(qll_units_example(kind))),
                                   NULL, fix_unit(reader, node, kind));
}

static bool refuse_kind(qll_reader *reader, const qll_node *node, qll_kind kind)
{
    if (kind == QLL_KIND_NUMBER) {
        return qll_reader_wrong_kind(reader, node,
                                     reader->table == NULL ? QLL_SAYS(EXPECT_BARE_NUMBER)
                                                           : QLL_SAYS(EXPECT_NUMBER));
    }
    if (node->kind == QLL_NODE_NUMBER) {
        return refuse_no_unit(reader, node, kind);
    }
    return qll_reader_wrong_kind(
        reader, node,
        QLL_SAYS_WITH(EXPECT_QUANTITY, as_kind(kind), qll_as_is(qll_units_example(kind))));
}

qll_pair qll_field_range(const qll_field *field, qll_arena *arena)
{
    return (qll_pair){field->least == NULL ? (double)NAN : own_si(arena, field->least, field->kind),
                      field->most == NULL ? (double)NAN : own_si(arena, field->most, field->kind)};
}

static bool refuse_range(qll_reader *reader, const qll_node *node, const qll_field *field,
                         bool is_below)
{
    const qll_said says = {is_below ? QLL_TEXT_BELOW_LEAST : QLL_TEXT_ABOVE_MOST,
                           {qll_as_found(node), qll_as_is(is_below ? field->least : field->most),
                            qll_as_is(field->key), qll_as_text(field->because)}};
    return qll_reader_refuse(reader, qll_at(node), QLL_CODE_OUT_OF_RANGE, &says, NULL);
}

static bool in_range(qll_reader *reader, const qll_node *node, const qll_field *field, double si)
{
    const qll_pair range = qll_field_range(field, reader->arena);
    if (si < range.low) {
        return refuse_range(reader, node, field, true);
    }
    if (si > range.high) {
        return refuse_range(reader, node, field, false);
    }
    return true;
}

/* As the unit table would have it, or the same number in the survey's own units. */
static qll_fix fix_quantity(qll_reader *reader, const qll_node *node, qll_kind kind,
                            const qll_units_refusal *refusal)
{
    double number = 0.0;
    const qll_text text = qll_text_trimmed(node->text);
    if (refusal->code == QLL_CODE_NO_UNIT && text.size > 0
        && qll_text_number(text, &number) == text.size) {
        return fix_unit(reader, node, kind);
    }
    return qll_fix_text(QLL_FIX_REPLACE, refusal->corrected, reader->arena);
}

double qll_reader_quantity(qll_reader *reader, const qll_node *node, const qll_field *field)
{
    double si = node->number;
    bool is_number = field->kind == QLL_KIND_NUMBER;
    if (node->kind != (is_number ? QLL_NODE_NUMBER : QLL_NODE_TEXT)) {
        (void)refuse_kind(reader, node, field->kind);
        return NAN;
    }
    if (!is_number) {
        qll_quantity quantity;
        qll_units_refusal refusal;
        if (!qll_units_read(node->text, field->kind, reader->arena, &quantity, &refusal)) {
            if (!qll_reader_drops(reader, qll_at(node))) {
                (void)qll_reader_refuse_fixed(reader, qll_at(node), refusal.code, &refusal.says,
                                              qll_hint_word(refusal.hint, reader->arena),
                                              fix_quantity(reader, node, field->kind, &refusal));
            }
            return NAN;
        }
        si = field->kind == QLL_KIND_PRESSURE ? qll_units_gauge_pa(quantity, reader->barometric_pa)
                                              : quantity.si;
    }
    return in_range(reader, node, field, si) ? si : (double)NAN;
}

double qll_object_quantity(const qll_object *object, const char *key)
{
    const qll_field *field = qll_group_field(object->group, key);
    const qll_node *node = qll_object_find(object, key);
    return node == NULL ? take_default(object, field)
                        : qll_reader_quantity(object->reader, node, field);
}

double qll_object_whole(const qll_object *object, const char *key)
{
    const qll_node *node = qll_object_find(object, key);
    double value = qll_object_quantity(object, key);
    if (node != NULL && isfinite(value) && value != floor(value)) {
        (void)qll_reader_refuse(object->reader, qll_at(node), QLL_CODE_OUT_OF_RANGE,
                                QLL_SAYS_WITH(NOT_WHOLE, qll_as_found(node)), NULL);
        return NAN;
    }
    return value;
}

static qll_pair default_pair(const qll_object *object, const qll_field *field)
{
    qll_pair none = {NAN, NAN};
    if (field->fallback == NULL || object->broken) {
        return none;
    }
    /* "3 ft/s to 6 ft/s" */
    qll_text whole = qll_text_of(field->fallback);
    const char *to = strstr(field->fallback, " to ");
    assert(to != NULL);
    qll_quantity low = {0};
    qll_quantity high = {0};
    qll_units_refusal refusal;
    qll_text first = {whole.bytes, (size_t)(to - whole.bytes)};
    qll_text second = qll_text_of(to + 4);
    bool is_read = qll_units_read(first, field->kind, object->reader->arena, &low, &refusal)
                   && qll_units_read(second, field->kind, object->reader->arena, &high, &refusal);
    assert(is_read);
    qll_object_assume(
        object, field->key,
        qll_as_said(object->reader->arena, (qll_said){QLL_TEXT_VALUE_RANGE,
                                                      {qll_as_written(first, field->kind),
                                                       qll_as_written(second, field->kind)}}),
        field->why);
    return is_read ? (qll_pair){low.si, high.si} : none;
}

qll_pair qll_object_pair(const qll_object *object, const char *key)
{
    qll_pair none = {NAN, NAN};
    qll_reader *reader = object->reader;
    const qll_field *field = qll_group_field(object->group, key);
    const qll_node *node = qll_object_find(object, key);
    if (node == NULL) {
        return default_pair(object, field);
    }
    if (node->kind != QLL_NODE_LIST || node->child_count != 2) {
        (void)qll_reader_wrong_kind(reader, node, QLL_SAYS(EXPECT_PAIR));
        return none;
    }
    const qll_node *second = node->first_child->next;
    qll_pair pair = {qll_reader_quantity(reader, node->first_child, field),
                     qll_reader_quantity(reader, second, field)};
    if (pair.low >= pair.high) {
        (void)qll_reader_refuse(
            reader, qll_at(second), QLL_CODE_NOT_RISING,
            QLL_SAYS_WITH(LOWER_FIRST, qll_as_found(second), qll_as_found(node->first_child)),
            NULL);
        return none;
    }
    return pair;
}
