#include "building_scene.h"
#include "check.h"
#include "station/closed.h"

#define TEST_GALLON 3.785411784e-3

/* A heater of 80 gal from 50 to 140 degF behind a station that rests at one pressure. */
typedef struct closed_scene {
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still;
    qll_site site;
    qll_closed_system found;
} closed_scene;

static void scene_make(closed_scene *made, double volume_gal)
{
    made->still = (qll_point){0.0, 110.0 * TEST_SCENE_PSI};
    made->site = scene_site(made->sizes, &made->still);
    made->site.barometric_pa = 14.7 * TEST_SCENE_PSI;
    made->site.static_max_pa_gauge = 200.0 * TEST_SCENE_PSI;
    made->site.heater = (qll_heater){.volume_m3 = volume_gal * TEST_GALLON,
                                     .cold_degc = 10.0,
                                     .hot_degc = 60.0,
                                     .relief_pa_gauge = 150.0 * TEST_SCENE_PSI};
    made->site.tank = (qll_expansion_tank){.volume_m3 = NAN, .precharge_pa_gauge = NAN};
}

static const qll_closed_system *look(closed_scene *made, double middle_psi, double high_psi)
{
    qll_arena *arena = qll_arena_open(1 << 16);
    const qll_rest rest = {middle_psi * TEST_SCENE_PSI, middle_psi * TEST_SCENE_PSI,
                           high_psi * TEST_SCENE_PSI};
    made->found = qll_closed_system_of(&made->site, &rest);
    CHECK(qll_closed_system_heat(&made->site, arena, &made->found) == QLL_OK);
    qll_arena_close(arena);
    return &made->found;
}

/* R. W. Griffith PE, article on sizing thermal expansion tanks (2015): 2 gal from 80 psi to 135 psi,
 * 10 % under a relief valve of 150 psi, need 5.44 gal. */
TEST(the_tank_of_the_article)
{
    closed_scene made;
    scene_make(&made, 80.0);
    double grown_gal = look(&made, 80.0, 80.0)->expanded_m3 / TEST_GALLON;
    made.site.heater.volume_m3 *= 2.0 / grown_gal;
    const qll_closed_system *found = look(&made, 80.0, 80.0);
    CHECK_NEAR(found->limit_pa_gauge, 135.0 * TEST_SCENE_PSI, 1e-12);
    CHECK_NEAR(found->precharge_pa_gauge, 80.0 * TEST_SCENE_PSI, 1e-12);
    CHECK_NEAR(found->tank_m3 / TEST_GALLON, 5.44, 1e-3);
}

/* Own independent computation (scratch script): 80 gal, 50 to 140 degF, pushes out 1.3431 gal and
 * needs 2.6808 gal of tank between 60 psi and 135 psi. */
TEST(the_tank_of_a_heater)
{
    closed_scene made;
    scene_make(&made, 80.0);
    const qll_closed_system *found = look(&made, 60.0, 60.0);
    CHECK_NEAR(found->expanded_m3 / TEST_GALLON, 1.3431, 2e-3);
    CHECK_NEAR(found->tank_m3 / TEST_GALLON, 2.6808, 2e-3);
    /* At the code's 80 psi in place of 135 psi: Ve / (1 - 74.7/94.7). */
    made.site.static_max_pa_gauge = 80.0 * TEST_SCENE_PSI;
    CHECK_NEAR(look(&made, 60.0, 60.0)->tank_m3 / TEST_GALLON, 1.3431 * 94.7 / 20.0, 2e-3);
    /* A cellar 10 m down takes its column off the limit. */
    qll_outlet cellar = {.name = "cellar", .elevation_m = -10.0};
    made.site.outlets = &cellar;
    made.site.outlet_count = 1;
    CHECK_NEAR(look(&made, 60.0, 60.0)->limit_pa_gauge,
               80.0 * TEST_SCENE_PSI - QLL_REFERENCE_DENSITY_KG_M3 * 9.80665 * 10.0, 1e-12);
}

/* Boyle by hand: air of P0 V is P0 V / P at P. */
TEST(the_night_takes_room_in_the_tank)
{
    closed_scene made;
    scene_make(&made, 80.0);
    const qll_closed_system *found = look(&made, 60.0, 66.0);
    double precharge = 74.7;
    double at_rest = 1.0 - precharge / 80.7;
    double at_most = 1.0 - precharge / 149.7;
    CHECK_NEAR(found->tank_m3, found->expanded_m3 / (at_most - at_rest), 1e-9);
    /* Charged to 90 psi it takes nothing until 90 psi; charged to the limit it takes nothing. */
    made.site.tank = (qll_expansion_tank){0.02, 90.0 * TEST_SCENE_PSI};
    found = look(&made, 60.0, 66.0);
    CHECK_NEAR(found->tank_at_own_m3, found->expanded_m3 / (1.0 - 104.7 / 149.7), 1e-9);
    made.site.tank.precharge_pa_gauge = 135.0 * TEST_SCENE_PSI;
    CHECK(isnan(look(&made, 60.0, 66.0)->tank_at_own_m3));
    /* Not given: charged as it should be. */
    made.site.tank.precharge_pa_gauge = NAN;
    found = look(&made, 60.0, 66.0);
    CHECK_NEAR(found->tank_at_own_m3, found->tank_m3, 1e-12);
    /* At rest above the limit no tank helps. */
    CHECK(isnan(look(&made, 60.0, 136.0)->tank_m3));
}

/* Steel shell of 160 bores to a wall at 20 degC: 145 kPa/K; own independent computation, as in
 * tests/reference/expansion.csv. */
TEST(without_a_tank_a_few_kelvin_open_the_relief_valve)
{
    closed_scene made;
    scene_make(&made, 80.0);
    made.site.heater.cold_degc = 20.0;
    const qll_closed_system *found = look(&made, 60.0, 60.0);
    CHECK_NEAR(found->rise_pa_per_k, 145e3, 0.02);
    /* 360 kPa/K at 50 degC: between 20 and 24 degC about 159 kPa/K. */
    CHECK_NEAR(found->kelvin_to_relief, 90.0 * TEST_SCENE_PSI / 159e3, 0.03);
    CHECK(found->rise_pa > 40.0 * found->rise_pa_per_k);
    /* A long way of plastic pipe gives room: it takes more warming. */
    static const qll_pipe_size soft = {
        .material = "PEX", .bore_m = 0.022, .wall_m = 0.003, .outside_m = 0.028};
    const qll_path_run path = {{.bore_m = 0.022, .length_m = 100.0}, &soft, NAN};
    const qll_outlet outlet = {.name = "top", .path = &path, .path_count = 1};
    made.site.outlets = &outlet;
    made.site.outlet_count = 1;
    double rigid_k = found->kelvin_to_relief;
    CHECK(look(&made, 60.0, 60.0)->kelvin_to_relief > 1.2 * rigid_k);
}

TEST(no_heater_no_figures)
{
    closed_scene made;
    scene_make(&made, 0.0);
    const qll_closed_system *found = look(&made, 60.0, 60.0);
    CHECK(!found->has_heater && isnan(found->tank_m3) && isnan(found->rise_pa));
}

int main(void)
{
    TEST_RUN(the_tank_of_the_article);
    TEST_RUN(the_tank_of_a_heater);
    TEST_RUN(the_night_takes_room_in_the_tank);
    TEST_RUN(without_a_tank_a_few_kelvin_open_the_relief_valve);
    TEST_RUN(no_heater_no_figures);
    return TEST_END();
}
