/* What is acceptable on the day a station is started. */
#include "base/customary.h"
#include "building_scene.h"
#include "check.h"
#include "station/commissioning.h"

#include <math.h>

/* One valve of Kv 10 over a straight band of 1 bar, set to 4 bar, its set-point moved by a tenth of the inlet, from a
 * supply that stands at 8 bar. */
typedef struct scene {
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still;
    qll_site site;
    scene_valve valve;
    qll_branch branch;
    qll_stage stage;
    qll_station station;
} scene;

static void scene_make(scene *made)
{
    made->still = (qll_point){0.0, 8.0 * TEST_SCENE_BAR};
    made->site = scene_site(made->sizes, &made->still);
    scene_valve_make(&made->valve, 10.0, 1.0 * TEST_SCENE_BAR, 1e-5, 0.0254);
    made->valve.valve.inlet_effect = 0.1;
    made->branch = scene_branch(&made->valve, 4.0 * TEST_SCENE_BAR, scene_sizes[1].bore_m);
    made->stage = (qll_stage){&made->branch, 1, 8.0 * TEST_SCENE_BAR};
    made->station = (qll_station){&made->stage, 1};
}

/* The valve's own law by hand, all gauge bar: Kv 10 times the fall-off, times the root of what is dropped. */
static double passed_m3s(double set_bar, double inlet_bar, double outlet_bar)
{
    return 10.0 * (set_bar - outlet_bar) * sqrt(inlet_bar - outlet_bar) / 3600.0;
}

TEST(fall_off_is_tested_at_a_quarter_and_at_half_of_the_peak)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    scene made;
    scene_make(&made);
    qll_commissioning tests;
    const double peak_m3s = 4.04e-3;
    CHECK(qll_commissioning_make(&made.station, &made.site, peak_m3s, INFINITY, QLL_UNITS_SI, arena,
                                 &tests)
          == QLL_OK);
    const double flows_m3s[] = {1.0e-3, 2.0e-3}; /* 1.01 and 2.02 L/s, to 0.1 */
    for (size_t i = 0; i < QLL_FALLOFF_TESTS; i++) {
        const qll_falloff_test *test = &tests.falloff[i];
        double outlet_bar = test->outlet_pa_gauge / TEST_SCENE_BAR;
        CHECK_NEAR(test->flow_m3s, flows_m3s[i], 1e-12);
        CHECK_NEAR(test->inlet_pa_gauge, 8.0 * TEST_SCENE_BAR, 1e-12);
        CHECK_NEAR(passed_m3s(4.0, 8.0, outlet_bar), test->flow_m3s, 1e-3);
        /* 10 psi more before it: the set-point a tenth of that higher. */
        double more_bar = 10.0 * TEST_SCENE_PSI / TEST_SCENE_BAR;
        double higher_bar = outlet_bar + test->correction_pa_per_10psi / TEST_SCENE_BAR;
        CHECK_NEAR(passed_m3s(4.0 + 0.1 * more_bar, 8.0 + more_bar, higher_bar), test->flow_m3s,
                   1e-3);
        /* Lock-up is 0.2 bar over the set-point; fall-off is counted from there. */
        CHECK_NEAR(test->least_pa_gauge, (4.2 - 1.3 * (4.2 - outlet_bar)) * TEST_SCENE_BAR, 1e-9);
    }
    /* A building that draws 0.8 L/s at most is tested at that and at half of it. */
    CHECK(qll_commissioning_make(&made.station, &made.site, peak_m3s, 0.8e-3, QLL_UNITS_SI, arena,
                                 &tests)
          == QLL_OK);
    CHECK_NEAR(tests.falloff[0].flow_m3s, 0.4e-3, 1e-12);
    CHECK_NEAR(tests.falloff[1].flow_m3s, 0.8e-3, 1e-12);
    qll_arena_close(arena);
}

/* A fall-off that leaves nothing is no reason to accept a vacuum; what cannot pass has no figures. */
TEST(what_does_not_pass_has_no_limit)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    scene made;
    scene_make(&made);
    qll_commissioning tests;
    CHECK(qll_commissioning_make(&made.station, &made.site, 0.02, INFINITY, QLL_UNITS_SI, arena,
                                 &tests)
          == QLL_OK);
    CHECK(isfinite(tests.falloff[0].outlet_pa_gauge));
    CHECK(isnan(tests.falloff[1].outlet_pa_gauge) && isnan(tests.falloff[1].least_pa_gauge));
    CHECK(isnan(tests.falloff[1].correction_pa_per_10psi));
    CHECK(tests.falloff[0].least_pa_gauge >= 0.0);
    qll_arena_close(arena);
}

/* Flows as a meter is read: whole gpm from 8 on, quarters below; 0.1 and 0.05 L/s. */
TEST(test_flows_are_read_on_a_meter)
{
    static const struct {
        qll_unit_system units;
        double unit_m3s, peak, first, second;
    } cases[] = {
        {QLL_UNITS_US, QLL_GPM_M3S, 82.8, 21, 41},  {QLL_UNITS_US, QLL_GPM_M3S, 12.1, 3, 6},
        {QLL_UNITS_US, QLL_GPM_M3S, 17.0, 4.25, 9}, {QLL_UNITS_US, QLL_GPM_M3S, 0.3, 0.075, 0.25},
        {QLL_UNITS_SI, 1e-3, 0.763, 0.2, 0.4},      {QLL_UNITS_SI, 1e-3, 3.1, 0.8, 1.6},
    };

    qll_arena *arena = qll_arena_open(1 << 20);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        scene made;
        scene_make(&made);
        qll_commissioning tests;
        double peak_m3s = cases[i].peak * cases[i].unit_m3s;
        CHECK(qll_commissioning_make(&made.station, &made.site, peak_m3s, INFINITY, cases[i].units,
                                     arena, &tests)
              == QLL_OK);
        CHECK_NEAR(tests.falloff[0].flow_m3s, cases[i].first * cases[i].unit_m3s, 1e-9);
        CHECK_NEAR(tests.falloff[1].flow_m3s, cases[i].second * cases[i].unit_m3s, 1e-9);
    }
    qll_arena_close(arena);
}

/* What a gauge shows: whole psi, and twentieths of a bar. */
TEST(limits_are_round_in_the_units_of_the_sheet)
{
    qll_arena *arena = qll_arena_open(1 << 20);
    scene made;
    scene_make(&made);
    const double step_pa[] = {TEST_SCENE_PSI, 0.05 * TEST_SCENE_BAR};
    for (int units = QLL_UNITS_US; units <= QLL_UNITS_SI; units++) {
        qll_commissioning tests;
        CHECK(qll_commissioning_make(&made.station, &made.site, 1e-3, INFINITY,
                                     (qll_unit_system)units, arena, &tests)
              == QLL_OK);
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
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(fall_off_is_tested_at_a_quarter_and_at_half_of_the_peak);
    TEST_RUN(what_does_not_pass_has_no_limit);
    TEST_RUN(test_flows_are_read_on_a_meter);
    TEST_RUN(limits_are_round_in_the_units_of_the_sheet);
    return TEST_END();
}
