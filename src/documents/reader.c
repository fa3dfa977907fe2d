#include "documents/reader.h"

#include "base/quote.h"
#include "base/words.h"

#include <assert.h>
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
    return (qll_reader){.document = document, .arena = arena, .assumed = assumed};
}

void *qll_reader_take(qll_reader *reader, size_t count, size_t size)
{
    void *room = qll_arena_take(reader->arena, count, size);
    if (room == NULL) {
        reader->no_memory = true;
    }
    return room;
}

static qll_place cell_place(qll_reader *reader, const qll_node *node)
{
    const qll_table *table = reader->table;
    size_t row = node->offset / table->column_count;
    size_t column = node->offset % table->column_count;
    return qll_table_place(table, row, column, reader->arena);
}

static qll_place place_of(qll_reader *reader, qll_where where)
{
    qll_place place = reader->table != NULL ? cell_place(reader, where.node)
                                            : qll_node_place(reader->document, where.node,
                                                             where.at_key, reader->arena);
    if (where.missing == NULL || place.path == NULL) {
        return place;
    }
    qll_writer path = qll_writer_new(reader->arena);
    const char *comma = strchr(place.path, ',');
    if (reader->table != NULL && comma != NULL) { /* "row 3, id": the row, and what it lacks */
        qll_write_text(&path, (qll_text){place.path, (size_t)(comma - place.path) + 1});
        qll_write(&path, " ");
    } else if (place.path[0] != '\0') {
        qll_write(&path, place.path);
        qll_write(&path, ".");
    }
    qll_write(&path, where.missing);
    place.path = qll_writer_text(&path).bytes;
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

qll_writer qll_reader_says(qll_reader *reader)
{
    reader->before_sentence = qll_arena_now(reader->arena);
    return qll_writer_new(reader->arena);
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

static bool add(qll_reader *reader, qll_found found, qll_writer *says)
{
    found.offset = found.where.at_key ? found.where.node->key_offset : found.where.node->offset;
    if (found.level == QLL_REFUSAL) {
        reader->refusal_count += 1;
    }
    if (reader->found_count == QLL_PROBLEMS_KEPT) {
        size_t victim = victim_of(reader, &found);
        if (victim == reader->found_count) {
            count_dropped(reader, &found);
            qll_arena_reset(reader->arena, reader->before_sentence);
            return false;
        }
        remove_at(reader, victim);
    }
    found.text = qll_writer_text(says).bytes;
    if (found.text == NULL) {
        reader->no_memory = true;
        found.text = "";
    }
    insert(reader, &found);
    return false;
}

bool qll_reader_refuse(qll_reader *reader, qll_where where, qll_code code, qll_writer *says,
                       const char *hint)
{
    return add(
        reader,
        (qll_found){
            .where = where, .code = code, .level = QLL_REFUSAL, .hint = hint == NULL ? "" : hint},
        says);
}

bool qll_reader_warn(qll_reader *reader, qll_where where, qll_code code, qll_writer *says)
{
    return add(reader, (qll_found){.where = where, .code = code, .level = QLL_WARNING, .hint = ""},
               says);
}

qll_status qll_reader_end(qll_reader *reader, qll_problems *problems)
{
    for (size_t i = 0; i < reader->found_count; i++) {
        const qll_found *found = &reader->found[i];
        qll_place place = place_of(reader, found->where);
        if (place.path == NULL) {
            reader->no_memory = true;
            place.path = "";
        }
        (void)qll_problems_add(problems, (qll_problem){.code = found->code,
                                                       .level = found->level,
                                                       .place = place,
                                                       .text = found->text,
                                                       .hint = found->hint});
    }
    problems->count += reader->dropped;
    problems->refusal_count += reader->dropped_refusals;
    if (reader->no_memory || problems->no_memory || reader->assumed->no_memory) {
        return QLL_NO_MEMORY;
    }
    return reader->refusal_count > 0 ? QLL_REFUSED : QLL_OK;
}

void qll_write_found(qll_writer *writer, const qll_node *node)
{
    switch (node->kind) {
    case QLL_NODE_OBJECT: qll_write(writer, "an object"); break;
    case QLL_NODE_LIST:
        qll_write_format(writer, "a list of %zu %s", node->child_count,
                         node->child_count == 1 ? "entry" : "entries");
        break;
    case QLL_NODE_TEXT: qll_write_quoted(writer, node->text); break;
    case QLL_NODE_NUMBER: {
        /* A number may be typed with any count of digits; its value is shown then. */
        if (node->text.size <= QLL_QUOTE_CHARACTERS) {
            qll_write_text(writer, node->text);
        } else {
            qll_write_number(writer, node->number);
        }
        break;
    }
    case QLL_NODE_TRUE: qll_write(writer, "true"); break;
    case QLL_NODE_FALSE: qll_write(writer, "false"); break;
    case QLL_NODE_NULL: qll_write(writer, "null"); break;
    }
}

void qll_write_words(qll_writer *writer, const char *const *words, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        qll_write(writer, i == 0 ? "" : ", ");
        qll_write(writer, words[i]);
    }
}

const char *qll_reader_path(qll_reader *reader, const qll_node *node)
{
    const char *path =
        reader->table != NULL ? cell_place(reader, node).path : qll_node_path(node, reader->arena);
    if (path == NULL) {
        reader->no_memory = true;
        return "";
    }
    return path;
}

const char *qll_reader_origin(qll_reader *reader, const qll_node *node)
{
    qll_place place = place_of(reader, qll_at(node));
    qll_writer origin = qll_writer_new(reader->arena);
    qll_write(&origin, place.path == NULL ? "" : place.path);
    if (place.line > 0) {
        qll_write_format(&origin, ", line %d", place.line);
    }
    const char *text = qll_writer_text(&origin).bytes;
    reader->no_memory = reader->no_memory || place.path == NULL || text == NULL;
    return text == NULL ? "" : text;
}

bool qll_reader_wrong_kind(qll_reader *reader, const qll_node *node, const char *expected)
{
    qll_writer says = qll_reader_says(reader);
    qll_write_found(&says, node);
    qll_write(&says, " stands here; expected ");
    qll_write(&says, expected);
    return qll_reader_refuse(reader, qll_at(node), QLL_CODE_WRONG_KIND, &says, "");
}

bool qll_reader_unknown_word(qll_reader *reader, qll_where where, const char *what,
                             const char *const *words, size_t count)
{
    qll_text given = where.at_key ? where.node->key : where.node->text;
    const char *nearest = qll_words_nearest(given, words, count);
    qll_writer says = qll_reader_says(reader);
    qll_write_quoted(&says, given);
    qll_write(&says, " is not ");
    qll_write(&says, what);
    if (count <= QLL_WORDS_LISTED) {
        qll_write(&says, "; known are ");
        qll_write_words(&says, words, count);
    } else {
        qll_write(&says, "; the words are listed in docs/formats/");
        qll_write(&says, reader->table == NULL ? "survey.md" : "catalogue.md");
    }
    return qll_reader_refuse(reader, where, QLL_CODE_UNKNOWN_WORD, &says,
                             qll_hint_word(nearest, reader->arena));
}
