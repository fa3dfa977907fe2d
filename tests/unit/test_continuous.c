#include "check.h"
#include "demand/demand.h"

#define TEST_HOUR 3600.0

static double volume_m3(const qll_continuous *flows, size_t count)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_scenario scenario = {.continuous = flows, .continuous_count = count};
    const qll_steady *stretches = NULL;
    size_t stretch_count = 0;
    CHECK(qll_steady_day(&scenario, arena, &stretches, &stretch_count) == QLL_OK);
    CHECK(stretch_count >= 24 && stretch_count <= 24 + 2 * count);
    double time_s = 0.0;
    double volume = 0.0;
    double hours[24] = {0};
    for (size_t i = 0; i < stretch_count; i++) {
        CHECK(stretches[i].duration_s > 0.0 && stretches[i].hour < 24);
        hours[stretches[i].hour] += stretches[i].duration_s;
        time_s += stretches[i].duration_s;
        volume += stretches[i].duration_s * stretches[i].flow_m3s;
    }
    for (size_t h = 0; h < 24; h++) {
        CHECK_NEAR(hours[h], TEST_HOUR, 1e-12);
    }
    CHECK_NEAR(time_s, 86400.0, 1e-12);
    qll_arena_close(arena);
    return volume;
}

TEST(hours_are_cut_where_flows_start_and_stop)
{
    CHECK(volume_m3(NULL, 0) == 0.0);
    const qll_continuous office = {"tower", 1e-3, 9.0 * TEST_HOUR, 17.5 * TEST_HOUR};
    CHECK_NEAR(volume_m3(&office, 1), 8.5 * 3.6, 1e-12);
    const qll_continuous quarter = {"rinse", 1e-3, 2.0 * TEST_HOUR + 60.0, 2.0 * TEST_HOUR + 960.0};
    CHECK_NEAR(volume_m3(&quarter, 1), 0.9, 1e-12);
    const qll_continuous night = {"fill", 1e-3, 22.5 * TEST_HOUR, 5.25 * TEST_HOUR};
    CHECK_NEAR(volume_m3(&night, 1), 6.75 * 3.6, 1e-12);
    const qll_continuous always = {"urinals", 1e-3, 7.0 * TEST_HOUR, 7.0 * TEST_HOUR};
    CHECK_NEAR(volume_m3(&always, 1), 86.4, 1e-12);
    const qll_continuous midnight = {"late", 1e-3, 23.0 * TEST_HOUR, 24.0 * TEST_HOUR};
    CHECK_NEAR(volume_m3(&midnight, 1), 3.6, 1e-12);
}

TEST(flows_that_overlap_add)
{
    const qll_continuous flows[] = {{"a", 1e-3, 9.0 * TEST_HOUR, 11.0 * TEST_HOUR},
                                    {"b", 2e-3, 10.5 * TEST_HOUR, 12.0 * TEST_HOUR},
                                    {"c", 4e-3, 0.0, 0.0}};
    CHECK_NEAR(volume_m3(flows, 3), 3.6 * (2.0 + 2.0 * 1.5 + 4.0 * 24.0), 1e-12);
    qll_arena *arena = qll_arena_open(1 << 20);
    const qll_scenario scenario = {.continuous = flows, .continuous_count = 3};
    const qll_steady *stretches = NULL;
    size_t count = 0;
    CHECK(qll_steady_day(&scenario, arena, &stretches, &count) == QLL_OK);
    double greatest = 0.0;
    for (size_t i = 0; i < count; i++) {
        greatest = fmax(greatest, stretches[i].flow_m3s);
    }
    CHECK_NEAR(greatest, 7e-3, 1e-12);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(hours_are_cut_where_flows_start_and_stop);
    TEST_RUN(flows_that_overlap_add);
    return TEST_END();
}
