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

/* A ratio and a chance stand on one line, wherever it breaks. */
TEST(a_ratio_is_not_torn)
{
    for (size_t shift = 0; shift < 40; shift++) {
        qll_arena *arena = qll_arena_open(1 << 20);
        qll_writer words = qll_writer_new(arena);
        qll_write_byte(&words, 'x', 1 + shift);
        for (size_t i = 0; i < 40; i++) {
            qll_write(&words, " cuts 2.35 to 1, corta 2.0 a 1. about 1 in 25");
        }
        qll_writer writer = qll_writer_new(arena);
        qll_write_wrapped(&writer, "", qll_writer_text(&words));
        const char *text = qll_writer_text(&writer).bytes;
        CHECK(strstr(text, "\nto") == NULL && strstr(text, "to\n") == NULL);
        CHECK(strstr(text, "\na 1") == NULL && strstr(text, "a\n1") == NULL);
        CHECK(strstr(text, "\nin") == NULL && strstr(text, "in\n") == NULL);
        CHECK(strstr(text, "\n") != NULL);
        qll_arena_close(arena);
    }
}

/* Each number stands on one line with its unit, wherever the line breaks. */
TEST(a_number_keeps_its_unit)
{
    static const char *const units[] = {"12.0 psi", "99 %", "DN 65", "1-1/2 in"};
    for (size_t shift = 0; shift < 40; shift++) {
        qll_arena *arena = qll_arena_open(1 << 20);
        qll_writer words = qll_writer_new(arena);
        qll_write_byte(&words, 'x', 1 + shift);
        for (size_t i = 0; i < 40; i++) {
            qll_write(&words, " ");
            qll_write(&words, units[i % 4]);
        }
        qll_writer writer = qll_writer_new(arena);
        qll_write_wrapped(&writer, "  ", qll_writer_text(&words));
        const char *text = qll_writer_text(&writer).bytes;
        CHECK(strstr(text, "\n  psi") == NULL && strstr(text, "\n  %") == NULL);
        CHECK(strstr(text, "DN\n") == NULL && strstr(text, "\n  in") == NULL);
        qll_arena_close(arena);
    }
}

TEST(sentences_wrap_at_words)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_writer writer = qll_writer_new(arena);
    qll_writer words = qll_writer_new(arena);
    for (int i = 0; i < 30; i++) {
        qll_write(&words, "water ");
    }
    qll_write_wrapped(&writer, "  - ", qll_writer_text(&words));
    qll_text text = qll_writer_text(&writer);
    size_t column = 0;
    for (size_t i = 0; i < text.size; i++) {
        column = text.bytes[i] == '\n' ? 0 : column + 1;
        CHECK(column <= QLL_PLAIN_WIDTH);
    }
    CHECK(strncmp(text.bytes, "  - water water", 15) == 0);
    CHECK(strstr(text.bytes, "\n    water") != NULL);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(columns_line_up);
    TEST_RUN(many_rows_are_kept);
    TEST_RUN(a_row_wraps_to_the_plain_width);
    TEST_RUN(a_ratio_is_not_torn);
    TEST_RUN(a_number_keeps_its_unit);
    TEST_RUN(sentences_wrap_at_words);
    return TEST_END();
}
