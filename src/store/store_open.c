/* Opening a store, and bringing an older one up to date. */
#include "store/inside.h"
#include "store/sql.h"

#include <string.h>

/* What leads from the version before to each, from 1 on: for all databases, and for the search of either, where there is something. */
typedef struct migration {
    const unsigned char *common, *search, *search_postgres;
    const size_t *common_size, *search_size, *search_postgres_size;
    qll_status (*finish)(qll_store *store, qll_said *why); /* what SQL alone cannot do; NULL */
} migration;

static const migration migrations[QLL_STORE_VERSION] = {
    {.common = qll_file_store_1,
     .common_size = &qll_file_store_1_size,
     .search = qll_file_store_search_1,
     .search_size = &qll_file_store_search_1_size,
     .search_postgres = qll_file_store_search_1_postgres,
     .search_postgres_size = &qll_file_store_search_1_postgres_size},
    {.common = qll_file_store_2, .common_size = &qll_file_store_2_size},
    {.common = qll_file_store_3, .common_size = &qll_file_store_3_size, .finish = qll_marks_begin},
};

static qll_status run_file(qll_store *store, const unsigned char *file, const size_t *size,
                           qll_said *why)
{
    return file == NULL ? QLL_OK
                        : store->database->kind->script(store->database,
                                                        (qll_text){(const char *)file, *size}, why);
}

static qll_status step_up(qll_store *store, int to, qll_said *why)
{
    const migration *step = &migrations[to - 1];
    const bool is_sqlite = store->database->dialect == QLL_DIALECT_SQLITE;
    qll_status status = run_file(store, step->common, step->common_size, why);
    if (status == QLL_OK) {
        status = is_sqlite
                     ? run_file(store, step->search, step->search_size, why)
                     : run_file(store, step->search_postgres, step->search_postgres_size, why);
    }
    if (status == QLL_OK && step->finish != NULL) {
        status = step->finish(store, why);
    }
    return status == QLL_OK ? store->database->kind->set_version(store->database, to, why) : status;
}

/* One that is used is copied first, so that a way back is there. */
static qll_status copy_first(qll_store *store, int version, qll_said *why)
{
    if (version == 0 || store->database->dialect != QLL_DIALECT_SQLITE) {
        return QLL_OK;
    }
    qll_writer path = qll_writer_new(store->arena);
    qll_write_format(&path, "%s.version-%d", store->database->place, version);
    const qll_status status =
        store->database->kind->backup(store->database, qll_writer_text(&path).bytes, why);
    /* A copy that lies there was made of the same version by a run that did not get further. */
    return status == QLL_REFUSED && why->id == QLL_TEXT_STORE_BACKUP_THERE ? QLL_OK : status;
}

/* Others may bring it up at the same moment: the version counts that is found once they cannot. */
static qll_status bring_up(qll_store *store, qll_said *why)
{
    const qll_database_kind *kind = store->database->kind;
    int version = 0;
    qll_status status = kind->version(store->database, &version, why);
    if (status == QLL_OK && version < QLL_STORE_VERSION) {
        status = copy_first(store, version, why);
    }
    if (status != QLL_OK || version >= QLL_STORE_VERSION) {
        return status;
    }
    status = kind->begin(store->database, why);
    if (status == QLL_OK) {
        status = kind->version(store->database, &version, why);
        for (int to = version + 1; status == QLL_OK && to <= QLL_STORE_VERSION; to++) {
            status = step_up(store, to, why);
        }
        status = qll_store_end(store, status, why);
    }
    return status;
}

static qll_status check_version(qll_store *store, bool writes, qll_said *why)
{
    int version = 0;
    const qll_status status = store->database->kind->version(store->database, &version, why);
    if (status != QLL_OK) {
        return status;
    }
    const qll_argument place = qll_as_is(store->database->place);
    if (version > QLL_STORE_VERSION) {
        *why = (qll_said){QLL_TEXT_STORE_NEWER,
                          {place, qll_as_whole((size_t)version), qll_as_whole(QLL_STORE_VERSION)}};
        return QLL_REFUSED;
    }
    if (version < QLL_STORE_VERSION && !writes) {
        *why = (qll_said){QLL_TEXT_STORE_OLDER,
                          {place, qll_as_whole((size_t)version), qll_as_whole(QLL_STORE_VERSION)}};
        return QLL_REFUSED;
    }
    return QLL_OK;
}

static bool is_address(const char *place)
{
    return strncmp(place, "postgresql://", 13) == 0 || strncmp(place, "postgres://", 11) == 0;
}

/* What is said outlives a store that could not be opened. */
static void keep_said(qll_arena *arena, qll_said *why)
{
    for (size_t i = 0; i < QLL_ARGUMENTS; i++) {
        qll_text *text = &why->arguments[i].text;
        if (text->bytes != NULL) {
            const char *kept = qll_arena_copy(arena, text->bytes, text->size);
            *text = kept == NULL ? (qll_text){"", 0} : (qll_text){kept, text->size};
        }
    }
}

qll_status qll_store_open(const char *place, qll_store_use use, qll_arena *arena, qll_store **store,
                          qll_said *why)
{
    const bool writes = use != QLL_STORE_READ;
    *store = NULL;
    *why = (qll_said){.id = QLL_TEXT_NONE};
    qll_arena *own = qll_arena_open((size_t)256 * 1024 * 1024);
    qll_store *made = own == NULL ? NULL : qll_arena_take(own, 1, sizeof *made);
    if (made == NULL) {
        qll_arena_close(own);
        return QLL_NO_MEMORY;
    }
    made->arena = own;
    qll_status status =
        is_address(place)
            ? qll_database_open_postgres(place, &made->database, why)
            : qll_database_open_sqlite(place, writes, use == QLL_STORE_MAKE, &made->database, why);
    status = status == QLL_OK ? check_version(made, writes, why) : status;
    if (writes && status == QLL_OK) {
        status = bring_up(made, why);
        status = status == QLL_OK ? made->database->kind->settle(made->database, why) : status;
    }
    if (status != QLL_OK) {
        keep_said(arena, why);
        qll_store_close(made);
        return status;
    }
    *store = made;
    return QLL_OK;
}

void qll_store_close(qll_store *store)
{
    if (store == NULL) {
        return;
    }
    if (store->database != NULL) {
        store->database->kind->close(store->database);
    }
    qll_arena_close(store->arena);
}

qll_status qll_store_backup(qll_store *store, const char *path, qll_arena *arena, qll_said *why)
{
    const qll_status status = store->database->kind->backup(store->database, path, why);
    keep_said(arena, why);
    return status;
}
