/* The store in a file, by SQLite. */
#include "base/text.h"
#include "host/peek.h"
#include "store/database.h"

#include <assert.h>
#include <limits.h>
#include <sqlite3.h>
#include <stdio.h>
#include <string.h>

/* "Quel" in the header of the file: which program it belongs to. */
#define QLL_APPLICATION_ID 0x5175656cU

/* How long a writer waits for another one. */
#define QLL_WAIT_MS 10000

/* Where the header of an SQLite file has them (its format, 1.3): big-endian. */
#define QLL_HEADER_SIZE        100
#define QLL_HEADER_APPLICATION 68

typedef struct sqlite_database {
    qll_database base;
    sqlite3 *handle;
    sqlite3_stmt *statements[QLL_STATEMENT_COUNT]; /* as they are first run */
} sqlite_database;

/* ---- what went wrong ---- */

/* SQLite's sentence of @p code, which lasts as long as the database. */
static qll_argument sentence_of(int code)
{
    return qll_as_is(sqlite3_errstr(code));
}

static qll_status failed(const qll_database *database, int code, qll_said *why)
{
    const qll_argument place = qll_as_is(database->place);
    switch (code & 0xff) {
    case SQLITE_NOMEM: return QLL_NO_MEMORY;
    case SQLITE_BUSY:
    case SQLITE_LOCKED: *why = (qll_said){QLL_TEXT_STORE_BUSY, {place}}; return QLL_BUSY;
    case SQLITE_FULL: *why = (qll_said){QLL_TEXT_STORE_FULL, {place}}; return QLL_IO;
    case SQLITE_READONLY:
    case SQLITE_PERM: *why = (qll_said){QLL_TEXT_STORE_READ_ONLY, {place}}; return QLL_IO;
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
        *why = (qll_said){QLL_TEXT_STORE_DAMAGED, {place, sentence_of(code)}};
        return QLL_REFUSED;
    default: *why = (qll_said){QLL_TEXT_STORE_FAILED, {place, sentence_of(code)}}; return QLL_IO;
    }
}

/* ---- statements ---- */

static int bind_values(sqlite3_stmt *statement, const qll_value_of *values, size_t count)
{
    assert((size_t)sqlite3_bind_parameter_count(statement) == count);
    int code = SQLITE_OK;
    for (size_t i = 0; i < count && code == SQLITE_OK; i++) {
        const qll_value_of *value = &values[i];
        const int at = (int)i + 1;
        switch (value->is) {
        case QLL_COLUMN_NULL: code = sqlite3_bind_null(statement, at); break;
        case QLL_COLUMN_WHOLE: code = sqlite3_bind_int64(statement, at, value->whole); break;
        case QLL_COLUMN_TEXT:
            code = sqlite3_bind_text64(statement, at, value->text.bytes, value->text.size,
                                       SQLITE_STATIC, SQLITE_UTF8);
            break;
        case QLL_COLUMN_BYTES:
            code = sqlite3_bind_blob64(statement, at, value->text.bytes, value->text.size,
                                       SQLITE_STATIC);
            break;
        }
    }
    return code;
}

static qll_value_of column_of(sqlite3_stmt *statement, int at)
{
    qll_value_of value = {.is = QLL_COLUMN_NULL};
    switch (sqlite3_column_type(statement, at)) {
    case SQLITE_INTEGER:
        value.is = QLL_COLUMN_WHOLE;
        value.whole = sqlite3_column_int64(statement, at);
        break;
    case SQLITE_TEXT:
        value.is = QLL_COLUMN_TEXT;
        value.text.bytes = (const char *)sqlite3_column_text(statement, at);
        value.text.size = (size_t)sqlite3_column_bytes(statement, at);
        break;
    case SQLITE_BLOB:
        value.is = QLL_COLUMN_BYTES;
        value.text.bytes = sqlite3_column_blob(statement, at);
        value.text.size = (size_t)sqlite3_column_bytes(statement, at);
        break;
    default: break;
    }
    /* A text for which there was no memory, and bytes of none, come as NULL. */
    if (value.text.bytes == NULL && value.is != QLL_COLUMN_NULL) {
        value.text.bytes = "";
    }
    return value;
}

static qll_status take_rows(sqlite_database *own, sqlite3_stmt *statement, qll_row_taker *take,
                            void *context, qll_said *why)
{
    qll_value_of row[QLL_SQL_COLUMNS];
    const int columns = sqlite3_column_count(statement);
    assert(columns <= QLL_SQL_COLUMNS);
    int code = sqlite3_step(statement);
    while (code == SQLITE_ROW) {
        for (int i = 0; i < columns; i++) {
            row[i] = column_of(statement, i);
        }
        if (sqlite3_errcode(own->handle) == SQLITE_NOMEM) {
            return QLL_NO_MEMORY;
        }
        const qll_status status = take == NULL ? QLL_OK : take(context, row);
        if (status != QLL_OK) {
            return status;
        }
        code = sqlite3_step(statement);
    }
    return code == SQLITE_DONE ? QLL_OK : failed(&own->base, code, why);
}

static qll_status run(qll_database *database, qll_statement statement, const qll_value_of *values,
                      size_t count, qll_row_taker *take, void *context, qll_said *why)
{
    sqlite_database *own = (sqlite_database *)database;
    sqlite3_stmt *prepared = own->statements[statement];
    if (prepared == NULL) {
        const qll_text text = qll_statement_text(statement, QLL_DIALECT_SQLITE);
        const int code = sqlite3_prepare_v3(own->handle, text.bytes, (int)text.size,
                                            SQLITE_PREPARE_PERSISTENT, &prepared, NULL);
        if (code != SQLITE_OK) {
            return failed(database, code, why);
        }
        own->statements[statement] = prepared;
    }
    const int code = bind_values(prepared, values, count);
    const qll_status status = code == SQLITE_OK ? take_rows(own, prepared, take, context, why)
                                                : failed(database, code, why);
    (void)sqlite3_reset(prepared); /* says again what the last step said */
    (void)sqlite3_clear_bindings(prepared);
    return status;
}

static qll_status plain(sqlite_database *own, const char *sql, qll_said *why)
{
    const int code = sqlite3_exec(own->handle, sql, NULL, NULL, NULL);
    return code == SQLITE_OK ? QLL_OK : failed(&own->base, code, why);
}

static qll_status script(qll_database *database, qll_text text, qll_said *why)
{
    /* Embedded files are closed by a zero byte. */
    assert(text.bytes[text.size] == '\0');
    return plain((sqlite_database *)database, text.bytes, why);
}

static qll_status begin(qll_database *database, qll_said *why)
{
    return plain((sqlite_database *)database, "BEGIN IMMEDIATE", why);
}

static qll_status commit(qll_database *database, qll_said *why)
{
    return plain((sqlite_database *)database, "COMMIT", why);
}

static void undo(qll_database *database)
{
    sqlite_database *own = (sqlite_database *)database;
    /* A full disk may have ended the transaction already. */
    if (sqlite3_get_autocommit(own->handle) == 0) {
        (void)sqlite3_exec(own->handle, "ROLLBACK", NULL, NULL, NULL);
    }
}

/* ---- pragmas ---- */

/* The first value of the first row of @p sql as a number. */
static qll_status whole_of(sqlite_database *own, const char *sql, long long *whole, qll_said *why)
{
    sqlite3_stmt *statement = NULL;
    int code = sqlite3_prepare_v2(own->handle, sql, -1, &statement, NULL);
    code = code == SQLITE_OK ? sqlite3_step(statement) : code;
    if (code == SQLITE_ROW) {
        *whole = sqlite3_column_int64(statement, 0);
    }
    (void)sqlite3_finalize(statement);
    return code == SQLITE_ROW ? QLL_OK : failed(&own->base, code, why);
}

static qll_status version(qll_database *database, int *found, qll_said *why)
{
    long long whole = 0;
    const qll_status status =
        whole_of((sqlite_database *)database, "PRAGMA user_version", &whole, why);
    *found = whole > INT_MAX || whole < 0 ? INT_MAX : (int)whole;
    return status;
}

static qll_status set_version(qll_database *database, int set, qll_said *why)
{
    char sql[100];
    (void)snprintf(sql, sizeof sql, "PRAGMA user_version = %d; PRAGMA application_id = %u", set,
                   QLL_APPLICATION_ID);
    return plain((sqlite_database *)database, sql, why);
}

/* Readers and a writer side by side, by a log, from which the file is brought up to date. */
static qll_status settle(qll_database *database, qll_said *why)
{
    sqlite_database *own = (sqlite_database *)database;
    (void)sqlite3_db_config(own->handle, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 0, NULL);
    return plain(own, "PRAGMA journal_mode = WAL", why);
}

static qll_status check(qll_database *database, qll_said *why)
{
    sqlite_database *own = (sqlite_database *)database;
    sqlite3_stmt *statement = NULL;
    int code = sqlite3_prepare_v2(own->handle, "PRAGMA integrity_check(1)", -1, &statement, NULL);
    code = code == SQLITE_OK ? sqlite3_step(statement) : code;
    qll_status status = code == SQLITE_ROW ? QLL_OK : failed(database, code, why);
    const char *said = status == QLL_OK ? (const char *)sqlite3_column_text(statement, 0) : NULL;
    if (status == QLL_OK && (said == NULL || strcmp(said, "ok") != 0)) {
        const char *kept =
            said == NULL ? NULL : qll_arena_copy(database->arena, said, strlen(said));
        *why = (qll_said){QLL_TEXT_STORE_DAMAGED, {qll_as_is(database->place), qll_as_is(kept)}};
        status = QLL_REFUSED;
    }
    (void)sqlite3_finalize(statement);
    if (status != QLL_OK) {
        return status;
    }
    code = sqlite3_prepare_v2(own->handle, "PRAGMA foreign_key_check", -1, &statement, NULL);
    code = code == SQLITE_OK ? sqlite3_step(statement) : code;
    if (code == SQLITE_ROW) {
        const char *table = (const char *)sqlite3_column_text(statement, 0);
        const char *kept =
            table == NULL ? NULL : qll_arena_copy(database->arena, table, strlen(table));
        *why = (qll_said){QLL_TEXT_STORE_LOOSE_END, {qll_as_is(kept)}};
        status = QLL_REFUSED;
    } else if (code != SQLITE_DONE) {
        status = failed(database, code, why);
    }
    (void)sqlite3_finalize(statement);
    return status;
}

/* ---- backup ---- */

static int copy_pages(sqlite3 *from, sqlite3 *to)
{
    sqlite3_backup *copy = sqlite3_backup_init(to, "main", from, "main");
    if (copy == NULL) {
        return sqlite3_errcode(to);
    }
    int code = SQLITE_OK;
    int waits = 0;
    do {
        code = sqlite3_backup_step(copy, -1); /* all at once: of one moment, beside writers */
        if (code == SQLITE_BUSY || code == SQLITE_LOCKED) {
            (void)sqlite3_sleep(50);
            waits++;
        }
    } while ((code == SQLITE_BUSY || code == SQLITE_LOCKED) && waits < QLL_WAIT_MS / 50);
    const int finished = sqlite3_backup_finish(copy);
    return code == SQLITE_DONE ? finished : code;
}

static qll_status backup(qll_database *database, const char *path, qll_said *why)
{
    sqlite_database *own = (sqlite_database *)database;
    /* Taken by name, so that nobody's file is written over. */
    bool was_there = false;
    const char *said = "";
    const qll_status taken = qll_host_take_name(path, database->arena, &was_there, &said);
    if (was_there) {
        *why = (qll_said){QLL_TEXT_STORE_BACKUP_THERE, {qll_as_is(path)}};
        return QLL_REFUSED;
    }
    if (taken != QLL_OK) {
        *why = (qll_said){QLL_TEXT_STORE_FAILED, {qll_as_is(path), qll_as_is(said)}};
        return taken;
    }
    sqlite3 *to = NULL;
    int code = sqlite3_open_v2(path, &to, SQLITE_OPEN_READWRITE, NULL);
    code = code == SQLITE_OK ? copy_pages(own->handle, to) : code;
    /* One file by itself, which may lie where nothing can be written beside it. */
    code = code == SQLITE_OK ? sqlite3_exec(to, "PRAGMA journal_mode = DELETE", NULL, NULL, NULL)
                             : code;
    const int closed = sqlite3_close(to);
    code = code == SQLITE_OK ? closed : code;
    if (code != SQLITE_OK) {
        qll_host_remove(path);
        const qll_status status = failed(database, code, why);
        why->arguments[0] = qll_as_is(path);
        return status;
    }
    return QLL_OK;
}

/* ---- opening ---- */

static void close_database(qll_database *database)
{
    sqlite_database *own = (sqlite_database *)database;
    for (size_t i = 0; i < QLL_STATEMENT_COUNT; i++) {
        (void)sqlite3_finalize(own->statements[i]);
    }
    (void)sqlite3_close(own->handle);
    qll_arena_close(database->arena);
}

static const qll_database_kind sqlite_kind = {
    .run = run,
    .script = script,
    .begin = begin,
    .commit = commit,
    .undo = undo,
    .version = version,
    .set_version = set_version,
    .settle = settle,
    .backup = backup,
    .check = check,
    .close = close_database,
};

/* What the first bytes of any SQLite file are (its format, 1.3), with the zero byte. */
static const unsigned char sqlite_magic[16] = {'S', 'Q', 'L', 'i', 't', 'e', ' ', 'f',
                                               'o', 'r', 'm', 'a', 't', ' ', '3', 0};

static bool is_ours(const unsigned char *header)
{
    const unsigned char *id = header + QLL_HEADER_APPLICATION;
    const unsigned application =
        (unsigned)id[0] << 24 | (unsigned)id[1] << 16 | (unsigned)id[2] << 8 | (unsigned)id[3];
    return memcmp(header, sqlite_magic, sizeof sqlite_magic) == 0
           && application == QLL_APPLICATION_ID;
}

/* Whose the file is, before anything opens it that might write. @p is_empty: there is none, or nothing in it. */
static qll_status look_at(const qll_database *database, bool makes, bool *is_empty, qll_said *why)
{
    unsigned char header[QLL_HEADER_SIZE] = {0};
    const qll_argument place = qll_as_is(database->place);
    size_t size = 0;
    bool is_there = false;
    const char *said = "";
    const qll_status status = qll_host_peek(database->place, database->arena, header, sizeof header,
                                            &size, &is_there, &said);
    *is_empty = size == 0;
    if (status != QLL_OK) {
        *why = (qll_said){QLL_TEXT_STORE_NO_FILE, {place, qll_as_is(said)}};
        return status;
    }
    if (*is_empty ? makes : size == sizeof header && is_ours(header)) {
        return QLL_OK;
    }
    *why = (qll_said){is_there ? QLL_TEXT_STORE_FOREIGN : QLL_TEXT_STORE_NOT_THERE, {place}};
    return QLL_REFUSED;
}

static int safe_settings(sqlite3 *handle)
{
    (void)sqlite3_extended_result_codes(handle, 1);
    (void)sqlite3_busy_timeout(handle, QLL_WAIT_MS);
    (void)sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
    /* Nothing is moved from the log into a file that turns out to be of a newer program. */
    (void)sqlite3_db_config(handle, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, NULL);
    (void)sqlite3_db_config(handle, SQLITE_DBCONFIG_DQS_DML, 0, NULL);
    (void)sqlite3_db_config(handle, SQLITE_DBCONFIG_DQS_DDL, 0, NULL);
    return sqlite3_exec(handle,
                        "PRAGMA trusted_schema = OFF; PRAGMA foreign_keys = ON; "
                        "PRAGMA synchronous = FULL; PRAGMA cell_size_check = ON",
                        NULL, NULL, NULL);
}

/* Whether all of the store stands in its file: nothing waits in the log beside it. */
static bool stands_alone(const sqlite_database *own)
{
    qll_writer name = qll_writer_new(own->base.arena);
    qll_write_format(&name, "%s-wal", own->base.place);
    unsigned char first = 0;
    size_t size = 0;
    bool is_there = false;
    const char *said = "";
    return qll_host_peek(qll_writer_text(&name).bytes, own->base.arena, &first, 1, &size, &is_there,
                         &said)
               == QLL_OK
           && size == 0;
}

/* A disk that nothing can be written to, where no writer can be: the file as it lies. */
static int open_as_it_lies(sqlite_database *own)
{
    qll_writer name = qll_writer_new(own->base.arena);
    qll_write(&name, "file:");
    for (const char *c = own->base.place; *c != '\0'; c++) {
        if (strchr("%?#", *c) != NULL) {
            qll_write_format(&name, "%%%c%c", "0123456789abcdef"[(unsigned char)*c >> 4],
                             "0123456789abcdef"[(unsigned char)*c & 15]);
        } else {
            qll_write_byte(&name, *c, 1);
        }
    }
    qll_write(&name, "?immutable=1");
    (void)sqlite3_close(own->handle);
    own->handle = NULL;
    int code = sqlite3_open_v2(qll_writer_text(&name).bytes, &own->handle,
                               SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, NULL);
    return code == SQLITE_OK ? safe_settings(own->handle) : code;
}

static qll_status open_handle(sqlite_database *own, bool writes, bool is_empty, qll_said *why)
{
    const int flags = !writes ? SQLITE_OPEN_READONLY
                              : SQLITE_OPEN_READWRITE | (is_empty ? SQLITE_OPEN_CREATE : 0);
    int code = sqlite3_open_v2(own->base.place, &own->handle, flags, NULL);
    if (code == SQLITE_OK && writes && sqlite3_db_readonly(own->handle, "main") == 1) {
        code = SQLITE_READONLY;
    }
    code = code == SQLITE_OK ? safe_settings(own->handle) : code;
    if (code == SQLITE_OK && !writes) {
        code = sqlite3_exec(own->handle, "SELECT count(*) FROM sqlite_schema", NULL, NULL, NULL);
    }
    if (!writes && (code & 0xff) == SQLITE_CANTOPEN && stands_alone(own)) {
        code = open_as_it_lies(own);
    }
    return code == SQLITE_OK ? QLL_OK : failed(&own->base, code, why);
}

qll_status qll_database_open_sqlite(const char *place, bool writes, bool makes,
                                    qll_database **database, qll_said *why)
{
    qll_arena *arena = qll_arena_open((size_t)1024 * 1024);
    sqlite_database *own = arena == NULL ? NULL : qll_arena_take(arena, 1, sizeof *own);
    const char *kept = own == NULL ? NULL : qll_arena_copy(arena, place, strlen(place));
    if (kept == NULL) {
        qll_arena_close(arena);
        return QLL_NO_MEMORY;
    }
    own->base = (qll_database){&sqlite_kind, QLL_DIALECT_SQLITE, arena, kept};
    *database = &own->base;
    bool is_empty = false;
    qll_status status = look_at(&own->base, makes, &is_empty, why);
    status = status == QLL_OK ? open_handle(own, writes, is_empty, why) : status;
    return status;
}
