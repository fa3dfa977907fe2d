/* CSV in: every accepted table, written out with all cells quoted, reads back the same. */
#include "base/table.h"
#include "require.h"

#include <math.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void write_cell(qll_writer *writer, qll_text cell, bool is_last)
{
    qll_write_byte(writer, '"', 1);
    for (size_t i = 0; i < cell.size; i++) {
        qll_write_byte(writer, cell.bytes[i], cell.bytes[i] == '"' ? 2 : 1);
    }
    qll_write(writer, is_last ? "\"\r\n" : "\",");
}

static qll_text written(const qll_table *table, qll_arena *arena)
{
    qll_writer writer = qll_writer_new(arena);
    for (size_t column = 0; column < table->column_count; column++) {
        write_cell(&writer, table->columns[column], column + 1 == table->column_count);
    }
    for (size_t row = 0; row < table->row_count; row++) {
        for (size_t column = 0; column < table->column_count; column++) {
            write_cell(&writer, qll_table_cell(table, row, column),
                       column + 1 == table->column_count);
        }
    }
    return qll_writer_text(&writer);
}

static void require_cell(const qll_table *table, const qll_table *again, size_t row, size_t column)
{
    QLL_REQUIRE(
        qll_text_equal(qll_table_cell(table, row, column), qll_table_cell(again, row, column)));
    double number = qll_table_number(table, row, column);
    QLL_REQUIRE(isnan(number) || isfinite(number));
}

static void require_place(const qll_table *table, size_t row, size_t column, qll_arena *arena)
{
    qll_place place = qll_table_place(table, row, column, arena);
    QLL_REQUIRE(place.line >= table->lines[row] && place.column > 0);
}

static void require_same(const qll_table *table, const qll_table *again, qll_arena *arena)
{
    QLL_REQUIRE(table->column_count == again->column_count);
    QLL_REQUIRE(table->row_count == again->row_count);
    for (size_t column = 0; column < table->column_count; column++) {
        QLL_REQUIRE(qll_text_equal(table->columns[column], again->columns[column]));
        for (size_t row = 0; row < table->row_count; row++) {
            require_cell(table, again, row, column);
            require_place(table, row, column, arena);
        }
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    qll_arena *arena = qll_arena_open((size_t)256 * 1024 * 1024);
    qll_problems problems = qll_problems_none(arena);
    qll_table table;
    qll_text source = {(const char *)data, size};
    qll_status status = qll_table_read(source, "input.csv", arena, &table, &problems);
    QLL_REQUIRE(status == QLL_OK || status == QLL_REFUSED);
    QLL_REQUIRE((status == QLL_OK) == (problems.count == 0));
    require_clean_problems(&problems);
    if (status == QLL_OK) {
        qll_table again;
        status = qll_table_read(written(&table, arena), "again.csv", arena, &again, &problems);
        QLL_REQUIRE(status == QLL_OK);
        require_same(&table, &again, arena);
    }
    qll_arena_close(arena);
    return 0;
}
