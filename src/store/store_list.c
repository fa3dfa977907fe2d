/* Sites as lists show them, and people. */
#include "base/text.h"
#include "store/inside.h"

#include <limits.h>
#include <string.h>

static qll_status take_site(void *context, const qll_value_of *row)
{
    qll_growing *list = context;
    qll_site_row *site = qll_growing_add(list);
    if (site == NULL) {
        return QLL_NO_MEMORY;
    }
    *site = (qll_site_row){
        .site = qll_column_text(&row[0], list->arena),
        .name = qll_column_text(&row[1], list->arena),
        .plan_day = qll_column_text(&row[2], list->arena),
        .every_months = row[3].is == QLL_COLUMN_NULL ? 0 : (int)row[3].whole,
        .service_day = qll_column_text(&row[4], list->arena),
        .conflicts = (size_t)row[5].whole,
        .name_key = qll_column_text(&row[6], list->arena),
    };
    return QLL_OK;
}

static qll_status hand_over(const qll_growing *list, qll_status status, size_t refused,
                            qll_store_sites *sites)
{
    *sites = (qll_store_sites){list->items, list->count};
    return status == QLL_OK && qll_arena_refused(list->arena) != refused ? QLL_NO_MEMORY : status;
}

static qll_value_of most_rows(size_t most)
{
    return qll_sql_whole(most > (size_t)LLONG_MAX ? LLONG_MAX : (long long)most);
}

qll_status qll_store_list(qll_store *store, const qll_site_row *after, size_t most,
                          qll_arena *arena, qll_store_sites *sites, qll_said *why)
{
    qll_growing list = {.arena = arena, .size = sizeof(qll_site_row)};
    const size_t refused = qll_arena_refused(arena);
    const qll_status status = QLL_RUN(
        store, SITES, take_site, &list, why, qll_sql_text(after == NULL ? "" : after->name_key),
        qll_sql_text(after == NULL ? "" : after->site), most_rows(most));
    return hand_over(&list, status, refused, sites);
}

qll_status qll_store_planned(qll_store *store, qll_arena *arena, qll_store_sites *sites,
                             qll_said *why)
{
    qll_growing list = {.arena = arena, .size = sizeof(qll_site_row)};
    const size_t refused = qll_arena_refused(arena);
    const qll_status status = QLL_RUN_BARE(store, PLANNED, take_site, &list, why);
    return hand_over(&list, status, refused, sites);
}

qll_status qll_store_conflicts(qll_store *store, qll_arena *arena, qll_store_sites *sites,
                               qll_said *why)
{
    qll_growing list = {.arena = arena, .size = sizeof(qll_site_row)};
    const size_t refused = qll_arena_refused(arena);
    const qll_status status = QLL_RUN_BARE(store, IN_CONFLICT, take_site, &list, why);
    return hand_over(&list, status, refused, sites);
}

/* ---- search ---- */

static bool is_of_word(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9')
           || (unsigned char)c >= 0x80;
}

/* Every word of @p words as the beginning of one: `"ce"* "oak"*` (FTS5), `'ce':* & 'oak':*` (PostgreSQL). Nothing of what is typed
 * means anything to either. */
static void write_query(qll_writer *query, const char *words, qll_dialect dialect)
{
    const bool is_sqlite = dialect == QLL_DIALECT_SQLITE;
    const char *c = words;
    while (*c != '\0') {
        size_t size = 0;
        while (is_of_word(c[size])) {
            size++;
        }
        if (size > 0) {
            qll_write(query, query->size == 0 ? "" : is_sqlite ? " " : " & ");
            qll_write(query, is_sqlite ? "\"" : "'");
            qll_write_text(query, (qll_text){c, size});
            qll_write(query, is_sqlite ? "\"*" : "':*");
        }
        c += size > 0 ? size : 1;
    }
}

qll_status qll_store_search(qll_store *store, const char *words, size_t most, qll_arena *arena,
                            qll_store_sites *sites, qll_said *why)
{
    *sites = (qll_store_sites){0};
    qll_growing list = {.arena = arena, .size = sizeof(qll_site_row)};
    const size_t refused = qll_arena_refused(arena);
    qll_writer query = qll_writer_new(arena);
    write_query(&query, words, store->database->dialect);
    if (query.size == 0) {
        return qll_arena_refused(arena) != refused ? QLL_NO_MEMORY : QLL_OK;
    }
    const qll_status status = QLL_RUN(store, SEARCH, take_site, &list, why,
                                      qll_sql_part(qll_writer_text(&query)), most_rows(most));
    return hand_over(&list, status, refused, sites);
}

/* ---- one that somebody names ---- */

/* Fewer characters of an id than this may be a word. */
#define QLL_ID_LEAST 4

qll_status qll_store_called(qll_store *store, const char *text, qll_arena *arena,
                            qll_store_sites *sites, qll_said *why)
{
    qll_growing list = {.arena = arena, .size = sizeof(qll_site_row)};
    const size_t refused = qll_arena_refused(arena);
    qll_writer key = qll_writer_new(arena);
    qll_writer after = qll_writer_new(arena);
    qll_name_key(&key, text);
    const qll_text name = qll_writer_text(&key);
    /* No digit of an id is above "f". */
    qll_write_format(&after, "%sg", name.size >= QLL_ID_LEAST ? name.bytes : "");
    const qll_text from = name.size >= QLL_ID_LEAST ? name : qll_text_of("g");
    const qll_status status =
        QLL_RUN(store, SITES_CALLED, take_site, &list, why, qll_sql_part(name), qll_sql_part(from),
                qll_sql_part(qll_writer_text(&after)));
    if (status == QLL_OK && list.count == 0 && qll_arena_refused(arena) == refused) {
        return qll_store_search(store, text, 20, arena, sites, why);
    }
    return hand_over(&list, status, refused, sites);
}

/* ---- people ---- */

qll_status qll_store_put_person(qll_store *store, const char *name, const char *password,
                                qll_said *why)
{
    long long receipt = 0;
    qll_status status = qll_store_begin(store, &receipt, why);
    if (status == QLL_OK) {
        status =
            QLL_RUN(store, PUT_PERSON, NULL, NULL, why, qll_sql_text(name), qll_sql_text(password));
        status = qll_store_end(store, status, why);
    }
    return status;
}

static qll_status take_text(void *context, const qll_value_of *row)
{
    qll_growing *list = context;
    const char **text = qll_growing_add(list);
    if (text == NULL) {
        return QLL_NO_MEMORY;
    }
    *text = qll_column_text(&row[0], list->arena);
    return *text == NULL ? QLL_NO_MEMORY : QLL_OK;
}

qll_status qll_store_person(qll_store *store, const char *name, qll_arena *arena,
                            const char **password, qll_said *why)
{
    qll_growing list = {.arena = arena, .size = sizeof(const char *)};
    const qll_status status = QLL_RUN(store, PERSON, take_text, &list, why, qll_sql_text(name));
    *password = list.count == 0 ? NULL : ((const char *const *)list.items)[0];
    return status;
}

qll_status qll_store_people(qll_store *store, qll_arena *arena, const char *const **names,
                            size_t *count, qll_said *why)
{
    qll_growing list = {.arena = arena, .size = sizeof(const char *)};
    const qll_status status = QLL_RUN_BARE(store, PEOPLE, take_text, &list, why);
    *names = list.items;
    *count = list.count;
    return status;
}
