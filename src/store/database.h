/* The seam between the store and a database: statements with values, rows, transactions. */
#ifndef QUELL_STORE_DATABASE_H
#define QUELL_STORE_DATABASE_H

#include "quell/arena.h"
#include "quell/problems.h"

#include "base/said.h"
#include "store/statement.h"

typedef enum qll_column {
    QLL_COLUMN_NULL,
    QLL_COLUMN_WHOLE,
    QLL_COLUMN_TEXT,
    QLL_COLUMN_BYTES,
} qll_column;

typedef struct qll_value_of {
    qll_column is;
    long long whole;
    qll_text text; /* of text and bytes; of a row it lasts until the taker returns */
} qll_value_of;

/** A text, NULL for none; a whole number; bytes. */
qll_value_of qll_sql_text(const char *closed);
qll_value_of qll_sql_part(qll_text text);
qll_value_of qll_sql_whole(long long whole);
qll_value_of qll_sql_bytes(qll_text bytes);

/** Takes a row; anything but QLL_OK ends the statement and is handed back. It may run other statements. */
typedef qll_status qll_row_taker(void *context, const qll_value_of *row);

typedef struct qll_database qll_database;

/** What a kind of database can do; each says in @p why what went wrong. */
typedef struct qll_database_kind {
    qll_status (*run)(qll_database *database, qll_statement statement, const qll_value_of *values,
                      size_t count, qll_row_taker *take, void *context, qll_said *why);
    /** Runs a text of several statements. */
    qll_status (*script)(qll_database *database, qll_text text, qll_said *why);
    qll_status (*begin)(qll_database *database, qll_said *why); /* a transaction that writes */
    qll_status (*commit)(qll_database *database, qll_said *why);
    void (*undo)(qll_database *database);
    /** The version of the store, 0 of an empty one; of one that is set within a transaction. */
    qll_status (*version)(qll_database *database, int *version, qll_said *why);
    qll_status (*set_version)(qll_database *database, int version, qll_said *why);
    /** Called once where the version is known to be right and the store is written to. */
    qll_status (*settle)(qll_database *database, qll_said *why);
    qll_status (*backup)(qll_database *database, const char *path, qll_said *why);
    /** Goes through its pages and references. */
    qll_status (*check)(qll_database *database, qll_said *why);
    void (*close)(qll_database *database);
} qll_database_kind;

struct qll_database {
    const qll_database_kind *kind;
    qll_dialect dialect;
    qll_arena *arena; /* its own, ended with it: holds what it says of itself */
    const char *place;
};

/** Opens what is at @p place. @p writes: it may be written to; @p makes: it is made where there is none. A database that could not be opened says why until it is closed, too. */
QLL_MUST_USE qll_status qll_database_open_sqlite(const char *place, bool writes, bool makes,
                                                 qll_database **database, qll_said *why);
QLL_MUST_USE qll_status qll_database_open_postgres(const char *place, qll_database **database,
                                                   qll_said *why);

/** The most values of a statement, and columns of a row. */
#define QLL_SQL_COLUMNS 20

#endif
