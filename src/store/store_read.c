/* Records as they are read back. */
#include "base/text.h"
#include "store/inside.h"

#include <limits.h>
#include <string.h>

typedef struct reading {
    qll_store *store;
    qll_said *why;
    qll_growing list;
} reading;

static qll_record_kind kind_of(qll_text word)
{
    for (int kind = 0; kind < QLL_RECORD_KIND_COUNT; kind++) {
        if (qll_text_is(word, qll_record_kind_words[kind])) {
            return (qll_record_kind)kind;
        }
    }
    return QLL_RECORD_KIND_COUNT;
}

typedef struct taking_parents {
    qll_record *record;
    qll_arena *arena;
} taking_parents;

static qll_status take_parent(void *context, const qll_value_of *row)
{
    taking_parents *taking = context;
    qll_record *record = taking->record;
    if (record->parent_count < QLL_RECORD_PARENTS) {
        record->parents[record->parent_count] = qll_column_text(&row[0], taking->arena);
        record->parent_count += 1;
    }
    return QLL_OK;
}

static qll_status take_record(void *context, const qll_value_of *row)
{
    reading *to = context;
    qll_arena *arena = to->list.arena;
    qll_record *record = qll_growing_add(&to->list);
    if (record == NULL) {
        return QLL_NO_MEMORY;
    }
    const char *body = qll_column_text(&row[9], arena);
    *record = (qll_record){
        .id = qll_column_text(&row[0], arena),
        .receipt = row[1].whole,
        .kind = kind_of(row[2].text),
        .site = qll_column_text(&row[3], arena),
        .document = qll_column_text(&row[4], arena),
        .corrects = qll_column_text(&row[5], arena),
        .who = qll_column_text(&row[6], arena),
        .written_at = qll_column_text(&row[7], arena),
        .written_ms = row[8].whole,
        .body = {body, body == NULL ? 0 : row[9].text.size},
        .title = qll_column_text(&row[10], arena),
        .words = qll_column_text(&row[11], arena),
        .day = qll_column_text(&row[12], arena),
        .every_months = row[13].is == QLL_COLUMN_NULL ? 0 : (int)row[13].whole,
    };
    if (record->document == NULL) {
        return QLL_OK;
    }
    taking_parents taking = {record, arena};
    return QLL_RUN(to->store, PARENTS, take_parent, &taking, to->why, qll_sql_text(record->id));
}

static reading reading_into(qll_store *store, qll_arena *arena, qll_said *why)
{
    return (reading){store, why, {.arena = arena, .size = sizeof(qll_record)}};
}

static qll_status hand_over(const reading *done, qll_status status, size_t refused,
                            qll_records *records)
{
    *records = (qll_records){done->list.items, done->list.count};
    return status == QLL_OK && qll_arena_refused(done->list.arena) != refused ? QLL_NO_MEMORY
                                                                              : status;
}

static qll_value_of most_rows(size_t most)
{
    return qll_sql_whole(most > (size_t)LLONG_MAX ? LLONG_MAX : (long long)most);
}

qll_status qll_store_changes(qll_store *store, long long after, size_t most, qll_arena *arena,
                             qll_records *records, qll_said *why)
{
    reading to = reading_into(store, arena, why);
    const size_t refused = qll_arena_refused(arena);
    const qll_status status =
        QLL_RUN(store, CHANGES, take_record, &to, why, qll_sql_whole(after), most_rows(most));
    return hand_over(&to, status, refused, records);
}

qll_status qll_store_receipt(qll_store *store, long long *receipt, qll_said *why)
{
    *receipt = 0;
    return QLL_RUN_BARE(store, RECEIPT, qll_take_whole, receipt, why);
}

/* What a statement gives for one id. */
static qll_status read_by_id(qll_store *store, qll_statement statement, const char *id,
                             qll_arena *arena, qll_records *records, qll_said *why)
{
    reading to = reading_into(store, arena, why);
    const size_t refused = qll_arena_refused(arena);
    const qll_value_of value = qll_sql_text(id);
    const qll_status status =
        store->database->kind->run(store->database, statement, &value, 1, take_record, &to, why);
    return hand_over(&to, status, refused, records);
}

qll_status qll_store_get(qll_store *store, const char *id, qll_arena *arena, qll_records *records,
                         qll_said *why)
{
    return read_by_id(store, QLL_STATEMENT_RECORD, id, arena, records, why);
}

qll_status qll_store_heads(qll_store *store, const char *document, qll_arena *arena,
                           qll_records *records, qll_said *why)
{
    return read_by_id(store, QLL_STATEMENT_HEADS, document, arena, records, why);
}

qll_status qll_store_versions(qll_store *store, const char *document, qll_arena *arena,
                              qll_records *records, qll_said *why)
{
    return read_by_id(store, QLL_STATEMENT_VERSIONS, document, arena, records, why);
}

qll_status qll_store_surveys(qll_store *store, long long after, size_t most, qll_arena *arena,
                             qll_records *records, qll_said *why)
{
    reading to = reading_into(store, arena, why);
    const size_t refused = qll_arena_refused(arena);
    const qll_status status =
        QLL_RUN(store, SURVEYS, take_record, &to, why, qll_sql_whole(after), most_rows(most));
    return hand_over(&to, status, refused, records);
}

qll_status qll_store_of_site(qll_store *store, const char *site, const qll_record *after,
                             size_t most, qll_arena *arena, qll_records *records, qll_said *why)
{
    reading to = reading_into(store, arena, why);
    const size_t refused = qll_arena_refused(arena);
    const qll_status status =
        QLL_RUN(store, OF_SITE, take_record, &to, why, qll_sql_text(site),
                qll_sql_whole(after == NULL ? LLONG_MIN : after->written_ms),
                qll_sql_text(after == NULL ? "" : after->id), most_rows(most));
    return hand_over(&to, status, refused, records);
}
