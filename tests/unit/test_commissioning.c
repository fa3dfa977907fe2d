/* What is acceptable on the day a station is started. */
#include "check.h"
#include "station/commissioning.h"
#include "station_scene.h"

/* Flows of 1 to 8, outlet 4 bar at no flow and 0.1 bar less for each; the last cannot pass. */
TEST(fall_off_is_tested_at_a_quarter_and_at_half_of_the_flow)
{
    qll_operating_point points[9] = {{.outlet_pa = TEST_SCENE_ATM + 4.0 * TEST_SCENE_BAR}};
    for (size_t i = 1; i < 9; i++) {
        points[i] = (qll_operating_point){
            .flow_m3s = (double)i * 1e-3,
            .inlet_pa = TEST_SCENE_ATM + (8.0 - 0.05 * (double)i) * TEST_SCENE_BAR,
            .outlet_pa = points[0].outlet_pa - 0.1 * (double)i * TEST_SCENE_BAR,
        };
    }
    qll_commissioning tests = qll_commissioning_of(points, 9, TEST_SCENE_ATM, QLL_UNITS_SI);
    CHECK(tests.falloff[0].flow_m3s == 2e-3 && tests.falloff[1].flow_m3s == 4e-3);
    CHECK_NEAR(tests.falloff[0].inlet_pa_gauge, 7.9 * TEST_SCENE_BAR, 1e-12);
    CHECK_NEAR(tests.falloff[0].outlet_pa_gauge, 3.8 * TEST_SCENE_BAR, 1e-12);
    CHECK_NEAR(tests.falloff[0].least_pa_gauge, (4.0 - 1.3 * 0.2) * TEST_SCENE_BAR, 1e-12);
    CHECK_NEAR(tests.falloff[1].least_pa_gauge, (4.0 - 1.3 * 0.4) * TEST_SCENE_BAR, 1e-12);
    /* A fall-off that leaves nothing is no reason to accept a vacuum; what cannot pass has no limit. */
    points[4].outlet_pa = TEST_SCENE_ATM + 0.1 * TEST_SCENE_BAR;
    points[2].outlet_pa = NAN;
    tests = qll_commissioning_of(points, 9, TEST_SCENE_ATM, QLL_UNITS_SI);
    CHECK(tests.falloff[1].least_pa_gauge == 0.0);
    CHECK(isnan(tests.falloff[0].least_pa_gauge));
    /* Two points are enough: the one that flows. */
    tests = qll_commissioning_of(points, 2, TEST_SCENE_ATM, QLL_UNITS_SI);
    CHECK(tests.falloff[0].flow_m3s == 1e-3 && tests.falloff[1].flow_m3s == 1e-3);
}

/* What a gauge shows: whole psi, and twentieths of a bar. */
TEST(limits_are_round_in_the_units_of_the_sheet)
{
    qll_operating_point points[2] = {{.flow_m3s = 0.0}, {.flow_m3s = 1e-3}};
    const double step_pa[] = {TEST_SCENE_PSI, 0.05 * TEST_SCENE_BAR};
    for (int units = QLL_UNITS_US; units <= QLL_UNITS_SI; units++) {
        const qll_commissioning tests =
            qll_commissioning_of(points, 2, TEST_SCENE_ATM, (qll_unit_system)units);
        const double limits_pa[] = {tests.set_tolerance_pa, tests.creep_tight_pa,
                                    tests.creep_leaks_pa};
        for (size_t i = 0; i < 3; i++) {
            double steps = limits_pa[i] / step_pa[units];
            CHECK_WITHIN(steps, round(steps), 1e-9);
            CHECK(steps >= 1.0);
        }
        CHECK(tests.creep_tight_pa < tests.creep_leaks_pa);
        CHECK(tests.creep_draw_low_m3s < tests.creep_draw_high_m3s);
    }
}

int main(void)
{
    TEST_RUN(fall_off_is_tested_at_a_quarter_and_at_half_of_the_flow);
    TEST_RUN(limits_are_round_in_the_units_of_the_sheet);
    return TEST_END();
}
