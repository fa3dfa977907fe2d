/* Whether a store holds together: its pages, and what is worked out against what it is worked out from. */
#include "base/text.h"
#include "store/inside.h"

#include <string.h>

static qll_status check_receipts(qll_store *store, qll_said *why)
{
    long long last = 0;
    long long count = 0;
    qll_status status = QLL_RUN_BARE(store, RECEIPT, qll_take_whole, &last, why);
    status =
        status == QLL_OK ? QLL_RUN_BARE(store, RECORD_COUNT, qll_take_whole, &count, why) : status;
    if (status == QLL_OK && last != count) {
        *why = (qll_said){QLL_TEXT_STORE_RECEIPT_WRONG,
                          {qll_as_whole((size_t)last), qll_as_whole((size_t)count)}};
        return QLL_REFUSED;
    }
    return status;
}

static bool same_text(const char *one, const char *other)
{
    return one == NULL || other == NULL ? one == other : strcmp(one, other) == 0;
}

static qll_status check_site(qll_store *store, const qll_site_row *site, qll_arena *arena,
                             qll_said *why)
{
    qll_site_told told;
    const qll_arena_mark mark = qll_arena_now(store->arena);
    const qll_status status = qll_site_tell(store, site->site, store->arena, &told, why);
    const bool is_same = status == QLL_OK && same_text(told.name, site->name)
                         && same_text(told.plan_day, site->plan_day)
                         && same_text(told.service_day, site->service_day)
                         && told.every_months == site->every_months
                         && told.conflicts == (long long)site->conflicts;
    qll_arena_reset(store->arena, mark);
    if (status == QLL_OK && !is_same) {
        const char *kept = qll_arena_copy(arena, site->site, strlen(site->site));
        *why = (qll_said){QLL_TEXT_STORE_LIST_WRONG, {qll_as_is(kept)}};
        return QLL_REFUSED;
    }
    return status;
}

static qll_status check_sites(qll_store *store, qll_arena *arena, qll_said *why)
{
    const size_t page = 1000;
    qll_status status = QLL_OK;
    qll_store_sites sites = {.count = page};
    const qll_site_row *last = NULL;
    while (status == QLL_OK && sites.count == page) {
        status = qll_store_list(store, last, page, store->arena, &sites, why);
        for (size_t i = 0; status == QLL_OK && i < sites.count; i++) {
            status = check_site(store, &sites.list[i], arena, why);
        }
        last = sites.count > 0 ? &sites.list[sites.count - 1] : last;
    }
    return status;
}

static qll_status check_attachments(qll_store *store, qll_arena *arena, qll_said *why)
{
    qll_store_wholes list;
    qll_status status = qll_store_attachments(store, store->arena, &list, why);
    for (size_t i = 0; status == QLL_OK && i < list.count; i++) {
        const qll_arena_mark mark = qll_arena_now(store->arena);
        bool is_right = false;
        status = qll_attachment_hash(store, list.list[i].sha256, list.list[i].size, &is_right, why);
        qll_arena_reset(store->arena, mark);
        if (status == QLL_OK && !is_right) {
            const char *name = list.list[i].sha256;
            *why = (qll_said){QLL_TEXT_STORE_HASH_WRONG,
                              {qll_as_is(qll_arena_copy(arena, name, strlen(name)))}};
            return QLL_REFUSED;
        }
    }
    return status;
}

static qll_status take_loose(void *context, const qll_value_of *row)
{
    (void)row;
    *(bool *)context = true;
    return QLL_OK;
}

static qll_status check_parents(qll_store *store, qll_said *why)
{
    bool is_loose = false;
    const qll_status status = QLL_RUN_BARE(store, LOOSE_PARENTS, take_loose, &is_loose, why);
    if (status == QLL_OK && is_loose) {
        *why = (qll_said){QLL_TEXT_STORE_LOOSE_END, {qll_as_is("parents")}};
        return QLL_REFUSED;
    }
    return status;
}

qll_status qll_store_check(qll_store *store, qll_arena *arena, qll_said *why)
{
    const qll_arena_mark mark = qll_arena_now(store->arena);
    qll_status status = store->database->kind->check(store->database, why);
    status = status == QLL_OK ? check_receipts(store, why) : status;
    status = status == QLL_OK ? qll_marks_check(store, why) : status;
    status = status == QLL_OK ? check_parents(store, why) : status;
    status = status == QLL_OK ? check_sites(store, arena, why) : status;
    status = status == QLL_OK ? check_attachments(store, arena, why) : status;
    qll_arena_reset(store->arena, mark);
    return status;
}
