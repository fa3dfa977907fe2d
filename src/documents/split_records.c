/* An export, record by record: it may be longer than any one document. */
#include "quell/records.h"

#include "base/text.h"

#include <string.h>

struct qll_record_split {
    qll_arena *arena;
    qll_record_taker *take;
    void *context;
    qll_writer one; /* the object that is being read */
    qll_arena_mark empty;
    size_t depth; /* of brackets that are open */
    bool in_text, is_escaped, in_list, is_broken;
    char key[16]; /* of the member of the whole that is being read */
    size_t key_size;
    bool is_key;
};

/* The list of the whole that holds records, and the one of attachments. */
static bool is_list_key(const qll_record_split *split)
{
    return split->key_size < sizeof split->key
           && (strcmp(split->key, "list") == 0 || strcmp(split->key, "attachments") == 0);
}

qll_record_split *qll_record_split_begin(qll_record_taker *take, void *context, qll_arena *arena)
{
    qll_record_split *split = qll_arena_take(arena, 1, sizeof *split);
    if (split != NULL) {
        *split = (qll_record_split){.arena = arena, .take = take, .context = context};
        split->empty = qll_arena_now(arena);
        split->one = qll_writer_new(arena);
    }
    return split;
}

static void take_key_byte(qll_record_split *split, char c)
{
    if (split->key_size + 1 < sizeof split->key) {
        split->key[split->key_size] = c;
        split->key[split->key_size + 1] = '\0';
    }
    split->key_size += 1;
}

/* A byte within quotes. */
static void take_text_byte(qll_record_split *split, char c)
{
    if (split->is_escaped) {
        split->is_escaped = false;
    } else if (c == '\\') {
        split->is_escaped = true;
    } else if (c == '"') {
        split->in_text = false;
        return;
    }
    if (split->depth == 1) {
        take_key_byte(split, c);
    }
}

static qll_status hand_on(qll_record_split *split)
{
    const qll_text text = qll_writer_text(&split->one);
    if (split->one.no_memory) {
        return QLL_NO_MEMORY;
    }
    const qll_status status = split->take(
        split->context, text, split->key[0] == 'a' ? QLL_SPLIT_ATTACHMENT : QLL_SPLIT_RECORD);
    qll_arena_reset(split->arena, split->empty);
    split->one = qll_writer_new(split->arena);
    return status;
}

static void take_bracket(qll_record_split *split, char c)
{
    if (c == '{' || c == '[') {
        split->in_list = split->in_list || (c == '[' && split->depth == 1 && is_list_key(split));
        split->depth += 1;
    } else if (split->depth == 0) {
        split->is_broken = true;
    } else {
        split->depth -= 1;
        split->in_list = split->in_list && split->depth >= 2;
    }
}

qll_status qll_record_split_take(qll_record_split *split, const char *bytes, size_t size)
{
    qll_status status = QLL_OK;
    for (size_t i = 0; status == QLL_OK && !split->is_broken && i < size; i++) {
        const char c = bytes[i];
        const bool was_inside = split->in_list && split->depth > 2;
        if (split->in_text) {
            take_text_byte(split, c);
        } else if (c == '"') {
            split->in_text = true;
            split->key_size = split->depth == 1 ? 0 : split->key_size;
        } else if (strchr("{}[]", c) != NULL && c != '\0') {
            take_bracket(split, c);
        }
        const bool is_inside = split->in_list && split->depth > 2;
        if (was_inside || is_inside) {
            qll_write_byte(&split->one, c, 1);
        }
        if (was_inside && !is_inside) {
            status = hand_on(split);
        }
    }
    return status == QLL_OK && split->is_broken ? QLL_REFUSED : status;
}

bool qll_record_split_is_whole(const qll_record_split *split)
{
    return split->depth == 0 && !split->in_text && !split->is_broken;
}
