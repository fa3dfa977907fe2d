#include "check.h"
#include "station/balance.h"
#include "station/branch_curve.h"
#include "station_scene.h"

#define TEST_ROOM ((size_t)1 << 22)

static qll_stage_solver *solver_of(const qll_stage *stage, qll_arena *arena)
{
    qll_water water = scene_water();
    qll_stage_solver *solver = NULL;
    CHECK(qll_stage_solver_make(stage, &water, TEST_SCENE_ATM, arena, &solver) == QLL_OK);
    return solver;
}

/* Flow of the valve equation as IEC 60534-2-1 writes it, for one branch, in m3/s. */
static double branch_flow(const qll_branch *branch, double set_pa, double inlet_pa,
                          double outlet_pa)
{
    qll_water water = scene_water();
    double kv = qll_opening_law_kv(branch->law, set_pa - outlet_pa);
    return qll_valve_flow_m3s(kv, inlet_pa, outlet_pa, branch->valve->fl, &water);
}

TEST(no_flow_stands_at_the_highest_lockup)
{
    qll_arena *arena = qll_arena_open(TEST_ROOM);
    scene_valve small, large;
    scene_valve_make(&small, 1.6, 1.2e5, 0.0, 0.025);
    scene_valve_make(&large, 6.3, 1.2e5, 0.0, 0.05);
    qll_branch branches[2] = {scene_branch(&large, 3.5e5, 0.05),
                              scene_branch(&small, 3.8e5, 0.025)};
    qll_stage stage = {branches, 2, 8e5};
    qll_stage_solver *solver = solver_of(&stage, arena);
    double inlet_pa = 8e5 + TEST_SCENE_ATM;
    qll_stage_point still = qll_stage_solve(solver, inlet_pa, 0.0);
    CHECK_WITHIN(still.outlet_pa - TEST_SCENE_ATM, 4.0e5, 1e-6);
    /* Never above the inlet. */
    still = qll_stage_solve(solver, 3.0e5 + TEST_SCENE_ATM, 0.0);
    CHECK_WITHIN(still.outlet_pa - TEST_SCENE_ATM, 3.0e5, 1e-6);
    qll_branch_state states[2];
    qll_stage_states(solver, inlet_pa, 0.0, 4.0e5 + TEST_SCENE_ATM, states);
    CHECK(!states[0].working && !states[1].working && states[0].stable && states[1].stable);
    CHECK(states[0].flow_m3s == 0.0 && states[1].velocity_m_s == 0.0);
    qll_arena_close(arena);
}

TEST(past_full_travel_the_outlet_follows_the_inlet)
{
    qll_arena *arena = qll_arena_open(TEST_ROOM);
    scene_valve valve;
    scene_valve_make(&valve, 4.0, 1.0e5, 0.0, 0.025);
    qll_branch branch = scene_branch(&valve, 3.0e5, 0.025);
    qll_stage stage = {&branch, 1, 8e5};
    qll_stage_solver *solver = solver_of(&stage, arena);
    /* 4 m3/h through Kv 4 takes 1 bar: at 2.5 bar before it, 1.5 bar behind. */
    qll_stage_point point = qll_stage_solve(solver, 2.5e5 + TEST_SCENE_ATM, 4.0 * TEST_SCENE_M3H);
    CHECK(point.converged && point.passes);
    CHECK_WITHIN(point.outlet_pa - TEST_SCENE_ATM, 1.5e5, 1e-4);
    qll_branch_state state;
    qll_stage_states(solver, 2.5e5 + TEST_SCENE_ATM, 4.0 * TEST_SCENE_M3H, point.outlet_pa, &state);
    CHECK(state.full_travel && state.opening == 1.0);
    CHECK_NEAR(state.flow_m3s, 4.0 * TEST_SCENE_M3H, 1e-12);
    CHECK_NEAR(state.velocity_m_s, 4.0 * TEST_SCENE_M3H / (acos(-1.0) / 4.0 * 0.025 * 0.025),
               1e-12);
    qll_arena_close(arena);
}

TEST(choked_valve_passes_its_choked_flow_and_no_more)
{
    qll_arena *arena = qll_arena_open(TEST_ROOM);
    scene_valve valve;
    scene_valve_make(&valve, 4.0, 2.0e4, 0.0, 0.025);
    valve.valve.fl = 0.5;
    qll_branch branch = scene_branch(&valve, 1.0e5, 0.025);
    qll_stage stage = {&branch, 1, 8e5};
    qll_stage_solver *solver = solver_of(&stage, arena);
    double inlet_pa = 8e5 + TEST_SCENE_ATM;
    qll_water water = scene_water();
    double choked_pa = 0.25 * (inlet_pa - (0.96 - 0.28 * sqrt(1705.8 / 22.064e6)) * 1705.8);
    double most_m3s = 4.0 * TEST_SCENE_M3H * sqrt(choked_pa / 1e5);
    qll_stage_point within = qll_stage_solve(solver, inlet_pa, 0.9 * most_m3s);
    CHECK(within.converged && within.passes);
    CHECK_NEAR(branch_flow(&branch, 1.0e5 + TEST_SCENE_ATM, inlet_pa, within.outlet_pa),
               0.9 * most_m3s, 1e-9);
    CHECK(inlet_pa - within.outlet_pa > choked_pa);
    qll_stage_point beyond = qll_stage_solve(solver, inlet_pa, 1.001 * most_m3s);
    CHECK(!beyond.passes && isnan(beyond.outlet_pa));
    CHECK_NEAR(qll_valve_choked_drop_pa(inlet_pa, 0.5, &water), choked_pa, 1e-12);
    qll_arena_close(arena);
}

TEST(flow_that_vapour_pressure_cannot_draw_is_not_passed)
{
    qll_arena *arena = qll_arena_open(TEST_ROOM);
    scene_valve valve;
    scene_valve_make(&valve, 1.0, 1.0e5, 0.0, 0.015);
    qll_branch branch = scene_branch(&valve, 3.0e5, 0.015);
    qll_stage stage = {&branch, 1, 8e5};
    qll_stage_solver *solver = solver_of(&stage, arena);
    CHECK(!qll_stage_solve(solver, 4e5, 100.0 * TEST_SCENE_M3H).passes);
    CHECK(!qll_stage_solve(solver, 1000.0, 1.0 * TEST_SCENE_M3H).passes);
    CHECK(!qll_stage_solve(solver, (double)NAN, 1.0 * TEST_SCENE_M3H).passes);
    CHECK(!qll_stage_solve(solver, 4e5, -1.0).passes);
    CHECK(isnan(qll_stage_solve(solver, 4e5, (double)NAN).outlet_pa));
    qll_arena_close(arena);
}

TEST(inlet_effect_moves_the_set_point)
{
    qll_arena *arena = qll_arena_open(TEST_ROOM);
    scene_valve small, large;
    scene_valve_make(&small, 1.6, 1.2e5, 0.0, 0.025);
    scene_valve_make(&large, 6.3, 1.2e5, 0.0, 0.05);
    small.valve.inlet_effect = 0.05;
    large.valve.inlet_effect = -0.03;
    qll_branch branches[2] = {scene_branch(&small, 3.8e5, 0.025),
                              scene_branch(&large, 3.5e5, 0.05)};
    qll_stage stage = {branches, 2, 8e5};
    qll_stage_solver *solver = solver_of(&stage, arena);
    for (int i = 0; i <= 14; i++) {
        double inlet_bar = 5.0 + 0.5 * i;
        for (int step = 0; step < 14; step++) {
            double flow_m3h = 0.01 * pow(1.7, step);
            double inlet_pa = inlet_bar * 1e5 + TEST_SCENE_ATM;
            qll_stage_point point = qll_stage_solve(solver, inlet_pa, flow_m3h * TEST_SCENE_M3H);
            CHECK(point.converged && point.passes);
            double rise_pa = (inlet_bar - 8.0) * 1e5;
            double passed = branch_flow(&branches[0], 3.8e5 + 0.05 * rise_pa + TEST_SCENE_ATM,
                                        inlet_pa, point.outlet_pa)
                            + branch_flow(&branches[1], 3.5e5 - 0.03 * rise_pa + TEST_SCENE_ATM,
                                          inlet_pa, point.outlet_pa);
            CHECK_NEAR(passed, flow_m3h * TEST_SCENE_M3H, 1e-9);
        }
    }
    /* No flow: 0.05 of 2 bar above. */
    CHECK_WITHIN(qll_stage_solve(solver, 10e5 + TEST_SCENE_ATM, 0.0).outlet_pa - TEST_SCENE_ATM,
                 3.8e5 + 0.05 * 2e5 + 0.2e5, 1e-6);
    qll_arena_close(arena);
}

TEST(strainer_in_series_takes_its_share)
{
    qll_arena *arena = qll_arena_open(TEST_ROOM);
    scene_valve valve;
    scene_valve_make(&valve, 6.3, 1.2e5, 0.0, 0.025);
    qll_branch branch = scene_branch(&valve, 3.5e5, 0.025);
    branch.series_kv_m3h = 10.0;
    qll_water water = scene_water();
    qll_branch_curve curve;
    CHECK(qll_branch_curve_make(&branch, &water, arena, &curve) == QLL_OK);
    double worst = 0.0;
    for (int i = 0; i < 750; i++) {
        double falloff_pa = 50.0 + 171.3 * i;
        double kv = qll_opening_law_kv(&valve.law, falloff_pa);
        double want = 1.0 / sqrt(1.0 / (kv * kv) + 1.0 / 100.0);
        double got = qll_branch_curve_at(&curve, falloff_pa).c / qll_flow_per_kv(&water);
        worst = fmax(worst, fabs(got - want) / want);
    }
    CHECK(worst < 1e-4 && worst > 1e-6);
    /* The valve's own drop is what the strainer leaves: less cavitation than with the whole drop. */
    qll_stage stage = {&branch, 1, 8e5};
    qll_stage_solver *solver = solver_of(&stage, arena);
    double inlet_pa = 8e5 + TEST_SCENE_ATM;
    double flow_m3s = 6.0 * TEST_SCENE_M3H;
    qll_stage_point point = qll_stage_solve(solver, inlet_pa, flow_m3s);
    qll_branch_state state;
    qll_stage_states(solver, inlet_pa, flow_m3s, point.outlet_pa, &state);
    CHECK_NEAR(state.flow_m3s, flow_m3s, 1e-11);
    double behind_strainer_pa = inlet_pa - 0.36e5;
    double xf = (behind_strainer_pa - point.outlet_pa) / (behind_strainer_pa - 1705.8);
    CHECK_NEAR(state.cavitation.xf, xf, 1e-9);
    qll_arena_close(arena);
}

TEST(residual_is_kept_from_a_trickle_to_the_most)
{
    qll_arena *arena = qll_arena_open(TEST_ROOM);
    scene_valve small, large;
    scene_valve_make(&small, 1.6, 1.2e5, 0.0, 0.025);
    scene_valve_make(&large, 6.3, 1.2e5, 0.0, 0.05);
    qll_branch branches[2] = {scene_branch(&small, 3.8e5, 0.025),
                              scene_branch(&large, 3.5e5, 0.05)};
    branches[1].series_kv_m3h = 20.0;
    qll_stage stage = {branches, 2, 8e5};
    qll_stage_solver *solver = solver_of(&stage, arena);
    int most = 0;
    for (int step = 0; step < 1200; step++) {
        double flow_m3h = 1e-4 * pow(1.01, step);
        qll_stage_point point =
            qll_stage_solve(solver, 8e5 + TEST_SCENE_ATM, flow_m3h * TEST_SCENE_M3H);
        CHECK(point.converged && point.passes);
        CHECK(fabs(point.residual) <= 1e-12 * flow_m3h * TEST_SCENE_M3H);
        most = point.iterations > most ? point.iterations : most;
    }
    CHECK(most <= 6);
    qll_arena_close(arena);
}

/* 2.3752628 times from 3 to 8 bar over the valve with 3 bar behind it: own independent computation
 * (tests/reference/stable_flow.csv). */
TEST(stable_flow_scales_with_drop_and_outlet)
{
    qll_arena *arena = qll_arena_open(TEST_ROOM);
    scene_valve valve;
    scene_valve_make(&valve, 6.3, 0.85e5, 0.1 * TEST_SCENE_M3H, 0.025);
    valve.valve.sheet_inlet_pa_gauge = 6e5;
    qll_branch branch = scene_branch(&valve, 3.0e5, 0.025);
    qll_stage stage = {&branch, 1, 6e5};
    for (int with_pressures = 1; with_pressures >= 0; with_pressures--) {
        if (!with_pressures) { /* a sheet that does not say counts at 3 bar and 3 bar */
            valve.valve.sheet_inlet_pa_gauge = (double)NAN;
            valve.valve.sheet_set_pa_gauge = (double)NAN;
        }
        qll_stage_solver *solver = solver_of(&stage, arena);
        qll_branch_state state;
        qll_stage_states(solver, 11e5 + TEST_SCENE_ATM, 0.15 * TEST_SCENE_M3H, 3e5 + TEST_SCENE_ATM,
                         &state);
        CHECK_NEAR(state.stable_flow_m3s, 0.23752628 * TEST_SCENE_M3H, 1e-7);
        qll_stage_states(solver, 4e5 + TEST_SCENE_ATM, 0.15 * TEST_SCENE_M3H, 3e5 + TEST_SCENE_ATM,
                         &state);
        CHECK_NEAR(state.stable_flow_m3s, 0.02886751 * TEST_SCENE_M3H, 1e-6);
    }
    /* An estimate moves with the power 1.57 of the drop alone. */
    valve.valve.defaulted = 1u << QLL_VALVE_FLOW_MIN;
    qll_stage_solver *estimated = solver_of(&stage, arena);
    qll_branch_state moved;
    qll_stage_states(estimated, 11e5 + TEST_SCENE_ATM, 0.15 * TEST_SCENE_M3H, 3e5 + TEST_SCENE_ATM,
                     &moved);
    CHECK_NEAR(moved.stable_flow_m3s, 0.1 * TEST_SCENE_M3H * pow(8.0 / 3.0, 1.57), 1e-9);
    valve.valve.defaulted = 0;
    /* Nothing behind it: nothing that could swing. */
    qll_stage_solver *solver = solver_of(&stage, arena);
    qll_branch_state state;
    qll_stage_states(solver, 4e5 + TEST_SCENE_ATM, 0.15 * TEST_SCENE_M3H, TEST_SCENE_ATM - 1e3,
                     &state);
    CHECK(state.stable_flow_m3s == 0 && state.stable);
    qll_arena_close(arena);
}

TEST(hand_over_is_where_the_second_opens)
{
    qll_arena *arena = qll_arena_open(TEST_ROOM);
    scene_valve small, large;
    scene_valve_make(&small, 1.6, 1.2e5, 0.0, 0.025);
    scene_valve_make(&large, 6.3, 1.2e5, 0.0, 0.05);
    large.valve.hysteresis_pa = 0.0;
    qll_branch branches[2] = {scene_branch(&large, 3.5e5, 0.05),
                              scene_branch(&small, 3.8e5, 0.025)};
    qll_stage stage = {branches, 2, 8e5};
    qll_stage_solver *solver = solver_of(&stage, arena);
    qll_handover over = qll_stage_handover(solver, 8e5 + TEST_SCENE_ATM);
    CHECK_WITHIN(over.outlet_pa - TEST_SCENE_ATM, 3.5e5, 1e-6);
    /* 1.6 * (0.3/1.2) * sqrt(4.5) m3/h. */
    CHECK_NEAR(over.flow_m3s, 0.4 * sqrt(4.5) * TEST_SCENE_M3H, 1e-12);
    qll_stage_point point = qll_stage_solve(solver, 8e5 + TEST_SCENE_ATM, over.flow_m3s);
    CHECK_WITHIN(point.outlet_pa, over.outlet_pa, 1e-4);
    large.valve.hysteresis_pa = 1e4;
    solver = solver_of(&stage, arena);
    over = qll_stage_handover(solver, 8e5 + TEST_SCENE_ATM);
    CHECK_WITHIN(over.outlet_pa - TEST_SCENE_ATM, 3.5e5, 1e-6);
    /* Friction lies on both sides of it: what every table is made of opens the second there, and not before. */
    for (int is_more = 0; is_more < 2; is_more++) {
        const double flow_m3s = over.flow_m3s * (is_more ? 1.01 : 0.99);
        const double inlet_pa = 8e5 + TEST_SCENE_ATM;
        qll_branch_state states[2];
        point = qll_stage_solve(solver, inlet_pa, flow_m3s);
        qll_stage_states(solver, inlet_pa, flow_m3s, point.outlet_pa, states);
        CHECK(states[1].working && states[0].working == (is_more == 1));
    }
    qll_stage single = {branches, 1, 8e5};
    solver = solver_of(&single, arena);
    CHECK(isnan(qll_stage_handover(solver, 8e5 + TEST_SCENE_ATM).flow_m3s));
    /* Of three the next below the highest opens first, in whatever order they stand. */
    large.valve.hysteresis_pa = 0.0;
    static const size_t orders[6][3] = {{0, 1, 2}, {0, 2, 1}, {1, 0, 2},
                                        {1, 2, 0}, {2, 0, 1}, {2, 1, 0}};
    for (size_t i = 0; i < 6; i++) {
        const qll_branch of[3] = {scene_branch(&small, 3.8e5, 0.025),
                                  scene_branch(&large, 3.5e5, 0.05),
                                  scene_branch(&large, 3.2e5, 0.05)};
        const qll_branch three[3] = {of[orders[i][0]], of[orders[i][1]], of[orders[i][2]]};
        qll_stage stage_of_three = {three, 3, 8e5};
        over = qll_stage_handover(solver_of(&stage_of_three, arena), 8e5 + TEST_SCENE_ATM);
        CHECK_WITHIN(over.outlet_pa - TEST_SCENE_ATM, 3.5e5, 1e-6);
        CHECK_NEAR(over.flow_m3s, 0.4 * sqrt(4.5) * TEST_SCENE_M3H, 1e-12);
    }
    qll_arena_close(arena);
}

TEST(every_refused_allocation_is_reported)
{
    scene_valve valve;
    scene_valve_make(&valve, 1.6, 1.2e5, 0.0, 0.025);
    qll_branch branches[2] = {scene_branch(&valve, 3.8e5, 0.025),
                              scene_branch(&valve, 3.5e5, 0.025)};
    qll_stage stage = {branches, 2, 8e5};
    qll_water water = scene_water();
    qll_status status = QLL_NO_MEMORY;
    size_t nth = 0;
    while (status == QLL_NO_MEMORY && nth < 100) {
        nth += 1;
        qll_arena *arena = qll_arena_open(TEST_ROOM);
        qll_stage_solver *solver = NULL;
        qll_arena_fail(arena, nth, false);
        status = qll_stage_solver_make(&stage, &water, TEST_SCENE_ATM, arena, &solver);
        qll_arena_close(arena);
    }
    CHECK(status == QLL_OK && nth > 5);
}

int main(void)
{
    TEST_RUN(no_flow_stands_at_the_highest_lockup);
    TEST_RUN(past_full_travel_the_outlet_follows_the_inlet);
    TEST_RUN(choked_valve_passes_its_choked_flow_and_no_more);
    TEST_RUN(flow_that_vapour_pressure_cannot_draw_is_not_passed);
    TEST_RUN(inlet_effect_moves_the_set_point);
    TEST_RUN(strainer_in_series_takes_its_share);
    TEST_RUN(residual_is_kept_from_a_trickle_to_the_most);
    TEST_RUN(stable_flow_scales_with_drop_and_outlet);
    TEST_RUN(hand_over_is_where_the_second_opens);
    TEST_RUN(every_refused_allocation_is_reported);
    return TEST_END();
}
