/* CSV (RFC 4180) rows with places. */
#ifndef QUELL_BASE_TABLE_H
#define QUELL_BASE_TABLE_H

#include "base/problems.h"
#include "base/text.h"

typedef struct qll_table {
    const char *name; /* as the user named it */
    size_t column_count, row_count;
    const qll_text *columns; /* header names, trimmed */
    const qll_text *cells;   /* row_count * column_count, row after row, quotes resolved */
    const int *lines;        /* line of the source on which each row starts */
} qll_table;

/**
 * Reads a whole CSV text: first record (after lines that start with '#') is the header; every
 * record has as many cells as the header; CR LF or LF; quotes doubled inside quotes.
 *
 * @return QLL_OK, QLL_REFUSED (SYNTAX, ENCODING, BAD_ROW, BAD_COLUMN with row and column) or
 *         QLL_NO_MEMORY; cells live in @p arena or in @p source, which must outlive the table
 */
QLL_MUST_USE qll_status qll_table_read(qll_text source, const char *name, qll_arena *arena,
                                       qll_table *table, qll_problems *problems);

/** Index of the column called @p name, or SIZE_MAX. */
size_t qll_table_column(const qll_table *table, const char *name);

/** The cell; the empty text if @p column is SIZE_MAX. */
qll_text qll_table_cell(const qll_table *table, size_t row, size_t column);

/** The cell as a number; NaN if it is empty or is none. */
double qll_table_number(const qll_table *table, size_t row, size_t column);

/** "row 3, kv" with the line in the source, for problems; the path lives in @p arena. */
qll_place qll_table_place(const qll_table *table, size_t row, size_t column, qll_arena *arena);

#endif
