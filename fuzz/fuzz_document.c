/* JSON in: our reader against jansson, and what our writer makes of the tree against the tree.
 *
 * Meant differences, where ours refuses and jansson does not: nesting deeper than
 * QLL_DOCUMENT_DEPTH; a zero byte in the text (jansson 2.14 steps over one behind a number). Where jansson refuses and ours does not: the byte order mark, taken off here
 * before jansson sees the text. U+0000 (JSON_ALLOW_NUL is off) and numbers too large for a double
 * are refused by both. */
#include "base/document.h"
#include "require.h"

#include <jansson.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static bool same_text(qll_text ours, const char *theirs, size_t size)
{
    return ours.size == size && (size == 0 || memcmp(ours.bytes, theirs, size) == 0);
}

/* One level at a time; depth is limited by the reader. */
static void require_same(const qll_node *node, const json_t *value)
{
    switch (node->kind) {
    case QLL_NODE_OBJECT:
        QLL_REQUIRE(json_is_object(value) && json_object_size(value) == node->child_count);
        break;
    case QLL_NODE_LIST:
        QLL_REQUIRE(json_is_array(value) && json_array_size(value) == node->child_count);
        break;
    case QLL_NODE_TEXT:
        QLL_REQUIRE(json_is_string(value)
                    && same_text(node->text, json_string_value(value), json_string_length(value)));
        break;
    case QLL_NODE_NUMBER:
        QLL_REQUIRE(json_is_real(value) && json_real_value(value) == node->number);
        break;
    case QLL_NODE_TRUE: QLL_REQUIRE(json_is_true(value)); break;
    case QLL_NODE_FALSE: QLL_REQUIRE(json_is_false(value)); break;
    case QLL_NODE_NULL: QLL_REQUIRE(json_is_null(value)); break;
    }
    for (const qll_node *child = node->first_child; child != NULL; child = child->next) {
        const json_t *inside = node->kind == QLL_NODE_LIST
                                   ? json_array_get(value, child->index)
                                   : json_object_getn(value, child->key.bytes, child->key.size);
        QLL_REQUIRE(inside != NULL && child->parent == node);
        require_same(child, inside);
    }
}

static void require_equal(const qll_node *a, const qll_node *b)
{
    QLL_REQUIRE(a->kind == b->kind && a->child_count == b->child_count);
    QLL_REQUIRE(qll_text_equal(a->key, b->key) && a->number == b->number);
    QLL_REQUIRE(a->kind == QLL_NODE_NUMBER || qll_text_equal(a->text, b->text));
    const qll_node *other = b->first_child;
    for (const qll_node *child = a->first_child; child != NULL; child = child->next) {
        require_equal(child, other);
        other = other->next;
    }
}

static void require_places(const qll_document *document, const qll_node *node, qll_arena *arena)
{
    qll_place place = qll_node_place(document, node, true, arena);
    QLL_REQUIRE(place.line > 0 && place.column > 0);
    QLL_REQUIRE(node->offset < document->source.size);
    for (const qll_node *child = node->first_child; child != NULL; child = child->next) {
        require_places(document, child, arena);
    }
}

static void require_round_trip(const qll_document *document, qll_arena *arena)
{
    qll_writer writer = qll_writer_new(arena);
    qll_json json = qll_json_new(&writer);
    qll_json_node(&json, document->root);
    qll_problems problems = qll_problems_none(arena);
    qll_document again;
    qll_status status =
        qll_document_read(qll_writer_text(&writer), "again", arena, &again, &problems);
    QLL_REQUIRE(status == QLL_OK);
    require_equal(document->root, again.root);
}

static bool has_code(const qll_problems *problems, qll_code code)
{
    return problems->kept_count > 0 && problems->kept[0].code == code;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    qll_arena *arena = qll_arena_open((size_t)256 * 1024 * 1024);
    qll_problems problems = qll_problems_none(arena);
    qll_document document;
    qll_text source = {(const char *)data, size};
    qll_status status = qll_document_read(source, "input.json", arena, &document, &problems);
    QLL_REQUIRE(status == QLL_OK || status == QLL_REFUSED);
    QLL_REQUIRE((status == QLL_OK) == (problems.count == 0));
    require_clean_problems(&problems);

    json_error_t error;
    json_t *value =
        json_loadb(document.source.bytes, document.source.size,
                   JSON_REJECT_DUPLICATES | JSON_DECODE_ANY | JSON_DECODE_INT_AS_REAL, &error);
    bool has_zero = size > 0 && memchr(data, 0, size) != NULL;
    QLL_REQUIRE(!has_zero || status == QLL_REFUSED);
    if (!has_zero && !has_code(&problems, QLL_CODE_TOO_DEEP)) {
        QLL_REQUIRE((status == QLL_OK) == (value != NULL));
    }
    if (status == QLL_OK) {
        require_same(document.root, value);
        require_places(&document, document.root, arena);
        require_round_trip(&document, arena);
    }
    json_decref(value);
    qll_arena_close(arena);
    return 0;
}
