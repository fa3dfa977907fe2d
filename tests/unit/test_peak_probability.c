#include "base/customary.h"
#include "check.h"
#include "demand/demand.h"

#define TEST_CEILING ((size_t)64 << 20)

static qll_simultaneous use_of(const qll_use_group *groups, size_t count, qll_arena *arena)
{
    qll_simultaneous use = {0};
    CHECK(qll_simultaneous_use(groups, count, 0.99, arena, &use) == QLL_OK);
    return use;
}

TEST(grid_is_the_greatest_common_step)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    const qll_use_group gpm[] = {
        {2, 2.0 * QLL_GPM_M3S, 0.1}, {2, 1.5 * QLL_GPM_M3S, 0.1}, {2, 3.0 * QLL_GPM_M3S, 0.1}};
    qll_simultaneous use = use_of(gpm, 3, arena);
    CHECK_NEAR(use.step_m3s, 0.5 * QLL_GPM_M3S, 1e-12);
    CHECK(use.rounding_m3s == 0.0);
    const qll_use_group litres[] = {{2, 0.15e-3, 0.1}, {2, 0.07e-3, 0.1}};
    use = use_of(litres, 2, arena);
    CHECK_NEAR(use.step_m3s, 0.01e-3, 1e-12);
    CHECK(use.rounding_m3s == 0.0);
    const qll_use_group minutes[] = {{2, 8e-3 / 60.0, 0.1}, {2, 6e-3 / 60.0, 0.1}};
    use = use_of(minutes, 2, arena);
    CHECK_NEAR(use.step_m3s, 2e-3 / 60.0, 1e-12);
    CHECK(use.rounding_m3s == 0.0);
    qll_arena_close(arena);
}

/* One flow in gpm and one in L/s have no common step: the answer keeps the mean and says how far
 * off it may be. */
TEST(odd_flows_are_rounded_within_what_is_stated)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    const qll_use_group groups[] = {{8, 2.2 * QLL_GPM_M3S, 0.05}, {5, 0.1373e-3, 0.1}};
    const qll_simultaneous use = use_of(groups, 2, arena);
    CHECK(use.rounding_m3s > 0.0 && use.rounding_m3s <= 2e-6);
    CHECK_NEAR(qll_distribution_mean(use.distribution), use.mean_m3s, 1e-12);
    /* The exact quantile, state by state: 9 times 6 numbers in use. */
    double flows[54];
    double chances[54];
    for (size_t i = 0; i < 9; i++) {
        for (size_t j = 0; j < 6; j++) {
            flows[i * 6 + j] = (double)i * groups[0].flow_m3s + (double)j * groups[1].flow_m3s;
            chances[i * 6 + j] =
                exp(qll_binomial_log((double)i, 8, 0.05) + qll_binomial_log((double)j, 5, 0.1));
        }
    }
    double want = 0.0;
    for (size_t i = 0; i < 54; i++) {
        double share = 0.0;
        for (size_t j = 0; j < 54; j++) {
            share += flows[j] <= flows[i] ? chances[j] : 0.0;
        }
        if (share >= 0.99 && (want == 0.0 || flows[i] < want)) {
            want = flows[i];
        }
    }
    CHECK(want > 0.0);
    CHECK_WITHIN(use.flow_m3s, want, use.rounding_m3s);
    qll_arena_close(arena);
}

TEST(one_rare_fixture)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    const qll_use_group group = {1, 1.3 * QLL_GPM_M3S, 0.005};
    const qll_simultaneous use = use_of(&group, 1, arena);
    CHECK(use.flow_m3s == 0.0);
    CHECK_NEAR(use.flow_busy_m3s, group.flow_m3s, 1e-12);
    CHECK_NEAR(use.idle_share, 0.995, 1e-12);
    qll_arena_close(arena);
}

TEST(never_and_always)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_use_group group = {7, 1e-4, 0.0};
    qll_simultaneous use = use_of(&group, 1, arena);
    CHECK(use.flow_m3s == 0.0 && use.flow_busy_m3s == 0.0 && use.idle_share == 1.0);
    group.probability = 1.0;
    use = use_of(&group, 1, arena);
    CHECK_NEAR(use.flow_m3s, 7e-4, 1e-12);
    CHECK_NEAR(use.flow_busy_m3s, 7e-4, 1e-12);
    CHECK(use.idle_share == 0.0 && use.deviation_m3s == 0.0);
    qll_arena_close(arena);
}

TEST(arguments_out_of_range_are_refused)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    qll_simultaneous use;
    const qll_use_group good = {3, 1e-4, 0.1};
    const qll_use_group bad[] = {
        {3, 0.0, 0.1},   {3, -1e-4, 0.1}, {3, NAN, 0.1},  {3, HUGE_VAL, 0.1},
        {3, 1e-4, -0.1}, {3, 1e-4, 1.1},  {3, 1e-4, NAN}, {QLL_FIXTURE_COUNT_MAX + 1, 1e-4, 0.1}};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        CHECK(qll_simultaneous_use(&bad[i], 1, 0.99, arena, &use) == QLL_REFUSED);
    }
    const double quantiles[] = {0.0, 1.0, -1.0, NAN};
    for (size_t i = 0; i < 4; i++) {
        CHECK(qll_simultaneous_use(&good, 1, quantiles[i], arena, &use) == QLL_REFUSED);
    }
    qll_arena_close(arena);
}

/* Hostile but allowed: flows that differ by 1e12 must cost neither time nor the machine. */
TEST(flows_far_apart_end_in_reason)
{
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    const qll_use_group groups[] = {{900000, 1.0, 0.5}, {3, 1.23456789e-12, 0.5}, {1, 1e-300, 0.5}};
    qll_simultaneous use;
    const qll_status status = qll_simultaneous_use(groups, 3, 0.99, arena, &use);
    CHECK(status == QLL_OK || status == QLL_NO_MEMORY);
    if (status == QLL_OK) {
        CHECK_NEAR(use.flow_m3s, use.normal_m3s, 1e-3);
    }
    qll_arena_close(arena);
}

/* A hundred thousand fixtures stay on the exact grid of 0.1 gpm; so large a sum is close to normal. */
TEST(a_hundred_thousand_fixtures)
{
    static const double gpm[] = {1.5, 5.5, 2.0, 3.5, 5.5, 1.3, 2.2, 2.0, 1.5, 2.0, 3.0, 2.5};
    static const double p[] = {0.02, 0.01, 0.01, 0.055, 0.055, 0.005,
                               0.02, 0.02, 0.02, 0.045, 0.01,  0.03};
    qll_use_group groups[12];
    for (size_t i = 0; i < 12; i++) {
        groups[i] = (qll_use_group){8334, gpm[i] * QLL_GPM_M3S, p[i]};
    }
    qll_arena *arena = qll_arena_open(TEST_CEILING);
    const qll_simultaneous use = use_of(groups, 12, arena);
    CHECK(use.rounding_m3s == 0.0);
    CHECK_NEAR(use.step_m3s, 0.1 * QLL_GPM_M3S, 1e-12);
    CHECK_NEAR(qll_distribution_mean(use.distribution), use.mean_m3s, 1e-12);
    CHECK_NEAR(sqrt(qll_distribution_variance(use.distribution)), use.deviation_m3s, 1e-10);
    CHECK_NEAR(use.flow_m3s, use.normal_m3s, 1e-3);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(grid_is_the_greatest_common_step);
    TEST_RUN(odd_flows_are_rounded_within_what_is_stated);
    TEST_RUN(one_rare_fixture);
    TEST_RUN(never_and_always);
    TEST_RUN(arguments_out_of_range_are_refused);
    TEST_RUN(flows_far_apart_end_in_reason);
    TEST_RUN(a_hundred_thousand_fixtures);
    return TEST_END();
}
