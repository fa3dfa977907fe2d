#include "base/quote.h"
#include "documents/field.h"

#include <stdint.h>

/* Longest text of a name, in bytes: it must fit a line of a report (our assumption). */
#define QLL_NAME_SIZE_MAX 200

static bool refuse_text(qll_reader *reader, const qll_node *node, qll_code code, qll_text_id says)
{
    const qll_said said = {says, {qll_as_found(node)}};
    return qll_reader_refuse(reader, qll_at(node), code, &said, NULL);
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
        (void)qll_reader_wrong_kind(reader, node, QLL_SAYS(EXPECT_TEXT));
        return NULL;
    }
    qll_text text = qll_text_trimmed(node->text);
    if (text.size == 0) {
        (void)refuse_text(reader, node, QLL_CODE_OUT_OF_RANGE, QLL_TEXT_NAME_EMPTY);
        return NULL;
    }
    if (text.size > QLL_NAME_SIZE_MAX) {
        (void)refuse_text(reader, node, QLL_CODE_TOO_LARGE, QLL_TEXT_NAME_LONG);
        return NULL;
    }
    qll_writer visible = qll_writer_new(reader->arena);
    qll_write_visible(&visible, text);
    if (!qll_text_equal(qll_writer_text(&visible), text)) {
        (void)refuse_text(reader, node, QLL_CODE_ENCODING, QLL_TEXT_NAME_CONTROL);
        return NULL;
    }
    return qll_text_closed(text, reader->arena);
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
        (void)qll_reader_wrong_kind(reader, node, QLL_SAYS(EXPECT_WORD));
        return SIZE_MAX;
    }
    size_t index = word_index(field, qll_text_trimmed(node->text));
    if (index == SIZE_MAX) {
        (void)qll_reader_unknown_word(reader, qll_at(node),
                                      QLL_SAYS_WITH(A_WORD_FOR, qll_as_is(key)), field->words,
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
        (void)qll_reader_wrong_kind(object->reader, node, QLL_SAYS(EXPECT_FLAG));
    }
    return node->kind == QLL_NODE_TRUE;
}

const qll_node *qll_object_list(const qll_object *object, const char *key)
{
    qll_reader *reader = object->reader;
    const qll_node *node = qll_object_find(object, key);
    if (node == NULL) {
        return NULL;
    }
    if (node->kind != QLL_NODE_LIST) {
        (void)qll_reader_wrong_kind(reader, node, QLL_SAYS(EXPECT_LIST));
        return NULL;
    }
    if (node->child_count == 0) {
        const bool is_needed = qll_group_field(object->group, key)->obligatory;
        const qll_said says = {is_needed ? QLL_TEXT_LIST_EMPTY : QLL_TEXT_LIST_EMPTY_OR_NONE,
                               {qll_as_is(key)}};
        (void)qll_reader_refuse_fixed(reader, qll_at(node), QLL_CODE_EMPTY_LIST, &says, NULL,
                                      (qll_fix){.op = is_needed ? QLL_FIX_NONE : QLL_FIX_REMOVE});
        return NULL;
    }
    const size_t most = qll_group_field(object->group, key)->entries_most;
    if (node->child_count > most) {
        (void)qll_reader_refuse(reader, qll_at(node), QLL_CODE_TOO_LARGE,
                                QLL_SAYS_WITH(LIST_LONG, qll_as_is(key),
                                              qll_as_whole(node->child_count), qll_as_whole(most)),
                                NULL);
        return NULL;
    }
    return node;
}
