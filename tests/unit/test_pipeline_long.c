/* Whole events: what cures, what heats, and how waves and quiet stretches take turns. */
#include "dynamics/air_chamber.h"
#include "dynamics/check_valve.h"
#include "dynamics/event.h"
#include "dynamics/supply_end.h"
#include "dynamics/warming.h"
#include "physics/surge.h"
#include "pipes_scene.h"

static qll_arena *arena;
static const double vapour_pa_gauge = 2339.0 - 101325.0;

static qll_pipeline *make(const qll_network *network, double step_most_s)
{
    qll_problems problems = qll_problems_none(arena);
    qll_pipeline *pipeline = NULL;
    CHECK(qll_pipeline_make(network, &(qll_grid_limits){.step_most_s = step_most_s}, &problems,
                            arena, &pipeline)
          == QLL_OK);
    return pipeline;
}

/* ---- an arrester ---- */

static const double velocity_m_s = 1.3587; /* of 4e-4 m3/s at 4 bar, at 4.5 bar */

/* First peak at an arrester of so much air and at a solenoid 1 m behind it, which shuts at the end of 25 m of 3/4 in copper. */
typedef struct peaks {
    double arrester_pa, solenoid_pa;
} peaks;

static peaks peaks_with(double air_m3, double takes_s, double until_s)
{
    const qll_line lines[] = {
        {.from = 0, .to = 1, .length_m = 24, .bore_m = 0.01994, .wave_speed_m_s = 1277.56},
        {.from = 1, .to = 2, .length_m = 1, .bore_m = 0.01994, .wave_speed_m_s = 1277.56}};
    const qll_joint joints[] = {{.held_pa_gauge = 4.5e5, .start_pa_gauge = 4.5e5},
                                {.held_pa_gauge = NAN, .start_pa_gauge = 4e5},
                                {.held_pa_gauge = NAN, .start_pa_gauge = 4e5}};
    const qll_opening_move shuts = {
        .begins_s = 0.05, .takes_s = takes_s, .from = 1, .to = 0, .power = 1};
    qll_opening solenoid = {.coefficient = qll_opening_coefficient(4e-4, 4e5),
                            .at_first = 1,
                            .moves = &shuts,
                            .move_count = 1};
    qll_air_chamber arrester = qll_air_chamber_of(air_m3, 4e5 + 101325, 101325);
    const qll_boundary boundaries[] = {
        {.kind = &qll_opening_kind, .state = &solenoid, .node = {2}},
        {.kind = &qll_air_chamber_kind, .state = &arrester, .node = {1}}};
    const qll_network network = {.lines = lines,
                                 .line_count = 2,
                                 .joints = joints,
                                 .joint_count = 3,
                                 .boundaries = boundaries,
                                 .boundary_count = air_m3 > 0 ? 2 : 1,
                                 .density_kg_m3 = 998.2,
                                 .vapour_pa_gauge = vapour_pa_gauge};
    qll_pipeline *pipeline = make(&network, 1e-4);
    qll_pipeline_rest(pipeline, 0);
    qll_pipeline_watch(pipeline);
    CHECK_NEAR(qll_pipeline_line(pipeline, 0).first_m3s, velocity_m_s * pipes_area_m2(lines), 1e-4);
    peaks found = {0};
    while (qll_pipeline_time_s(pipeline) < until_s) {
        qll_pipeline_step(pipeline);
        found.arrester_pa = fmax(found.arrester_pa, pipes_pa(pipeline, 1));
        found.solenoid_pa = fmax(found.solenoid_pa, pipes_pa(pipeline, 2));
    }
    return found;
}

/* Air takes what the water's motion holds, p V^1.2 from rest less what the main's pressure does, but for what the pipe's
 * own give takes: C dp^2/6 of a pressure that rises evenly along it, C dp^2/2 of the meter behind. */
static double peak_by_energy_pa(double precharged_m3)
{
    const double mass_kg = 998.2 * 24 * pipes_pi / 4 * 0.01994 * 0.01994;
    const double energy_j = mass_kg * velocity_m_s * velocity_m_s / 2;
    const double rest_pa = 4.5e5 + 101325, air_m3 = precharged_m3 * (4e5 + 101325) / rest_pa;
    const double give_m3_pa_m = mass_kg / 998.2 / 24 / (998.2 * 1277.56 * 1277.56);
    double ratio = 1, work_j = 0; /* of volumes */
    while (work_j < energy_j) {
        const double rise_pa = rest_pa * (pow(ratio, 1.2) - 1);
        work_j = rest_pa * air_m3 * ((pow(ratio, 0.2) - 1) / 0.2 - (1 - 1 / ratio))
                 + give_m3_pa_m * (24 / 6.0 + 1 / 2.0) * rise_pa * rise_pa;
        ratio += 1e-4;
    }
    return rest_pa * pow(ratio, 1.2) - 101325;
}

TEST(arrester_takes_the_peak)
{
    const peaks none = peaks_with(0, 0.015, 0.05 + 2 * 25 / 1277.56);
    const peaks small = peaks_with(5e-5, 0.015, 0.22), large = peaks_with(5e-4, 0.015, 0.55);
    printf("    kPa at the solenoid: %.0f without, %.0f with 50 mL, %.0f with 500 mL\n",
           none.solenoid_pa / 1e3, small.solenoid_pa / 1e3, large.solenoid_pa / 1e3);
    /* Shut within 2L/a: the whole of rho a v. */
    CHECK_NEAR(none.solenoid_pa - 4.5e5, qll_surge_pa(998.2, 1277.56, velocity_m_s), 1e-3);
    CHECK(large.solenoid_pa < small.solenoid_pa && small.solenoid_pa < 0.7 * none.solenoid_pa);
    /* The meter behind it swings by itself: rho L v/t on top, about. */
    CHECK_NEAR(large.solenoid_pa - large.arrester_pa, 998.2 * 1 * velocity_m_s / 0.015, 0.3);
    /* Shut at once, nothing of the energy goes out through the solenoid. */
    CHECK_NEAR(peaks_with(5e-5, 0.001, 0.22).arrester_pa, peak_by_energy_pa(5e-5), 0.02);
    CHECK_NEAR(peaks_with(5e-4, 0.001, 0.55).arrester_pa, peak_by_energy_pa(5e-4), 0.02);
}

/* ---- a heater's night ---- */

typedef struct night {
    qll_line lines[2];
    qll_joint joints[4];
    qll_check_valve check;
    qll_warming heater;
    qll_air_chamber tank;
    qll_boundary boundaries[3];
    qll_network network;
} night;

static const qll_closed_part shell = {.volume_m3 = 0.19,
                                      .temperature_degc = 30,
                                      .is_heated = true,
                                      .bore_m = 0.4,
                                      .wall_m = 2.5e-3,
                                      .modulus_pa = 207e9,
                                      .poisson = 0.3,
                                      .wall_expansion_per_k = 11.7e-6};
static const qll_closed_part copper = {.volume_m3 = 1,
                                       .temperature_degc = 20,
                                       .bore_m = 0.026035,
                                       .wall_m = 0.00127,
                                       .modulus_pa = 117e9,
                                       .poisson = 0.34};

/* A main, a check valve, 30 m of 1 in type L copper with a heater in the middle; a tank where asked. */
static qll_network *night_of(night *n, double hot_degc, double tank_m3)
{
    const qll_water water = qll_water_at(20, 5e5);
    const qll_surge_pipe wall = {.bore_m = copper.bore_m,
                                 .wall_m = copper.wall_m,
                                 .modulus_pa = copper.modulus_pa,
                                 .poisson = copper.poisson,
                                 .anchoring = QLL_ANCHORED_UPSTREAM};
    const double speed = qll_wave_speed_m_s(&wall, water.bulk_modulus_pa, water.density_kg_m3);
    const qll_pipe_run run = {.bore_m = copper.bore_m, .length_m = 15, .roughness_m = 1.5e-6};
    const qll_line half = {.length_m = 15,
                           .bore_m = copper.bore_m,
                           .wave_speed_m_s = speed,
                           .friction = qll_friction_of(&run, 5e-4, &water, NULL)};
    const qll_joint free_joint = {.held_pa_gauge = NAN, .start_pa_gauge = 4e5};
    *n = (night){.lines = {half, half},
                 .joints = {{.held_pa_gauge = 4e5}, free_joint, free_joint, free_joint},
                 .check = {.coefficient = 1e-6},
                 .heater = {.vessel = shell,
                            .power_w = 4500,
                            .begins_s = 60,
                            .hot_degc = hot_degc,
                            .barometric_pa = 101325},
                 .tank = qll_air_chamber_of(tank_m3, 4e5 + 101325, 101325)};
    n->lines[0].from = 1;
    n->lines[0].to = n->lines[1].from = 2;
    n->lines[1].to = 3;
    n->boundaries[0] =
        (qll_boundary){.kind = &qll_check_valve_kind, .state = &n->check, .node = {0, 1}};
    n->boundaries[1] = (qll_boundary){.kind = &qll_warming_kind, .state = &n->heater, .node = {2}};
    n->boundaries[2] =
        (qll_boundary){.kind = &qll_air_chamber_kind, .state = &n->tank, .node = {1}};
    n->network = (qll_network){.lines = n->lines,
                               .line_count = 2,
                               .joints = n->joints,
                               .joint_count = 4,
                               .boundaries = n->boundaries,
                               .boundary_count = tank_m3 > 0 ? 3 : 2,
                               .density_kg_m3 = water.density_kg_m3,
                               .vapour_pa_gauge = vapour_pa_gauge};
    return &n->network;
}

static double heated_pa(night *n, double step_s)
{
    qll_pipeline *pipeline = make(&n->network, 0);
    qll_pipeline_rest(pipeline, 0);
    CHECK_NEAR(pipes_pa(pipeline, 2), 4e5, 1e-6);
    while (n->heater.vessel.temperature_degc < n->heater.hot_degc
           && qll_pipeline_time_s(pipeline) < 1e5) {
        CHECK(qll_pipeline_quiet_step(pipeline, step_s) < 1);
    }
    CHECK_NEAR(pipes_pa(pipeline, 1), pipes_pa(pipeline, 3), 1e-3);
    return pipes_pa(pipeline, 2);
}

/* Within 1 % of expansion.md, eq. 4 with all parts, and of eq. 3a with a tank. */
TEST(heater_behind_a_check_valve)
{
    night n;
    night_of(&n, 40, 0);
    qll_closed_part parts[] = {shell, copper};
    parts[1].volume_m3 = 30 * pipes_area_m2(&n.lines[0]);
    double want_pa = 4e5;
    for (int i = 0; i < 1000; i++) {
        parts[0].temperature_degc = 30 + 10 * (i + 0.5) / 1000;
        want_pa += 0.01 * qll_closed_rise_pa_per_k(parts, 2, want_pa + 101325);
    }
    const double shut_pa = heated_pa(&n, 1);
    printf("    30 to 40 degC, shut: %.0f kPa, closed form %.0f\n", shut_pa / 1e3, want_pa / 1e3);
    CHECK_NEAR(shut_pa - 4e5, want_pa - 4e5, 0.01);

    night_of(&n, 60, 0.008);
    const qll_heated heated = {shell.volume_m3, 30, 60, 5e5};
    /* The shell grows too, which the tables leave out. */
    const double grown_m3 = qll_expanded_m3(&heated) - 3 * 11.7e-6 * 30 * shell.volume_m3;
    const double tank_pa = heated_pa(&n, 5);
    const double share = qll_expansion_tank_share(4e5 + 101325, 5e5 + 1325, tank_pa + 101325);
    printf("    30 to 60 degC, 8 L tank: %.0f kPa\n", tank_pa / 1e3);
    qll_closed_part hot = shell;
    hot.temperature_degc = 60;
    const double room_m3_pa = qll_closed_room_m3_per_pa(&hot, 5e5)
                              + parts[1].volume_m3 * qll_closed_room_m3_per_pa(&copper, 5e5);
    CHECK_NEAR(0.008 * share, grown_m3 - room_m3_pa * (tank_pa - 4e5), 0.01);
}

/* ---- waves and quiet stretches in turn ---- */

/* A tap at the end of two pipes, one of them in the air of a riser, opened at 2 s and nearly shut at 5 s, in 0.2 s each. */
typedef struct house {
    qll_line lines[3];
    qll_joint joints[4];
    qll_opening_move moves[2];
    qll_opening tap;
    qll_point test[2];
    qll_supply supply;
    qll_supply_stretch stretches[3];
    qll_supply_end end;
    qll_boundary boundaries[2];
    qll_network network;
} house;

static qll_network *house_of(house *h)
{
    const qll_water water = qll_water_at(15, 5e5);
    const qll_pipe_run run = {.bore_m = 0.02, .length_m = 18, .roughness_m = 1.5e-6};
    const qll_friction friction = qll_friction_of(&run, 4e-4, &water, NULL);
    *h = (house){
        .lines =
            {{0, 1, 18, 0.02, 1280, friction},
             {1, 2, 9, 0.02, 1280, {friction.linear_pa_s_m3 / 2, friction.square_pa_s2_m6 / 2}},
             {1, 3, 12, 0.014, 1310, {1e6, 1e12}}},
        .joints = {{.held_pa_gauge = NAN, .start_pa_gauge = 5e5},
                   {.held_pa_gauge = NAN, .start_pa_gauge = 5e5},
                   {.held_pa_gauge = NAN, .start_pa_gauge = 5e5, .elevation_m = 6},
                   {.held_pa_gauge = NAN, .start_pa_gauge = 5e5, .elevation_m = 2}},
        .moves = {{.begins_s = 2, .takes_s = 0.2, .from = 0, .to = 1, .power = 1},
                  {.begins_s = 5, .takes_s = 0.2, .from = 1, .to = 0.2, .power = 1}},
        .tap = {.coefficient = qll_opening_coefficient(1.5e-4, 3e5), .move_count = 2},
        .test = {{0, 5e5}, {2e-3, 4e5}},
        .supply = {.count = 2, .static_high_pa_gauge = 5e5, .static_low_pa_gauge = 5e5},
        .end = {.static_pa_gauge = 5e5}};
    h->tap.moves = h->moves;
    h->supply.test = h->test;
    h->end.stretches = h->stretches;
    h->end.stretch_count = 3;
    qll_supply_stretches(&h->supply, h->stretches);
    h->boundaries[0] = (qll_boundary){.kind = &qll_supply_end_kind, .state = &h->end, .node = {0}};
    h->boundaries[1] = (qll_boundary){.kind = &qll_opening_kind, .state = &h->tap, .node = {2}};
    h->network = (qll_network){.lines = h->lines,
                               .line_count = 3,
                               .joints = h->joints,
                               .joint_count = 4,
                               .boundaries = h->boundaries,
                               .boundary_count = 2,
                               .density_kg_m3 = water.density_kg_m3,
                               .vapour_pa_gauge = vapour_pa_gauge};
    return &h->network;
}

TEST(rest_stays_at_rest)
{
    house h;
    house_of(&h);
    h.tap.at_first = 0.7;
    h.tap.move_count = 0;
    qll_pipeline *pipeline = make(&h.network, 0);
    CHECK(qll_pipeline_rest(pipeline, 0) < 1e-3);
    const double tap_pa = pipes_pa(pipeline, 2), flow_m3s = qll_pipeline_line(pipeline, 1).last_m3s;
    CHECK_NEAR(flow_m3s, 0.7 * h.tap.coefficient * sqrt(tap_pa), 1e-6);
    CHECK_WITHIN(qll_pipeline_line(pipeline, 2).first_m3s, 0, 1e-9 * flow_m3s);
    CHECK_NEAR(pipes_pa(pipeline, 0), qll_supply_pressure_pa_gauge(&h.supply, 5e5, flow_m3s), 1e-5);
    for (int i = 0; i < 2000; i++) {
        qll_pipeline_step(pipeline);
        CHECK_WITHIN(pipes_pa(pipeline, 2), tap_pa, 1e-3);
    }
    CHECK_NEAR(qll_pipeline_line(pipeline, 1).last_m3s, flow_m3s, 1e-8);
    for (int i = 0; i < 100; i++) {
        qll_pipeline_quiet_step(pipeline, 1);
        CHECK_WITHIN(pipes_pa(pipeline, 2), tap_pa, 1e-2);
    }
}

static void count_steps(const qll_pipeline *pipeline, void *context)
{
    (void)pipeline; /* only that it was shown */
    *(size_t *)context += 1;
}

TEST(quiet_steps_change_nothing_of_an_event)
{
    size_t seen[2] = {0, 0};
    double peak_pa[2], low_pa[2], end_pa[2];
    size_t wave_steps[2] = {0, 0};
    for (int i = 0; i < 2; i++) {
        house h;
        house_of(&h);
        qll_pipeline *pipeline = make(&h.network, 2e-4);
        qll_pipeline_rest(pipeline, 0);
        qll_pipeline_watch(pipeline);
        const double wakes_s[] = {h.moves[0].begins_s, h.moves[1].begins_s};
        qll_event event = qll_event_of(16, wakes_s, 2);
        event.quiet_step_s = i == 0 ? 0 : 0.5;
        event.step = count_steps;
        event.context = &seen[i];
        const qll_event_run run = qll_event_follow(&event, pipeline);
        CHECK(run.worst_pa < 1e-2 && run.wave_steps + run.quiet_steps == seen[i]);
        CHECK((run.quiet_steps > 0) == (i == 1));
        CHECK_WITHIN(qll_pipeline_time_s(pipeline), 16, 2e-4);
        wave_steps[i] = run.wave_steps;
        peak_pa[i] = low_pa[i] = pipes_pa(pipeline, 2);
        for (size_t line = 0; line < 3; line++) {
            peak_pa[i] = fmax(peak_pa[i], qll_pipeline_line(pipeline, line).high_pa_gauge);
            low_pa[i] = fmin(low_pa[i], qll_pipeline_line(pipeline, line).low_pa_gauge);
        }
        end_pa[i] = pipes_pa(pipeline, 2);
    }
    printf("    %zu steps of waves in place of %zu; peak %.0f and %.0f Pa\n", wave_steps[1],
           wave_steps[0], peak_pa[1], peak_pa[0]);
    CHECK(wave_steps[1] < wave_steps[0] / 2 && wave_steps[1] > 1000);
    CHECK(peak_pa[0] > 5.2e5);
    CHECK_WITHIN(peak_pa[1], peak_pa[0], 500);
    CHECK_WITHIN(low_pa[1], low_pa[0], 500);
    CHECK_WITHIN(end_pa[1], end_pa[0], 500);
}

/* A stub of half a meter in one piece changes the swing of a slow tap by less than it says. */
TEST(lumped_stub_is_as_right_as_it_says)
{
    double swing_pa[2];
    for (int i = 0; i < 2; i++) {
        house h;
        house_of(&h);
        h.lines[2].length_m = 0.12;
        qll_problems problems = qll_problems_none(arena);
        qll_pipeline *pipeline = NULL;
        const qll_grid_limits limits = {.step_most_s = 2e-4, .lumped_s = i == 0 ? 2e-5 : 0};
        CHECK(qll_pipeline_make(&h.network, &limits, &problems, arena, &pipeline) == QLL_OK);
        const qll_grid_pipe *stub = &qll_pipeline_grid(pipeline)->pipes[2];
        CHECK((stub->cells == 0) == (i == 1));
        CHECK(i == 0 || stub->lumped_5_percent_s < 0.2);
        qll_pipeline_rest(pipeline, 1.9);
        qll_pipeline_watch(pipeline);
        const double begun_pa = pipes_pa(pipeline, 3);
        while (qll_pipeline_time_s(pipeline) < 3) {
            qll_pipeline_step(pipeline);
        }
        swing_pa[i] = begun_pa - qll_pipeline_line(pipeline, 2).low_pa_gauge;
    }
    printf("    swing at the stub %.0f and %.0f Pa\n", swing_pa[0], swing_pa[1]);
    CHECK(swing_pa[0] > 3e4);
    CHECK_NEAR(swing_pa[1], swing_pa[0], 0.01);
}

int main(void)
{
    arena = qll_arena_open((size_t)64 << 20);
    TEST_RUN(arrester_takes_the_peak);
    TEST_RUN(heater_behind_a_check_valve);
    TEST_RUN(rest_stays_at_rest);
    TEST_RUN(quiet_steps_change_nothing_of_an_event);
    TEST_RUN(lumped_stub_is_as_right_as_it_says);
    qll_arena_close(arena);
    return TEST_END();
}
