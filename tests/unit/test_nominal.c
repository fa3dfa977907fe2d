#include "check.h"
#include "physics/nominal.h"

TEST(printed_sizes_become_lengths)
{
    const struct {
        const char *printed;
        double mm;
    } rows[] = {{"1/8 in", 3.175}, {"1/2 in", 12.7}, {"2 in", 50.8},       {"1-1/4 in", 31.75},
                {"5/8", 15.875},   {"1-1/2", 38.1},  {"4", 101.6},         {"DN50", 50},
                {"DN 15", 15},     {"28 x 1.5", 28}, {"66.7 x 1.2", 66.7}, {" 12 in ", 304.8}};

    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        CHECK_NEAR(qll_nominal_read_m(qll_text_of(rows[i].printed)), rows[i].mm * 0.001, 1e-12);
    }
}

TEST(anything_else_is_no_size)
{
    const char *const bad[] = {"",   "in",  "two in", "1/0 in", "1-1 in", "-2 in", "2 ft",
                               "DN", "DNx", "0",      "1-",     "1/",     "x 2",   "DN50 in"};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        CHECK(isnan(qll_nominal_read_m(qll_text_of(bad[i]))));
    }
}

TEST(the_trade_takes_inch_and_dn_for_one)
{
    CHECK(qll_nominal_same(0.0508, 0.050));
    CHECK(qll_nominal_same(0.0127, 0.015));
    CHECK(qll_nominal_same(0.040, 0.0381));
    CHECK(qll_nominal_same(0.0635, 0.065));
    CHECK(!qll_nominal_same(0.0127, 0.020));
    CHECK(!qll_nominal_same(0.0127, 0.016));
    CHECK(!qll_nominal_same(0.015875, 0.015));
    CHECK(!qll_nominal_same(0.018, 0.020));
    CHECK(!qll_nominal_same(NAN, 0.050));
    CHECK(!qll_nominal_same(0.050, -1));
}

TEST(some_pipe_sizes_have_no_valves)
{
    CHECK(!qll_nominal_has_valves(qll_nominal_read_m(qll_text_of("5/8 in"))));
    CHECK(!qll_nominal_has_valves(qll_nominal_read_m(qll_text_of("3-1/2 in"))));
    CHECK(qll_nominal_has_valves(qll_nominal_read_m(qll_text_of("3/4 in"))));
    CHECK(qll_nominal_has_valves(qll_nominal_read_m(qll_text_of("DN 15"))));
    CHECK(qll_nominal_has_valves(qll_nominal_read_m(qll_text_of("28 x 1.5"))));
}

int main(void)
{
    TEST_RUN(printed_sizes_become_lengths);
    TEST_RUN(anything_else_is_no_size);
    TEST_RUN(the_trade_takes_inch_and_dn_for_one);
    TEST_RUN(some_pipe_sizes_have_no_valves);
    return TEST_END();
}
