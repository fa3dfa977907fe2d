/* Marks: by one, whoever was given it is told whether this store still is what it was then (docs/theory/records.md 3). */
#include "base/digest.h"
#include "base/text.h"
#include "host/identity.h"
#include "store/inside.h"

#include <stdio.h>
#include <string.h>

/* So many bytes of a SHA-256 that no two are alike by chance. */
static const size_t digest_size = 16;

/* More digits than any number of a mark has. */
static const size_t most_digits = 18;

static qll_status take_mark(void *context, const qll_value_of *row)
{
    const qll_text text = row[0].text;
    (void)snprintf(context, QLL_STORE_MARK_SIZE, "%.*s", (int)text.size, text.bytes);
    return QLL_OK;
}

/* The number that @p mark begins with; -1 where it begins with none. */
static long long number_of(const char *mark)
{
    long long number = 0;
    size_t digits = 0;
    while (mark[digits] >= '0' && mark[digits] <= '9' && digits < most_digits) {
        number = 10 * number + (mark[digits] - '0');
        digits += 1;
    }
    return digits > 0 && mark[digits] == '.' ? number : -1;
}

qll_status qll_store_mark(qll_store *store, long long receipt, char mark[QLL_STORE_MARK_SIZE],
                          qll_said *why)
{
    mark[0] = '\0';
    return QLL_RUN(store, MARK_OF_RECEIPT, take_mark, mark, why, qll_sql_whole(receipt));
}

qll_status qll_store_mark_of_attachment(qll_store *store, const char *sha256,
                                        char mark[QLL_STORE_MARK_SIZE], qll_said *why)
{
    mark[0] = '\0';
    return QLL_RUN(store, MARK_OF_ATTACHMENT, take_mark, mark, why, qll_sql_text(sha256));
}

qll_status qll_store_knows_mark(qll_store *store, const char *mark, bool *is_known, qll_said *why)
{
    char kept[QLL_STORE_MARK_SIZE] = "";
    const long long number = number_of(mark);
    const qll_status status =
        number < 0 ? QLL_OK : QLL_RUN(store, MARK, take_mark, kept, why, qll_sql_whole(number));
    *is_known = kept[0] != '\0' && strcmp(kept, mark) == 0;
    return status;
}

/* ---- one more ---- */

/* Makes @p mark, that of what came before, the mark of @p what. */
static qll_status go_on(qll_store *store, const char *what, char mark[QLL_STORE_MARK_SIZE])
{
    const qll_arena_mark now = qll_arena_now(store->arena);
    qll_writer whole = qll_writer_new(store->arena);
    qll_writer digits = qll_writer_new(store->arena);
    qll_write_format(&whole, "%s %s", mark, what);
    qll_digest_write(&digits, qll_writer_text(&whole), digest_size);
    const bool is_made = !whole.no_memory && !digits.no_memory;
    if (is_made) {
        (void)snprintf(mark, QLL_STORE_MARK_SIZE, "%lld.%s", number_of(mark) + 1,
                       qll_writer_text(&digits).bytes);
    }
    qll_arena_reset(store->arena, now);
    return is_made ? QLL_OK : QLL_NO_MEMORY;
}

qll_status qll_last_mark(qll_store *store, char mark[QLL_STORE_MARK_SIZE], qll_said *why)
{
    mark[0] = '\0';
    return QLL_RUN_BARE(store, LAST_MARK, take_mark, mark, why);
}

/* Of a record its receipt, of an attachment its hash; the other is none. */
static qll_status put_mark(qll_store *store, const char *mark, qll_value_of receipt,
                           const char *sha256, qll_said *why)
{
    return QLL_RUN(store, PUT_MARK, NULL, NULL, why, qll_sql_whole(number_of(mark)),
                   qll_sql_text(mark), receipt, qll_sql_text(sha256));
}

qll_status qll_mark_record(qll_store *store, const char *id, long long receipt,
                           char mark[QLL_STORE_MARK_SIZE], qll_said *why)
{
    const qll_status status = go_on(store, id, mark);
    return status == QLL_OK ? put_mark(store, mark, qll_sql_whole(receipt), NULL, why) : status;
}

static qll_status mark_attachment(qll_store *store, const char *sha256,
                                  char mark[QLL_STORE_MARK_SIZE], qll_said *why)
{
    const qll_status status = go_on(store, sha256, mark);
    return status == QLL_OK ? put_mark(store, mark, qll_sql_text(NULL), sha256, why) : status;
}

qll_status qll_mark_attachment(qll_store *store, const char *sha256, qll_said *why)
{
    char mark[QLL_STORE_MARK_SIZE];
    const qll_status status = qll_last_mark(store, mark, why);
    return status == QLL_OK ? mark_attachment(store, sha256, mark, why) : status;
}

/* ---- a store that has none yet ---- */

typedef struct marking {
    qll_store *store;
    char mark[QLL_STORE_MARK_SIZE];
    qll_said *why;
} marking;

static qll_status take_record(void *context, const qll_value_of *row)
{
    marking *all = context;
    const qll_arena_mark now = qll_arena_now(all->store->arena);
    const char *id = qll_column_text(&row[0], all->store->arena);
    const qll_status status =
        id == NULL ? QLL_NO_MEMORY
                   : qll_mark_record(all->store, id, row[1].whole, all->mark, all->why);
    qll_arena_reset(all->store->arena, now);
    return status;
}

static qll_status take_attachment(void *context, const qll_value_of *row)
{
    marking *all = context;
    const qll_arena_mark now = qll_arena_now(all->store->arena);
    const char *sha256 = qll_column_text(&row[0], all->store->arena);
    const qll_status status =
        sha256 == NULL ? QLL_NO_MEMORY : mark_attachment(all->store, sha256, all->mark, all->why);
    qll_arena_reset(all->store->arena, now);
    return status;
}

qll_status qll_marks_begin(qll_store *store, qll_said *why)
{
    marking all = {.store = store, .why = why};
    const qll_arena_mark now = qll_arena_now(store->arena);
    const char *name = qll_host_uuid(store->arena);
    if (name == NULL) {
        return QLL_NO_MEMORY;
    }
    (void)snprintf(all.mark, sizeof all.mark, "0.%s", name);
    qll_status status = put_mark(store, all.mark, qll_sql_whole(0), NULL, why);
    status = status == QLL_OK ? QLL_RUN_BARE(store, RECORD_IDS, take_record, &all, why) : status;
    if (status == QLL_OK) {
        status = QLL_RUN_BARE(store, ATTACHMENTS, take_attachment, &all, why);
    }
    qll_arena_reset(store->arena, now);
    return status;
}

/* ---- whether all are right ---- */

typedef struct checking {
    qll_store *store;
    char mark[QLL_STORE_MARK_SIZE]; /* of what came before */
    bool is_wrong;
} checking;

static qll_status take_marked(void *context, const qll_value_of *row)
{
    checking *all = context;
    const qll_arena_mark now = qll_arena_now(all->store->arena);
    const char *kept = qll_column_text(&row[0], all->store->arena);
    const char *what = qll_column_text(&row[1], all->store->arena);
    qll_status status = QLL_OK;
    if (what == NULL) {
        all->is_wrong = true; /* it is of nothing that is there */
    } else {
        status = go_on(all->store, what, all->mark);
        all->is_wrong = all->is_wrong || kept == NULL || strcmp(kept, all->mark) != 0;
    }
    qll_arena_reset(all->store->arena, now);
    return status;
}

static qll_status take_unmarked(void *context, const qll_value_of *row)
{
    (void)row;
    *(bool *)context = true;
    return QLL_OK;
}

qll_status qll_marks_check(qll_store *store, qll_said *why)
{
    checking all = {.store = store};
    qll_status status = qll_store_mark(store, 0, all.mark, why);
    all.is_wrong = all.mark[0] == '\0';
    status = status == QLL_OK ? QLL_RUN_BARE(store, MARKED, take_marked, &all, why) : status;
    status = status == QLL_OK ? QLL_RUN_BARE(store, UNMARKED, take_unmarked, &all.is_wrong, why)
                              : status;
    if (status == QLL_OK && all.is_wrong) {
        *why = (qll_said){.id = QLL_TEXT_STORE_MARK_WRONG};
        return QLL_REFUSED;
    }
    return status;
}
