#include "building_scene.h"
#include "check.h"
#include "station/need.h"

#include <stdint.h>

#define TEST_NEED_PSI_FT (1.0 / 2.31) /* of water, plumbing handbooks */

typedef struct need_scene {
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point test[2];
    qll_outlet outlets[2];
    qll_site site;
} need_scene;

/* 80 psi are permitted; a first floor and a top floor, 15 and 40 ft up. The main falls by 10 psi at 20 gpm. */
static void scene_make(need_scene *made, double high_psi, double low_psi)
{
    made->test[0] = (qll_point){0.0, low_psi * TEST_SCENE_PSI};
    made->test[1] = (qll_point){20.0 * TEST_SCENE_GPM, (low_psi - 10.0) * TEST_SCENE_PSI};
    made->site = scene_site(made->sizes, &made->test[0]);
    made->site.supply.count = 2;
    made->site.supply.static_high_pa_gauge = high_psi * TEST_SCENE_PSI;
    made->site.has_static_high = true;
    made->outlets[0] = (qll_outlet){
        .name = "top", .elevation_m = 40.0 * 0.3048, .needs_pa_gauge = 20.0 * TEST_SCENE_PSI};
    made->outlets[1] = (qll_outlet){.name = "first floor",
                                    .elevation_m = 15.0 * 0.3048,
                                    .needs_pa_gauge = 20.0 * TEST_SCENE_PSI};
    made->site.outlets = made->outlets;
}

TEST(none_is_needed_below_what_is_permitted)
{
    static const struct {
        double high_psi;
        size_t outlet_count;
        bool is_needed;
    } facts[] = {
        {79.9, 0, false},
        {80.1, 0, true}, /* at the station */
        {79.9, 2, false},
        {80.1, 2, true}, /* both outlets lie above it: what stands beside it counts */
    };

    for (size_t i = 0; i < sizeof facts / sizeof *facts; i++) {
        need_scene made;
        scene_make(&made, facts[i].high_psi, 60.0);
        made.site.outlet_count = facts[i].outlet_count;
        CHECK(qll_station_is_needed(&made.site) == facts[i].is_needed);
    }
}

TEST(a_cellar_decides)
{
    need_scene made;
    scene_make(&made, 75.0, 60.0);
    made.site.outlet_count = 2;
    CHECK(!qll_station_is_needed(&made.site));
    made.outlets[0].elevation_m = -12.0 * 0.3048; /* 5.19 psi */
    CHECK(qll_station_is_needed(&made.site));
    made.site.static_max_pa_gauge = 80.3 * TEST_SCENE_PSI;
    CHECK(!qll_station_is_needed(&made.site));
    made.outlets[0].elevation_m = NAN;
    made.site.supply.static_high_pa_gauge = NAN;
    CHECK(
        qll_station_is_needed(&made.site)); /* what cannot be computed is no reason to do without */
}

TEST(a_test_alone_or_a_wish_keeps_the_valve)
{
    need_scene made;
    scene_make(&made, 70.0, 60.0);
    CHECK(!qll_station_is_needed(&made.site));
    made.site.station_always = true;
    CHECK(qll_station_is_needed(&made.site));
    made.site.station_always = false;
    made.site.has_static_high = false;
    CHECK(qll_station_is_needed(&made.site));
}

/* A rise before the station's place counts at no flow as well. */
TEST(a_rise_before_it_counts)
{
    need_scene made;
    scene_make(&made, 83.0, 60.0);
    CHECK(qll_station_is_needed(&made.site));
    qll_element riser = {.kind = QLL_ELEMENT_PIPE,
                         .pipe = {.bore_m = 0.05, .rise_m = 10.0 * 0.3048}}; /* 4.33 psi */
    made.site.upstream = &riser;
    made.site.upstream_count = 1;
    CHECK(!qll_station_is_needed(&made.site));
}

/* At 20 gpm the lowest supply of 60 psi leaves 50: 50 - 17.3 at the top, of which 20 are needed. */
TEST(what_the_outlets_get_without_one)
{
    qll_arena *arena = qll_arena_open(1 << 16);
    need_scene made;
    scene_make(&made, 72.0, 60.0);
    made.site.outlet_count = 2;
    qll_need need;
    CHECK(qll_need_of(&made.site, 20.0 * TEST_SCENE_GPM, arena, &need) == QLL_OK);
    CHECK(!need.is_needed && need.lowest == SIZE_MAX);
    CHECK_NEAR(need.lowest_still_pa_gauge / TEST_SCENE_PSI, 72.0, 1e-9);
    CHECK_NEAR(need.inlet_peak_pa_gauge / TEST_SCENE_PSI, 50.0, 1e-9);
    CHECK_NEAR(need.outlets[0].still_pa_gauge / TEST_SCENE_PSI, 72.0 - 40.0 * TEST_NEED_PSI_FT,
               1e-3);
    CHECK_NEAR(need.outlets[0].peak_pa_gauge / TEST_SCENE_PSI, 50.0 - 40.0 * TEST_NEED_PSI_FT,
               1e-3);
    CHECK_NEAR(need.outlets[0].in_hand_pa_gauge / TEST_SCENE_PSI, 30.0 - 40.0 * TEST_NEED_PSI_FT,
               2e-3);
    made.outlets[1].elevation_m = -10.0 * 0.3048;
    CHECK(qll_need_of(&made.site, 20.0 * TEST_SCENE_GPM, arena, &need) == QLL_OK);
    CHECK(need.lowest == 1);
    CHECK_NEAR(need.lowest_still_pa_gauge / TEST_SCENE_PSI, 72.0 + 10.0 * TEST_NEED_PSI_FT, 1e-3);
    made.site.outlet_count = 0;
    CHECK(qll_need_of(&made.site, 20.0 * TEST_SCENE_GPM, arena, &need) == QLL_OK);
    CHECK(need.lowest == SIZE_MAX);
    CHECK_NEAR(need.lowest_still_pa_gauge / TEST_SCENE_PSI, 72.0, 1e-9);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(none_is_needed_below_what_is_permitted);
    TEST_RUN(a_cellar_decides);
    TEST_RUN(a_test_alone_or_a_wish_keeps_the_valve);
    TEST_RUN(a_rise_before_it_counts);
    TEST_RUN(what_the_outlets_get_without_one);
    return TEST_END();
}
