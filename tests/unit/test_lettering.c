#include "base/character.h"
#include "check.h"
#include "report/lettering.h"

static qll_arena *arena;

static void clean_is(const char *given, size_t size, const char *want)
{
    qll_text got = qll_text_clean((qll_text){given, size}, arena);
    CHECK_TEXT(got.bytes, want);
    CHECK(qll_text_utf8_end(got) == got.size);
}

#define QLL_CLEAN_IS(given, want) clean_is((given), sizeof(given) - 1, (want))

TEST(a_code_point_is_read_or_replaced)
{
    qll_text text = qll_text_of("a\xC3\xA9\xE2\x82\xAC\xF0\x9F\x98\x80\xFFz\xC3");
    static const uint32_t want[] = {'a', 0xE9, 0x20AC, 0x1F600, 0xFFFD, 'z', 0xFFFD};
    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++) {
        CHECK(text.size > 0 && qll_character_next(&text) == want[i]);
    }
    CHECK(text.size == 0);
}

TEST(only_what_may_be_shown_is_left)
{
    QLL_CLEAN_IS("valve", "valve");
    QLL_CLEAN_IS("a\tb\nc\x01"
                 "d\x7F",
                 "a b c d ");
    QLL_CLEAN_IS("a\0b", "a b");
    QLL_CLEAN_IS("\xE2\x80\xAE"
                 "evil\xE2\x80\xAC",
                 "evil");
    QLL_CLEAN_IS("\xEF\xBB\xBF"
                 "bom",
                 "bom");
    QLL_CLEAN_IS("\xC0\xAF", "\xEF\xBF\xBD\xEF\xBF\xBD");
    QLL_CLEAN_IS("\xEF\xBF\xBE", "\xEF\xBF\xBD");
    QLL_CLEAN_IS("<b>&", "<b>&");
    QLL_CLEAN_IS("", "");
}

TEST(widths_add_up)
{
    double i_mm = qll_text_width_mm(qll_text_of("i"), 10, QLL_WEIGHT_REGULAR);
    double w_mm = qll_text_width_mm(qll_text_of("W"), 10, QLL_WEIGHT_REGULAR);
    CHECK(i_mm > 1 && i_mm < 3.5 && w_mm > 8 && w_mm < 10.5);
    CHECK_NEAR(qll_text_width_mm(qll_text_of("iWi"), 10, QLL_WEIGHT_REGULAR), 2 * i_mm + w_mm,
               1e-12);
    CHECK(qll_text_width_mm(qll_text_of("W"), 10, QLL_WEIGHT_BOLD) > w_mm);
    /* Every figure is as wide as any other. */
    double zero_mm = qll_text_width_mm(qll_text_of("0"), 10, QLL_WEIGHT_BOLD);
    CHECK_NEAR(qll_text_width_mm(qll_text_of("1"), 10, QLL_WEIGHT_BOLD), zero_mm, 1e-12);
    /* Outside the table: one em each. */
    CHECK_NEAR(qll_text_width_mm(qll_text_of("\xE6\xB0\xB4"), 10, QLL_WEIGHT_REGULAR), 10, 1e-12);
}

TEST(lines_break_at_blanks)
{
    qll_text rest = qll_text_of("one two three");
    double room_mm = qll_text_width_mm(qll_text_of("one two"), 3, QLL_WEIGHT_REGULAR);
    qll_text first = qll_text_line(&rest, room_mm, 3, QLL_WEIGHT_REGULAR);
    CHECK(qll_text_is(first, "one two"));
    CHECK(qll_text_is(rest, "three"));
    CHECK(qll_text_is(qll_text_line(&rest, room_mm, 3, QLL_WEIGHT_REGULAR), "three"));
    CHECK(rest.size == 0);
    CHECK(qll_text_line_count(qll_text_of("a\nb\n\nc"), 100, 3, QLL_WEIGHT_REGULAR) == 4);
}

TEST(blanks_at_the_end_of_a_line_take_no_room)
{
    static const char said[] = "ab                                        cd          ";
    qll_text rest = qll_text_of(said);
    CHECK(qll_text_is(qll_text_line(&rest, 8, 3, QLL_WEIGHT_REGULAR), "ab"));
    CHECK(qll_text_is(qll_text_line(&rest, 8, 3, QLL_WEIGHT_REGULAR), "cd"));
    CHECK(rest.size == 0);
}

/* "63.7 psi" is one thing; so is "G-D20". */
TEST(lines_keep_a_number_with_its_unit)
{
    static const struct {
        const char *text, *first;
    } cases[] = {
        {"stands at 63.7 psi now", "stands at"},
        {"a valve of DN 50 costs", "a valve of"},
        {"takes about 20 % of it", "takes about"},
        {"it reads 5.0 psi.", "it reads"},
        {"valve G-D20 here", "valve"},
        {"room 7 and room 9", "room 7 and"},
        {"(as long as 12 ft)", "(as long as"},
        {"cuts 2.3 to 1 here", "cuts"},
        {"reduce 2.3 a 1.", "reduce"},
        {"about 1 in 25, or more", "about"},
    };

    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        qll_text rest = qll_text_of(cases[i].text);
        /* Room for a letter or two beyond the number, not for the unit. */
        double room_mm =
            qll_text_width_mm(qll_text_of(cases[i].first), 3, QLL_WEIGHT_REGULAR) + 6.5;
        qll_text first = qll_text_line(&rest, room_mm, 3, QLL_WEIGHT_REGULAR);
        if (!CHECK(qll_text_is(first, cases[i].first))) {
            printf("    \"%.*s\"\n", (int)first.size, first.bytes);
        }
    }
    CHECK_NEAR(qll_text_widest_word_mm(qll_text_of("at 63.7 psi on"), 3, QLL_WEIGHT_REGULAR),
               qll_text_width_mm(qll_text_of("63.7 psi"), 3, QLL_WEIGHT_REGULAR), 1e-12);
    /* Where there is no other place it breaks there, rather than within the word. */
    qll_text rest = qll_text_of("123456789 psi");
    double room_mm = qll_text_width_mm(rest, 3, QLL_WEIGHT_REGULAR) - 1;
    CHECK(qll_text_is(qll_text_line(&rest, room_mm, 3, QLL_WEIGHT_REGULAR), "123456789"));
    CHECK(qll_text_is(rest, "psi"));
}

TEST(lines_break_behind_a_hyphen_in_a_word)
{
    qll_text rest = qll_text_of("seventh-floor 1-1/2 in");
    double room_mm = qll_text_width_mm(qll_text_of("seventh-fl"), 3, QLL_WEIGHT_REGULAR);
    CHECK(qll_text_is(qll_text_line(&rest, room_mm, 3, QLL_WEIGHT_REGULAR), "seventh-"));
    CHECK(qll_text_is(rest, "floor 1-1/2 in"));
    room_mm = qll_text_width_mm(qll_text_of("floor 1-1"), 3, QLL_WEIGHT_REGULAR);
    CHECK(qll_text_is(qll_text_line(&rest, room_mm, 3, QLL_WEIGHT_REGULAR), "floor"));
}

TEST(a_long_word_is_broken_and_nothing_is_lost)
{
    static const char word[] = "abcdefghijklmnopqrstuvwxyz0123456789";
    qll_text rest = qll_text_of(word);
    char all[sizeof word] = "";
    size_t size = 0;
    size_t lines = 0;
    while (rest.size > 0 && lines < 100) {
        qll_text line = qll_text_line(&rest, 9, 3, QLL_WEIGHT_REGULAR);
        CHECK(qll_text_width_mm(line, 3, QLL_WEIGHT_REGULAR) <= 9 + 1e-9);
        CHECK(line.size > 0 && size + line.size < sizeof all);
        memcpy(all + size, line.bytes, line.size);
        size += line.size;
        lines += 1;
    }
    CHECK_TEXT(all, word);
    /* A width nothing fits in still moves on. */
    CHECK(qll_text_line_count(qll_text_of("abc"), 0.1, 3, QLL_WEIGHT_REGULAR) == 3);
}

int main(void)
{
    arena = qll_arena_open((size_t)1 << 20);
    TEST_RUN(a_code_point_is_read_or_replaced);
    TEST_RUN(only_what_may_be_shown_is_left);
    TEST_RUN(widths_add_up);
    TEST_RUN(lines_break_at_blanks);
    TEST_RUN(blanks_at_the_end_of_a_line_take_no_room);
    TEST_RUN(lines_keep_a_number_with_its_unit);
    TEST_RUN(lines_break_behind_a_hyphen_in_a_word);
    TEST_RUN(a_long_word_is_broken_and_nothing_is_lost);
    qll_arena_close(arena);
    return TEST_END();
}
