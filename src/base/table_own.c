/* Tables that are part of the program, and cells by the name of their column. */
#include "base/table.h"

#include <assert.h>
#include <string.h>

qll_status qll_table_read_own(const unsigned char *bytes, size_t size, qll_arena *arena,
                              qll_table *table)
{
    const qll_text source = {.bytes = (const char *)bytes, .size = size};
    qll_problems problems = qll_problems_none(arena);
    const qll_status status = qll_table_read(source, "data", arena, table, &problems);
    assert(status != QLL_REFUSED);
    return status;
}

qll_status qll_table_add_own(const unsigned char *bytes, size_t size, qll_arena *arena,
                             qll_table *table)
{
    qll_table more;
    const qll_status status = qll_table_read_own(bytes, size, arena, &more);
    if (status != QLL_OK) {
        return status;
    }
    assert(more.column_count == table->column_count);
    const size_t before = table->row_count * table->column_count;
    const size_t added = more.row_count * more.column_count;
    qll_text *cells = qll_arena_take(arena, before + added, sizeof *cells);
    if (cells == NULL) {
        return QLL_NO_MEMORY;
    }
    memcpy(cells, table->cells, before * sizeof *cells);
    memcpy(cells + before, more.cells, added * sizeof *cells);
    table->cells = cells;
    table->row_count += more.row_count;
    return QLL_OK;
}

qll_text qll_table_cell_in(const qll_table *table, size_t row, const char *column)
{
    return qll_table_cell(table, row, qll_table_column(table, column));
}

double qll_table_number_in(const qll_table *table, size_t row, const char *column)
{
    return qll_table_number(table, row, qll_table_column(table, column));
}

bool qll_table_says(const qll_table *table, size_t row, const char *column, const char *closed)
{
    return qll_text_is(qll_table_cell_in(table, row, column), closed);
}
