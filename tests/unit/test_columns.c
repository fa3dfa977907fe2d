#include "check.h"
#include "report/columns.h"

TEST(columns_line_up)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_writer writer = qll_writer_new(arena);
    qll_columns table = qll_columns_new(&writer, "lr");
    const char *const cells[] = {"flow", "gpm", "m³/h", "7", "a", "1000"};
    for (size_t i = 0; i < 6; i++) {
        qll_columns_put(&table, cells[i]);
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
    TEST_RUN(sentences_wrap_at_words);
    return TEST_END();
}
