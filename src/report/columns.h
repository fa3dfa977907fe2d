/* Columns that line up: plain text for a terminal or a pencil. */
#ifndef QUELL_REPORT_COLUMNS_H
#define QUELL_REPORT_COLUMNS_H

#include "base/wrap.h"

/* So many columns always fit the plain width. */
#define QLL_COLUMNS_MOST 13

typedef struct qll_columns {
    qll_writer *writer; /* where the table goes at the end */
    const char *align;  /* one 'l' or 'r' per column */
    size_t column_count;
    qll_text *cells;
    size_t cell_count, cell_room;
    qll_writer cell; /* the cell being written */
} qll_columns;

/** A table whose columns are aligned as @p align says, for example "lrr". */
qll_columns qll_columns_new(qll_writer *writer, const char *align);

/** Ends the cell written to columns->cell and begins the next. */
void qll_columns_next(qll_columns *columns);

/** Writes all complete rows, indented by two, and forgets them. Cells wrap at words where the row would
 * pass the plain width; a number keeps its unit. Words break only where there is no other way. */
void qll_columns_flush(qll_columns *columns);

#endif
