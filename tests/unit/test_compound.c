#include "check.h"
#include "numeric/probability.h"

#include <stdint.h>

#define TEST_CEILING ((size_t)256 << 20)

static double sum_of(qll_distribution distribution)
{
    double sum = 0.0;
    for (size_t i = 0; i < distribution.count; i++) {
        sum += distribution.p[i];
    }
    return sum;
}

/* The definition, sum of Poisson(k) times the k-fold convolution, against the recursion. */
TEST(panjer_equals_the_convolution_series)
{
    static double f[] = {0.0, 0.4, 0.0, 0.0, 0.25, 0.25, 0.0, 0.0, 0.1};
    const qll_distribution size = {.step = 0.5, .count = 9, .p = f};
    static double want[400];
    static double fold[2][400];
    const double mean_count = 3.5;
    fold[0][0] = 1.0;
    double poisson = exp(-mean_count);
    for (size_t k = 0; k < 45; k++) {
        double *now = fold[k % 2];
        double *next = fold[(k + 1) % 2];
        memset(next, 0, sizeof fold[0]);
        for (size_t i = 0; i < 400; i++) {
            want[i] += poisson * now[i];
            for (size_t j = 0; j < 9 && i + j < 400; j++) {
                next[i + j] += now[i] * f[j];
            }
        }
        poisson *= mean_count / (double)(k + 1);
    }
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_distribution got = {0};
    CHECK(qll_compound((qll_random_count){.mean = mean_count}, size, 1e-14, arena, &got) == QLL_OK);
    CHECK(got.step == 0.5 && got.count > 30 && got.count < 200);
    for (size_t i = 0; i < got.count; i++) {
        CHECK_WITHIN(got.p[i], want[i], want[i] * 1e-12 + 1e-25);
    }
    CHECK_NEAR(got.p[0], exp(-mean_count), 1e-12);
    CHECK_NEAR(sum_of(got), 1.0, 1e-13);
    qll_arena_close(arena);
}

/* With every size 1 the sum is Poisson itself; e^-10000 is far below the least double. */
TEST(ten_thousand_events_neither_under_nor_overflow)
{
    static double one[] = {0.0, 1.0};
    const qll_distribution size = {.step = 1.0, .count = 2, .p = one};
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    static const double counts[] = {1e-9, 0.3, 50.0, 1000.0, 1e4, 1e6};
    for (size_t i = 0; i < 6; i++) {
        const double mean = counts[i];
        qll_distribution got = {0};
        CHECK(qll_compound((qll_random_count){.mean = mean}, size, 1e-12, arena, &got) == QLL_OK);
        CHECK_NEAR(sum_of(got), 1.0, 1e-12);
        CHECK_NEAR(qll_distribution_mean(got), mean, 1e-9);
        CHECK_NEAR(qll_distribution_variance(got), mean, 1e-6);
        const double k = floor(mean);
        const double want = exp(k * log(mean) - mean - lgamma(k + 1.0));
        CHECK_NEAR(got.p[(size_t)k], want, mean > 1e5 ? 1e-8 : 1e-10);
    }
    qll_arena_close(arena);
}

TEST(compound_tail_is_below_what_was_asked)
{
    static double f[] = {0.0, 0.5, 0.3, 0.0, 0.0, 0.0, 0.2};
    const qll_distribution size = {.step = 1.0, .count = 7, .p = f};
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_distribution rough = {0};
    qll_distribution fine = {0};
    CHECK(qll_compound((qll_random_count){.mean = 20.0}, size, 1e-6, arena, &rough) == QLL_OK);
    CHECK(qll_compound((qll_random_count){.mean = 20.0}, size, 1e-15, arena, &fine) == QLL_OK);
    CHECK(fine.count > rough.count);
    double beyond = 0.0;
    for (size_t i = rough.count; i < fine.count; i++) {
        beyond += fine.p[i];
    }
    CHECK(beyond < 1e-6 && beyond > 1e-9);
    CHECK(qll_compound((qll_random_count){.mean = 0.0}, size, 1e-12, arena, &fine) == QLL_OK);
    CHECK(fine.count == 1 && fine.p[0] == 1.0);
    qll_arena_close(arena);
}

/* With every size 1 the sum is the count itself: negative binomial of shape r = 1 / cv^2 = 4 and
 * mean 10, C(k + r - 1, k) (r / (r + m))^r (m / (r + m))^k. */
TEST(a_gamma_factor_makes_the_count_negative_binomial)
{
    static double one[] = {0.0, 1.0};
    const qll_distribution size = {.step = 1.0, .count = 2, .p = one};
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    const qll_random_count number = {.mean = 10.0, .cv = 0.5};
    qll_distribution got = {0};
    CHECK(qll_compound(number, size, 1e-14, arena, &got) == QLL_OK);
    for (size_t k = 0; k < 60; k++) {
        const double n = (double)k;
        const double ways = (n + 3.0) * (n + 2.0) * (n + 1.0) / 6.0;
        CHECK_NEAR(got.p[k], ways * pow(4.0 / 14.0, 4.0) * pow(10.0 / 14.0, n), 1e-11);
    }
    CHECK_NEAR(qll_distribution_mean(got), 10.0, 1e-11);
    CHECK_NEAR(qll_distribution_variance(got), 10.0 + 0.25 * 100.0, 1e-10);
    qll_arena_close(arena);
}

/* Mean m E[X] and variance m E[X^2] + cv^2 (m E[X])^2 for any sizes and any spread. */
TEST(moments_of_mixed_sums)
{
    static double f[] = {0.0, 0.5, 0.3, 0.0, 0.0, 0.0, 0.2};
    const qll_distribution size = {.step = 0.25, .count = 7, .p = f};
    static const double means[] = {0.02, 3.0, 400.0, 2e4};
    static const double cvs[] = {1e-6, 0.05, 0.4, 2.0};
    const double first = 0.25 * 2.3;
    const double second = 0.0625 * (0.5 + 0.3 * 4.0 + 0.2 * 36.0);
    for (size_t i = 0; i < 16; i++) {
        qll_arena *arena = qll_arena_open(TEST_CEILING);
        const qll_random_count number = {.mean = means[i % 4], .cv = cvs[i / 4]};
        qll_distribution got = {0};
        CHECK(qll_compound(number, size, 1e-15, arena, &got) == QLL_OK);
        const double mean = number.mean * first;
        CHECK_NEAR(sum_of(got), 1.0, 1e-11);
        CHECK_NEAR(qll_distribution_mean(got), mean, 1e-9);
        CHECK_NEAR(qll_distribution_variance(got),
                   number.mean * second + number.cv * number.cv * mean * mean, 1e-8);
        qll_arena_close(arena);
    }
}

TEST(every_failed_allocation_is_reported)
{
    static double f[] = {0.0, 0.5, 0.5};
    const qll_distribution size = {.step = 1.0, .count = 3, .p = f};
    for (size_t nth = 1; nth <= 6; nth++) {
        qll_arena *arena = qll_arena_open(TEST_CEILING);
        qll_distribution got = {0};
        qll_arena_fail(arena, nth, true);
        const qll_random_count number = {.mean = 2.0, .cv = 0.3};
        CHECK(qll_compound(number, size, 1e-9, arena, &got) == (nth <= 5 ? QLL_NO_MEMORY : QLL_OK));
        qll_arena_close(arena);
    }
}

int main(void)
{
    TEST_RUN(panjer_equals_the_convolution_series);
    TEST_RUN(ten_thousand_events_neither_under_nor_overflow);
    TEST_RUN(compound_tail_is_below_what_was_asked);
    TEST_RUN(a_gamma_factor_makes_the_count_negative_binomial);
    TEST_RUN(moments_of_mixed_sums);
    TEST_RUN(every_failed_allocation_is_reported);
    return TEST_END();
}
