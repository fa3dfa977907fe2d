/* Photos, sounds and logs, which come in parts. */
#include "base/digest.h"
#include "base/text.h"
#include "store/inside.h"

#include <string.h>

static qll_status take_held(void *context, const qll_value_of *row)
{
    *(qll_store_held *)context = (qll_store_held){
        .size = (uint64_t)row[0].whole,
        .held = (uint64_t)row[1].whole,
        .is_whole = row[2].whole != 0,
    };
    return QLL_OK;
}

qll_status qll_store_attachment(qll_store *store, const char *sha256, qll_store_held *held,
                                qll_said *why)
{
    *held = (qll_store_held){0};
    return QLL_RUN(store, ATTACHMENT, take_held, held, why, qll_sql_text(sha256));
}

static bool is_name(const char *sha256)
{
    return strlen(sha256) == (size_t)(2 * QLL_DIGEST_SIZE)
           && strspn(sha256, "0123456789abcdef") == (size_t)(2 * QLL_DIGEST_SIZE);
}

typedef struct piece {
    qll_arena *arena;
    uint64_t from; /* of the attachment */
    qll_text bytes;
} piece;

static qll_status take_piece(void *context, const qll_value_of *row)
{
    piece *to = context;
    const uint64_t begins = (uint64_t)row[0].whole;
    const uint64_t skip = to->from - begins;
    if (skip >= row[1].text.size) {
        return QLL_OK;
    }
    const size_t size = row[1].text.size - (size_t)skip;
    to->bytes = (qll_text){qll_arena_copy(to->arena, row[1].text.bytes + skip, size), size};
    return to->bytes.bytes == NULL ? QLL_NO_MEMORY : QLL_OK;
}

/* What is held from @p begins on, up to the end of its part. */
static qll_status read_piece(qll_store *store, const char *sha256, uint64_t begins,
                             qll_arena *arena, qll_text *bytes, qll_said *why)
{
    piece to = {.arena = arena, .from = begins};
    const qll_status status = QLL_RUN(store, PART, take_piece, &to, why, qll_sql_text(sha256),
                                      qll_sql_whole((long long)begins));
    *bytes = to.bytes;
    return status;
}

qll_status qll_store_read_attachment(qll_store *store, const char *sha256, uint64_t begins,
                                     qll_arena *arena, qll_text *bytes, qll_said *why)
{
    qll_store_held held;
    *bytes = (qll_text){0};
    qll_status status = qll_store_attachment(store, sha256, &held, why);
    if (status == QLL_OK && held.is_whole && begins < held.size) {
        status = read_piece(store, sha256, begins, arena, bytes, why);
    }
    return status;
}

qll_status qll_attachment_hash(qll_store *store, const char *sha256, uint64_t size, bool *is_right,
                               qll_said *why)
{
    *is_right = false;
    char *all = qll_arena_take(store->arena, (size_t)size, 1);
    if (all == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_status status = QLL_OK;
    uint64_t at = 0;
    qll_text bytes = {"", 1};
    while (status == QLL_OK && at < size && bytes.size > 0) {
        const qll_arena_mark mark = qll_arena_now(store->arena);
        status = read_piece(store, sha256, at, store->arena, &bytes, why);
        const uint64_t fits = bytes.size < size - at ? bytes.size : size - at;
        if (fits > 0) {
            memcpy(all + at, bytes.bytes, (size_t)fits);
        }
        at += fits;
        qll_arena_reset(store->arena, mark);
    }
    qll_writer digits = qll_writer_new(store->arena);
    qll_digest_write(&digits, (qll_text){all, (size_t)at}, QLL_DIGEST_SIZE);
    *is_right = at == size && qll_text_is(qll_writer_text(&digits), sha256);
    return status == QLL_OK && digits.no_memory ? QLL_NO_MEMORY : status;
}

/* The part itself, less what is held. */
static qll_status add_part(qll_store *store, const qll_store_part *part, qll_store_held *held,
                           bool *is_wrong, qll_said *why)
{
    const uint64_t skip = held->held - part->begins;
    const qll_text fresh = {part->bytes.bytes + skip, part->bytes.size - (size_t)skip};
    held->held += fresh.size;
    qll_status status = QLL_RUN(store, PUT_ATTACHMENT, NULL, NULL, why, qll_sql_text(part->sha256),
                                qll_sql_whole((long long)held->size),
                                qll_sql_whole((long long)held->held), qll_sql_whole(0));
    if (status == QLL_OK && fresh.size > 0) {
        status = QLL_RUN(store, PUT_PART, NULL, NULL, why, qll_sql_text(part->sha256),
                         qll_sql_whole((long long)(held->held - fresh.size)), qll_sql_bytes(fresh));
    }
    if (status != QLL_OK || held->held < held->size) {
        return status;
    }
    status = qll_attachment_hash(store, part->sha256, held->size, &held->is_whole, why);
    *is_wrong = !held->is_whole;
    if (status == QLL_OK && *is_wrong) {
        held->held = 0;
        status = QLL_RUN(store, DROP_PARTS, NULL, NULL, why, qll_sql_text(part->sha256));
    }
    if (status == QLL_OK) {
        status = QLL_RUN(store, PUT_ATTACHMENT, NULL, NULL, why, qll_sql_text(part->sha256),
                         qll_sql_whole((long long)held->size), qll_sql_whole((long long)held->held),
                         qll_sql_whole(held->is_whole));
    }
    if (status == QLL_OK && held->is_whole) {
        status = qll_mark_attachment(store, part->sha256, why);
    }
    return status;
}

/* Why the part cannot be one of what is held; NONE where it can. */
static qll_said against(const qll_store_part *part, const qll_store_held *held)
{
    if (!is_name(part->sha256)) {
        return (qll_said){QLL_TEXT_STORE_PART_NAME, {qll_as_quoted(qll_text_of(part->sha256))}};
    }
    if (part->size > QLL_STORE_ATTACHMENT_SIZE || part->begins > part->size
        || part->bytes.size > QLL_STORE_PART_SIZE || part->bytes.size > part->size - part->begins
        || (held->held > 0 && held->size != part->size)) {
        const uint64_t size = part->size > QLL_STORE_ATTACHMENT_SIZE ? QLL_STORE_ATTACHMENT_SIZE
                              : held->held > 0                       ? held->size
                                                                     : part->size;
        return (qll_said){QLL_TEXT_STORE_PART_SIZE, {qll_as_whole((size_t)size)}};
    }
    if (part->begins > held->held) {
        return (qll_said){QLL_TEXT_STORE_PART_GAP,
                          {qll_as_whole((size_t)part->begins), qll_as_whole((size_t)held->held)}};
    }
    return (qll_said){.id = QLL_TEXT_NONE};
}

qll_status qll_store_put_part(qll_store *store, const qll_store_part *part, qll_store_held *held,
                              qll_said *why)
{
    long long receipt = 0;
    qll_status status = qll_store_begin(store, &receipt, why);
    if (status != QLL_OK) {
        return status;
    }
    const qll_arena_mark mark = qll_arena_now(store->arena);
    status = qll_store_attachment(store, part->sha256, held, why);
    const qll_said refused = status == QLL_OK ? against(part, held) : (qll_said){0};
    bool is_wrong = false;
    if (status == QLL_OK && refused.id != QLL_TEXT_NONE) {
        *why = refused;
        status = QLL_REFUSED;
    }
    if (status == QLL_OK && !held->is_whole
        && (held->held < part->begins + part->bytes.size || part->size == 0)) {
        held->size = part->size;
        status = add_part(store, part, held, &is_wrong, why);
    }
    status = qll_store_end(store, status, why);
    qll_arena_reset(store->arena, mark);
    if (status == QLL_OK && is_wrong) {
        *why = (qll_said){QLL_TEXT_STORE_PART_HASH, {qll_as_is(part->sha256)}};
        return QLL_REFUSED;
    }
    return status;
}

static qll_status take_whole(void *context, const qll_value_of *row)
{
    qll_growing *list = context;
    qll_store_whole *whole = qll_growing_add(list);
    if (whole == NULL) {
        return QLL_NO_MEMORY;
    }
    *whole = (qll_store_whole){qll_column_text(&row[0], list->arena), (uint64_t)row[1].whole};
    return whole->sha256 == NULL ? QLL_NO_MEMORY : QLL_OK;
}

qll_status qll_store_attachments(qll_store *store, qll_arena *arena, qll_store_wholes *wholes,
                                 qll_said *why)
{
    qll_growing list = {.arena = arena, .size = sizeof(qll_store_whole)};
    const qll_status status = QLL_RUN_BARE(store, ATTACHMENTS, take_whole, &list, why);
    *wholes = (qll_store_wholes){list.items, list.count};
    return status;
}
