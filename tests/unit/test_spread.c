#include "check.h"
#include "station/spread.h"

/* The density of Beta(2, 2) is 6 t (1 - t) on [0, 1]: mean 1/2, variance 1/20. */
static double density(double t)
{
    return t > 0.0 && t < 1.0 ? 6.0 * t * (1.0 - t) : 0.0;
}

/* Midpoints; the integrand is a parabola, so the error falls with the square of the step. */
static double integral(double to, double moment)
{
    const int steps = 20000;
    double sum = 0.0;
    for (int i = 0; i < steps; i++) {
        double t = to * (i + 0.5) / steps;
        sum += density(t) * pow(t - 0.5, moment) * to / steps;
    }
    return sum;
}

TEST(it_is_the_integral_of_its_density)
{
    const double sigma = 2.5e4;
    for (int i = -30; i <= 30; i++) {
        double deviations = 0.1 * i;
        double t = 0.5 + deviations / sqrt(20.0);
        double want = t <= 0.0 ? 0.0 : (t >= 1.0 ? 1.0 : integral(t, 0.0));
        CHECK_WITHIN(qll_spread_below(deviations * sigma, sigma), want, 1e-8);
    }
}

/* Its deviation is sigma: the integral of x^2 over steps of its own distribution function. */
TEST(its_deviation_is_what_is_asked_for)
{
    const double sigma = 3.0;
    double mean = 0.0;
    double square = 0.0;
    for (int i = -8000; i < 8000; i++) {
        double low = 0.001 * i;
        double share = qll_spread_below(low + 0.001, sigma) - qll_spread_below(low, sigma);
        mean += share * (low + 0.0005);
        square += share * (low + 0.0005) * (low + 0.0005);
    }
    CHECK_WITHIN(mean, 0.0, 1e-9);
    CHECK_NEAR(square, sigma * sigma, 1e-6);
    CHECK_NEAR(integral(1.0, 2.0), 1.0 / 20.0, 1e-7);
}

/* Beside the normal distribution (1/2 erfc) it is never off by more than 0.0315, and it ends at the square root of 5. */
TEST(it_looks_normal_and_ends)
{
    for (int i = -30; i <= 30; i++) {
        double x = 0.1 * i;
        CHECK_WITHIN(qll_spread_below(x, 1.0), 0.5 * erfc(-x / sqrt(2.0)), 0.0315);
        CHECK_NEAR(qll_spread_below(x, 1.0) + qll_spread_below(-x, 1.0), 1.0, 1e-14);
    }
    CHECK(qll_spread_below(-2.2361, 1.0) == 0.0 && qll_spread_below(2.2361, 1.0) == 1.0);
    CHECK(qll_spread_below(-2.2360, 1.0) > 0.0 && qll_spread_below(2.2360, 1.0) < 1.0);
    CHECK(qll_spread_below(-1e300, 1.0) == 0.0 && qll_spread_below(1e300, 1.0) == 1.0);
    CHECK(qll_spread_below(-INFINITY, 1.0) == 0.0 && qll_spread_below(INFINITY, 1.0) == 1.0);
}

int main(void)
{
    TEST_RUN(it_is_the_integral_of_its_density);
    TEST_RUN(its_deviation_is_what_is_asked_for);
    TEST_RUN(it_looks_normal_and_ends);
    return TEST_END();
}
