/* Tables about valves as spreadsheets save them. */
#ifndef QUELL_DOCUMENTS_VALVE_TABLE_H
#define QUELL_DOCUMENTS_VALVE_TABLE_H

#include "base/table.h"

/**
 * Reads a table of valves or capacity points: cells parted by commas, semicolons or tabs
 * (qll_table_read_parted()); decimal point or comma, which all cells but those of "id" and "acting"
 * tell together. Commas become points in the cells.
 *
 * Values with commas and points, and commas that may all part thousands ("1,250"), are refused as
 * CONTRADICTION.
 */
QLL_MUST_USE qll_status qll_valve_table_read(qll_text source, const char *name, qll_arena *arena,
                                             qll_table *table, qll_problems *problems);

#endif
