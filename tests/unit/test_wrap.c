#include "base/wrap.h"
#include "check.h"

#include <string.h>

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
    TEST_RUN(a_ratio_is_not_torn);
    TEST_RUN(a_number_keeps_its_unit);
    TEST_RUN(sentences_wrap_at_words);
    return TEST_END();
}
