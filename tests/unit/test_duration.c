#include "check.h"
#include "demand/demand.h"

TEST(cells_are_sorted_merged_and_summed)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_flow_time cells[] = {
        {3e-3, 10.0}, {0.0, 40.0}, {1e-3, 20.0}, {1e-3 + 1e-14, 20.0}, {2e-3, 0.0}, {3e-3, 10.0},
    };
    qll_duration duration;
    CHECK(qll_duration_make(cells, 6, arena, &duration) == QLL_OK);
    CHECK(duration.count == 3);
    CHECK_NEAR(duration.idle_share, 0.4, 1e-14);
    CHECK_NEAR(duration.mean_m3s, 1e-3, 1e-10);
    CHECK(duration.points[0].flow_m3s == 0.0 && duration.points[1].flow_m3s == 1e-3);
    CHECK_NEAR(duration.points[1].time_share, 0.8, 1e-14);
    CHECK_NEAR(duration.points[1].volume_share, 0.4, 1e-10);
    CHECK(duration.points[2].time_share == 1.0 && duration.points[2].volume_share == 1.0);
    qll_arena_close(arena);
}

TEST(quantiles_and_shares_are_inverses)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_flow_time cells[] = {{1.0, 1.0}, {2.0, 2.0}, {4.0, 6.0}, {8.0, 1.0}};
    qll_duration duration;
    CHECK(qll_duration_make(cells, 4, arena, &duration) == QLL_OK);
    CHECK(duration.idle_share == 0.0);
    CHECK(qll_duration_quantile(&duration, 0.0) == 1.0);
    CHECK(qll_duration_quantile(&duration, 0.1) == 1.0);
    CHECK(qll_duration_quantile(&duration, 0.1 + 1e-9) == 2.0);
    CHECK(qll_duration_quantile(&duration, 0.3) == 2.0);
    CHECK(qll_duration_quantile(&duration, 0.9) == 4.0);
    CHECK(qll_duration_quantile(&duration, 1.0) == 8.0);
    CHECK(qll_duration_time_share(&duration, 0.5) == 0.0);
    CHECK_NEAR(qll_duration_time_share(&duration, 1.0), 0.1, 1e-14);
    CHECK_NEAR(qll_duration_time_share(&duration, 3.9), 0.3, 1e-14);
    CHECK(qll_duration_time_share(&duration, 100.0) == 1.0);
    qll_arena_close(arena);
}

TEST(a_day_without_water)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_flow_time cells[] = {{0.0, 86400.0}};
    qll_duration duration;
    CHECK(qll_duration_make(cells, 1, arena, &duration) == QLL_OK);
    CHECK(duration.idle_share == 1.0 && duration.mean_m3s == 0.0 && duration.count == 1);
    CHECK(duration.points[0].time_share == 1.0 && duration.points[0].volume_share == 1.0);
    qll_arena_fail(arena, 1, false);
    CHECK(qll_duration_make(cells, 1, arena, &duration) == QLL_NO_MEMORY);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(cells_are_sorted_merged_and_summed);
    TEST_RUN(quantiles_and_shares_are_inverses);
    TEST_RUN(a_day_without_water);
    return TEST_END();
}
