/* Units in the names of a table's columns: "kv_m3h", "set_min_psi". */
#ifndef QUELL_DOCUMENTS_TABLE_UNIT_H
#define QUELL_DOCUMENTS_TABLE_UNIT_H

#include "base/text.h"

#include <stdbool.h>

/** The unit that the end of a column's name stands for ("_psi": "psi"), or NULL. */
const char *qll_column_unit(qll_text suffix);

/** The name without such an end. */
qll_text qll_column_without_unit(qll_text name);

/** True if a cell ends in its number, so that the column's unit is meant; the cell is not empty. */
bool qll_cell_lacks_unit(qll_text cell);

/** @p cell as it is, or with @p unit behind a bare number; "" without memory. */
qll_text qll_cell_with_unit(qll_text cell, const char *unit, qll_arena *arena);

#endif
