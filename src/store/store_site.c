/* The row that a list shows of a site, worked out of the site's records. */
#include "base/text.h"
#include "store/inside.h"

typedef struct telling {
    qll_arena *arena;
    qll_site_told *told;
} telling;

static qll_status take_site(void *context, const qll_value_of *row)
{
    telling *to = context;
    to->told->name = qll_column_text(&row[0], to->arena);
    to->told->words = qll_column_text(&row[1], to->arena);
    return QLL_OK;
}

static qll_status take_plan(void *context, const qll_value_of *row)
{
    telling *to = context;
    to->told->plan_day = qll_column_text(&row[0], to->arena);
    to->told->every_months = row[1].whole;
    return QLL_OK;
}

static qll_status take_service(void *context, const qll_value_of *row)
{
    telling *to = context;
    to->told->service_day = qll_column_text(&row[0], to->arena);
    return QLL_OK;
}

qll_status qll_site_tell(qll_store *store, const char *site, qll_arena *arena, qll_site_told *told,
                         qll_said *why)
{
    *told = (qll_site_told){0};
    telling to = {arena, told};
    const size_t refused = qll_arena_refused(arena);
    qll_status status = QLL_RUN(store, SITE_SHOWN, take_site, &to, why, qll_sql_text(site));
    if (status == QLL_OK) {
        status = QLL_RUN(store, PLAN_SHOWN, take_plan, &to, why, qll_sql_text(site));
    }
    if (status == QLL_OK) {
        status = QLL_RUN(store, LAST_SERVICE, take_service, &to, why, qll_sql_text(site));
    }
    if (status == QLL_OK) {
        status = QLL_RUN(store, CONFLICT_COUNT, qll_take_whole, &told->conflicts, why,
                         qll_sql_text(site));
    }
    told->name = told->name == NULL ? "" : told->name;
    return status == QLL_OK && qll_arena_refused(arena) != refused ? QLL_NO_MEMORY : status;
}

static qll_status put_row(qll_store *store, const char *site, long long number,
                          const qll_site_told *told, qll_said *why)
{
    qll_writer key = qll_writer_new(store->arena);
    qll_name_key(&key, told->name);
    const qll_text key_text = qll_writer_text(&key);
    if (key.no_memory) {
        return QLL_NO_MEMORY;
    }
    const qll_value_of months =
        told->every_months == 0 ? qll_sql_text(NULL) : qll_sql_whole(told->every_months);
    return QLL_RUN(store, PUT_SITE, NULL, NULL, why, qll_sql_text(site), qll_sql_whole(number),
                   qll_sql_text(told->name), qll_sql_part(key_text), qll_sql_text(told->plan_day),
                   months, qll_sql_text(told->service_day), qll_sql_whole(told->conflicts));
}

qll_status qll_site_refresh(qll_store *store, const char *site, long long number, qll_said *why)
{
    const qll_arena_mark mark = qll_arena_now(store->arena);
    qll_site_told told;
    qll_status status = qll_site_tell(store, site, store->arena, &told, why);
    if (status == QLL_OK) {
        status = QLL_RUN(store, DROP_WORDS, NULL, NULL, why, qll_sql_text(site));
    }
    status = status == QLL_OK ? put_row(store, site, number, &told, why) : status;
    if (status == QLL_OK && told.words != NULL) {
        status = QLL_RUN(store, PUT_WORDS, NULL, NULL, why, qll_sql_text(told.words),
                         qll_sql_text(site));
    }
    qll_arena_reset(store->arena, mark);
    return status;
}
