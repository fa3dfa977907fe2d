#include "base/quote.h"
#include "documents/field.h"

#include <stdint.h>

/* Longest text of a name, in bytes: it must fit a line of a report (our assumption). */
#define QLL_NAME_SIZE_MAX 200

static bool refuse_text(qll_reader *reader, const qll_node *node, qll_code code, const char *why)
{
    qll_writer says = qll_reader_says(reader);
    qll_write_found(&says, node);
    qll_write(&says, why);
    return qll_reader_refuse(reader, qll_at(node), code, &says, "");
}

const char *qll_object_text(const qll_object *object, const char *key)
{
    qll_reader *reader = object->reader;
    const qll_field *field = qll_group_field(object->group, key);
    const qll_node *node = qll_object_find(object, key);
    if (node == NULL) {
        if (field->fallback != NULL && !object->broken) {
            qll_object_assume_word(object, field);
            return field->fallback;
        }
        return NULL;
    }
    if (node->kind != QLL_NODE_TEXT) {
        (void)qll_reader_wrong_kind(reader, node, "text in quotes");
        return NULL;
    }
    qll_text text = qll_text_trimmed(node->text);
    if (text.size == 0) {
        (void)refuse_text(reader, node, QLL_CODE_OUT_OF_RANGE, " is empty; expected a name");
        return NULL;
    }
    if (text.size > QLL_NAME_SIZE_MAX) {
        (void)refuse_text(reader, node, QLL_CODE_TOO_LARGE,
                          " is longer than 200 bytes; a name must fit a line of the report");
        return NULL;
    }
    qll_writer visible = qll_writer_new(reader->arena);
    qll_write_visible(&visible, text);
    qll_text shown = qll_writer_text(&visible);
    if (shown.bytes == NULL) {
        reader->no_memory = true;
        return NULL;
    }
    if (!qll_text_equal(shown, text)) {
        (void)refuse_text(reader, node, QLL_CODE_ENCODING,
                          " holds a control character; a name is plain text on one line");
        return NULL;
    }
    const char *closed = qll_text_closed(text, reader->arena);
    reader->no_memory = reader->no_memory || closed == NULL;
    return closed;
}

static size_t word_index(const qll_field *field, qll_text word)
{
    for (size_t i = 0; i < field->word_count; i++) {
        if (qll_text_is(word, field->words[i])) {
            return i;
        }
    }
    return SIZE_MAX;
}

size_t qll_object_word(const qll_object *object, const char *key)
{
    qll_reader *reader = object->reader;
    const qll_field *field = qll_group_field(object->group, key);
    const qll_node *node = qll_object_find(object, key);
    if (node == NULL) {
        if (field->fallback == NULL || object->broken) {
            return SIZE_MAX;
        }
        qll_object_assume_word(object, field);
        return word_index(field, qll_text_of(field->fallback));
    }
    if (node->kind != QLL_NODE_TEXT) {
        (void)qll_reader_wrong_kind(reader, node, "a word in quotes");
        return SIZE_MAX;
    }
    size_t index = word_index(field, qll_text_trimmed(node->text));
    if (index == SIZE_MAX) {
        qll_writer what = qll_writer_new(reader->arena);
        qll_write(&what, "a word for ");
        qll_write(&what, key);
        const char *text = qll_writer_text(&what).bytes;
        (void)qll_reader_unknown_word(reader, qll_at(node), text == NULL ? "" : text, field->words,
                                      field->word_count);
    }
    return index;
}

bool qll_object_flag(const qll_object *object, const char *key, bool otherwise)
{
    const qll_node *node = qll_object_find(object, key);
    if (node == NULL) {
        return otherwise;
    }
    if (node->kind != QLL_NODE_TRUE && node->kind != QLL_NODE_FALSE) {
        (void)qll_reader_wrong_kind(object->reader, node, "true or false");
    }
    return node->kind == QLL_NODE_TRUE;
}

const qll_node *qll_object_list(const qll_object *object, const char *key, size_t most)
{
    qll_reader *reader = object->reader;
    const qll_node *node = qll_object_find(object, key);
    if (node == NULL) {
        return NULL;
    }
    if (node->kind != QLL_NODE_LIST) {
        (void)qll_reader_wrong_kind(reader, node, "a list in [ ]");
        return NULL;
    }
    if (node->child_count == 0) {
        qll_writer says = qll_reader_says(reader);
        qll_write(&says, "the list ");
        qll_write(&says, key);
        qll_write(&says, " is empty; give at least one entry");
        qll_write(&says,
                  qll_group_field(object->group, key)->obligatory ? "" : ", or leave the key out");
        (void)qll_reader_refuse(reader, qll_at(node), QLL_CODE_EMPTY_LIST, &says, "");
        return NULL;
    }
    if (node->child_count > most) {
        qll_writer says = qll_reader_says(reader);
        qll_write_format(&says, "%s has %zu entries; at most %zu are read", key, node->child_count,
                         most);
        (void)qll_reader_refuse(reader, qll_at(node), QLL_CODE_TOO_LARGE, &says, "");
        return NULL;
    }
    return node;
}
