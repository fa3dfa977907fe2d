/* How a text becomes a tree: document_syntax.c has proved that it is well-formed and counted what
 * it holds; the tokeniser then gives the offsets, and each value token becomes the next node of one
 * array.
 *
 * 1. Nodes stand in the array in the order of the text, a parent before its children.
 * 2. Texts without an escape are slices of the source; the others live in one pool, which is large
 *    enough because no escape grows when it is resolved.
 * 3. Nesting is at most QLL_DOCUMENT_DEPTH, so walks up to the root are short. */
#include "base/document.h"

#include "base/document_syntax.h"
#include "base/quote.h"
#include "base/source.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

/* The tokeniser's own strict mode is left off: it refuses a lone number as the whole text. Parent
 * links keep closing brackets from walking back over all earlier tokens. */
#define JSMN_STATIC
#define JSMN_PARENT_LINKS
#include <jsmn.h>

static_assert(QLL_DOCUMENT_SIZE <= INT32_MAX, "the tokeniser's offsets are int");

typedef struct builder {
    qll_document *document;
    qll_arena *arena;
    qll_problems *problems;
    qll_syntax syntax;
    qll_node *nodes;
    char *pool;
    size_t pool_used;
} builder;

static unsigned hex_value(const char *digits)
{
    unsigned value = 0;
    for (size_t i = 0; i < 4; i++) {
        char digit = digits[i];
        int zero = digit <= '9' ? '0' : digit <= 'F' ? 'A' - 10 : 'a' - 10;
        value = value * 16 + (unsigned)(digit - zero);
    }
    return value;
}

/* Resolves one escape at @p from; returns how many bytes it takes. */
static size_t resolve_escape(const char *from, char **to)
{
    static const char letters[] = "\"\\/bfnrt";
    static const char meant[] = "\"\\/\b\f\n\r\t";
    if (from[1] != 'u') {
        const char *letter = strchr(letters, from[1]);
        assert(letter != NULL);
        *(*to)++ = meant[letter - letters];
        return 2;
    }
    unsigned code = hex_value(from + 2);
    if (code < 0xD800 || code > 0xDFFF) {
        *to += qll_utf8_put(code, *to);
        return 6;
    }
    unsigned low = hex_value(from + 8);
    *to += qll_utf8_put(0x10000U + ((code - 0xD800U) << 10U) + (low - 0xDC00U), *to);
    return 12;
}

static qll_text resolved(builder *tree, qll_text raw)
{
    if (memchr(raw.bytes, '\\', raw.size) == NULL) {
        return raw;
    }
    assert(raw.size <= tree->syntax.escaped_size - tree->pool_used);
    char *start = tree->pool + tree->pool_used;
    char *to = start;
    for (size_t at = 0; at < raw.size;) {
        if (raw.bytes[at] == '\\') {
            at += resolve_escape(raw.bytes + at, &to);
        } else {
            *to++ = raw.bytes[at++];
        }
    }
    qll_text text = {start, (size_t)(to - start)};
    tree->pool_used += text.size;
    return text;
}

static qll_text token_text(const builder *tree, const jsmntok_t *token)
{
    return (qll_text){tree->document->source.bytes + token->start,
                      (size_t)(token->end - token->start)};
}

/* A number too large for a double is marked as NaN and refused with the duplicate keys. */
static void fill_single(qll_node *node)
{
    switch (node->text.bytes[0]) {
    case 't': node->kind = QLL_NODE_TRUE; break;
    case 'f': node->kind = QLL_NODE_FALSE; break;
    case 'n': node->kind = QLL_NODE_NULL; break;
    default:
        node->kind = QLL_NODE_NUMBER;
        if (qll_text_number(node->text, &node->number) != node->text.size) {
            node->number = NAN;
        }
        break;
    }
}

static void fill_node(builder *tree, qll_node *node, const jsmntok_t *token)
{
    node->offset = (size_t)token->start;
    switch (token->type) {
    case JSMN_OBJECT: node->kind = QLL_NODE_OBJECT; break;
    case JSMN_ARRAY: node->kind = QLL_NODE_LIST; break;
    case JSMN_STRING:
        node->kind = QLL_NODE_TEXT;
        node->offset -= 1;
        node->text = resolved(tree, token_text(tree, token));
        break;
    case JSMN_PRIMITIVE:
    case JSMN_UNDEFINED:
        node->text = token_text(tree, token);
        fill_single(node);
        break;
    }
}

/* Gives each value token the next node. The token's size, no longer needed, keeps the node's place
 * in the array, for its children. */
static void fill_nodes(builder *tree, jsmntok_t *tokens, size_t token_count)
{
    size_t count = 0;
    for (size_t i = 0; i < token_count; i++) {
        jsmntok_t *token = &tokens[i];
        const jsmntok_t *above = token->parent < 0 ? NULL : &tokens[token->parent];
        if (above != NULL && above->type == JSMN_OBJECT) {
            continue; /* a key: its value token, the next one, takes it along */
        }
        qll_node *node = &tree->nodes[count];
        token->size = (int)count;
        count += 1;
        if (above != NULL && above->type == JSMN_STRING) {
            node->key_offset = (size_t)above->start - 1;
            node->key = resolved(tree, token_text(tree, above));
            above = &tokens[above->parent];
        }
        fill_node(tree, node, token);
        if (above != NULL) {
            qll_node *parent = &tree->nodes[above->size];
            node->parent = parent;
            node->index = parent->child_count;
            parent->child_count += 1;
        }
    }
    assert(count == tree->syntax.value_count);
}

/* From the last node to the first, each goes before its younger siblings. */
static void link_children(const builder *tree)
{
    for (size_t i = tree->syntax.value_count - 1; i > 0; i--) {
        qll_node *node = &tree->nodes[i];
        qll_node *parent = &tree->nodes[node->parent - tree->nodes];
        node->next = parent->first_child;
        parent->first_child = node;
    }
}

static bool build(builder *tree)
{
    size_t token_count = tree->syntax.value_count + tree->syntax.key_count;
    tree->nodes = qll_arena_take(tree->arena, tree->syntax.value_count, sizeof *tree->nodes);
    tree->pool = qll_arena_take(tree->arena, tree->syntax.escaped_size, 1);
    qll_arena_mark mark = qll_arena_now(tree->arena);
    jsmntok_t *tokens = qll_arena_take(tree->arena, token_count, sizeof *tokens);
    if (tree->nodes == NULL || tree->pool == NULL || tokens == NULL) {
        return false;
    }
    qll_text source = tree->document->source;
    jsmn_parser parser;
    jsmn_init(&parser);
    int found = jsmn_parse(&parser, source.bytes, source.size, tokens, (unsigned)token_count);
    assert(found == (int)token_count);
    (void)found;
    fill_nodes(tree, tokens, token_count);
    qll_arena_reset(tree->arena, mark);
    link_children(tree);
    tree->document->root = tree->nodes;
    return true;
}

/* Order of two children by key; equal keys keep the order of the text. */
static bool goes_before(const qll_node *a, const qll_node *b)
{
    size_t common = a->key.size < b->key.size ? a->key.size : b->key.size;
    int order = common == 0 ? 0 : memcmp(a->key.bytes, b->key.bytes, common);
    if (order == 0 && a->key.size != b->key.size) {
        return a->key.size < b->key.size;
    }
    return order == 0 ? a->index <= b->index : order < 0;
}

/* Bottom-up merge sort of @p from with @p to as the other half; returns the sorted one. A sort and
 * not a hash table: no choice of keys makes it slow. */
static const qll_node **sorted_by_key(const qll_node **from, const qll_node **to, size_t count)
{
    for (size_t run = 1; run < count; run *= 2) {
        for (size_t start = 0; start < count; start += 2 * run) {
            size_t middle = start + run < count ? start + run : count;
            size_t end = start + 2 * run < count ? start + 2 * run : count;
            size_t left = start;
            size_t right = middle;
            for (size_t i = start; i < end; i++) {
                bool take_left =
                    right == end || (left < middle && goes_before(from[left], from[right]));
                to[i] = take_left ? from[left++] : from[right++];
            }
        }
        const qll_node **sorted = to;
        to = from;
        from = sorted;
    }
    return from;
}

/* Notes in @p earlier, by place in the node array, the first child of @p object with the same key.
 * @p scratch has room for twice the children. */
static void note_duplicates(const builder *tree, const qll_node *object, const qll_node **scratch,
                            const qll_node **earlier)
{
    size_t count = 0;
    for (const qll_node *child = object->first_child; child != NULL; child = child->next) {
        scratch[count] = child;
        count += 1;
    }
    const qll_node **sorted = sorted_by_key(scratch, scratch + count, count);
    for (size_t i = 1; i < count; i++) {
        if (qll_text_equal(sorted[i - 1]->key, sorted[i]->key)) {
            const qll_node *first = earlier[sorted[i - 1] - tree->nodes];
            earlier[sorted[i] - tree->nodes] = first == NULL ? sorted[i - 1] : first;
        }
    }
}

static void refuse_duplicate(const builder *tree, const qll_node *node, const qll_node *first)
{
    const qll_place place =
        qll_source_place(tree->document->source, tree->document->name, first->key_offset);
    qll_problems_add(
        tree->problems,
        (qll_fault){.code = QLL_CODE_DUPLICATE_KEY,
                    .place = qll_node_place(tree->document, node, true, tree->problems->arena),
                    .says = QLL_SAYS_WITH(DUPLICATE_KEY, qll_as_quoted(node->key),
                                          qll_as_number(place.line), qll_as_number(place.column)),
                    .hint = QLL_SAYS(HINT_REMOVE_ONE)});
}

static void refuse_overflow(const builder *tree, const qll_node *node)
{
    qll_problems_add(
        tree->problems,
        (qll_fault){.code = QLL_CODE_OUT_OF_RANGE,
                    .place = qll_node_place(tree->document, node, false, tree->problems->arena),
                    .says = QLL_SAYS_WITH(NUMBER_TOO_LARGE, qll_as_quoted(node->text))});
}

/* Refuses doubled keys and numbers too large for a double, in the order of the text. Finding a
 * line costs a walk over the text, so what the list would not keep is only counted. */
static bool check_nodes(const builder *tree)
{
    qll_arena_mark mark = qll_arena_now(tree->arena);
    size_t count = tree->syntax.value_count;
    /* NOLINTBEGIN(bugprone-sizeof-expression): arrays of pointers are meant */
    const qll_node **earlier = qll_arena_take(tree->arena, count, sizeof *earlier);
    const qll_node **scratch = qll_arena_take(tree->arena, count, 2 * sizeof *scratch);
    /* NOLINTEND(bugprone-sizeof-expression) */
    if (earlier == NULL || scratch == NULL) {
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        if (tree->nodes[i].kind == QLL_NODE_OBJECT) {
            note_duplicates(tree, &tree->nodes[i], scratch, earlier);
        }
    }
    size_t refused = 0;
    for (size_t i = 0; i < count; i++) {
        const qll_node *node = &tree->nodes[i];
        bool overflows = node->kind == QLL_NODE_NUMBER && isnan(node->number);
        refused += (earlier[i] != NULL ? 1U : 0U) + (overflows ? 1U : 0U);
        if (tree->problems->kept_count == QLL_PROBLEMS_KEPT) {
            size_t more = (earlier[i] != NULL ? 1U : 0U) + (overflows ? 1U : 0U);
            tree->problems->count += more;
            tree->problems->refusal_count += more;
            continue;
        }
        if (earlier[i] != NULL) {
            refuse_duplicate(tree, node, earlier[i]);
        }
        if (overflows) {
            refuse_overflow(tree, node);
        }
    }
    /* The problems' strings may stand behind the mark. */
    if (refused == 0) {
        qll_arena_reset(tree->arena, mark);
    }
    return true;
}

qll_status qll_document_read(qll_text source, const char *name, qll_arena *arena,
                             qll_document *document, qll_problems *problems)
{
    size_t refused_before = problems->refusal_count;
    *document = (qll_document){.source = source, .name = name};
    builder tree = {.document = document, .arena = arena, .problems = problems};
    if (qll_source_open(&document->source, name, QLL_DOCUMENT_SIZE, problems)
        && qll_syntax_check(document->source, name, &tree.syntax, problems)) {
        if (!build(&tree) || !check_nodes(&tree)) {
            document->root = NULL;
            return QLL_NO_MEMORY;
        }
    }
    if (qll_problems_status(problems) == QLL_NO_MEMORY) {
        document->root = NULL;
        return QLL_NO_MEMORY;
    }
    if (problems->refusal_count > refused_before) {
        document->root = NULL;
        return QLL_REFUSED;
    }
    return QLL_OK;
}

const qll_node *qll_node_find(const qll_node *node, const char *key)
{
    if (node == NULL || node->kind != QLL_NODE_OBJECT) {
        return NULL;
    }
    const qll_node *child = node->first_child;
    while (child != NULL && !qll_text_is(child->key, key)) {
        child = child->next;
    }
    return child;
}

static bool is_plain_word(qll_text key)
{
    for (size_t i = 0; i < key.size; i++) {
        char byte = key.bytes[i];
        bool is_letter = (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z');
        bool may_follow = i > 0 && ((byte >= '0' && byte <= '9') || byte == '-');
        if (!is_letter && byte != '_' && !may_follow) {
            return false;
        }
    }
    return key.size > 0;
}

static void write_path_step(qll_writer *writer, const qll_node *node)
{
    if (node->parent->kind == QLL_NODE_LIST) {
        qll_write_format(writer, "[%zu]", node->index);
    } else if (is_plain_word(node->key) && node->key.size <= QLL_QUOTE_CHARACTERS) {
        qll_write(writer, writer->size > 0 ? "." : "");
        qll_write_text(writer, node->key);
    } else {
        qll_write(writer, "[");
        qll_write_quoted(writer, node->key);
        qll_write(writer, "]");
    }
}

const char *qll_node_path(const qll_node *node, qll_arena *arena)
{
    const qll_node *steps[QLL_DOCUMENT_DEPTH + 1];
    size_t count = 0;
    for (const qll_node *step = node; step->parent != NULL; step = step->parent) {
        assert(count <= QLL_DOCUMENT_DEPTH);
        steps[count] = step;
        count += 1;
    }
    qll_writer writer = qll_writer_new(arena);
    while (count > 0) {
        count -= 1;
        write_path_step(&writer, steps[count]);
    }
    return qll_writer_text(&writer).bytes;
}

qll_place qll_node_place(const qll_document *document, const qll_node *node, bool at_key,
                         qll_arena *arena)
{
    bool has_key = node->parent != NULL && node->parent->kind == QLL_NODE_OBJECT;
    qll_place place = qll_source_place(document->source, document->name,
                                       at_key && has_key ? node->key_offset : node->offset);
    place.path = qll_node_path(node, arena);
    return place;
}

/* The entry of a list with that number. */
static const qll_node *entry_at(const qll_node *list, size_t index)
{
    const qll_node *node = list->kind == QLL_NODE_LIST ? list->first_child : NULL;
    while (node != NULL && node->index != index) {
        node = node->next;
    }
    return node;
}

const qll_node *qll_node_at(const qll_node *root, const char *path)
{
    const qll_node *node = root;
    while (node != NULL && *path != '\0') {
        if (*path == '[') {
            size_t index = 0;
            for (path++; *path >= '0' && *path <= '9' && index < SIZE_MAX / 16; path++) {
                index = 10 * index + (size_t)(*path - '0');
            }
            node = *path == ']' ? entry_at(node, index) : NULL;
            path += *path == ']';
            continue;
        }
        path += *path == '.';
        const size_t size = strcspn(path, ".[");
        const qll_node *child = node->kind == QLL_NODE_OBJECT ? node->first_child : NULL;
        while (child != NULL
               && !(child->key.size == size && memcmp(child->key.bytes, path, size) == 0)) {
            child = child->next;
        }
        node = size > 0 ? child : NULL;
        path += size;
    }
    return node;
}
