#include "building_scene.h"
#include "check.h"
#include "station/rules.h"
#include "station/tank_size.h"

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

/* A trade article on sizing thermal expansion tanks (2015): 2 gal from 80 psi to 135 psi,
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

/* Closed form apart from the program (tests/oracles/pipes.py): 80 gal, 50 to 140 degF, pushes out 1.3431 gal and
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
    /* Where all lie above, what is permitted up there is more down here. */
    cellar.elevation_m = 10.0;
    CHECK_NEAR(look(&made, 60.0, 60.0)->limit_pa_gauge,
               80.0 * TEST_SCENE_PSI + QLL_REFERENCE_DENSITY_KG_M3 * 9.80665 * 10.0, 1e-12);
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

/* Nobody is told to buy less than is needed. */
TEST(tanks_come_in_sizes_sold)
{
    static const struct {
        double needed_gal, sold_gal;
    } facts[] = {{0.3, 2}, {4.5, 4.5}, {4.6, 10}, {28.3, 35}, {100, 120}, {120, 120}, {121, NAN}};

    for (size_t i = 0; i < sizeof facts / sizeof *facts; i++) {
        double sold_m3 = qll_tank_sold_m3(facts[i].needed_gal * TEST_GALLON, QLL_UNITS_US);
        CHECK(isnan(facts[i].sold_gal) ? isnan(sold_m3)
                                       : fabs(sold_m3 / TEST_GALLON - facts[i].sold_gal) < 1e-9);
    }
    CHECK_NEAR(qll_tank_sold_m3(0.019, QLL_UNITS_SI), 0.024, 1e-12);
    CHECK_NEAR(qll_tank_sold_m3(0.018, QLL_UNITS_SI), 0.018, 1e-12);
    CHECK(isnan(qll_tank_sold_m3(NAN, QLL_UNITS_SI)));
    CHECK(qll_tank_is_sensible(0.1, 0.2) && !qll_tank_is_sensible(0.21, 0.2));
    CHECK(qll_tank_is_sensible(0.019, 0.01) && !qll_tank_is_sensible(0.6, 2.0));
    CHECK(!qll_tank_is_sensible(NAN, 0.2));
}

static qll_verdict judge(closed_scene *made, double rest_psi)
{
    static const qll_element preventer = {.kind = QLL_ELEMENT_BACKFLOW};
    made->site.upstream = &preventer; /* no by-pass helps */
    made->site.upstream_count = 1;
    const qll_station station = {0};
    const double main_pa = made->site.barometric_pa + made->still.y;
    const qll_duty duty = {.supply_count = 1, .inlet_static_pa = &main_pa};
    const qll_operation operation = {.station = &station,
                                     .site = &made->site,
                                     .duty = &duty,
                                     .closed = look(made, rest_psi, rest_psi)};
    qll_verdict_list list = {0};
    qll_judge_expansion(&operation, &list);
    return list.worst[QLL_RULE_EXPANSION];
}

/* 500 gal push out 8.39 gal (80 gal: 1.3431). By hand, Ve / (1 - P0/P2): 80 psi permitted, at rest 78 psi
 * 397.5 gal; 73 psi 113.5 gal; 68 psi 66.2 gal; to 135 psi 22.0 gal. */
TEST(no_tank_as_large_as_a_room)
{
    closed_scene made;
    scene_make(&made, 500.0);
    made.site.static_max_pa_gauge = 80.0 * TEST_SCENE_PSI;
    double grown_gal = 1.3431 * 500.0 / 80.0;
    qll_verdict verdict = judge(&made, 78.0);
    CHECK(verdict.grade == QLL_GRADE_CAUTION);
    CHECK_NEAR(verdict.value / TEST_GALLON, grown_gal * 94.7 / 2.0, 2e-3);
    CHECK(verdict.finding == QLL_FINDING_EXPANSION_LITTLE_ROOM);
    CHECK_NEAR(verdict.room_pa / TEST_SCENE_PSI, 2.0, 1e-9);
    CHECK_NEAR(verdict.tank.lower_by_pa[0] / TEST_SCENE_PSI, 5.0, 1e-9);
    CHECK_NEAR(verdict.tank.lower_m3[0] / TEST_GALLON, grown_gal * 94.7 / 7.0, 2e-3);
    CHECK_NEAR(verdict.tank.lower_m3[1] / TEST_GALLON, grown_gal * 94.7 / 12.0, 2e-3);
    CHECK_NEAR(verdict.tank.by_relief_m3 / TEST_GALLON, grown_gal * 149.7 / 57.0, 2e-3);
    /* Above the limit there is no room at all, 5 psi lower hardly any, 10 psi lower there is. */
    verdict = judge(&made, 83.0);
    CHECK(verdict.finding == QLL_FINDING_EXPANSION_NO_ROOM && isnan(verdict.tank.lower_m3[0]));
    CHECK_NEAR(verdict.tank.lower_m3[1] / TEST_GALLON, grown_gal * 94.7 / 7.0, 2e-3);
    /* Where the relief valve is the limit already, it is no other one. */
    made.site.static_max_pa_gauge = 200.0 * TEST_SCENE_PSI;
    CHECK(isnan(look(&made, 78.0, 78.0)->cures.by_relief_m3));
}

/* 50 gal push out 0.8394 gal; from 60 to 80 psi they need 3.975 gal: a tank 5 % short is enough. */
TEST(a_tank_a_little_short_is_enough)
{
    closed_scene made;
    scene_make(&made, 50.0);
    made.site.static_max_pa_gauge = 80.0 * TEST_SCENE_PSI;
    made.site.tank.volume_m3 = 0.96 * 3.975 * TEST_GALLON;
    CHECK(judge(&made, 60.0).finding == QLL_FINDING_EXPANSION_TANK_ENOUGH);
    made.site.tank.volume_m3 = 0.94 * 3.975 * TEST_GALLON;
    CHECK(judge(&made, 60.0).finding == QLL_FINDING_EXPANSION_TANK_SMALL);
    made.site.tank.volume_m3 = NAN;
    CHECK(judge(&made, 60.0).finding == QLL_FINDING_EXPANSION_TANK_MISSING);
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
    TEST_RUN(tanks_come_in_sizes_sold);
    TEST_RUN(no_tank_as_large_as_a_room);
    TEST_RUN(a_tank_a_little_short_is_enough);
    TEST_RUN(no_heater_no_figures);
    return TEST_END();
}
