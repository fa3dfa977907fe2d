#include "check.h"
#include "report/ticks.h"

static qll_arena *arena;

static bool is_round(double step)
{
    double mantissa = step / pow(10, floor(log10(step) + 1e-9));
    return fabs(mantissa - 1) < 1e-6 || fabs(mantissa - 2) < 1e-6 || fabs(mantissa - 5) < 1e-6;
}

static void covers(double low, double high, size_t most)
{
    qll_ticks ticks = qll_ticks_cover(low, high, most);
    double from = fmin(low, high);
    double to = fmax(low, high);
    double slack = ticks.step * 1e-6;
    CHECK(ticks.count >= 2 && ticks.count <= most + 1);
    CHECK(is_round(ticks.step));
    CHECK(qll_tick_value(&ticks, 0) <= from + slack);
    CHECK(qll_tick_value(&ticks, ticks.count - 1) >= to - slack);
    /* No empty step at either end. */
    CHECK(qll_tick_value(&ticks, 1) > from - slack);
    CHECK(qll_tick_value(&ticks, ticks.count - 2) < to + slack);
}

TEST(ticks_cover_what_is_shown)
{
    static const double ranges[][2] = {{0, 1},         {0, 83},      {-3, 7},      {58, 62},
                                       {0.001, 0.002}, {1e-9, 3e-9}, {-1e6, 1e7},  {0, 1e-12},
                                       {99.9, 100.1},  {7, -7},      {0, 100},     {-40, -20},
                                       {0.1, 0.3},     {1e12, 2e12}, {0, 0.30001}, {45, 80}};
    for (size_t i = 0; i < sizeof ranges / sizeof ranges[0]; i++) {
        for (size_t most = 2; most < 20; most += 3) {
            covers(ranges[i][0], ranges[i][1], most);
        }
    }
}

TEST(a_single_value_gets_some_room)
{
    qll_ticks ticks = qll_ticks_cover(60, 60, 6);
    CHECK(ticks.count >= 2 && qll_tick_value(&ticks, 0) < 60);
    CHECK(qll_tick_value(&ticks, ticks.count - 1) > 60);
    ticks = qll_ticks_cover(0, 0, 6);
    CHECK(ticks.count >= 2 && ticks.step > 0);
    /* A twentieth of the least number there is, is none. */
    ticks = qll_ticks_cover(5e-324, 5e-324, 6);
    CHECK(ticks.count >= 2 && ticks.step > 0 && isfinite(ticks.step));
}

TEST(zero_is_zero)
{
    qll_ticks ticks = qll_ticks_cover(-0.3, 0.3, 6);
    bool found = false;
    for (size_t i = 0; i < ticks.count; i++) {
        qll_writer writer = qll_writer_new(arena);
        qll_tick_write(&writer, qll_tick_value(&ticks, i), ticks.decimals);
        found = found || qll_text_is(qll_writer_text(&writer), "0.0");
        CHECK(!qll_text_is(qll_writer_text(&writer), "-0.0"));
    }
    CHECK(found);
}

TEST(logarithmic_ticks_are_1_2_5)
{
    double values[32];
    size_t count = qll_ticks_cover_log(0.03, 4, values, 32);
    static const double want[] = {0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5};
    CHECK(count == sizeof want / sizeof want[0]);
    for (size_t i = 0; i < count && i < sizeof want / sizeof want[0]; i++) {
        CHECK_NEAR(values[i], want[i], 1e-12);
    }
    count = qll_ticks_cover_log(1e-3, 1e4, values, 32);
    CHECK(count == 8);
    CHECK_NEAR(values[0], 1e-3, 1e-12);
    CHECK_NEAR(values[7], 1e4, 1e-12);
    CHECK(qll_ticks_cover_log(10, 10, values, 32) == 1 && values[0] == 10);
}

TEST(decimals_show_the_value)
{
    CHECK(qll_tick_decimals(10) == 0);
    CHECK(qll_tick_decimals(0.5) == 1);
    CHECK(qll_tick_decimals(31.5) == 1);
    CHECK(qll_tick_decimals(0.02) == 2);
    CHECK(qll_tick_decimals(0) == 0);
}

int main(void)
{
    arena = qll_arena_open((size_t)1 << 20);
    TEST_RUN(ticks_cover_what_is_shown);
    TEST_RUN(a_single_value_gets_some_room);
    TEST_RUN(zero_is_zero);
    TEST_RUN(logarithmic_ticks_are_1_2_5);
    TEST_RUN(decimals_show_the_value);
    qll_arena_close(arena);
    return TEST_END();
}
