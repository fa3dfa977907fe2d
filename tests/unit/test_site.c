#include "building_scene.h"
#include "check.h"
#include "station/site.h"

TEST(losses_before_the_station_add_up)
{
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still = {0.0, 8e5};
    qll_site site = scene_site(sizes, &still);
    static const qll_point loss[2] = {{0.0, 1e4}, {2e-3, 3e4}};
    qll_element elements[3] = {
        {.kind = QLL_ELEMENT_PIPE,
         .pipe = {.bore_m = 0.05, .length_m = 20.0, .roughness_m = 1.5e-6, .rise_m = 3.0}},
        {.kind = QLL_ELEMENT_LOSS, .loss = {loss, 2}},
        {.kind = QLL_ELEMENT_BACKFLOW,
         .backflow = {.opening_pa = 5e4, .rated_flow_m3s = 2e-3, .rated_drop_pa = 7e4}},
    };
    site.upstream = elements;
    site.upstream_count = 3;
    double column_pa = QLL_REFERENCE_DENSITY_KG_M3 * 9.80665 * 3.0;
    double apart = qll_pipe_drop_pa(&elements[0].pipe, 1e-3, &site.water) + column_pa + 2e4
                   + qll_backflow_drop_pa(&elements[2].backflow, 1e-3);
    CHECK_NEAR(qll_site_upstream_drop_pa(&site, 1e-3), apart, 1e-12);
    CHECK_NEAR(qll_site_inlet_pa(&site, 8e5, 1e-3), TEST_SCENE_ATM + 8e5 - apart, 1e-12);
    CHECK_NEAR(qll_site_inlet_pa(&site, 9e5, 1e-3), TEST_SCENE_ATM + 9e5 - apart, 1e-12);
    site.upstream = &elements[1];
    site.upstream_count = 1;
    CHECK_NEAR(qll_site_upstream_drop_pa(&site, 1e-12), 1e4, 1e-6);
    CHECK_NEAR(qll_site_upstream_drop_pa(&site, 4e-3), 12e4, 1e-12); /* beyond: flow squared */
    site.upstream = elements;
    CHECK_NEAR(qll_site_upstream_drop_pa(&site, 0.0), column_pa, 1e-12);
}

TEST(screen_and_meter_are_theirs)
{
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still = {0.0, 8e5};
    qll_site site = scene_site(sizes, &still);
    static const qll_point loss[2] = {{1e-3, 1e4}, {2e-3, 4e4}};
    qll_meter meter = {.nominal_m = 0.025, .loss = {loss, 2}};
    qll_element elements[2] = {
        {.kind = QLL_ELEMENT_METER, .meter = &meter},
        {.kind = QLL_ELEMENT_STRAINER,
         .screen = qll_screen_mesh(20),
         .bore_m = 0.026,
         .blocked = 0.5},
    };
    site.upstream = elements;
    site.upstream_count = 2;
    double apart = qll_meter_drop_pa(&meter, 1.5e-3)
                   + qll_screen_drop_pa(&elements[1].screen, 0.026, 0.5, 1.5e-3, &site.water);
    CHECK_NEAR(qll_site_upstream_drop_pa(&site, 1.5e-3), apart, 1e-12);
    CHECK(apart > 2e4);
}

/* Meter and backflow preventer stay what they are when the survey brings their own loss, and whatever a
 * list says, nothing is lost where nothing flows: the safe side for static pressure. */
TEST(own_losses_take_nothing_at_rest)
{
    const qll_water water = scene_water();
    static const qll_point late[2] = {{3e-4, 8e4}, {6e-3, 7.5e4}};
    static const qll_point still[2] = {{0.0, 3e4}, {6e-3, 7.5e4}};
    const qll_element elements[] = {
        {.kind = QLL_ELEMENT_METER, .loss = {still, 2}},
        {.kind = QLL_ELEMENT_BACKFLOW, .loss = {late, 2}},
        {.kind = QLL_ELEMENT_LOSS, .loss = {still, 2}},
    };
    for (size_t i = 0; i < sizeof elements / sizeof elements[0]; i++) {
        const qll_point *points = elements[i].loss.points;
        CHECK(qll_element_drop_pa(&elements[i], 0.0, &water) == 0.0);
        CHECK_NEAR(qll_element_drop_pa(&elements[i], 1e-9, &water), points[0].y, 1e-4);
        CHECK_NEAR(qll_element_drop_pa(&elements[i], 6e-3, &water), points[1].y, 1e-12);
        CHECK_NEAR(qll_element_drop_pa(&elements[i], 12e-3, &water), 4.0 * points[1].y, 1e-12);
        CHECK(isnan(qll_element_drop_pa(&elements[i], -1e-3, &water)));
    }
}

TEST(an_outlet_wants_its_need_its_height_and_its_pipes)
{
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still = {0.0, 8e5};
    qll_site site = scene_site(sizes, &still);
    qll_path_run path[2] = {
        {.pipe = {.bore_m = 0.026, .length_m = 27.0, .roughness_m = 1.5e-6}, .carries_m3s = NAN},
        {.pipe = {.bore_m = 0.020, .length_m = 5.0, .roughness_m = 1.5e-6}, .carries_m3s = 2e-4},
    };
    qll_outlet outlet = {
        .name = "top", .elevation_m = 15.0, .needs_pa_gauge = 1.4e5, .path = path, .path_count = 2};
    double column_pa = QLL_REFERENCE_DENSITY_KG_M3 * 9.80665 * 15.0;
    double want = 1.4e5 + column_pa + qll_pipe_drop_pa(&path[0].pipe, 1e-3, &site.water)
                  + qll_pipe_drop_pa(&path[1].pipe, 2e-4, &site.water);
    CHECK_NEAR(qll_outlet_wants_pa_gauge(&site, &outlet, 1e-3), want, 1e-12);
    CHECK_NEAR(qll_outlet_wants_pa_gauge(&site, &outlet, 0.0), 1.4e5 + column_pa, 1e-12);
    /* No more than the station gives goes through the branch pipe. */
    want = 1.4e5 + column_pa + qll_pipe_drop_pa(&path[0].pipe, 1e-4, &site.water)
           + qll_pipe_drop_pa(&path[1].pipe, 1e-4, &site.water);
    CHECK_NEAR(qll_outlet_wants_pa_gauge(&site, &outlet, 1e-4), want, 1e-12);
}

/* Q = 2.448 v d^2 (gpm, ft/s, in): 12.07 gpm in 3/4 in type L at 8 ft/s, 77.2 gpm in 2 in. */
TEST(the_smallest_size_that_carries_a_flow)
{
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still = {0.0, 8e5};
    qll_site site = scene_site(sizes, &still);
    double most_m_s = 8.0 * TEST_SCENE_FPS;
    CHECK(qll_site_smallest_size(&site, 12.0 * TEST_SCENE_GPM, most_m_s) == &scene_sizes[0]);
    CHECK(qll_site_smallest_size(&site, 12.1 * TEST_SCENE_GPM, most_m_s) == &scene_sizes[1]);
    CHECK(qll_site_smallest_size(&site, 77.0 * TEST_SCENE_GPM, most_m_s) == &scene_sizes[4]);
    CHECK(qll_site_smallest_size(&site, 77.5 * TEST_SCENE_GPM, most_m_s) == NULL);
}

int main(void)
{
    TEST_RUN(losses_before_the_station_add_up);
    TEST_RUN(screen_and_meter_are_theirs);
    TEST_RUN(own_losses_take_nothing_at_rest);
    TEST_RUN(an_outlet_wants_its_need_its_height_and_its_pipes);
    TEST_RUN(the_smallest_size_that_carries_a_flow);
    return TEST_END();
}
