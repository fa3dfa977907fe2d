/* CSV (RFC 4180) rows with places. */
#ifndef QUELL_BASE_TABLE_H
#define QUELL_BASE_TABLE_H

#include "base/problems.h"
#include "base/text.h"

#include <stdint.h>

typedef struct qll_table {
    const char *name; /* as the user named it */
    qll_text source;  /* the whole text, byte order mark removed */
    size_t column_count, row_count;
    const qll_text *columns; /* header names, trimmed */
    const qll_text *cells;   /* row_count * column_count, row after row, quotes resolved */
    const int *lines;        /* line of the source on which each row starts */
    const size_t *starts;    /* byte of the source on which each row starts */
    size_t header_start;     /* byte of the source on which the header starts */
    char separator;          /* between cells: comma, semicolon or tab */
} qll_table;

/* Limits of what is read (TOO_LARGE). */
#define QLL_TABLE_SIZE    ((size_t)64 * 1024 * 1024)
#define QLL_TABLE_ROWS    ((size_t)1000 * 1000)
#define QLL_TABLE_COLUMNS ((size_t)1000)

/** As a row of qll_table_place(): the header. */
#define QLL_TABLE_HEADER SIZE_MAX

/**
 * Reads a whole CSV text: UTF-8 with or without byte order mark; the first record (after lines that
 * start with '#') is the header, its names not empty and each there once; every record has as many
 * cells as the header; CR LF or LF; quotes doubled inside quotes. Empty lines are skipped, so the
 * empty cell of a table of one column is written "".
 *
 * SYNTAX and ENCODING end the reading; BAD_COLUMN and BAD_ROW are all listed, in reading order.
 *
 * @return QLL_OK, QLL_REFUSED (SYNTAX, ENCODING, TOO_LARGE, BAD_ROW, BAD_COLUMN with row and
 *         column) or QLL_NO_MEMORY; cells live in @p arena or in @p source, which must outlive the
 *         table
 */
QLL_MUST_USE qll_status qll_table_read(qll_text source, const char *name, qll_arena *arena,
                                       qll_table *table, qll_problems *problems);

/** The same for a table whose cells tabs or semicolons may part as well: whichever of the three stands
 * in the header; SYNTAX where two of them do. */
QLL_MUST_USE qll_status qll_table_read_parted(qll_text source, const char *name, qll_arena *arena,
                                              qll_table *table, qll_problems *problems);

/** A table of data/, whose bytes are in the program: well-formed, as tests hold it to be. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_table_read_own(const unsigned char *bytes, size_t size,
                                           qll_arena *arena, qll_table *table);

/** Adds the rows of another table of data/ with the same columns to one read by qll_table_read_own(); only
 * the first one's rows have places then. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_table_add_own(const unsigned char *bytes, size_t size, qll_arena *arena,
                                          qll_table *table);

/** Index of the column called @p name, or SIZE_MAX. */
size_t qll_table_column(const qll_table *table, const char *name);

/** The cell; the empty text if @p column is SIZE_MAX. */
qll_text qll_table_cell(const qll_table *table, size_t row, size_t column);

/** The cell as a number; NaN if it is empty or is none. */
double qll_table_number(const qll_table *table, size_t row, size_t column);

/** The same by the column's name. */
qll_text qll_table_cell_in(const qll_table *table, size_t row, const char *column);
double qll_table_number_in(const qll_table *table, size_t row, const char *column);

/** Whether the cell in the column called @p column is exactly the word @p closed. */
bool qll_table_says(const qll_table *table, size_t row, const char *column, const char *closed);

/**
 * Where a cell stands: "row 3, kv" with line and column of the source, for problems.
 *
 * Rows count from 1 below the header. QLL_TABLE_HEADER as @p row gives "header, kv"; SIZE_MAX as
 * @p column gives the whole row. The path lives in @p arena; without memory it is "".
 */
qll_place qll_table_place(const qll_table *table, size_t row, size_t column, qll_arena *arena);

#endif
