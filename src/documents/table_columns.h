/* The columns of a table of ours, with the unit that a column's name may end in: "kv_m3h", "set_min_psi". */
#ifndef QUELL_DOCUMENTS_TABLE_COLUMNS_H
#define QUELL_DOCUMENTS_TABLE_COLUMNS_H

#include "base/kind.h"
#include "base/problems.h"
#include "base/table.h"

typedef struct qll_known_column {
    const char *base; /* what it is called without a unit */
    qll_kind kind;
    bool obligatory;
    bool is_money; /* a currency may stand in the unit's place: "price_eur" */
} qll_known_column;

typedef struct qll_table_columns {
    const qll_table *table;
    qll_arena *arena;
    qll_problems *problems;
    const qll_known_column *known; /* [known_count] */
    size_t known_count;
    size_t *at;        /* [known]: where it stands; SIZE_MAX: not there */
    const char **unit; /* [known]: that of its name, or its currency; NULL: none */
} qll_table_columns;

/** Finds the known columns in the table's header. False after a refusal: of one that is not known or there
 * twice, else of one that is needed and missing; without memory. */
bool qll_table_columns_find(qll_table_columns *columns);

/** The cell, trimmed, with its column's unit behind a bare number of a kind; "" if there is none. */
qll_text qll_table_columns_cell(const qll_table_columns *columns, size_t row, size_t known);

/** Adds a problem at a cell, or at the header's column. Always false. */
bool qll_table_columns_refuse(const qll_table_columns *columns, qll_code code, qll_place place,
                              const qll_said *says, const qll_said *hint);

#endif
