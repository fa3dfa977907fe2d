#include "base/text.h"
#include "check.h"

#include <float.h>
#include <stdint.h>

static size_t read_number(const char *closed, double *value)
{
    return qll_text_number(qll_text_of(closed), value);
}

/* The compiler's own reading of the same digits is the independent witness. */
#define CHECK_READS(literal)                                          \
    do {                                                              \
        double value = NAN;                                           \
        CHECK(read_number(#literal, &value) == sizeof(#literal) - 1); \
        CHECK_WITHIN(value, literal, 0.0);                            \
    } while (0)

static void check_none(const char *closed)
{
    double value = -7.0;
    if (!CHECK(read_number(closed, &value) == 0)) {
        printf("    %s\n", closed);
    }
    CHECK_WITHIN(value, -7.0, 0.0);
}

static void check_takes(const char *closed, size_t size, double want)
{
    double value = NAN;
    CHECK(read_number(closed, &value) == size);
    CHECK_WITHIN(value, want, 0.0);
}

TEST(numbers_read_as_the_compiler_reads_them)
{
    CHECK_READS(0);
    CHECK_READS(60);
    CHECK_READS(-3);
    CHECK_READS(0.1);
    CHECK_READS(.5);
    CHECK_READS(1e-7);
    CHECK_READS(6.02214076E+23);
    CHECK_READS(9007199254740993.0);
    CHECK_READS(1e23);
    CHECK_READS(2.2250738585072011e-308);
    CHECK_READS(2.2250738585072014e-308);
    CHECK_READS(4.9406564584124654e-324);
    CHECK_READS(1.7976931348623157e308);
    CHECK_READS(0.000000000000000000000000000000000000000000000123e45);
    CHECK_READS(123456789012345678901234567890123456789012345678901234567890.0);
}

TEST(a_number_ends_where_its_grammar_ends)
{
    check_takes("120 psi", 3, 120.0);
    check_takes("+4", 2, 4.0);
    check_takes("-0.35L/s", 5, -0.35);
    check_takes("5. in", 1, 5.0);
    check_takes("2e", 1, 2.0);
    check_takes("2e+", 1, 2.0);
    check_takes("2e3ft", 3, 2000.0);
    check_takes("1,5", 1, 1.0);
    check_takes("0x10", 1, 0.0);
    check_takes("1.2.3", 3, 1.2);
    check_takes("1-1/2", 1, 1.0);
    check_takes("1e-999999999999999999999999", 27, 0.0);
    check_takes("0e999999999999999999999999", 26, 0.0);
    check_takes("-0", 2, 0.0);
}

TEST(what_is_no_number_is_not_read)
{
    check_none("");
    check_none("psi");
    check_none("inf");
    check_none("-nan");
    check_none(" 1");
    check_none("--1");
    check_none("+");
    check_none(".");
    check_none("-.e5");
    check_none("e5");
    check_none("1e309");
    check_none("1.7976931348623159e308");
    check_none("1e99999999999999999999999999");
}

TEST(bytes_behind_the_text_are_not_read)
{
    double value = NAN;
    CHECK(qll_text_number((qll_text){.bytes = "1234", .size = 2}, &value) == 2);
    CHECK_WITHIN(value, 12.0, 0.0);
    CHECK(qll_text_number((qll_text){.bytes = "1e5", .size = 2}, &value) == 1);
    CHECK(qll_text_number((qll_text){.bytes = "1.5", .size = 2}, &value) == 1);
    CHECK(qll_text_number((qll_text){.bytes = "-5", .size = 1}, &value) == 0);
}

/* 2^53 + 1 lies midway between two doubles and goes to the even one, 2^53; a single digit far
 * behind the point tips it to 2^53 + 2 (IEEE 754, round to nearest even). */
TEST(a_digit_thousands_of_places_back_still_counts)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_writer writer = qll_writer_new(arena);
    qll_write(&writer, "9007199254740993.");
    qll_write_byte(&writer, '0', 5000);
    qll_text midway = qll_writer_text(&writer);
    double value = NAN;
    CHECK(qll_text_number(midway, &value) == midway.size);
    CHECK_WITHIN(value, 9007199254740992.0, 0.0);
    qll_write(&writer, "1");
    qll_text above = qll_writer_text(&writer);
    CHECK(qll_text_number(above, &value) == above.size);
    CHECK_WITHIN(value, 9007199254740994.0, 0.0);
    qll_arena_close(arena);
}

TEST(very_long_numbers_keep_their_size)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_writer writer = qll_writer_new(arena);
    qll_write(&writer, "0.");
    qll_write_byte(&writer, '0', 2000);
    qll_write(&writer, "25e2001");
    double value = NAN;
    qll_text small = qll_writer_text(&writer);
    CHECK(qll_text_number(small, &value) == small.size);
    CHECK_WITHIN(value, 2.5, 0.0);

    writer = qll_writer_new(arena);
    qll_write_byte(&writer, '0', 3000);
    qll_write_byte(&writer, '7', 2000);
    qll_text large = qll_writer_text(&writer);
    CHECK(qll_text_number(large, &value) == 0);
    qll_write(&writer, "e-1999");
    large = qll_writer_text(&writer);
    CHECK(qll_text_number(large, &value) == large.size);
    CHECK_WITHIN(value, 70.0 / 9.0, 2e-15);
    qll_arena_close(arena);
}

static void check_written(double value, const char *want)
{
    qll_arena *arena = qll_arena_open(1 << 16);
    qll_writer writer = qll_writer_new(arena);
    qll_write_number(&writer, value);
    qll_text text = qll_writer_text(&writer);
    CHECK_TEXT(text.bytes, want);
    double back = NAN;
    CHECK(qll_text_number(text, &back) == text.size);
    CHECK_WITHIN(back, value, 0.0);
    CHECK(signbit(back) == signbit(value));
    qll_arena_close(arena);
}

TEST(written_numbers_are_short_and_read_back)
{
    check_written(0.1, "0.1");
    check_written(60.0, "60");
    check_written(1e-7, "1e-07");
    check_written(1.0 / 3.0, "0.3333333333333333");
    check_written(0.1 + 0.2, "0.30000000000000004");
    check_written(101325.0, "101325");
    check_written(-0.0, "-0");
    check_written(DBL_MAX, "1.7976931348623157e+308");
    check_written(4.9406564584124654e-324, "4.94065645841247e-324");
}

TEST(equality_and_blanks)
{
    CHECK(qll_text_is(qll_text_of("abc"), "abc"));
    CHECK(!qll_text_is(qll_text_of("abc"), "ab"));
    CHECK(!qll_text_is(qll_text_of("abc"), "abd"));
    CHECK(qll_text_equal((qll_text){.bytes = NULL}, qll_text_of("")));
    CHECK(qll_text_is(qll_text_trimmed(qll_text_of(" \t\r\n\xC2\xA0 a b\xC2\xA0\n")), "a b"));
    CHECK(qll_text_trimmed(qll_text_of(" \xC2\xA0 ")).size == 0);
    CHECK(qll_text_trimmed((qll_text){.bytes = NULL}).size == 0);
    /* The second byte of another character that ends in A0 is no blank: U+00E0. */
    CHECK(qll_text_trimmed(qll_text_of("\xC3\xA0")).size == 2);
}

static void check_place(const char *closed, size_t offset, int want_line, int want_column)
{
    int line = 0;
    int column = 0;
    qll_text_position(qll_text_of(closed), offset, &line, &column);
    if (!CHECK(line == want_line && column == want_column)) {
        printf("    %d:%d\n", line, column);
    }
}

TEST(positions_count_characters)
{
    check_place("", 0, 1, 1);
    check_place("abc", 2, 1, 3);
    check_place("a\nbc", 2, 2, 1);
    check_place("a\r\nbc", 4, 2, 2);
    check_place("\xC2\xBD in", 2, 1, 2);
    check_place("a\xE2\x80\xB3z", 2, 1, 2);
    check_place("a\xE2\x80\xB3z", 4, 1, 3);
    check_place("ab", 99, 1, 3);
}

static size_t utf8_end(const char *closed)
{
    return qll_text_utf8_end(qll_text_of(closed));
}

/* Borders of RFC 3629, section 4. */
TEST(only_well_formed_utf8_passes)
{
    CHECK(utf8_end("") == 0);
    CHECK(utf8_end("1\xC2\xBD\xE2\x80\xB3\xF0\x9F\x92\xA7") == 10);
    CHECK(utf8_end("\xC2\x80\xDF\xBF\xE0\xA0\x80\xEF\xBF\xBF\xF0\x90\x80\x80\xF4\x8F\xBF\xBF")
          == 18);
    CHECK(utf8_end("\xED\x9F\xBF\xEE\x80\x80") == 6);
    CHECK(utf8_end("a\x80") == 1);
    CHECK(utf8_end("a\xC1\xBF") == 1);
    CHECK(utf8_end("\xE0\x9F\xBF") == 0);
    CHECK(utf8_end("\xED\xA0\x80") == 0);
    CHECK(utf8_end("\xF0\x8F\xBF\xBF") == 0);
    CHECK(utf8_end("\xF4\x90\x80\x80") == 0);
    CHECK(utf8_end("\xF5\x80\x80\x80") == 0);
    CHECK(utf8_end("ab\xE2\x80") == 2);
    CHECK(utf8_end("\xE2\x80z") == 0);
    CHECK(utf8_end("\xFF") == 0);
}

TEST(the_writer_grows_and_closes)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_writer writer = qll_writer_new(arena);
    CHECK_TEXT(qll_writer_text(&writer).bytes, "");
    for (int i = 0; i < 1000; i++) {
        qll_write_format(&writer, "%d,", i % 10);
    }
    qll_text text = qll_writer_text(&writer);
    CHECK(text.size == 2000 && strlen(text.bytes) == 2000);
    CHECK(memcmp(text.bytes + 1980, "0,1,2,3,4,5,6,7,8,9,", 20) == 0);
    writer = qll_writer_new(arena);
    qll_write_format(&writer, "%s %.2f %zu%c", "x", 2.5, (size_t)7, '!');
    qll_write_byte(&writer, '-', 3);
    qll_write_text(&writer, (qll_text){.bytes = "abc", .size = 2});
    CHECK_TEXT(qll_writer_text(&writer).bytes, "x 2.50 7!---ab");
    qll_arena_close(arena);
}

TEST(the_writer_survives_a_full_arena)
{
    qll_arena *arena = qll_arena_open(20000);
    qll_writer writer = qll_writer_new(arena);
    qll_write_byte(&writer, 'x', SIZE_MAX - 3);
    CHECK(writer.no_memory && qll_arena_refused(arena) == 1);
    CHECK_TEXT(qll_writer_text(&writer).bytes, "");
    writer = qll_writer_new(arena);
    for (int i = 0; i < 3000; i++) {
        qll_write(&writer, "0123456789");
    }
    CHECK(writer.no_memory && qll_arena_refused(arena) == 2);
    qll_write_number(&writer, 1.5);
    qll_text text = qll_writer_text(&writer);
    CHECK(text.size == 0);
    CHECK_TEXT(text.bytes, "");
    qll_arena_close(arena);
}

TEST(width_counts_characters)
{
    CHECK(qll_text_width(qll_text_of("")) == 0);
    CHECK(qll_text_width(qll_text_of("1\xC2\xBD\xE2\x80\xB3")) == 3);
}

/* As printf in the C locale, in which the tests run: the standard library says what that is. */
TEST(formats_are_those_of_printf)
{
    static const double numbers[] = {0.0,
                                     -0.0,
                                     1.0,
                                     -1.5,
                                     0.05,
                                     2.5,
                                     1e21,
                                     -123456.789,
                                     1e-7,
                                     5e-324,
                                     1.7976931348623157e308,
                                     (double)INFINITY,
                                     -(double)INFINITY,
                                     (double)NAN};
    qll_arena *arena = qll_arena_open((size_t)16 << 20);
    char want[4000];
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        const double x = numbers[i];
        for (int decimals = 0; decimals < 20; decimals++) {
            qll_writer writer = qll_writer_new(arena);
#define TEST_DOUBLES "%f %e %g|%.0f %.1f %.3g %.17g %.2e|%+.1f %02.0f %012.3f %9.2f|%.*f %.*e %.*g|"
            qll_write_format(&writer, TEST_DOUBLES, x, x, x, x, x, x, x, x, x, x, x, x, decimals, x,
                             decimals, x, decimals, x);
            (void)snprintf(want, sizeof want, TEST_DOUBLES, x, x, x, x, x, x, x, x, x, x, x, x,
                           decimals, x, decimals, x, decimals, x);
            CHECK_TEXT(qll_writer_text(&writer).bytes, want);
        }
    }
    static const long long wholes[] = {0, 1, -1, 7, 42, -99, 123456, INT32_MAX, INT32_MIN};
    for (size_t i = 0; i < sizeof wholes / sizeof wholes[0]; i++) {
        const int whole = (int)wholes[i];
        const size_t size = (size_t)wholes[i];
        qll_writer writer = qll_writer_new(arena);
#define TEST_WHOLES \
    "%d %4d %02d %04d %+d|%lld %02lld %lld %lld %ld|%u %lu %llu %zu %02zu|%c%%%s %.2s %.*s|"
        qll_write_format(&writer, TEST_WHOLES, whole, whole, whole, whole, whole, wholes[i],
                         wholes[i], (long long)INT64_MAX, (long long)INT64_MIN, (long)whole,
                         (unsigned)whole, (unsigned long)size, (unsigned long long)size, size, size,
                         'x', "text", "text", 3, "text");
        (void)snprintf(want, sizeof want, TEST_WHOLES, whole, whole, whole, whole, whole, wholes[i],
                       wholes[i], (long long)INT64_MAX, (long long)INT64_MIN, (long)whole,
                       (unsigned)whole, (unsigned long)size, (unsigned long long)size, size, size,
                       'x', "text", "text", 3, "text");
        CHECK_TEXT(qll_writer_text(&writer).bytes, want);
    }
    qll_arena_close(arena);
}

TEST(lists_come_apart_at_commas)
{
    const char *const wanted[] = {"gzip", "br;q=0", "", "a b", ""};
    qll_text rest = qll_text_of("gzip, br;q=0,, a b ,");
    qll_text item;
    size_t count = 0;
    while (qll_text_take_item(&rest, &item)) {
        CHECK(count < 5 && qll_text_is(item, wanted[count]));
        count += 1;
    }
    CHECK(count == 5);
    CHECK(qll_text_ends_in(qll_text_of("sheets.pdf"), ".pdf"));
    CHECK(!qll_text_ends_in(qll_text_of(".pdf"), ".pdf"));
    CHECK(!qll_text_ends_in(qll_text_of("f"), ".pdf"));
}

int main(void)
{
    TEST_RUN(numbers_read_as_the_compiler_reads_them);
    TEST_RUN(a_number_ends_where_its_grammar_ends);
    TEST_RUN(what_is_no_number_is_not_read);
    TEST_RUN(bytes_behind_the_text_are_not_read);
    TEST_RUN(a_digit_thousands_of_places_back_still_counts);
    TEST_RUN(very_long_numbers_keep_their_size);
    TEST_RUN(written_numbers_are_short_and_read_back);
    TEST_RUN(equality_and_blanks);
    TEST_RUN(positions_count_characters);
    TEST_RUN(only_well_formed_utf8_passes);
    TEST_RUN(the_writer_grows_and_closes);
    TEST_RUN(the_writer_survives_a_full_arena);
    TEST_RUN(width_counts_characters);
    TEST_RUN(formats_are_those_of_printf);
    TEST_RUN(lists_come_apart_at_commas);
    return TEST_END();
}
