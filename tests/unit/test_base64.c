/* The examples of RFC 4648, 10, both ways; and what is none. */
#include "base/base64.h"
#include "check.h"

TEST(the_examples_of_the_standard)
{
    static const char *const rows[][2] = {{"", ""},
                                          {"f", "Zg=="},
                                          {"fo", "Zm8="},
                                          {"foo", "Zm9v"},
                                          {"foob", "Zm9vYg=="},
                                          {"fooba", "Zm9vYmE="},
                                          {"foobar", "Zm9vYmFy"}};
    qll_arena *arena = qll_arena_open((size_t)1 << 16);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        qll_writer text = qll_writer_new(arena);
        qll_text bytes;
        qll_base64_write(&text, qll_text_of(rows[i][0]));
        CHECK_TEXT(qll_writer_text(&text).bytes, rows[i][1]);
        CHECK(qll_base64_read(qll_text_of(rows[i][1]), arena, &bytes));
        CHECK(qll_text_is(bytes, rows[i][0]));
    }
    qll_arena_close(arena);
}

TEST(what_is_none_is_refused)
{
    static const char *const wrong[] = {
        "Z", "Zg", "Zg=", "Z===", "====", "Zm9v\n", "Zm 9", "Zh==", "Zm9=", "Zg==Zg=="};
    qll_arena *arena = qll_arena_open((size_t)1 << 16);
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        qll_text bytes;
        if (!CHECK(!qll_base64_read(qll_text_of(wrong[i]), arena, &bytes))) {
            printf("    %s\n", wrong[i]);
        }
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(the_examples_of_the_standard);
    TEST_RUN(what_is_none_is_refused);
    return TEST_END();
}
