#include "base/random.h"
#include "check.h"

/* First outputs from the state 1, 2, 3, 4 (from memory: the published C code of xoshiro256++ run on
 * that state, as test suites of general-purpose libraries quote it). */
TEST(the_published_stream_comes_out)
{
    static const uint64_t want[] = {
        UINT64_C(41943041),
        UINT64_C(58720359),
        UINT64_C(3588806011781223),
        UINT64_C(3591011842654386),
        UINT64_C(9228616714210784205),
        UINT64_C(9973669472204895162),
        UINT64_C(14011001112246962877),
        UINT64_C(12406186145184390807),
        UINT64_C(15849039046786891736),
        UINT64_C(10450023813501588000),
    };
    qll_random random = {.state = {1, 2, 3, 4}};
    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++) {
        CHECK(qll_random_bits(&random) == want[i]);
    }
}

/* Outputs of splitmix64 from the seed 1234567 (from memory: the published C code). */
TEST(the_seed_is_spread_by_splitmix64)
{
    qll_random random = qll_random_seeded(1234567);
    CHECK(random.state[0] == UINT64_C(6457827717110365317));
    CHECK(random.state[1] == UINT64_C(3203168211198807973));
    CHECK(random.state[2] == UINT64_C(9817491932198370423));
    CHECK(random.state[3] == UINT64_C(4593380528125082431));
}

TEST(equal_seeds_give_equal_streams)
{
    qll_random a = qll_random_seeded(1);
    qll_random b = qll_random_seeded(1);
    qll_random other = qll_random_seeded(2);
    bool equal = true;
    bool differs = false;
    for (int i = 0; i < 100; i++) {
        uint64_t bits = qll_random_bits(&a);
        equal = equal && bits == qll_random_bits(&b);
        differs = differs || bits != qll_random_bits(&other);
    }
    CHECK(equal && differs);
}

/* Mean 1/2 and variance 1/12 of the uniform law; five standard errors of 100 000 draws. */
TEST(unit_numbers_are_uniform)
{
    qll_random random = qll_random_seeded(1);
    const int count = 100000;
    double sum = 0.0;
    double squares = 0.0;
    bool inside = true;
    int tenths[10] = {0};
    for (int i = 0; i < count; i++) {
        double x = qll_random_unit(&random);
        inside = inside && x >= 0.0 && x < 1.0;
        sum += x;
        squares += (x - 0.5) * (x - 0.5);
        tenths[(int)(x * 10.0)] += 1;
    }
    CHECK(inside);
    CHECK_WITHIN(sum / count, 0.5, 5.0 * sqrt(1.0 / 12.0 / count));
    CHECK_WITHIN(squares / count, 1.0 / 12.0, 5.0 * sqrt(1.0 / 180.0 / count));
    /* Chi-squared with 9 degrees of freedom exceeds 27.9 once in a thousand seeds. */
    double chi = 0.0;
    for (int i = 0; i < 10; i++) {
        double off = tenths[i] - count / 10.0;
        chi += off * off / (count / 10.0);
    }
    CHECK(chi < 27.9);
}

/* The largest result is 1 - 2^-53, still below 1. */
TEST(all_bits_set_stay_below_one)
{
    /* rotl(s0 + s3, 23) + s0 is all ones for s0 = 0 and s3 all ones. */
    qll_random random = {.state = {0, 0, 0, UINT64_MAX}};
    CHECK_WITHIN(qll_random_unit(&random), 1.0 - 0x1p-53, 0.0);
}

int main(void)
{
    TEST_RUN(the_published_stream_comes_out);
    TEST_RUN(the_seed_is_spread_by_splitmix64);
    TEST_RUN(equal_seeds_give_equal_streams);
    TEST_RUN(unit_numbers_are_uniform);
    TEST_RUN(all_bits_set_stay_below_one);
    return TEST_END();
}
