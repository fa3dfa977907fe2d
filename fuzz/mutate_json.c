/* Changes that leave a document one: whole nodes are left out, doubled, exchanged, scaled, given another unit, word or kind, so that it
 * gets past its reader. */
#include "mutate_json.h"

#include "base/count.h"
#include "base/document.h"
#include "libfuzzer.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#define QLL_FUZZ_CEILING ((size_t)256 * 1024 * 1024)

typedef enum change_kind {
    QLL_CHANGE_LEAVE_OUT,
    QLL_CHANGE_DOUBLE,
    QLL_CHANGE_OTHER, /* another node of the tree in its place */
    QLL_CHANGE_SCALE,
    QLL_CHANGE_UNIT,
    QLL_CHANGE_RETYPE,
    QLL_CHANGE_KEY,
    QLL_CHANGE_BYTES,
    QLL_CHANGE_COUNT
} change_kind;

typedef struct change {
    change_kind kind;
    const qll_node *at;
    const qll_node *other;
    qll_random random;
    qll_arena *arena;
} change;

static size_t below(qll_random *random, size_t count)
{
    return (size_t)(qll_random_bits(random) % count);
}

/* The nth node in reading order; counts down. */
static const qll_node *nth(const qll_node *node, size_t *n)
{
    if (*n == 0) {
        return node;
    }
    *n -= 1;
    const qll_node *found = NULL;
    for (const qll_node *child = node->first_child; child != NULL && found == NULL;
         child = child->next) {
        found = nth(child, n);
    }
    return found;
}

static size_t count_of(const qll_node *node)
{
    size_t count = 1;
    for (const qll_node *child = node->first_child; child != NULL; child = child->next) {
        count += count_of(child);
    }
    return count;
}

/* A quantity, or what else begins with a number: the number times something, or another one; the unit, or another one. */
static void write_quantity(qll_json *json, const qll_node *node, change *how)
{
    static const double factors[] = {0.0, -1.0, 0.1,  10.0, 0.5,   2.0,    1e3,    1e-3,
                                     1e6, 1e-6, 1.01, 0.99, 1e300, 1e-300, 0.9999, 1.0001};
    static const char *const units[] = {"",      " psi", " psia", " bar", " kPa",  " gpm",  " L/s",
                                        " m3/h", " in",  " mm",   " ft",  " m",    " degF", " degC",
                                        " gal",  " L",   " s",    " min", " ft/s", " %"};
    char *text = qll_arena_copy(how->arena, node->text.bytes, node->text.size);
    char *rest = text;
    double value = text == NULL ? 0.0 : strtod(text, &rest);
    if (text == NULL || rest == text) {
        qll_json_text(json, text == NULL || below(&how->random, 2) == 0 ? "" : "12 gpm");
        return;
    }
    if (how->kind == QLL_CHANGE_SCALE) {
        value *= factors[below(&how->random, QLL_COUNT(factors))];
    }
    if (node->kind == QLL_NODE_NUMBER) {
        qll_json_number(json, isfinite(value) ? value : 0.0);
        return;
    }
    qll_writer made = qll_writer_new(how->arena);
    qll_write_format(&made, "%.17g%s", value,
                     how->kind == QLL_CHANGE_UNIT ? units[below(&how->random, QLL_COUNT(units))]
                                                  : rest);
    qll_json_text(json, qll_writer_text(&made).bytes);
}

static void write_retyped(qll_json *json, change *how)
{
    switch (below(&how->random, 8)) {
    case 0: qll_json_null(json); break;
    case 1: qll_json_bool(json, true); break;
    case 2:
        qll_json_open_list(json);
        qll_json_close_list(json);
        break;
    case 3:
        qll_json_open_object(json);
        qll_json_close_object(json);
        break;
    case 4: qll_json_number(json, 0.0); break;
    case 5: qll_json_number(json, 1e9); break;
    case 6: qll_json_text(json, "NaN"); break;
    default: qll_json_text(json, "\xE2\x80\xAE<b>"); break;
    }
}

static void write_bytes(qll_json *json, const qll_node *node, change *how)
{
    size_t most = node->text.size + 16;
    char *bytes = qll_arena_take(how->arena, most + 1, 1);
    if (bytes == NULL) {
        qll_json_null(json);
        return;
    }
    memcpy(bytes, node->text.bytes == NULL ? "" : node->text.bytes, node->text.size);
    size_t size = LLVMFuzzerMutate((uint8_t *)bytes, node->text.size, most);
    size = qll_text_utf8_end((qll_text){bytes, size});
    bytes[size] = '\0';
    qll_json_text(json, bytes);
}

static void write_node(qll_json *json, const qll_node *node, change *how);

static void write_changed(qll_json *json, const qll_node *node, change *how)
{
    bool is_scalar = node->kind == QLL_NODE_TEXT || node->kind == QLL_NODE_NUMBER;
    switch (how->kind) {
    case QLL_CHANGE_OTHER: qll_json_node(json, how->other); break;
    case QLL_CHANGE_SCALE:
    case QLL_CHANGE_UNIT:
        if (is_scalar) {
            write_quantity(json, node, how);
        } else {
            qll_json_node(json, node);
        }
        break;
    case QLL_CHANGE_BYTES:
        if (is_scalar) {
            write_bytes(json, node, how);
        } else {
            write_retyped(json, how);
        }
        break;
    case QLL_CHANGE_RETYPE: write_retyped(json, how); break;
    case QLL_CHANGE_LEAVE_OUT:
    case QLL_CHANGE_DOUBLE:
    case QLL_CHANGE_KEY:
    case QLL_CHANGE_COUNT: qll_json_node(json, node); break;
    }
}

static void write_child(qll_json *json, const qll_node *child, change *how)
{
    bool is_it = child == how->at;
    bool has_key = child->parent->kind == QLL_NODE_OBJECT;
    if (is_it && how->kind == QLL_CHANGE_LEAVE_OUT) {
        return;
    }
    int times = is_it && how->kind == QLL_CHANGE_DOUBLE ? 2 : 1;
    for (int i = 0; i < times; i++) {
        if (has_key) {
            bool is_renamed = is_it && how->kind == QLL_CHANGE_KEY && how->other->key.size > 0;
            qll_json_key(json,
                         qll_text_closed(is_renamed ? how->other->key : child->key, how->arena));
        }
        if (is_it) {
            write_changed(json, child, how);
        } else {
            write_node(json, child, how);
        }
    }
}

static void write_node(qll_json *json, const qll_node *node, change *how)
{
    if (node->kind != QLL_NODE_OBJECT && node->kind != QLL_NODE_LIST) {
        qll_json_node(json, node);
        return;
    }
    if (node->kind == QLL_NODE_OBJECT) {
        qll_json_open_object(json);
    } else {
        qll_json_open_list(json);
    }
    for (const qll_node *child = node->first_child; child != NULL; child = child->next) {
        write_child(json, child, how);
    }
    if (node->kind == QLL_NODE_OBJECT) {
        qll_json_close_object(json);
    } else {
        qll_json_close_list(json);
    }
}

static const qll_node *read(const uint8_t *data, size_t size, const char *name, qll_arena *arena)
{
    qll_document *document = qll_arena_take(arena, 1, sizeof *document);
    qll_problems problems = qll_problems_none(arena);
    qll_text text = {size == 0 ? "" : (const char *)data, size};
    bool is_read =
        document != NULL && qll_document_read(text, name, arena, document, &problems) == QLL_OK;
    return is_read && document->root->first_child != NULL ? document->root : NULL;
}

/* The tree with one change, into @p out; 0 if it does not fit or memory ran out. */
static size_t write_tree(const qll_node *root, change *how, uint8_t *out, size_t most)
{
    qll_writer writer = qll_writer_new(how->arena);
    qll_json json = qll_json_new(&writer);
    write_node(&json, root, how);
    qll_text text = qll_writer_text(&writer);
    if (qll_arena_refused(how->arena) > 0 || text.size > most) {
        return 0;
    }
    memcpy(out, text.bytes, text.size);
    return text.size;
}

static const qll_node *any(const qll_node *root, qll_random *random)
{
    size_t n = below(random, count_of(root));
    return nth(root, &n);
}

size_t qll_mutate_json(uint8_t *data, size_t size, size_t most, qll_random *random)
{
    qll_arena *arena = qll_arena_open(QLL_FUZZ_CEILING);
    size_t made = 0;
    const qll_node *root = read(data, size, "before", arena);
    if (root != NULL) {
        change how = {.kind = (change_kind)below(random, QLL_CHANGE_COUNT), .arena = arena};
        how.at = any(root, random);
        how.other = any(root, random);
        how.random = *random;
        made = write_tree(root, &how, data, most);
    }
    qll_arena_close(arena);
    return made;
}

size_t qll_cross_json(qll_text one, qll_text other, uint8_t *out, size_t most, qll_random *random)
{
    qll_arena *arena = qll_arena_open(QLL_FUZZ_CEILING);
    const qll_node *root = read((const uint8_t *)one.bytes, one.size, "one", arena);
    const qll_node *from = read((const uint8_t *)other.bytes, other.size, "other", arena);
    size_t made = 0;
    if (root != NULL && from != NULL) {
        change how = {.kind = QLL_CHANGE_OTHER, .arena = arena, .random = *random};
        how.at = any(root, &how.random);
        how.other = any(from, &how.random);
        made = write_tree(root, &how, out, most);
    }
    qll_arena_close(arena);
    return made;
}
