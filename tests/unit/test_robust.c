#include "base/random.h"
#include "check.h"
#include "numeric/lomb_scargle.h"
#include "numeric/rainflow.h"
#include "numeric/robust.h"

#include <stdlib.h>
#include <string.h>

TEST(nothing_has_no_median)
{
    double none[1] = {0};
    CHECK(isnan(qll_median(none, 0)));
    CHECK(isnan(qll_theil_sen(none, none, 1, 0.0, none)));
    CHECK(qll_segment_penalty(none, 1, none) == 0.0);
}

TEST(medians_are_those_of_sorted_values)
{
    qll_random random = qll_random_seeded(7);
    double values[200];
    double sorted[200];
    for (size_t count = 1; count <= 200; count++) {
        for (size_t i = 0; i < count; i++) {
            values[i] = sorted[i] = (double)(qll_random_bits(&random) % 40);
        }
        for (size_t i = 1; i < count; i++) {
            for (size_t j = i; j > 0 && sorted[j - 1] > sorted[j]; j--) {
                const double held = sorted[j];
                sorted[j] = sorted[j - 1];
                sorted[j - 1] = held;
            }
        }
        const double middle = (sorted[(count - 1) / 2] + sorted[count / 2]) / 2.0;
        CHECK_NEAR(qll_median(values, count), middle, 1e-15);
        CHECK(qll_quantile(values, count, 0.0) == sorted[0]);
        CHECK(qll_quantile(values, count, 1.0) == sorted[count - 1]);
    }
}

/* Sen's estimator breaks down at 29 % wrong values. */
TEST(a_slope_bears_a_quarter_of_wrong_points)
{
    double x[40];
    double y[40];
    double scratch[780];
    for (int i = 0; i < 40; i++) {
        x[i] = i;
        y[i] = 3.0 + 0.25 * i + (i % 4 == 0 ? 1000.0 * (i % 8 == 0 ? 1 : -1) : 0.0);
    }
    CHECK_WITHIN(qll_theil_sen(x, y, 40, 0.0, scratch), 0.25, 1e-9);
    CHECK(isnan(qll_theil_sen(x, y, 40, 50.0, scratch)));
}

TEST(hampel_leaves_what_is_within_least)
{
    double y[30] = {0};
    double cleaned[30];
    double scratch[82];
    y[15] = 3.9;
    CHECK(qll_hampel(y, 30, 5, 3.0, 4.0, cleaned, scratch) == 0 && cleaned[15] == 3.9);
    y[15] = 4.1;
    CHECK(qll_hampel(y, 30, 5, 3.0, 4.0, cleaned, scratch) == 1 && cleaned[15] == 0.0);
    CHECK(qll_hampel(y, 9, 5, 3.0, 4.0, cleaned, scratch) == 0);
}

static int by_size(const void *a, const void *b)
{
    const double one = *(const double *)a;
    const double other = *(const double *)b;
    return (one > other) - (one < other);
}

/* Greatest distance from the middle of the sorted eleven around. */
static double greatest_off(const double *values, size_t count)
{
    double greatest = 0.0;
    for (size_t i = 5; i + 5 < count; i++) {
        double around[11];
        memcpy(around, values + i - 5, sizeof around);
        qsort(around, 11, sizeof *around, by_size);
        greatest = fmax(greatest, fabs(values[i] - around[5]));
    }
    return greatest;
}

/* Noise of a meter's tenths with a few values far off, as many as make it doubtful. */
TEST(hampel_is_idle_only_where_no_median_is_far)
{
    qll_random random = qll_random_seeded(17);
    int idle = 0;
    int moved = 0;
    for (int round = 0; round < 20000; round++) {
        double values[26];
        double lowest = INFINITY;
        double highest = -INFINITY;
        const unsigned wide = 20 + (unsigned)(qll_random_bits(&random) % 40);
        for (int i = 0; i < 26; i++) {
            const bool is_off = qll_random_bits(&random) % 8 == 0;
            values[i] = 0.1 * (double)(6000 + qll_random_bits(&random) % wide) + (is_off ? 3.0 : 0);
            lowest = fmin(lowest, values[i]);
            highest = fmax(highest, values[i]);
        }
        const bool is_far = greatest_off(values, 26) > 4.0;
        const bool is_idle = qll_hampel_is_idle(values, 26, 5, 4.0, lowest, highest);
        CHECK(!(is_idle && is_far));
        idle += is_idle && highest - lowest > 4.0 ? 1 : 0;
        moved += is_far ? 1 : 0;
    }
    CHECK(idle > 1000 && moved > 1000);
}

/* Each sinusoid explains itself alone, at any spacing; noise explains little and says so. */
TEST(a_sinusoid_is_found_at_uneven_times)
{
    qll_random random = qll_random_seeded(3);
    double t[150];
    double y[150];
    double at = 0.0;
    for (int i = 0; i < 150; i++) {
        at += 0.1 + 0.8 * qll_random_unit(&random);
        t[i] = at;
        y[i] = 5.0 + 2.0 * sin(6.283185307179586 * 0.37 * at + 1.0);
    }
    const double share = qll_lomb_scargle(t, y, 150, 0.37);
    CHECK_WITHIN(share, 1.0, 0.02);
    CHECK(qll_lomb_scargle_false_alarm(share, 150, 75) < 1e-12);
    CHECK(qll_lomb_scargle_false_alarm(0.02, 150, 75) > 0.99);
    CHECK(isnan(qll_lomb_scargle(t, t, 2, 0.37)));
}

static void sum_cycles(void *context, double range, double cycles)
{
    double *sums = context;
    sums[0] += cycles;
    sums[1] += range * cycles;
}

/* Every rise and fall belongs to one cycle: ranges times cycles are half of the way gone. */
TEST(cycles_hold_the_whole_way)
{
    qll_random random = qll_random_seeded(11);
    double sums[2] = {0.0, 0.0};
    double way = 0.0;
    double before = 0.0;
    qll_rainflow r;
    qll_rainflow_begin(&r, sum_cycles, sums);
    for (int i = 0; i < 20000; i++) {
        const double value = qll_random_unit(&random) * (i < 9000 ? 1.0 + i * 1e-3 : 1.0);
        way += i > 0 ? fabs(value - before) : 0.0;
        before = value;
        qll_rainflow_add(&r, value);
    }
    qll_rainflow_end(&r);
    CHECK_NEAR(sums[1], way / 2.0, 1e-9);
}

int main(void)
{
    TEST_RUN(nothing_has_no_median);
    TEST_RUN(medians_are_those_of_sorted_values);
    TEST_RUN(a_slope_bears_a_quarter_of_wrong_points);
    TEST_RUN(hampel_leaves_what_is_within_least);
    TEST_RUN(hampel_is_idle_only_where_no_median_is_far);
    TEST_RUN(a_sinusoid_is_found_at_uneven_times);
    TEST_RUN(cycles_hold_the_whole_way);
    return TEST_END();
}
