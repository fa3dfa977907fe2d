/* JSON as a tree that knows the place of every key and value, and a writer with fixed key order.
 * Only document.c knows the JSON library. */
#ifndef QUELL_BASE_DOCUMENT_H
#define QUELL_BASE_DOCUMENT_H

#include "base/problems.h"
#include "base/text.h"

typedef enum qll_node_kind {
    QLL_NODE_OBJECT,
    QLL_NODE_LIST,
    QLL_NODE_TEXT,
    QLL_NODE_NUMBER,
    QLL_NODE_TRUE,
    QLL_NODE_FALSE,
    QLL_NODE_NULL,
} qll_node_kind;

typedef struct qll_node {
    qll_node_kind kind;
    qll_text text;     /* text with escapes resolved; a number as typed */
    double number;     /* of QLL_NODE_NUMBER: the nearest double, finite */
    size_t offset;     /* byte in the source where the value starts */
    qll_text key;      /* its key if the parent is an object, escapes resolved */
    size_t key_offset; /* byte in the source where the key's quote stands */
    size_t index;      /* its place among the parent's children */
    size_t child_count;
    const struct qll_node *parent, *first_child, *next;
} qll_node;

typedef struct qll_document {
    qll_text source;  /* the whole text, byte order mark removed */
    const char *name; /* as the user named it, for places */
    const qll_node *root;
} qll_document;

/* Limits of what is read (TOO_DEEP, TOO_LARGE). */
#define QLL_DOCUMENT_DEPTH  64
#define QLL_DOCUMENT_SIZE   ((size_t)16 * 1024 * 1024)
#define QLL_DOCUMENT_VALUES ((size_t)1000 * 1000)

/**
 * Reads strict JSON (RFC 8259): UTF-8 with or without byte order mark, no trailing commas, no
 * duplicate keys, numbers that fit a double (OUT_OF_RANGE otherwise), no character U+0000, nothing
 * after the value. A fault of syntax or encoding is reported alone, since nothing behind it can be
 * trusted; doubled keys and numbers out of range are all listed, in reading order.
 *
 * @param source must outlive the document
 * @return QLL_OK, QLL_REFUSED (problems say why and where) or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_document_read(qll_text source, const char *name, qll_arena *arena,
                                          qll_document *document, qll_problems *problems);

/** The child of object @p node with @p key, or NULL. */
const qll_node *qll_node_find(const qll_node *node, const char *key);

/** The path of @p node alone, as qll_node_place() gives it: line and column take a walk through the text. */
const char *qll_node_path(const qll_node *node, qll_arena *arena);

/** The node at a path as qll_node_path() writes them, "downstream.outlets[0].path[1].length"; NULL where there is none,
 * and for a path with quoted keys. */
const qll_node *qll_node_at(const qll_node *root, const char *path);

/**
 * Where @p node (or its key, if @p at_key) stands; the path string lives in @p arena.
 *
 * The path is "stages[1].branches[0].set_pressure"; a key that is no plain word is quoted:
 * `fittings["elbow 90"]`. Without memory it is "".
 */
qll_place qll_node_place(const qll_document *document, const qll_node *node, bool at_key,
                         qll_arena *arena);

/**
 * JSON output, indented by two blanks, without a line break behind the last value. Keys come in the
 * order they are written; numbers read back as the same double; control characters are escaped
 * (base/quote.h).
 */
typedef struct qll_json {
    qll_writer *writer;
    int depth;
    bool first; /* nothing written yet in the innermost object or list */
    bool after_key;
} qll_json;

qll_json qll_json_new(qll_writer *writer);
void qll_json_open_object(qll_json *json);
void qll_json_close_object(qll_json *json);
void qll_json_open_list(qll_json *json);
void qll_json_close_list(qll_json *json);
void qll_json_key(qll_json *json, const char *key);
void qll_json_text(qll_json *json, const char *closed);
/** Asserts that @p value is finite: no NaN or infinity leaves the engine. */
void qll_json_number(qll_json *json, double value);
void qll_json_whole(qll_json *json, long long value);
void qll_json_bool(qll_json *json, bool value);
void qll_json_null(qll_json *json);
/** A value that is JSON already, on one line. */
void qll_json_literal(qll_json *json, qll_text literal);
/** A node with all below it, as it was read; numbers by their value. */
void qll_json_node(qll_json *json, const qll_node *node);
/** Key and value in one call, for the common cases. */
void qll_json_put_text(qll_json *json, const char *key, const char *closed);
/** null where @p closed is NULL. */
void qll_json_put_text_or_null(qll_json *json, const char *key, const char *closed);
void qll_json_put_number(qll_json *json, const char *key, double value);
void qll_json_put_whole(qll_json *json, const char *key, long long value);
void qll_json_put_bool(qll_json *json, const char *key, bool value);
void qll_json_put_null(qll_json *json, const char *key);
/** The key of a list or an object, and its beginning. */
void qll_json_put_list(qll_json *json, const char *key);
void qll_json_put_object(qll_json *json, const char *key);

#endif
