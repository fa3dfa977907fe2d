/* The columns of a table on a page: as wide as what stands in them asks for, as far as the room goes. */
#ifndef QUELL_REPORT_LAYOUT_GRID_H
#define QUELL_REPORT_LAYOUT_GRID_H

#include "report/layout_page.h"

#define QLL_PAD_X_MM    1.3
#define QLL_BOX_EDGE_MM 0.5 /* of paper round a box */

/** A table with its columns measured. */
typedef struct qll_table_grid {
    const qll_table_block *table;
    double *widths_mm; /* pads included */
} qll_table_grid;

/** Measures @p table for a room of @p room_mm; false where memory is out. */
bool qll_table_grid_make(const qll_table_block *table, double room_mm, qll_arena *arena,
                         qll_table_grid *made);

/** What a table asks for with its heads in several lines. */
double qll_table_narrow_mm(const qll_table_block *table);

/** How bold a cell is written. */
qll_weight qll_cell_weight(const qll_cell *cell, bool is_head);

#endif
