#include "building_scene.h"
#include "check.h"
#include "station/score.h"

/* One stage, one branch at a point that has no fault: 4.5 ft/s, ratio 2, margin 0.5. */
typedef struct quiet {
    qll_branch_state state;
    qll_branch_state *states[1];
    double inlet_pa[1], outlet_pa[1];
    qll_operating_point point;
    scene_valve valve;
    qll_branch branch;
    qll_stage stage;
    qll_station station;
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still;
    qll_site site;
} quiet;

static void quiet_make(quiet *made)
{
    made->still = (qll_point){0.0, 120.0 * TEST_SCENE_PSI};
    made->site = scene_site(made->sizes, &made->still);
    made->state = (qll_branch_state){.flow_m3s = 1e-3,
                                     .velocity_m_s = 4.5 * TEST_SCENE_FPS,
                                     .stable_flow_m3s = 1e-5,
                                     .working = true,
                                     .stable = true,
                                     .cavitation = {.margin = 0.5}};
    made->states[0] = &made->state;
    made->inlet_pa[0] = 120.0 * TEST_SCENE_PSI + TEST_SCENE_ATM;
    made->outlet_pa[0] = 60.0 * TEST_SCENE_PSI + TEST_SCENE_ATM;
    made->point = (qll_operating_point){.flow_m3s = 1e-3,
                                        .inlet_pa = made->inlet_pa[0],
                                        .outlet_pa = made->outlet_pa[0],
                                        .stage_inlet_pa = made->inlet_pa,
                                        .stage_outlet_pa = made->outlet_pa,
                                        .branches = made->states,
                                        .passes = true};
    scene_valve_make(&made->valve, 10.0, 5e4, 1e-5, 0.0254);
    made->branch = scene_branch(&made->valve, 60.0 * TEST_SCENE_PSI, 0.026);
    made->stage = (qll_stage){&made->branch, 1, 8e5};
    made->station = (qll_station){&made->stage, 1};
}

static qll_penalty penalty_of(const quiet *made)
{
    return qll_point_penalty(&made->station, &made->site, &made->point);
}

TEST(a_quiet_point_costs_nothing_but_its_speed)
{
    quiet made;
    quiet_make(&made);
    qll_penalty penalty = penalty_of(&made);
    CHECK(penalty.noise < 1e-12);
    CHECK_WITHIN(penalty.unsteady_pa, 0.0, 1e-6);
    CHECK_NEAR(penalty.wear, 0.75 * 0.75, 1e-12);
}

TEST(every_fault_adds_its_term)
{
    quiet made;
    quiet_make(&made);
    made.state.velocity_m_s = 1.5 * TEST_SCENE_FPS; /* half of the band's low end */
    CHECK_NEAR(penalty_of(&made).noise, 0.5, 1e-12);
    made.state.velocity_m_s =
        7.5 * TEST_SCENE_FPS; /* a quarter above its high end, counted double */
    CHECK_NEAR(penalty_of(&made).noise, 0.5, 1e-12);
    quiet_make(&made);
    made.state.cavitation.margin = 1.0;
    CHECK_NEAR(penalty_of(&made).noise, 1.0, 1e-12);
    made.state.cavitation.margin = 1.25; /* wear begins at 1: 4 times a quarter */
    CHECK_NEAR(penalty_of(&made).wear, 0.5625 + 1.0, 1e-12);
    made.state.cavitation.margin = 5.0;
    CHECK_NEAR(penalty_of(&made).noise, 3.0, 1e-12);
    CHECK_NEAR(penalty_of(&made).wear, 0.5625 + 4.0, 1e-12);
    quiet_make(&made);
    made.outlet_pa[0] =
        48.0 * TEST_SCENE_PSI + TEST_SCENE_ATM; /* ratio 2.5, half way to the most */
    made.point.outlet_pa = made.outlet_pa[0];
    CHECK_NEAR(penalty_of(&made).noise, 0.5, 1e-12);
    CHECK_NEAR(penalty_of(&made).unsteady_pa, 12.0 * TEST_SCENE_PSI, 1e-9);
    quiet_make(&made);
    made.state.stable = false;
    made.state.stable_flow_m3s = 2e-3;
    CHECK_NEAR(penalty_of(&made).noise, 0.75, 1e-12);
    CHECK_NEAR(penalty_of(&made).wear, 0.5625 + 0.75, 1e-12);
    quiet_make(&made);
    made.state.full_travel = true;
    CHECK_NEAR(penalty_of(&made).noise, 1.0, 1e-12);
    made.point.passes = false;
    CHECK(penalty_of(&made).noise == QLL_PENALTY_MOST);
}

TEST(an_unknown_price_is_estimated_by_size)
{
    quiet made;
    quiet_make(&made);
    CHECK(qll_station_price(&made.station) == 100.0);
    made.valve.valve.price = (double)NAN;
    CHECK_NEAR(qll_station_price(&made.station), 150.0, 1e-12);
    made.valve.valve.nominal_m = 4.0 * TEST_SCENE_INCH;
    CHECK_NEAR(qll_station_price(&made.station), 1200.0, 1e-12);
}

int main(void)
{
    TEST_RUN(a_quiet_point_costs_nothing_but_its_speed);
    TEST_RUN(every_fault_adds_its_term);
    TEST_RUN(an_unknown_price_is_estimated_by_size);
    return TEST_END();
}
