#include "documents/reader.h"

#include "base/quote.h"
#include "base/words.h"

#include <assert.h>
#include <stdint.h>
#include <string.h>

/* So many words are listed in a sentence; longer lists stand in the manual. */
#define QLL_WORDS_LISTED 16

qll_where qll_at(const qll_node *node)
{
    return (qll_where){.node = node};
}

qll_where qll_at_key(const qll_node *node)
{
    return (qll_where){.node = node, .at_key = true};
}

qll_where qll_at_missing(const qll_node *node, const char *key)
{
    return (qll_where){.node = node, .missing = key};
}

qll_reader qll_reader_new(const qll_document *document, qll_arena *arena, qll_assumed *assumed)
{
    return (qll_reader){.document = document,
                        .arena = arena,
                        .assumed = assumed,
                        .manual = "survey.md",
                        .refused_count = qll_arena_refused(arena)};
}

bool qll_reader_starves(const qll_reader *reader)
{
    return qll_arena_refused(reader->arena) != reader->refused_count;
}

void *qll_reader_take(qll_reader *reader, size_t count, size_t size)
{
    return qll_arena_take(reader->arena, count, size);
}

static qll_place cell_place(const qll_reader *reader, const qll_node *node)
{
    const qll_table *table = reader->table;
    const size_t row = node->offset / table->column_count;
    const size_t column = node->offset % table->column_count;
    return qll_table_place(table, row, column, reader->arena);
}

/* What is missing is called after the row of a table, or after the object of a document. */
static qll_place place_of(qll_reader *reader, qll_where where)
{
    const qll_table *table = reader->table;
    qll_place place =
        table != NULL ? cell_place(reader, where.node)
                      : qll_node_place(reader->document, where.node, where.at_key, reader->arena);
    if (where.missing != NULL) {
        const char *whole = table == NULL
                                ? place.path
                                : qll_table_place(table, where.node->offset / table->column_count,
                                                  SIZE_MAX, reader->arena)
                                      .path;
        qll_writer path = qll_writer_new(reader->arena);
        qll_write(&path, whole);
        qll_write(&path, table != NULL ? ", " : whole[0] != '\0' ? "." : "");
        qll_write(&path, where.missing);
        place.path = qll_writer_text(&path).bytes;
    }
    return place;
}

static void count_dropped(qll_reader *reader, const qll_found *found)
{
    reader->dropped += 1;
    if (found->level == QLL_REFUSAL) {
        reader->dropped_refusals += 1;
    }
}

/* Which kept problem gives way to @p found in a full list; found_count if none does. */
static size_t victim_of(const qll_reader *reader, const qll_found *found)
{
    if (found->level == QLL_REFUSAL) {
        for (size_t i = reader->found_count; i-- > 0;) {
            if (reader->found[i].level == QLL_WARNING) {
                return i;
            }
        }
    }
    size_t last = reader->found_count - 1;
    bool is_earlier = found->offset < reader->found[last].offset;
    bool may_push = found->level == QLL_REFUSAL || reader->found[last].level == QLL_WARNING;
    return is_earlier && may_push ? last : reader->found_count;
}

static void remove_at(qll_reader *reader, size_t index)
{
    count_dropped(reader, &reader->found[index]);
    reader->found_count -= 1;
    memmove(&reader->found[index], &reader->found[index + 1],
            (reader->found_count - index) * sizeof reader->found[0]);
}

static void insert(qll_reader *reader, const qll_found *found)
{
    size_t at = reader->found_count;
    while (at > 0 && reader->found[at - 1].offset > found->offset) {
        reader->found[at] = reader->found[at - 1];
        at -= 1;
    }
    reader->found[at] = *found;
    reader->found_count += 1;
}

bool qll_reader_drops(qll_reader *reader, qll_where where)
{
    size_t offset = where.at_key ? where.node->key_offset : where.node->offset;
    qll_found found = {.where = where, .offset = offset, .level = QLL_REFUSAL};
    if (reader->found_count < QLL_PROBLEMS_KEPT
        || victim_of(reader, &found) < reader->found_count) {
        return false;
    }
    reader->refusal_count += 1;
    count_dropped(reader, &found);
    return true;
}

static bool add(qll_reader *reader, qll_found found)
{
    found.offset = found.where.at_key ? found.where.node->key_offset : found.where.node->offset;
    if (found.level == QLL_REFUSAL) {
        reader->refusal_count += 1;
    }
    if (reader->found_count == QLL_PROBLEMS_KEPT) {
        size_t victim = victim_of(reader, &found);
        if (victim == reader->found_count) {
            count_dropped(reader, &found);
            return false;
        }
        remove_at(reader, victim);
    }
    const qll_said *says = qll_said_kept(reader->arena, found.says);
    const qll_said *hint = qll_said_kept(reader->arena, found.hint);
    found.says = says;
    found.hint = hint;
    insert(reader, &found);
    return false;
}

bool qll_reader_refuse_fixed(qll_reader *reader, qll_where where, qll_code code,
                             const qll_said *says, const qll_said *hint, qll_fix fix)
{
    return add(reader, (qll_found){.where = where,
                                   .code = code,
                                   .level = QLL_REFUSAL,
                                   .says = says,
                                   .hint = hint,
                                   .fix = fix});
}

bool qll_reader_refuse(qll_reader *reader, qll_where where, qll_code code, const qll_said *says,
                       const qll_said *hint)
{
    return qll_reader_refuse_fixed(reader, where, code, says, hint, (qll_fix){.op = QLL_FIX_NONE});
}

bool qll_reader_warn(qll_reader *reader, qll_where where, qll_code code, const qll_said *says)
{
    return add(reader,
               (qll_found){.where = where, .code = code, .level = QLL_WARNING, .says = says});
}

qll_status qll_reader_end(qll_reader *reader, qll_problems *problems)
{
    for (size_t i = 0; i < reader->found_count; i++) {
        const qll_found *found = &reader->found[i];
        qll_place place = place_of(reader, found->where);
        /* What stands in a cell is mended there, not by a path. */
        const bool is_document = reader->table == NULL;
        (void)qll_problems_add(problems,
                               (qll_fault){.code = found->code,
                                           .level = found->level,
                                           .place = place,
                                           .says = found->says,
                                           .hint = found->hint,
                                           .fix = {.op = is_document ? found->fix.op : QLL_FIX_NONE,
                                                   .path = place.path,
                                                   .value = found->fix.value}});
    }
    problems->count += reader->dropped;
    problems->refusal_count += reader->dropped_refusals;
    if (qll_reader_starves(reader) || qll_problems_status(problems) == QLL_NO_MEMORY) {
        return QLL_NO_MEMORY;
    }
    return reader->refusal_count > 0 ? QLL_REFUSED : QLL_OK;
}

qll_argument qll_as_found(const qll_node *node)
{
    switch (node->kind) {
    case QLL_NODE_OBJECT: return qll_as_text(QLL_TEXT_FOUND_OBJECT);
    case QLL_NODE_LIST: return qll_as_list(node->child_count);
    case QLL_NODE_TEXT: return qll_as_quoted(node->text);
    case QLL_NODE_NUMBER:
        /* A number may be typed with any count of digits; its value is shown then. */
        return node->text.size <= QLL_QUOTE_CHARACTERS ? qll_as_is_text(node->text)
                                                       : qll_as_exact(node->number);
    case QLL_NODE_TRUE: return qll_as_is("true");
    case QLL_NODE_FALSE: return qll_as_is("false");
    case QLL_NODE_NULL: break;
    }
    return qll_as_is("null");
}

const char *qll_reader_path(qll_reader *reader, const qll_node *node)
{
    return reader->table != NULL ? cell_place(reader, node).path
                                 : qll_node_path(node, reader->arena);
}

qll_argument qll_as_origin(qll_reader *reader, const qll_node *node)
{
    const qll_place place = place_of(reader, qll_at(node));
    const qll_argument path = qll_as_is(place.path);
    if (place.line == 0) {
        return path;
    }
    return qll_as_said(reader->arena,
                       (qll_said){QLL_TEXT_ORIGIN, {path, qll_as_number(place.line)}});
}

/* A text that reads as a number may be meant as one. */
static qll_fix fix_of_kind(qll_reader *reader, const qll_node *node, const qll_said *expected)
{
    const bool wants_number =
        expected->id == QLL_TEXT_EXPECT_NUMBER || expected->id == QLL_TEXT_EXPECT_BARE_NUMBER;
    const qll_text text = qll_text_trimmed(node->text);
    double number = 0.0;
    if (!wants_number || node->kind != QLL_NODE_TEXT || text.size == 0
        || qll_text_number(text, &number) != text.size) {
        return (qll_fix){.op = QLL_FIX_NONE};
    }
    /* As documents write numbers, however it was typed: "01", "1.", "+5". */
    qll_writer value = qll_writer_new(reader->arena);
    qll_write_number(&value, number);
    return (qll_fix){.op = QLL_FIX_REPLACE, .value = qll_writer_text(&value).bytes};
}

bool qll_reader_wrong_kind(qll_reader *reader, const qll_node *node, const qll_said *expected)
{
    if (qll_reader_drops(reader, qll_at(node))) {
        return false;
    }
    const qll_said says = {QLL_TEXT_FOUND_HERE,
                           {qll_as_found(node), qll_as_said(reader->arena, *expected)}};
    return qll_reader_refuse_fixed(reader, qll_at(node), QLL_CODE_WRONG_KIND, &says, NULL,
                                   fix_of_kind(reader, node, expected));
}

bool qll_reader_unknown_word(qll_reader *reader, qll_where where, const qll_said *what,
                             const char *const *words, size_t count)
{
    if (qll_reader_drops(reader, where)) {
        return false;
    }
    qll_text given = where.at_key ? where.node->key : where.node->text;
    const char *nearest = qll_words_nearest(given, words, count);
    const qll_argument wanted = qll_as_said(reader->arena, *what);
    qll_said says = {QLL_TEXT_WORD_UNKNOWN_LISTED,
                     {qll_as_quoted(given), wanted, qll_as_is(reader->manual)}};
    if (count <= QLL_WORDS_LISTED) {
        says =
            (qll_said){QLL_TEXT_WORD_UNKNOWN,
                       {qll_as_quoted(given), wanted, qll_as_words(reader->arena, words, count)}};
    }
    return qll_reader_refuse_fixed(
        reader, where, QLL_CODE_UNKNOWN_WORD, &says, qll_hint_word(nearest, reader->arena),
        qll_fix_text(where.at_key ? QLL_FIX_RENAME : QLL_FIX_REPLACE, nearest, reader->arena));
}
