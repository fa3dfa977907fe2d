#include "check.h"
#include "dynamics/air_chamber.h"
#include "dynamics/opening.h"
#include "dynamics/pipeline.h"
#include "dynamics/regulator_boundary.h"
#include "moving_scene.h"
#include "pipe_ends.h"
#include "random_motion.h"

static qll_arena *arena;

/* ---- One step. ---- */

static void check_slopes(const qll_regulator_boundary *state, double step_s)
{
    const qll_instant now = {0, step_s};
    const qll_boundary_kind *kind = &qll_regulator_boundary_kind;
    double at[2] = {8e5, 2.9e5};
    qll_through here = {0};
    kind->through(state, &now, at, &here);
    for (int port = 0; port < 2; port++) {
        const double small = 20;
        qll_through above = {0}, below = {0};
        at[port] += small;
        kind->through(state, &now, at, &above);
        at[port] -= 2 * small;
        kind->through(state, &now, at, &below);
        at[port] += small;
        for (int i = 0; i < 2; i++) {
            double slope = (above.flow_m3s[i] - below.flow_m3s[i]) / (2 * small);
            CHECK_WITHIN(here.slope[i][port], slope, 1e-3 * fabs(slope) + 1e-16);
        }
        CHECK(here.slope[port][port] >= 0 && here.slope[port][1 - port] <= 0);
    }
}

TEST(slopes_are_those_of_the_flows)
{
    moving_scene scene;
    for (int pilot = 0; pilot < 2; pilot++) {
        moving_scene_make(&scene, arena);
        scene.valve.acting = pilot ? QLL_ACTING_PILOT : QLL_ACTING_DIRECT;
        scene.motion.of[QLL_MOTION_FRICTION_PA] = 600;
        CHECK(moving_scene_regulator(&scene, arena) == QLL_OK);
        qll_regulator_boundary state =
            qll_regulator_boundary_of(&scene.regulator, TEST_ATMOSPHERE_PA);
        check_slopes(&state, INFINITY);
        state.lift_m = 0.7e-3;
        state.second = pilot ? 3.8e5 : 0.02;
        double step = 1e-5;
        while (step < 2) {
            check_slopes(&state, step);
            step *= 10;
        }
    }
}

TEST(a_held_valve_stays_and_one_at_rest_is_the_opening_law)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    qll_regulator_boundary state = qll_regulator_boundary_of(&scene.regulator, TEST_ATMOSPHERE_PA);
    const qll_boundary_kind *kind = &qll_regulator_boundary_kind;
    const double rest[2] = {8e5, 2.8e5};
    kind->accept(&state, &(qll_instant){0, INFINITY}, rest);
    double kv = qll_opening_law_kv(&scene.law, 0.2e5);
    CHECK_NEAR(state.through_m3s, qll_valve_flow_m3s(kv, 9e5, 3.8e5, scene.valve.fl, &scene.water),
               1e-8);
    double lift = state.lift_m;
    /* 2.1 kPa of friction, 1.4 times that to break away. */
    kind->accept(&state, &(qll_instant){0, 1e-4}, (const double[]){8e5, 2.8e5 - 2900});
    CHECK(state.lift_m == lift && state.second == 0);
    kind->accept(&state, &(qll_instant){0, 1e-4}, (const double[]){8e5, 2.8e5 - 3000});
    CHECK(state.lift_m > lift && state.second > 0);
    CHECK(kind->longest_step_s(&state) > 1e-5);
}

/* Where friction just lets go nothing jumps, whatever the step: else joints might find no pressures. */
TEST(breaking_away_is_no_jump)
{
    moving_scene scene;
    moving_scene_make(&scene, arena);
    static const double steps_s[] = {1e-4, 1e-2, 1};
    for (size_t i = 0; i < sizeof steps_s / sizeof *steps_s; i++) {
        qll_regulator_boundary state =
            qll_regulator_boundary_of(&scene.regulator, TEST_ATMOSPHERE_PA);
        const qll_boundary_kind *kind = &qll_regulator_boundary_kind;
        kind->accept(&state, &(qll_instant){0, INFINITY}, (const double[]){8e5, 2.8e5});
        double flow_m3s = 0, most_m3s = 0, from_m3s = 0;
        for (int k = 0; k <= 4000; k++) { /* 2.1 kPa by 1.4 is 2.94 kPa */
            const double pressures[2] = {8e5, 2.8e5 - k};
            qll_through through = {0};
            kind->through(&state, &(qll_instant){0, steps_s[i]}, pressures, &through);
            const double change = fabs(through.flow_m3s[0] - flow_m3s);
            most_m3s = k > 0 ? fmax(most_m3s, change) : 0;
            from_m3s = k == 0 ? through.flow_m3s[0] : from_m3s;
            flow_m3s = through.flow_m3s[0];
        }
        /* A pascal moves it by no more than a thousandth of what all 4000 do, and the rounding of the drop. */
        CHECK(most_m3s < 2e-3 * (flow_m3s - from_m3s) + 1e-6 * flow_m3s);
        CHECK(flow_m3s > from_m3s);
    }
}

/* ---- Between pipes: the criterion at their ends, and what runs do. ---- */

typedef struct valve_run {
    qll_regulator_boundary valve;
    qll_opening taps;
    qll_opening_move move;
    qll_air_chamber air;
    qll_boundary boundaries[3];
    qll_line lines[2];
    qll_joint joints[4];
    qll_network network;
    qll_pipeline *pipeline;
} valve_run;

static void lay(valve_run *run, const moving_scene *scene, const double *lengths_m, double flow_m3s,
                double outlet_pa, double air_m3)
{
    double supply = scene->set_inlet_pa - TEST_ATMOSPHERE_PA;
    *run = (valve_run){.valve = qll_regulator_boundary_of(&scene->regulator, TEST_ATMOSPHERE_PA),
                       .taps = {.coefficient = qll_opening_coefficient(flow_m3s, outlet_pa),
                                .at_first = 1,
                                .move_count = 1},
                       .network = {.line_count = 2,
                                   .joint_count = 4,
                                   .boundary_count = 3,
                                   .density_kg_m3 = scene->water.density_kg_m3,
                                   .vapour_pa_gauge = -INFINITY}};
    for (size_t i = 0; i < 2; i++) {
        run->lines[i] = (qll_line){.from = 2 * i,
                                   .to = 2 * i + 1,
                                   .length_m = lengths_m[i],
                                   .bore_m = 0.026,
                                   .wave_speed_m_s = 1250};
    }
    for (int i = 0; i < 4; i++) {
        run->joints[i] = (qll_joint){.held_pa_gauge = i == 0 ? supply : (double)NAN,
                                     .start_pa_gauge = i < 2 ? supply : outlet_pa};
    }
    run->boundaries[0] = (qll_boundary){&qll_regulator_boundary_kind, &run->valve, {1, 2}};
    run->boundaries[1] = (qll_boundary){&qll_opening_kind, &run->taps, {3}};
    /* Its air at the atmosphere's pressure is what it holds at the outlet's. */
    run->air = qll_air_chamber_of(air_m3 * (1 + outlet_pa / TEST_ATMOSPHERE_PA), TEST_ATMOSPHERE_PA,
                                  TEST_ATMOSPHERE_PA);
    run->boundaries[2] = (qll_boundary){&qll_air_chamber_kind, &run->air, {2}};
    run->move = (qll_opening_move){
        .begins_s = 0.001, .takes_s = 0.001, .from = 1, .to = 1 - 1e-4, .power = 1};
    run->taps.moves = &run->move;
    run->network.lines = run->lines;
    run->network.joints = run->joints;
    run->network.boundaries = run->boundaries;
}

static void start(valve_run *run)
{
    qll_problems problems = qll_problems_none(arena);
    CHECK(qll_pipeline_make(&run->network, &(qll_grid_limits){.step_most_s = 2.5e-5}, &problems,
                            arena, &run->pipeline)
          == QLL_OK);
    CHECK(qll_pipeline_rest(run->pipeline, 0) < 1e-3);
}

/* Half the swing of the outlet from one time to another. */
static double swing_pa(valve_run *run, double until_s)
{
    double low = INFINITY, high = -INFINITY;
    while (qll_pipeline_time_s(run->pipeline) < until_s) {
        (void)qll_pipeline_step(run->pipeline);
        double pa = qll_pipeline_joint(run->pipeline, 2)->pressure_pa_gauge;
        low = fmin(low, pa);
        high = fmax(high, pa);
    }
    return (high - low) / 2;
}

/* Growth of a swing that is small, by a run of waves. */
static double growth_per_s(valve_run *run, const qll_linear *linear)
{
    double period = 1 / linear->frequency_hz;
    double apart = fmin(3 / fabs(linear->growth_per_s), 1);
    /* One that grows is waited for until what dies has died. */
    double waits =
        linear->growth_per_s > 0 ? fmax(8 * period, 2 / linear->growth_per_s) : 3 * period;
    double begin = 0.002 + waits;
    (void)swing_pa(run, begin);
    double first = swing_pa(run, begin + 2 * period);
    (void)swing_pa(run, begin + apart);
    return log(swing_pa(run, begin + apart + 2 * period) / first) / apart;
}

static void regrid(qll_pipe_end *end, double speed_off)
{
    end->travel_s /= 1 + speed_off;
    end->impedance_pa_s_m3 *= 1 + speed_off;
}

TEST(small_swings_grow_as_the_criterion_says)
{
    qll_random random = qll_random_seeded(8);
    int grow = 0, die = 0;
    for (int i = 0; i < 24; i++) {
        moving_scene scene;
        moving_scene_make(&scene, arena);
        scene.motion.of[QLL_MOTION_FRICTION_PA] = 0;
        scene.motion.of[QLL_MOTION_DAMPING] = random_between(&random, 0.01, 0.5);
        scene.motion.of[QLL_MOTION_PASSAGE] = 0.3;
        scene.motion.of[QLL_MOTION_DIAPHRAGM] = 7;
        scene.motion.of[QLL_MOTION_MASS] = 2;
        scene.valve.kv_m3h = 9;
        scene.valve.inlet_effect = i % 3 == 0 ? 0.05 : 0;
        CHECK(moving_scene_regulator(&scene, arena) == QLL_OK);
        const double lengths_m[] = {random_between(&random, 3, 12), random_between(&random, 2, 8)};
        const double falloff_pa = random_between(&random, 0.05e5, 0.4e5);
        qll_regulator_place place = {
            .lift_m = qll_regulator_rest_m(&scene.regulator, 9e5, 4e5 - falloff_pa),
            .inlet_pa = 9e5,
            .outlet_pa = 4e5 - falloff_pa};
        double flow = qll_regulator_flow_m3s(&scene.regulator, 1, &place);
        const double air_m3 = random_between(&random, 1e-6, 3e-4);
        double z = scene.water.density_kg_m3 * 1250 / (3.14159265358979 / 4 * 0.026 * 0.026);
        const qll_end_case ends = {
            .valve = &scene.regulator,
            .inlet_pa = place.inlet_pa,
            .outlet_pa = place.outlet_pa,
            .inlet = {.impedance_pa_s_m3 = z, .travel_s = 2 * lengths_m[0] / 1250, .loss = 1e-3},
            .outlet = {.impedance_pa_s_m3 = z,
                       .travel_s = 2 * lengths_m[1] / 1250,
                       .loss = 1e-3,
                       .here_m3_pa = air_m3 / (QLL_AIR_POWER * place.outlet_pa),
                       .taps_m3s_pa = flow / (2 * (place.outlet_pa - TEST_ATMOSPHERE_PA))}};
        qll_linear linear;
        unsigned growing;
        CHECK(test_end_linear(&ends, &linear, &growing) == QLL_OK);
        if (growing > 2 || fabs(linear.growth_per_s) < 10 || linear.frequency_hz > 500) {
            continue; /* one swing does not tell two motions apart that grow, or one that grows no faster than others die */
        }
        valve_run run;
        lay(&run, &scene, lengths_m, flow, place.outlet_pa - TEST_ATMOSPHERE_PA, air_m3);
        run.move.to = growing > 0 ? 1 - 1e-7 : 1 - 1e-4;
        start(&run);
        /* The criterion at the wave speeds that the grid took. */
        qll_end_case gridded = ends;
        regrid(&gridded.inlet, qll_pipeline_grid(run.pipeline)->pipes[0].speed_off);
        regrid(&gridded.outlet, qll_pipeline_grid(run.pipeline)->pipes[1].speed_off);
        CHECK(test_end_linear(&gridded, &linear, &growing) == QLL_OK);
        double growth = growth_per_s(&run, &linear);
        CHECK((growth > 0) == (linear.growth_per_s > 0));
        if (growing > 0) {
            CHECK_NEAR(growth, linear.growth_per_s, 0.05);
        }
        grow += growing > 0;
        die += growing == 0;
    }
    CHECK(grow >= 4 && die >= 4);
}

int main(void)
{
    arena = qll_arena_open(1 << 28);
    TEST_RUN(slopes_are_those_of_the_flows);
    TEST_RUN(a_held_valve_stays_and_one_at_rest_is_the_opening_law);
    TEST_RUN(breaking_away_is_no_jump);
    TEST_RUN(small_swings_grow_as_the_criterion_says);
    qll_arena_close(arena);
    return TEST_END();
}
