#include "check.h"
#include "report/columns.h"

static void put(qll_columns *columns, const char *cell)
{
    qll_write(&columns->cell, cell);
    qll_columns_next(columns);
}

TEST(columns_line_up)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_writer writer = qll_writer_new(arena);
    qll_columns table = qll_columns_new(&writer, "lr");
    const char *const cells[] = {"flow", "gpm", "m³/h", "7", "a", "1000"};
    for (size_t i = 0; i < 6; i++) {
        put(&table, cells[i]);
    }
    qll_columns_flush(&table);
    CHECK_TEXT(qll_writer_text(&writer).bytes, "  flow   gpm\n"
                                               "  m³/h     7\n"
                                               "  a     1000\n");
    qll_arena_close(arena);
}

TEST(many_rows_are_kept)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_writer writer = qll_writer_new(arena);
    qll_columns table = qll_columns_new(&writer, "l");
    for (int i = 0; i < 1000; i++) {
        qll_write_format(&table.cell, "%d", i);
        qll_columns_next(&table);
    }
    qll_columns_flush(&table);
    qll_text text = qll_writer_text(&writer);
    CHECK(text.size > 4 && strcmp(text.bytes + text.size - 4, "999\n") == 0);
    qll_arena_close(arena);
}

/* By hand: the row is 102 wide. The heads of the figures give way first, down to "the time" and "nobody",
 * then the name its last words; no line ends in blanks. */
TEST(a_row_wraps_to_the_plain_width)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_writer writer = qll_writer_new(arena);
    qll_columns table = qll_columns_new(&writer, "lrr");
    const char *const cells[] = {
        "",
        "99 % of the time",
        "nobody draws",
        "a scenario with a name that fills the line to its very end, and more",
        "12.5 gpm",
        "75 %"};
    for (size_t i = 0; i < 6; i++) {
        put(&table, cells[i]);
    }
    qll_columns_flush(&table);
    CHECK_TEXT(qll_writer_text(&writer).bytes,
               "                                                                99 % of  nobody\n"
               "                                                               the time   draws\n"
               "  a scenario with a name that fills the line to its very end,  12.5 gpm    75 %\n"
               "  and more\n");
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(columns_line_up);
    TEST_RUN(many_rows_are_kept);
    TEST_RUN(a_row_wraps_to_the_plain_width);
    return TEST_END();
}
