#include "base/document.h"
#include "base/quote.h"

#include <assert.h>
#include <math.h>

qll_json qll_json_new(qll_writer *writer)
{
    return (qll_json){.writer = writer, .first = true};
}

static void write_line_break(qll_json *json)
{
    qll_write_byte(json->writer, '\n', 1);
    qll_write_byte(json->writer, ' ', (size_t)json->depth * 2);
}

/* What stands between the last thing written and the next value or key. */
static void write_gap(qll_json *json)
{
    if (json->after_key) {
        json->after_key = false;
        return;
    }
    if (json->depth > 0) {
        qll_write(json->writer, json->first ? "" : ",");
        write_line_break(json);
    }
    json->first = false;
}

static void open_container(qll_json *json, char bracket)
{
    write_gap(json);
    qll_write_byte(json->writer, bracket, 1);
    json->depth += 1;
    json->first = true;
}

static void close_container(qll_json *json, char bracket)
{
    assert(json->depth > 0 && !json->after_key);
    json->depth -= 1;
    if (!json->first) {
        write_line_break(json);
    }
    qll_write_byte(json->writer, bracket, 1);
    json->first = false;
}

void qll_json_open_object(qll_json *json)
{
    open_container(json, '{');
}

void qll_json_close_object(qll_json *json)
{
    close_container(json, '}');
}

void qll_json_open_list(qll_json *json)
{
    open_container(json, '[');
}

void qll_json_close_list(qll_json *json)
{
    close_container(json, ']');
}

static void write_key(qll_json *json, qll_text key)
{
    assert(!json->after_key);
    write_gap(json);
    qll_write_json_text(json->writer, key);
    qll_write(json->writer, ": ");
    json->after_key = true;
}

void qll_json_key(qll_json *json, const char *key)
{
    write_key(json, qll_text_of(key));
}

static void write_text(qll_json *json, qll_text text)
{
    write_gap(json);
    qll_write_json_text(json->writer, text);
}

void qll_json_literal(qll_json *json, qll_text literal)
{
    write_gap(json);
    qll_write_text(json->writer, literal);
}

void qll_json_text(qll_json *json, const char *closed)
{
    write_text(json, qll_text_of(closed));
}

static void write_word(qll_json *json, const char *word)
{
    write_gap(json);
    qll_write(json->writer, word);
}

void qll_json_number(qll_json *json, double value)
{
    assert(isfinite(value));
    write_gap(json);
    qll_write_number(json->writer, value);
}

void qll_json_whole(qll_json *json, long long value)
{
    write_gap(json);
    qll_write_format(json->writer, "%lld", value);
}

void qll_json_bool(qll_json *json, bool value)
{
    write_word(json, value ? "true" : "false");
}

void qll_json_null(qll_json *json)
{
    write_word(json, "null");
}

void qll_json_put_text(qll_json *json, const char *key, const char *closed)
{
    qll_json_key(json, key);
    qll_json_text(json, closed);
}

void qll_json_put_text_or_null(qll_json *json, const char *key, const char *closed)
{
    qll_json_key(json, key);
    if (closed == NULL) {
        qll_json_null(json);
    } else {
        qll_json_text(json, closed);
    }
}

void qll_json_put_number(qll_json *json, const char *key, double value)
{
    qll_json_key(json, key);
    qll_json_number(json, value);
}

void qll_json_put_bool(qll_json *json, const char *key, bool value)
{
    qll_json_key(json, key);
    qll_json_bool(json, value);
}

void qll_json_put_whole(qll_json *json, const char *key, long long value)
{
    qll_json_key(json, key);
    qll_json_whole(json, value);
}

void qll_json_put_null(qll_json *json, const char *key)
{
    qll_json_key(json, key);
    qll_json_null(json);
}

void qll_json_put_list(qll_json *json, const char *key)
{
    qll_json_key(json, key);
    qll_json_open_list(json);
}

void qll_json_put_object(qll_json *json, const char *key)
{
    qll_json_key(json, key);
    qll_json_open_object(json);
}

/* From a node to the next one in the order of the text, closing what ends on the way. */
static const qll_node *node_after(qll_json *json, const qll_node *node, const qll_node *top)
{
    if (node->first_child != NULL) {
        return node->first_child;
    }
    while (node != top && node->next == NULL) {
        node = node->parent;
        close_container(json, node->kind == QLL_NODE_OBJECT ? '}' : ']');
    }
    return node == top ? NULL : node->next;
}

static void write_node_alone(qll_json *json, const qll_node *node)
{
    switch (node->kind) {
    case QLL_NODE_OBJECT: qll_json_open_object(json); break;
    case QLL_NODE_LIST: qll_json_open_list(json); break;
    case QLL_NODE_TEXT: write_text(json, node->text); break;
    case QLL_NODE_NUMBER: qll_json_number(json, node->number); break;
    case QLL_NODE_TRUE: qll_json_bool(json, true); break;
    case QLL_NODE_FALSE: qll_json_bool(json, false); break;
    case QLL_NODE_NULL: qll_json_null(json); break;
    }
    bool is_container = node->kind == QLL_NODE_OBJECT || node->kind == QLL_NODE_LIST;
    if (is_container && node->first_child == NULL) {
        close_container(json, node->kind == QLL_NODE_OBJECT ? '}' : ']');
    }
}

void qll_json_node(qll_json *json, const qll_node *node)
{
    const qll_node *top = node;
    while (node != NULL) {
        if (node != top && node->parent->kind == QLL_NODE_OBJECT) {
            write_key(json, node->key);
        }
        write_node_alone(json, node);
        node = node_after(json, node, top);
    }
}
