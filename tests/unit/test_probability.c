#include "check.h"
#include "numeric/probability.h"

#include <stdint.h>

#define TEST_CEILING ((size_t)64 << 20)

static double sum_of(qll_distribution distribution)
{
    double sum = 0.0;
    for (size_t i = 0; i < distribution.count; i++) {
        sum += distribution.p[i];
    }
    return sum;
}

TEST(binomial_log_knows_its_edges)
{
    CHECK(qll_binomial_log(0, 10, 0.0) == 0.0);
    CHECK(qll_binomial_log(10, 10, 1.0) == 0.0);
    CHECK(qll_binomial_log(1, 10, 0.0) == -HUGE_VAL);
    CHECK(qll_binomial_log(9, 10, 1.0) == -HUGE_VAL);
    CHECK(qll_binomial_log(11, 10, 0.5) == -HUGE_VAL);
    CHECK(qll_binomial_log(-1, 10, 0.5) == -HUGE_VAL);
    CHECK(qll_binomial_log(2.5, 10, 0.5) == -HUGE_VAL);
    CHECK(qll_binomial_log(0, 0, 0.5) == 0.0);
    CHECK(isnan(qll_binomial_log(1, 2, 1.5)));
    CHECK(isnan(qll_binomial_log(1, 2, NAN)));
}

/* Quantiles as printed in any table of the normal distribution, to ten figures. */
TEST(normal_quantiles_are_those_of_the_tables)
{
    CHECK_WITHIN(qll_normal_quantile(0.5), 0.0, 1e-15);
    CHECK_WITHIN(qll_normal_quantile(0.95), 1.6448536270, 5e-11);
    CHECK_WITHIN(qll_normal_quantile(0.975), 1.9599639845, 5e-11);
    CHECK_WITHIN(qll_normal_quantile(0.99), 2.3263478740, 5e-11);
    CHECK_WITHIN(qll_normal_quantile(0.999), 3.0902323062, 5e-11);
    CHECK_WITHIN(qll_normal_quantile(0.01), -2.3263478740, 5e-11);
    CHECK(isnan(qll_normal_quantile(0.0)));
    CHECK(isnan(qll_normal_quantile(1.0)));
}

/* All 2^15 states of fifteen fixtures, one by one, against the convolution. */
TEST(convolution_equals_enumeration)
{
    static const qll_binomial_group groups[] = {
        {.count = 4, .p = 0.055, .size = 55}, {.count = 3, .p = 0.02, .size = 15},
        {.count = 5, .p = 0.01, .size = 30},  {.count = 2, .p = 0.005, .size = 13},
        {.count = 1, .p = 0.30, .size = 22},
    };
    size_t size[15];
    double p[15];
    size_t n = 0;
    for (size_t g = 0; g < 5; g++) {
        for (size_t i = 0; i < groups[g].count; i++) {
            size[n] = (size_t)groups[g].size;
            p[n] = groups[g].p;
            n += 1;
        }
    }
    CHECK(n == 15);
    static double want[500];
    for (unsigned state = 0; state < 1u << 15; state++) {
        size_t flow = 0;
        double chance = 1.0;
        for (size_t i = 0; i < 15; i++) {
            const bool busy = (state >> i & 1u) != 0;
            flow += busy ? size[i] : 0;
            chance *= busy ? p[i] : 1.0 - p[i];
        }
        want[flow] += chance;
    }
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_distribution got = {0};
    CHECK(qll_poisson_binomial(groups, 5, 0.1, arena, &got) == QLL_OK);
    CHECK(got.step == 0.1);
    for (size_t i = 0; i < 500; i++) {
        const double value = i < got.count ? got.p[i] : 0.0;
        CHECK_WITHIN(value, want[i], want[i] > 1e-20 ? want[i] * 1e-12 : 1e-29);
    }
    qll_arena_close(arena);
}

TEST(sizes_off_the_grid_keep_the_mean)
{
    const qll_binomial_group groups[] = {
        {.count = 30, .p = 0.03, .size = 27.25},
        {.count = 2000, .p = 0.2, .size = 0.037},
        {.count = 7, .p = 1.0, .size = 0.5},
    };
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_distribution got = {0};
    CHECK(qll_poisson_binomial(groups, 3, 2.0, arena, &got) == QLL_OK);
    const double mean = 30 * 0.03 * 27.25 + 2000 * 0.2 * 0.037 + 3.5;
    const double variance = 30 * 0.03 * 0.97 * 27.25 * 27.25 + 2000 * 0.2 * 0.8 * 0.037 * 0.037;
    CHECK_NEAR(sum_of(got), 1.0, 1e-12);
    CHECK_NEAR(qll_distribution_mean(got), 2.0 * mean, 1e-12);
    /* A value between two grid points spreads by at most a quarter of a squared step. */
    CHECK(qll_distribution_variance(got) >= 4.0 * variance);
    CHECK(qll_distribution_variance(got) <= 4.0 * (variance + 0.75));
    qll_arena_close(arena);
}

TEST(sums_of_nothing_and_of_certainty)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_distribution got = {0};
    CHECK(qll_poisson_binomial(NULL, 0, 1.0, arena, &got) == QLL_OK);
    CHECK(got.count == 1 && got.p[0] == 1.0);
    const qll_binomial_group never = {.count = 9, .p = 0.0, .size = 4};
    CHECK(qll_poisson_binomial(&never, 1, 1.0, arena, &got) == QLL_OK);
    CHECK(got.count == 1 && got.p[0] == 1.0);
    const qll_binomial_group always = {.count = 9, .p = 1.0, .size = 4};
    CHECK(qll_poisson_binomial(&always, 1, 1.0, arena, &got) == QLL_OK);
    CHECK(got.count == 37 && got.p[36] == 1.0 && qll_distribution_quantile(got, 0.01) == 36.0);
    static double thinned[] = {0.5, 0.3, 0.1}; /* a tail left out: the last value stands for it */
    const qll_distribution cut = {.step = 0.25, .count = 3, .p = thinned};
    CHECK(qll_distribution_quantile(cut, 0.8) == 0.25
          && qll_distribution_quantile(cut, 1.0) == 0.5);
    const qll_binomial_group huge = {.count = SIZE_MAX, .p = 0.5, .size = 1e9};
    CHECK(qll_poisson_binomial(&huge, 1, 1.0, arena, &got) == QLL_NO_MEMORY);
    qll_arena_close(arena);
}

/* e^-m m^k / k!, m = 3.5: to the last digits by hand for small k, by lgamma for large ones. */
TEST(poisson_log_is_the_definition)
{
    CHECK_NEAR(qll_poisson_log(0, 3.5), -3.5, 1e-15);
    CHECK_NEAR(exp(qll_poisson_log(2, 3.5)), exp(-3.5) * 3.5 * 3.5 / 2.0, 1e-13);
    CHECK_NEAR(qll_poisson_log(1100, 1000), 1100 * log(1000) - 1000 - lgamma(1101), 1e-11);
    CHECK(qll_poisson_log(0, 0.0) == 0.0);
    CHECK(qll_poisson_log(1, 0.0) == -HUGE_VAL && qll_poisson_log(-1, 2.0) == -HUGE_VAL);
    CHECK(qll_poisson_log(1.5, 2.0) == -HUGE_VAL && isnan(qll_poisson_log(1, -1.0)));
}

TEST(quantile_is_not_moved_by_a_tie)
{
    double p[] = {0.7, 0.1, 0.1, 0.1}; /* 0.7 + 0.1 + 0.1 is 0.8999999999999999 */
    const qll_distribution d = {.step = 2.0, .count = 4, .p = p};
    CHECK(qll_distribution_quantile(d, 0.9) == 4.0);
    CHECK(qll_distribution_quantile(d, 0.9 + 1e-9) == 6.0);
    CHECK(qll_distribution_quantile(d, 0.0) == 0.0);
    CHECK(qll_distribution_quantile(d, 1.0) == 6.0);
    CHECK_NEAR(qll_distribution_mean(d), 1.2, 1e-14);
    CHECK_NEAR(qll_distribution_variance(d), 4.0 * (0.1 + 0.4 + 0.9 - 0.36), 1e-14);
}

TEST(every_failed_allocation_is_reported)
{
    const qll_binomial_group groups[] = {{.count = 4, .p = 0.1, .size = 3},
                                         {.count = 2, .p = 0.2, .size = 5}};
    for (size_t nth = 1; nth <= 9; nth++) {
        qll_arena *arena = qll_arena_open(TEST_CEILING);
        qll_distribution got = {0};
        qll_arena_fail(arena, nth, false);
        CHECK(qll_poisson_binomial(groups, 2, 1.0, arena, &got)
              == (nth <= 8 ? QLL_NO_MEMORY : QLL_OK));
        qll_arena_close(arena);
    }
}

int main(void)
{
    TEST_RUN(binomial_log_knows_its_edges);
    TEST_RUN(normal_quantiles_are_those_of_the_tables);
    TEST_RUN(convolution_equals_enumeration);
    TEST_RUN(sizes_off_the_grid_keep_the_mean);
    TEST_RUN(sums_of_nothing_and_of_certainty);
    TEST_RUN(poisson_log_is_the_definition);
    TEST_RUN(quantile_is_not_moved_by_a_tie);
    TEST_RUN(every_failed_allocation_is_reported);
    return TEST_END();
}
