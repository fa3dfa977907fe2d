#include "base/table.h"

#include <assert.h>
#include <math.h>

size_t qll_table_column(const qll_table *table, const char *name)
{
    for (size_t i = 0; i < table->column_count; i++) {
        if (qll_text_is(table->columns[i], name)) {
            return i;
        }
    }
    return SIZE_MAX;
}

qll_text qll_table_cell(const qll_table *table, size_t row, size_t column)
{
    assert(row < table->row_count && (column == SIZE_MAX || column < table->column_count));
    if (column == SIZE_MAX) {
        return (qll_text){.bytes = "", .size = 0};
    }
    return table->cells[row * table->column_count + column];
}

double qll_table_number(const qll_table *table, size_t row, size_t column)
{
    qll_text text = qll_text_trimmed(qll_table_cell(table, row, column));
    double value = 0.0;
    bool is_number = text.size > 0 && qll_text_number(text, &value) == text.size;
    return is_number ? value : (double)NAN;
}
