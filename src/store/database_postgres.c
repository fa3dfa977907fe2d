/* A shared store, by PostgreSQL. libpq is looked for when a store names it, so that the program runs where it is not. */
#include "base/text.h"
#include "store/database.h"

#include <assert.h>
#include <dlfcn.h>
#include <inttypes.h>
#include <libpq-fe.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/** X(function of libpq). */
#define QLL_PQ_LIST(X)    \
    X(PQconnectdbParams)  \
    X(PQstatus)           \
    X(PQreset)            \
    X(PQfinish)           \
    X(PQerrorMessage)     \
    X(PQresultErrorField) \
    X(PQexec)             \
    X(PQexecParams)       \
    X(PQresultStatus)     \
    X(PQclear)            \
    X(PQntuples)          \
    X(PQnfields)          \
    X(PQftype)            \
    X(PQgetvalue)         \
    X(PQgetlength)        \
    X(PQgetisnull)        \
    X(PQsetNoticeProcessor)

typedef struct library {
    void *handle;
    /* NOLINTNEXTLINE(bugprone-macro-parentheses): a name, of the function and of the member */
#define QLL_PQ_MEMBER(name) __typeof__(&(name)) name;
    QLL_PQ_LIST(QLL_PQ_MEMBER)
#undef QLL_PQ_MEMBER
} library;

typedef struct postgres_database {
    qll_database base;
    library pq;
    PGconn *connection;
    bool in_transaction;
    char said[400]; /* the server's last complaint, one line */
} postgres_database;

/* Types of results, by the numbers that every server has for them (pg_type.dat of PostgreSQL). */
#define QLL_OID_BYTES 17U
#define QLL_OID_INT8  20U
#define QLL_OID_INT4  23U

/* The turn to write: any number that nobody else locks. Each statement sees what others wrote before it, however the server is set. */
#define QLL_BEGIN "BEGIN ISOLATION LEVEL READ COMMITTED; SELECT pg_advisory_xact_lock(1366648172)"

/* Of each connection: a writer waits for its turn no longer than with a file, and one that went silent loses it. */
#define QLL_SESSION                                                 \
    "SET client_encoding TO 'UTF8'; SET synchronous_commit TO on; " \
    "SET lock_timeout TO '10s'; SET idle_in_transaction_session_timeout TO '60s'"

/* What a statement fails with that waited for longer (PostgreSQL, Appendix A: lock_not_available). */
static const char lock_not_available[] = "55P03";

/* ---- the library ---- */

static bool load(library *pq)
{
    pq->handle = dlopen("libpq.so.5", RTLD_NOW | RTLD_LOCAL);
    bool is_whole = pq->handle != NULL;
#define QLL_PQ_FIND(name)                        \
    if (is_whole) {                              \
        void *found = dlsym(pq->handle, #name);  \
        memcpy(&pq->name, &found, sizeof found); \
        is_whole = found != NULL;                \
    }
    QLL_PQ_LIST(QLL_PQ_FIND)
#undef QLL_PQ_FIND
    return is_whole;
}

/* ---- what went wrong ---- */

/* The first line of what the server says. */
static qll_argument sentence_of(postgres_database *own)
{
    const char *message = own->pq.PQerrorMessage(own->connection);
    size_t size = strcspn(message, "\n");
    size = size < sizeof own->said - 1 ? size : sizeof own->said - 1;
    memcpy(own->said, message, size);
    own->said[size] = '\0';
    return qll_as_is(own->said);
}

/* What went wrong, as PostgreSQL's Appendix A has it; "" where the server did not say. */
static const char *code_of(const postgres_database *own, const PGresult *result)
{
    const char *code = result == NULL ? NULL : own->pq.PQresultErrorField(result, PG_DIAG_SQLSTATE);
    return code == NULL ? "" : code;
}

/* Whether the connection is gone, or the server has said that it ends it: class 57P, and what was idle in a transaction. */
static bool is_lost(const postgres_database *own, const PGresult *result)
{
    const char *code = code_of(own, result);
    return own->pq.PQstatus(own->connection) != CONNECTION_OK || strncmp(code, "57P", 3) == 0
           || strcmp(code, "25P03") == 0;
}

static bool is_done(const postgres_database *own, const PGresult *result)
{
    const ExecStatusType status = own->pq.PQresultStatus(result);
    return status == PGRES_COMMAND_OK || status == PGRES_TUPLES_OK;
}

/* @param result NULL where there is none */
static qll_status failed(postgres_database *own, const PGresult *result, qll_said *why)
{
    /* What has no code was not said by the server, but of the way to it. */
    if (is_lost(own, result) || code_of(own, result)[0] == '\0') {
        *why = (qll_said){QLL_TEXT_STORE_NO_CONNECTION, {sentence_of(own)}};
        return QLL_IO;
    }
    if (strcmp(code_of(own, result), lock_not_available) == 0) {
        *why = (qll_said){QLL_TEXT_STORE_BUSY, {qll_as_is(own->base.place)}};
        return QLL_BUSY;
    }
    *why = (qll_said){QLL_TEXT_STORE_FAILED, {qll_as_is(own->base.place), sentence_of(own)}};
    return QLL_IO;
}

static qll_status plain(postgres_database *own, const char *sql, qll_said *why)
{
    PGresult *result = own->pq.PQexec(own->connection, sql);
    const qll_status status = is_done(own, result) ? QLL_OK : failed(own, result, why);
    own->pq.PQclear(result);
    return status;
}

/* The same where nobody is told what went wrong: what was said before stays said. */
static bool quietly(const postgres_database *own, const char *sql)
{
    PGresult *result = own->pq.PQexec(own->connection, sql);
    const bool done = is_done(own, result);
    own->pq.PQclear(result);
    return done;
}

/* A connection as it was at first. */
static bool connect_again(postgres_database *own)
{
    own->pq.PQreset(own->connection);
    own->in_transaction = false;
    return !is_lost(own, NULL) && quietly(own, QLL_SESSION);
}

/* ---- values and rows ---- */

typedef struct bound {
    const char *values[QLL_SQL_COLUMNS];
    int sizes[QLL_SQL_COLUMNS], forms[QLL_SQL_COLUMNS];
    char digits[QLL_SQL_COLUMNS][24];
} bound;

/* Numbers go as digits, texts and bytes as they are. */
static void bind_values(bound *to, const qll_value_of *values, size_t count)
{
    assert(count <= QLL_SQL_COLUMNS);
    for (size_t i = 0; i < count; i++) {
        const qll_value_of *value = &values[i];
        to->forms[i] = value->is == QLL_COLUMN_TEXT || value->is == QLL_COLUMN_BYTES;
        to->values[i] = value->is == QLL_COLUMN_NULL ? NULL : value->text.bytes;
        to->sizes[i] = (int)value->text.size;
        if (value->is == QLL_COLUMN_WHOLE) {
            (void)snprintf(to->digits[i], sizeof to->digits[i], "%lld", value->whole);
            to->values[i] = to->digits[i];
        }
    }
}

static int hexadecimal(char digit)
{
    return digit <= '9' ? digit - '0' : digit - 'a' + 10;
}

/* "\x0aff" to bytes; NULL without memory. */
static const char *bytes_of(const char *text, size_t digits, qll_arena *arena)
{
    char *bytes = qll_arena_take(arena, digits / 2 + 1, 1);
    for (size_t i = 0; bytes != NULL && i < digits / 2; i++) {
        bytes[i] = (char)(hexadecimal(text[2 * i]) * 16 + hexadecimal(text[2 * i + 1]));
    }
    return bytes;
}

static qll_status column_of(postgres_database *own, const PGresult *result, int row, int at,
                            qll_value_of *column)
{
    *column = (qll_value_of){.is = QLL_COLUMN_NULL};
    if (own->pq.PQgetisnull(result, row, at) != 0) {
        return QLL_OK;
    }
    const char *text = own->pq.PQgetvalue(result, row, at);
    const size_t size = (size_t)own->pq.PQgetlength(result, row, at);
    const Oid type = own->pq.PQftype(result, at);
    if (type == QLL_OID_INT8 || type == QLL_OID_INT4) {
        *column = qll_sql_whole(strtoll(text, NULL, 10));
    } else if (type == QLL_OID_BYTES && size >= 2) {
        const char *bytes = bytes_of(text + 2, size - 2, own->base.arena);
        *column = qll_sql_bytes((qll_text){bytes, (size - 2) / 2});
        return bytes == NULL ? QLL_NO_MEMORY : QLL_OK;
    } else {
        *column = qll_sql_part((qll_text){text, size});
    }
    return QLL_OK;
}

static qll_status take_rows(postgres_database *own, const PGresult *result, qll_row_taker *take,
                            void *context)
{
    qll_value_of row[QLL_SQL_COLUMNS];
    const int rows = own->pq.PQntuples(result);
    const int columns = own->pq.PQnfields(result);
    assert(columns <= QLL_SQL_COLUMNS);
    qll_status status = QLL_OK;
    for (int r = 0; status == QLL_OK && take != NULL && r < rows; r++) {
        const qll_arena_mark mark = qll_arena_now(own->base.arena);
        for (int i = 0; status == QLL_OK && i < columns; i++) {
            status = column_of(own, result, r, i, &row[i]);
        }
        status = status == QLL_OK ? take(context, row) : status;
        qll_arena_reset(own->base.arena, mark);
    }
    return status;
}

static qll_status run(qll_database *database, qll_statement statement, const qll_value_of *values,
                      size_t count, qll_row_taker *take, void *context, qll_said *why)
{
    postgres_database *own = (postgres_database *)database;
    const qll_text text = qll_statement_text(statement, QLL_DIALECT_POSTGRES);
    const qll_arena_mark mark = qll_arena_now(database->arena);
    const char *sql = qll_text_closed(text, database->arena);
    if (sql == NULL) {
        return QLL_NO_MEMORY;
    }
    bound to = {0};
    bind_values(&to, values, count);
    PGresult *result = NULL;
    for (int tries = 0; tries < 2; tries++) {
        result = own->pq.PQexecParams(own->connection, sql, (int)count, NULL, to.values, to.sizes,
                                      to.forms, 0);
        /* Outside a transaction statements only read: they are asked once more of a connection that was lost. */
        if (is_done(own, result) || own->in_transaction || !is_lost(own, result) || tries > 0
            || !connect_again(own)) {
            break;
        }
        own->pq.PQclear(result);
    }
    const qll_status status =
        is_done(own, result) ? take_rows(own, result, take, context) : failed(own, result, why);
    own->pq.PQclear(result);
    qll_arena_reset(database->arena, mark);
    return status;
}

/* ---- schema ---- */

/* SQLite's words of types, and those of PostgreSQL. */
static const char *const type_words[][2] = {
    {"INTEGER", "BIGINT"}, {"REAL", "DOUBLE PRECISION"}, {"BLOB", "BYTEA"}, {"STRICT", ""}};

static bool is_letter(char c)
{
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '_';
}

static void write_word(qll_writer *writer, qll_text word)
{
    for (size_t i = 0; i < sizeof type_words / sizeof *type_words; i++) {
        if (qll_text_is(word, type_words[i][0])) {
            qll_write(writer, type_words[i][1]);
            return;
        }
    }
    qll_write_text(writer, word);
}

static qll_status script(qll_database *database, qll_text text, qll_said *why)
{
    const qll_arena_mark mark = qll_arena_now(database->arena);
    qll_writer sql = qll_writer_new(database->arena);
    size_t at = 0;
    while (at < text.size) {
        size_t size = 0;
        while (at + size < text.size && is_letter(text.bytes[at + size])) {
            size++;
        }
        if (size > 0) {
            write_word(&sql, (qll_text){text.bytes + at, size});
            at += size;
        } else {
            qll_write_byte(&sql, text.bytes[at], 1);
            at += 1;
        }
    }
    const qll_text whole = qll_writer_text(&sql);
    const qll_status status =
        sql.no_memory ? QLL_NO_MEMORY : plain((postgres_database *)database, whole.bytes, why);
    qll_arena_reset(database->arena, mark);
    return status;
}

/* ---- transactions ---- */

/* A connection that is gone has undone it. */
static void undo(qll_database *database)
{
    postgres_database *own = (postgres_database *)database;
    (void)quietly(own, "ROLLBACK");
    own->in_transaction = false;
}

static qll_status begin(qll_database *database, qll_said *why)
{
    postgres_database *own = (postgres_database *)database;
    qll_status status = plain(own, QLL_BEGIN, why);
    if (status == QLL_IO && why->id == QLL_TEXT_STORE_NO_CONNECTION && connect_again(own)) {
        status = plain(own, QLL_BEGIN, why);
    }
    if (status != QLL_OK) {
        undo(database); /* it may have begun before it failed */
    }
    own->in_transaction = status == QLL_OK;
    return status;
}

static qll_status commit(qll_database *database, qll_said *why)
{
    postgres_database *own = (postgres_database *)database;
    const qll_status status = plain(own, "COMMIT", why);
    own->in_transaction = status != QLL_OK;
    return status;
}

/* ---- version ---- */

/* The number in the first row and column of @p sql. */
static qll_status whole_of(postgres_database *own, const char *sql, int *whole, qll_said *why)
{
    PGresult *result = own->pq.PQexec(own->connection, sql);
    const bool done = is_done(own, result);
    *whole = done && own->pq.PQntuples(result) == 1
                 ? (int)strtol(own->pq.PQgetvalue(result, 0, 0), NULL, 10)
                 : 0;
    const qll_status status = done ? QLL_OK : failed(own, result, why);
    own->pq.PQclear(result);
    return status;
}

static qll_status version(qll_database *database, int *found, qll_said *why)
{
    postgres_database *own = (postgres_database *)database;
    *found = 0;
    int is_there = 0;
    qll_status status = whole_of(own,
                                 "SELECT count(*) FROM pg_tables WHERE schemaname = "
                                 "current_schema() AND tablename = 'counter'",
                                 &is_there, why);
    if (status == QLL_OK && is_there == 1) {
        status = whole_of(own, "SELECT value FROM counter WHERE name = 'version'", found, why);
        if (status == QLL_OK && *found == 0) {
            *why = (qll_said){QLL_TEXT_STORE_FOREIGN, {qll_as_is(database->place)}};
            return QLL_REFUSED;
        }
    }
    return status;
}

static qll_status set_version(qll_database *database, int set, qll_said *why)
{
    char sql[200];
    (void)snprintf(sql, sizeof sql,
                   "INSERT INTO counter (name, value) VALUES ('version', %d) "
                   "ON CONFLICT (name) DO UPDATE SET value = excluded.value",
                   set);
    return plain((postgres_database *)database, sql, why);
}

static qll_status settle(qll_database *database, qll_said *why)
{
    (void)database;
    (void)why;
    return QLL_OK;
}

static qll_status backup(qll_database *database, const char *path, qll_said *why)
{
    (void)database;
    (void)path;
    *why = (qll_said){.id = QLL_TEXT_STORE_BACKUP_POSTGRES};
    return QLL_REFUSED;
}

/* Pages are the server's, and so are references. */
static qll_status check(qll_database *database, qll_said *why)
{
    (void)database;
    (void)why;
    return QLL_OK;
}

/* ---- opening ---- */

static void close_database(qll_database *database)
{
    postgres_database *own = (postgres_database *)database;
    if (own->connection != NULL) {
        own->pq.PQfinish(own->connection);
    }
    if (own->pq.handle != NULL) {
        (void)dlclose(own->pq.handle);
    }
    qll_arena_close(database->arena);
}

static const qll_database_kind postgres_kind = {
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

/* Notices are nobody's business: nothing below the command line prints. */
static void say_nothing(void *context, const char *message)
{
    (void)context;
    (void)message;
}

qll_status qll_database_open_postgres(const char *place, qll_database **database, qll_said *why)
{
    qll_arena *arena = qll_arena_open((size_t)256 * 1024 * 1024);
    postgres_database *own = arena == NULL ? NULL : qll_arena_take(arena, 1, sizeof *own);
    if (own == NULL) {
        qll_arena_close(arena);
        return QLL_NO_MEMORY;
    }
    /* The address may hold a password, so it is never shown. */
    own->base = (qll_database){&postgres_kind, QLL_DIALECT_POSTGRES, arena, "PostgreSQL"};
    *database = &own->base;
    if (!load(&own->pq)) {
        *why = (qll_said){QLL_TEXT_STORE_NO_POSTGRES, {qll_as_is("libpq.so.5")}};
        return QLL_IO;
    }
    /* What the address says itself comes later, and wins. */
    static const char *const keys[] = {"fallback_application_name", "connect_timeout",
                                       "tcp_user_timeout", "dbname", NULL};
    const char *const values[] = {"quell", "10", "30000", place, NULL};
    own->connection = own->pq.PQconnectdbParams(keys, values, 1);
    if (own->connection == NULL) {
        return QLL_NO_MEMORY;
    }
    if (is_lost(own, NULL)) {
        return failed(own, NULL, why);
    }
    (void)own->pq.PQsetNoticeProcessor(own->connection, say_nothing, NULL);
    return plain(own, QLL_SESSION, why);
}
