#include "check.h"
#include "numeric/lognormal.h"

#define TEST_POINTS_MOST 16000

static double p[TEST_POINTS_MOST];

static void lay(qll_lognormal amount, double step)
{
    memset(p, 0, sizeof p);
    CHECK(qll_lognormal_count(amount, step) <= TEST_POINTS_MOST);
    qll_lognormal_lay(amount, 1.0, step, p);
}

static double moment(double step, int power)
{
    double sum = 0.0;
    for (size_t j = 0; j < TEST_POINTS_MOST; j++) {
        sum += p[j] * pow(step * (double)j, power);
    }
    return sum;
}

TEST(the_mean_is_kept_on_any_grid)
{
    static const qll_lognormal amounts[] = {{25.6, 0.0}, {2.5, 0.0}, {282, 0.66},
                                            {25, 0.85},  {4, 0.1},   {0.4, 0.3}};
    static const double steps[] = {1.0, 7.0, 60.0};
    for (size_t i = 0; i < 18; i++) {
        const qll_lognormal amount = amounts[i % 6];
        const double step = steps[i / 6];
        lay(amount, step);
        CHECK_NEAR(moment(step, 0), 1.0, 1e-12);
        /* Beyond the cut at 6 deviations lie 1e-9 of all. */
        CHECK_NEAR(moment(step, 1), amount.mean, 1e-7);
        const double square = qll_lognormal_square(amount);
        CHECK(moment(step, 2) >= square * (1.0 - 1e-6));
        CHECK(moment(step, 2) <= square * (1.0 + 1e-6) + 0.25 * step * step);
    }
}

/* The median of a lognormal is its mean times exp(-sigma^2 / 2). */
TEST(half_lies_below_the_median)
{
    const qll_lognormal amount = {100.0, 0.5};
    lay(amount, 0.5);
    double below = 0.0;
    for (size_t j = 0; 0.5 * (double)j < 100.0 * exp(-0.125); j++) {
        below += p[j];
    }
    CHECK_WITHIN(below, 0.5, 0.003);
}

int main(void)
{
    TEST_RUN(the_mean_is_kept_on_any_grid);
    TEST_RUN(half_lies_below_the_median);
    return TEST_END();
}
