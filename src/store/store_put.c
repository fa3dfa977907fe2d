/* Records coming in: each is new, there already, or refused (docs/theory/records.md 2). */
#include "base/text.h"
#include "store/inside.h"

#include <string.h>

/* A site of which something came, and the receipt it came with first. */
typedef struct touched {
    const char *site;
    long long number;
} touched;

typedef struct putting {
    qll_store *store;
    qll_put_rule rule;
    qll_arena *arena; /* what is said of refusals */
    long long receipt;
    char mark[QLL_STORE_MARK_SIZE]; /* of what came last */
    qll_growing sites;
    qll_said *why;
} putting;

static bool same_text(const char *one, const char *other)
{
    return one == NULL || other == NULL ? one == other : strcmp(one, other) == 0;
}

static bool has_parent(const qll_record *record, const char *id)
{
    for (size_t i = 0; i < record->parent_count; i++) {
        if (strcmp(record->parents[i], id) == 0) {
            return true;
        }
    }
    return false;
}

/* Parents are a set: the store hands them out in an order of its own. */
static bool same_parents(const qll_record *one, const qll_record *other)
{
    if (one->parent_count != other->parent_count) {
        return false;
    }
    for (size_t i = 0; i < one->parent_count; i++) {
        if (!has_parent(other, one->parents[i])) {
            return false;
        }
    }
    return true;
}

static bool same_record(const qll_record *one, const qll_record *other)
{
    return one->kind == other->kind && same_text(one->site, other->site)
           && same_text(one->document, other->document) && same_text(one->corrects, other->corrects)
           && same_text(one->who, other->who) && same_text(one->written_at, other->written_at)
           && qll_text_equal(one->body, other->body) && same_parents(one, other);
}

static qll_status touch(putting *all, const char *site)
{
    if (site == NULL) {
        return QLL_OK;
    }
    /* Records of a site come together: the last ones are looked at. */
    const touched *list = all->sites.items;
    const size_t from = all->sites.count > 8 ? all->sites.count - 8 : 0;
    for (size_t i = from; i < all->sites.count; i++) {
        if (strcmp(list[i].site, site) == 0) {
            return QLL_OK;
        }
    }
    touched *one = qll_growing_add(&all->sites);
    if (one == NULL) {
        return QLL_NO_MEMORY;
    }
    *one = (touched){site, all->receipt};
    return QLL_OK;
}

static qll_status take_once(void *context, const qll_value_of *row)
{
    (void)row;
    *(bool *)context = true;
    return QLL_OK;
}

/* Whether @p record would be among what it comes from, or corrects. */
static qll_status comes_from_itself(putting *all, const qll_record *record, bool *is_so)
{
    *is_so = false;
    if (record->corrects != NULL) {
        return QLL_RUN(all->store, CORRECTS, take_once, is_so, all->why,
                       qll_sql_text(record->corrects), qll_sql_text(record->id));
    }
    qll_status status = QLL_OK;
    for (size_t i = 0; status == QLL_OK && !*is_so && i < record->parent_count; i++) {
        status = QLL_RUN(all->store, COMES_FROM, take_once, is_so, all->why,
                         qll_sql_text(record->parents[i]), qll_sql_text(record->id));
    }
    return status;
}

/* The version that stands and that @p record does not come from; NULL if there is none. */
static qll_status left_beside(putting *all, const qll_record *record, const char **beside)
{
    qll_records heads;
    const qll_status status =
        qll_store_heads(all->store, record->document, all->arena, &heads, all->why);
    *beside = NULL;
    for (size_t i = 0; status == QLL_OK && *beside == NULL && i < heads.count; i++) {
        *beside = has_parent(record, heads.list[i].id) ? NULL : heads.list[i].id;
    }
    return status;
}

static void refuse(qll_put *put, qll_said why)
{
    *put = (qll_put){.outcome = QLL_PUT_REFUSED, .why = why};
}

/* Whether there is something against @p record, which is told in @p put. */
static qll_status judge(putting *all, const qll_record *record, qll_put *put, bool *is_refused)
{
    qll_status status = comes_from_itself(all, record, is_refused);
    if (status != QLL_OK || *is_refused) {
        refuse(put, (qll_said){QLL_TEXT_STORE_OWN_PARENT, {qll_as_is(record->id)}});
        return status;
    }
    const char *beside = NULL;
    if (all->rule == QLL_PUT_ONTO && record->document != NULL) {
        status = left_beside(all, record, &beside);
    }
    if (beside != NULL) {
        *is_refused = true;
        refuse(put, (qll_said){QLL_TEXT_STORE_NOT_ONTO, {qll_as_is(beside)}});
    }
    return status;
}

static qll_status insert(putting *all, const qll_record *record)
{
    qll_store *store = all->store;
    const qll_value_of months =
        record->every_months == 0 ? qll_sql_text(NULL) : qll_sql_whole(record->every_months);
    qll_status status = QLL_RUN(
        store, INSERT_RECORD, NULL, NULL, all->why, qll_sql_text(record->id),
        qll_sql_whole(all->receipt), qll_sql_text(qll_record_kind_words[record->kind]),
        qll_sql_text(record->site), qll_sql_text(record->document), qll_sql_text(record->corrects),
        qll_sql_text(record->who), qll_sql_text(record->written_at),
        qll_sql_whole(record->written_ms), qll_sql_part(record->body), qll_sql_text(record->title),
        qll_sql_text(record->words), qll_sql_text(record->day), months);
    for (size_t i = 0; status == QLL_OK && i < record->parent_count; i++) {
        status = QLL_RUN(store, INSERT_PARENT, NULL, NULL, all->why, qll_sql_text(record->id),
                         qll_sql_text(record->parents[i]));
    }
    return status;
}

static qll_status take_touched(void *context, const qll_value_of *row)
{
    putting *all = context;
    const char *site = qll_column_text(&row[0], all->store->arena);
    return touch(all, site);
}

/* Every site at which something stands, or stands no longer, by @p record: a correction or a version may be of another site than what
 * it takes the place of. */
static qll_status touch_all(putting *all, const qll_record *record)
{
    qll_status status = touch(all, record->site);
    if (status == QLL_OK && record->corrects != NULL) {
        status = QLL_RUN(all->store, FACT_SITES, take_touched, all, all->why,
                         qll_sql_text(record->corrects));
    }
    if (status == QLL_OK && record->document != NULL) {
        status = QLL_RUN(all->store, VERSION_SITES, take_touched, all, all->why,
                         qll_sql_text(record->document));
    }
    return status;
}

static qll_status put_one(putting *all, const qll_record *record, qll_put *put)
{
    qll_records there;
    qll_status status = qll_store_get(all->store, record->id, all->store->arena, &there, all->why);
    if (status != QLL_OK) {
        return status;
    }
    if (there.count > 0) {
        if (same_record(&there.list[0], record)) {
            *put = (qll_put){.outcome = QLL_PUT_SAME, .receipt = there.list[0].receipt};
        } else {
            refuse(put, (qll_said){QLL_TEXT_STORE_SAME_ID, {qll_as_is(record->id)}});
        }
        return QLL_OK;
    }
    bool is_refused = false;
    status = judge(all, record, put, &is_refused);
    if (status != QLL_OK || is_refused) {
        return status;
    }
    all->receipt += 1;
    *put = (qll_put){.outcome = QLL_PUT_NEW, .receipt = all->receipt};
    status = insert(all, record);
    if (status == QLL_OK) {
        status = qll_mark_record(all->store, record->id, all->receipt, all->mark, all->why);
    }
    return status == QLL_OK ? touch_all(all, record) : status;
}

static qll_status refresh_sites(putting *all)
{
    const touched *list = all->sites.items;
    qll_status status = QLL_OK;
    for (size_t i = 0; status == QLL_OK && i < all->sites.count; i++) {
        status = qll_site_refresh(all->store, list[i].site, list[i].number, all->why);
    }
    return status;
}

static qll_status count_heads(putting *all, const qll_record *records, size_t count, qll_put *puts)
{
    qll_status status = QLL_OK;
    for (size_t i = 0; status == QLL_OK && i < count; i++) {
        if (records[i].document == NULL || puts[i].outcome == QLL_PUT_REFUSED) {
            continue;
        }
        const qll_arena_mark mark = qll_arena_now(all->store->arena);
        qll_records heads;
        status =
            qll_store_heads(all->store, records[i].document, all->store->arena, &heads, all->why);
        puts[i].head_count = heads.count;
        qll_arena_reset(all->store->arena, mark);
    }
    return status;
}

qll_status qll_store_put(qll_store *store, const qll_record *records, size_t count,
                         qll_put_rule rule, qll_arena *arena, qll_put *puts, qll_said *why)
{
    const qll_arena_mark mark = qll_arena_now(store->arena);
    putting all = {
        .store = store,
        .rule = rule,
        .arena = arena,
        .sites = {.arena = store->arena, .size = sizeof(touched)},
        .why = why,
    };
    qll_status status = qll_store_begin(store, &all.receipt, why);
    if (status != QLL_OK) {
        return status;
    }
    const long long before = all.receipt;
    status = qll_last_mark(store, all.mark, why);
    for (size_t i = 0; status == QLL_OK && i < count; i++) {
        status = put_one(&all, &records[i], &puts[i]);
    }
    status = status == QLL_OK ? refresh_sites(&all) : status;
    status = status == QLL_OK ? count_heads(&all, records, count, puts) : status;
    if (status == QLL_OK && all.receipt != before) {
        status = QLL_RUN(store, RAISE, NULL, NULL, why, qll_sql_whole(all.receipt));
    }
    status = qll_store_end(store, status, why);
    qll_arena_reset(store->arena, mark);
    return status;
}
