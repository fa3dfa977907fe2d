#include "building_scene.h"
#include "check.h"
#include "station/duty.h"

#include <stdint.h>

static double mean_of(const qll_duty *duty)
{
    double mean = 0.0;
    for (size_t f = 0; f < duty->flow_count; f++) {
        mean += duty->weight_time[f] * duty->flow_m3s[f];
    }
    return mean;
}

TEST(time_and_water_are_conserved)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still = {0.0, 8e5};
    qll_site site = scene_site(sizes, &still);
    static const double flows[5] = {3e-5, 1e-4, 4e-4, 4.1e-4, 2e-3};
    static const double shares[5] = {0.2, 0.15, 0.1, 0.05, 0.01};
    scene_demand demand;
    scene_demand_make(&demand, 3e-3, flows, shares, 5);
    for (size_t count = 2; count < 60; count++) {
        qll_duty duty;
        CHECK(qll_duty_make(&site, &demand.scenario, 1, count, arena, &duty) == QLL_OK);
        double time = duty.idle_share;
        double volume = 0.0;
        bool rising = true;
        for (size_t f = 0; f < count; f++) {
            time += duty.weight_time[f];
            volume += duty.weight_volume[f];
            rising = rising && duty.flow_m3s[f] > (f == 0 ? 0.0 : duty.flow_m3s[f - 1]);
        }
        CHECK_NEAR(time, 1.0, 1e-12);
        CHECK_NEAR(volume, 1.0, 1e-12);
        CHECK_NEAR(mean_of(&duty), 6e-6 + 1.5e-5 + 4e-5 + 2.05e-5 + 2e-5, 1e-12);
        CHECK(rising && duty.flow_count == count);
        CHECK(duty.flow_m3s[count - 1] == 3e-3 && duty.weight_time[count - 1] == 0.0);
    }
    qll_arena_close(arena);
}

TEST(flows_above_the_peak_go_to_the_last_class)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still = {0.0, 8e5};
    qll_site site = scene_site(sizes, &still);
    static const double flows[2] = {1e-4, 2e-3};
    static const double shares[2] = {0.4, 0.1};
    scene_demand demand;
    scene_demand_make(&demand, 1e-3, flows, shares, 2);
    qll_duty duty;
    CHECK(qll_duty_make(&site, &demand.scenario, 1, 20, arena, &duty) == QLL_OK);
    CHECK_NEAR(duty.weight_time[19], 0.1, 1e-12);
    CHECK_NEAR(duty.weight_volume[19], 2e-4 / 2.4e-4, 1e-12);
    CHECK(duty.peak_m3s == 1e-3 && duty.flow_m3s[19] == 1e-3);
    qll_arena_close(arena);
}

TEST(scenarios_merge_by_weight)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still = {0.0, 8e5};
    qll_site site = scene_site(sizes, &still);
    static const double small[1] = {1e-4};
    static const double large[1] = {1e-3};
    static const double half[1] = {0.5};
    static const double whole[1] = {1.0};
    scene_demand demands[2];
    scene_demand_make(&demands[0], 2e-4, small, half, 1);
    scene_demand_make(&demands[1], 4e-3, large, whole, 1);
    qll_duty_scenario scenarios[2] = {demands[0].scenario, demands[1].scenario};
    scenarios[0].weight = 3.0;
    qll_duty duty;
    CHECK(qll_duty_make(&site, scenarios, 2, 12, arena, &duty) == QLL_OK);
    CHECK_NEAR(duty.idle_share, 0.375, 1e-12);
    CHECK(duty.peak_m3s == 4e-3 && duty.scenario_count == 2);
    CHECK_NEAR(mean_of(&duty), 0.75 * 0.5 * 1e-4 + 0.25 * 1e-3, 1e-12);
    for (size_t s = 0; s < 2; s++) {
        double time = scenarios[s].idle_share;
        double volume = 0.0;
        for (size_t f = 0; f < 12; f++) {
            time += duty.time_share[s * 12 + f];
            volume += duty.volume_share[s * 12 + f];
        }
        CHECK_NEAR(time, 1.0, 1e-12);
        CHECK_NEAR(volume, 1.0, 1e-12);
    }
    qll_arena_close(arena);
}

TEST(supply_levels_and_inlets)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    static const qll_point test[2] = {{0.0, 8e5}, {1e-2, 6e5}};
    qll_site site = scene_site(sizes, test);
    site.supply.count = 2;
    site.supply.static_high_pa_gauge = 9e5;
    site.supply.static_low_pa_gauge = 7e5;
    static const double flows[1] = {1e-4};
    static const double shares[1] = {0.5};
    scene_demand demand;
    scene_demand_make(&demand, 1e-2, flows, shares, 1);
    qll_duty duty;
    CHECK(qll_duty_make(&site, &demand.scenario, 1, 10, arena, &duty) == QLL_OK);
    CHECK(duty.supply_count == 3);
    CHECK_NEAR(duty.supply_weight[0] + duty.supply_weight[1] + duty.supply_weight[2], 1.0, 1e-12);
    CHECK_NEAR(duty.supply_static_pa_gauge[1], 8e5, 1e-12);
    CHECK_NEAR(duty.inlet_static_pa[2], 9e5 + TEST_SCENE_ATM, 1e-12);
    CHECK_NEAR(duty.inlet_pa[9], 5e5 + TEST_SCENE_ATM, 1e-9); /* lowest supply at the peak */
    CHECK_NEAR(duty.inlet_pa[29], 7e5 + TEST_SCENE_ATM, 1e-9);
    qll_arena_close(arena);
}

TEST(every_refused_allocation_is_reported)
{
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still = {0.0, 8e5};
    qll_site site = scene_site(sizes, &still);
    static const double flows[1] = {1e-4};
    static const double shares[1] = {0.5};
    scene_demand demand;
    scene_demand_make(&demand, 1e-2, flows, shares, 1);
    qll_status status = QLL_NO_MEMORY;
    size_t nth = 0;
    while (status == QLL_NO_MEMORY && nth < 50) {
        nth += 1;
        qll_arena *arena = qll_arena_open(1 << 20);
        qll_arena_fail(arena, nth, false);
        qll_duty duty;
        status = qll_duty_make(&site, &demand.scenario, 1, 10, arena, &duty);
        qll_arena_close(arena);
    }
    CHECK(status == QLL_OK && nth == 11);
    /* A count that no memory holds is refused, not wrapped round. */
    qll_arena *arena = qll_arena_open(1 << 20);
    qll_duty duty;
    CHECK(qll_duty_make(&site, &demand.scenario, 1, SIZE_MAX / 8, arena, &duty) == QLL_NO_MEMORY);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(time_and_water_are_conserved);
    TEST_RUN(flows_above_the_peak_go_to_the_last_class);
    TEST_RUN(scenarios_merge_by_weight);
    TEST_RUN(supply_levels_and_inlets);
    TEST_RUN(every_refused_allocation_is_reported);
    return TEST_END();
}
