#include "dynamics/pipeline.h"
#include "pipes_scene.h"

static qll_arena *arena;

/* What water does in a pipe that is shut at once: plus and minus rho a v, changing every 2L/a. */
TEST(shut_at_once_gives_the_square_wave)
{
    const double speed_m_s = 1251.19, velocity_m_s = 2, held_pa = 5e6;
    pipes_scene scene = pipes_scene_of(30, 0.026, speed_m_s, held_pa);
    const double flow_m3s = velocity_m_s * pipes_area_m2(&scene.line);
    qll_pipeline *pipeline = pipes_make(&scene, 30 / speed_m_s / 40, arena);
    CHECK(qll_pipeline_grid(pipeline)->cells == 40);
    CHECK_WITHIN(qll_pipeline_grid(pipeline)->speed_off_most, 0, 1e-14);
    qll_pipeline_begin(pipeline, 0, (double[]){held_pa, held_pa}, &flow_m3s);
    const double rise_pa = 1000 * speed_m_s * velocity_m_s;
    for (int step = 1; step <= 8 * 80; step++) {
        qll_pipeline_step(pipeline);
        const bool is_high = ((step - 1) / 80) % 2 == 0;
        CHECK_WITHIN(pipes_pa(pipeline, 1) - held_pa, is_high ? rise_pa : -rise_pa, 1e-9 * rise_pa);
        CHECK_WITHIN(qll_pipeline_line(pipeline, 0).last_m3s, 0, 1e-9 * flow_m3s);
    }
}

/* Inflow less outflow is what the pipe holds more, whatever moves, rubs or boils. */
static void check_water(pipes_scene *scene, double flow_m3s, int steps)
{
    qll_pipeline *pipeline = pipes_make(scene, scene->line.length_m / 1200 / 50, arena);
    qll_pipeline_rest(pipeline, 0);
    CHECK(fabs(qll_pipeline_line(pipeline, 0).first_m3s - flow_m3s) < 0.5 * flow_m3s);
    const double begun_m3 = qll_pipeline_line(pipeline, 0).held_m3;
    const double step_s = qll_pipeline_grid(pipeline)->step_s;
    double in_m3 = 0, passed_m3 = 0, swing_m3 = 0, cavity_m3 = 0;
    double before_m3s = 0;
    for (int i = 0; i < steps; i++) {
        qll_line_now now = qll_pipeline_line(pipeline, 0);
        before_m3s = now.first_m3s - now.last_m3s;
        qll_pipeline_step(pipeline);
        now = qll_pipeline_line(pipeline, 0);
        in_m3 += step_s / 2 * (before_m3s + now.first_m3s - now.last_m3s);
        passed_m3 += step_s * fabs(now.first_m3s);
        swing_m3 = fmax(swing_m3, fabs(now.held_m3 - begun_m3));
        cavity_m3 = fmax(cavity_m3, now.cavity_m3);
        CHECK_WITHIN(now.held_m3 - begun_m3, in_m3, 1e-9 * passed_m3);
    }
    CHECK(swing_m3 > 1e-5 * passed_m3);
    CHECK((cavity_m3 > 0) == isfinite(scene->network.vapour_pa_gauge));
}

TEST(water_is_neither_made_nor_lost)
{
    pipes_scene scene = pipes_scene_of(60, 0.026, 1200, 5e5);
    const double flow_m3s = 1.2 * pipes_area_m2(&scene.line);
    scene.line.friction = (qll_friction){2e6, 8e10};
    const qll_opening_move shuts[] = {
        {.begins_s = 0.01, .takes_s = 0.004, .from = 1, .to = 0, .power = 1}};
    scene.outlet = (qll_opening){.coefficient = qll_opening_coefficient(flow_m3s, 4e5),
                                 .at_first = 1,
                                 .moves = shuts,
                                 .move_count = 1};
    check_water(&scene, flow_m3s, 3000);
    scene.outlet.next = 0;
    scene.network.vapour_pa_gauge = -99e3;
    scene.joints[1].elevation_m = 3;
    check_water(&scene, flow_m3s, 3000);
}

/* A front that meets a tee goes on as 2 Y1/(Y1 + Y2 + Y3) of itself, Y = A/(rho a). */
TEST(tee_passes_its_share)
{
    const qll_line lines[] = {
        {.from = 0, .to = 1, .length_m = 12, .bore_m = 0.026, .wave_speed_m_s = 1200},
        {.from = 1, .to = 2, .length_m = 12, .bore_m = 0.020, .wave_speed_m_s = 1200},
        {.from = 3, .to = 1, .length_m = 6, .bore_m = 0.014, .wave_speed_m_s = 600},
    };
    const qll_joint joints[] = {{.held_pa_gauge = 5e5},
                                {.held_pa_gauge = NAN, .elevation_m = 7},
                                {.held_pa_gauge = NAN, .elevation_m = 4},
                                {.held_pa_gauge = NAN}};
    const qll_network network = {.lines = lines,
                                 .line_count = 3,
                                 .joints = joints,
                                 .joint_count = 4,
                                 .density_kg_m3 = 1000,
                                 .vapour_pa_gauge = -INFINITY};
    qll_problems problems = qll_problems_none(arena);
    qll_pipeline *pipeline = NULL;
    CHECK(qll_pipeline_make(&network, &(qll_grid_limits){.step_most_s = 0.001}, &problems, arena,
                            &pipeline)
          == QLL_OK);
    CHECK(qll_pipeline_grid(pipeline)->cells == 30);
    /* At rest but that the main's pressure is 1 bar higher than all others: a front runs in. */
    const double weight = 1000 * QLL_GRAVITY_M_S2;
    const double begun_pa[] = {5e5, 4e5 - 7 * weight, 4e5 - 4 * weight, 4e5};
    qll_pipeline_begin(pipeline, 0, begun_pa, (double[]){0, 0, 0});
    /* Straight from one to the other is not a front: it is made one by a step with all at 4 bar. */
    const double level_pa[] = {4e5, begun_pa[1], begun_pa[2], begun_pa[3]};
    qll_pipeline_begin(pipeline, 0, level_pa, (double[]){0, 0, 0});
    double y[3], all = 0;
    for (int i = 0; i < 3; i++) {
        y[i] = pipes_area_m2(&lines[i]) / (1000 * lines[i].wave_speed_m_s);
        all += y[i];
    }
    for (int step = 0; step < 11; step++) {
        qll_pipeline_step(pipeline);
    }
    CHECK_NEAR(pipes_pa(pipeline, 1) - begun_pa[1], 1e5 * 2 * y[0] / all, 1e-9);
    for (int step = 11; step < 21; step++) {
        qll_pipeline_step(pipeline);
    }
    /* At the dead ends it doubles. */
    CHECK_NEAR(pipes_pa(pipeline, 2) - begun_pa[2], 1e5 * 4 * y[0] / all, 1e-9);
    CHECK_NEAR(pipes_pa(pipeline, 3) - begun_pa[3], 1e5 * 4 * y[0] / all, 1e-9);
}

/* A pipe of two halves is the pipe, with vapor at its middle too. */
TEST(halves_are_the_whole)
{
    pipes_scene whole = pipes_scene_of(48, 0.026, 1200, 3e5);
    whole.network.vapour_pa_gauge = -99e3;
    whole.joints[1].elevation_m = -4;
    const double flow_m3s = 0.6 * pipes_area_m2(&whole.line);
    qll_pipeline *one = pipes_make(&whole, 0.001, arena);
    pipes_scene split = whole;
    const qll_line lines[] = {
        {.from = 0, .to = 2, .length_m = 24, .bore_m = 0.026, .wave_speed_m_s = 1200},
        {.from = 2, .to = 1, .length_m = 24, .bore_m = 0.026, .wave_speed_m_s = 1200}};
    const qll_joint joints[] = {
        whole.joints[0], whole.joints[1], {.held_pa_gauge = NAN, .elevation_m = -2}};
    split.network.lines = lines;
    split.network.line_count = 2;
    split.network.joints = joints;
    split.network.joint_count = 3;
    split.network.boundaries = &split.boundary;
    qll_problems problems = qll_problems_none(arena);
    qll_pipeline *two = NULL;
    CHECK(qll_pipeline_make(&split.network, &(qll_grid_limits){.step_most_s = 0.001}, &problems,
                            arena, &two)
          == QLL_OK);
    const double weight = 1000 * QLL_GRAVITY_M_S2;
    const double begun_pa[] = {3e5, 3e5 + 4 * weight, 3e5 + 2 * weight};
    qll_pipeline_begin(one, 0, begun_pa, &flow_m3s);
    qll_pipeline_begin(two, 0, begun_pa, (double[]){flow_m3s, flow_m3s});
    double cavity_m3 = 0;
    for (int step = 0; step < 500; step++) {
        qll_pipeline_step(one);
        qll_pipeline_step(two);
        cavity_m3 = fmax(cavity_m3, qll_pipeline_joint(two, 2)->cavity_m3);
        CHECK_WITHIN(pipes_pa(two, 1), pipes_pa(one, 1), 0.1);
        CHECK_WITHIN(qll_pipeline_joint(two, 2)->cavity_m3 + qll_pipeline_line(two, 0).cavity_m3
                         + qll_pipeline_line(two, 1).cavity_m3,
                     qll_pipeline_line(one, 0).cavity_m3, 1e-13);
    }
    CHECK(cavity_m3 > 0);
}

/* Peak and trough at a tap that shuts in 20 ms behind 40 m of copper. */
static qll_range swing(double step_s)
{
    pipes_scene scene = pipes_scene_of(40, 0.020, 1277, 4e5);
    const qll_opening_move shuts = {
        .begins_s = 0, .takes_s = 0.020, .from = 1, .to = 0, .power = 1};
    scene.line.friction = (qll_friction){5e6, 4e11};
    scene.outlet = (qll_opening){.coefficient = qll_opening_coefficient(1e-4, 3.6e5),
                                 .at_first = 1,
                                 .moves = &shuts,
                                 .move_count = 1};
    qll_pipeline *pipeline = pipes_make(&scene, step_s, arena);
    qll_pipeline_rest(pipeline, 0);
    qll_pipeline_watch(pipeline);
    while (qll_pipeline_time_s(pipeline) < 0.5) {
        CHECK(qll_pipeline_step(pipeline) < 1e-3);
    }
    const qll_line_now found = qll_pipeline_line(pipeline, 0);
    return (qll_range){found.high_pa_gauge, found.low_pa_gauge};
}

TEST(finer_cells_change_little)
{
    const double coarse_s = 40 / 1277.0 / 20;
    const qll_range coarse = swing(coarse_s), fine = swing(coarse_s / 2);
    const qll_range finest = swing(coarse_s / 4);
    printf("    peak %.0f %.0f %.0f Pa, least %.0f %.0f %.0f Pa\n", coarse.high_pa_gauge,
           fine.high_pa_gauge, finest.high_pa_gauge, coarse.low_pa_gauge, fine.low_pa_gauge,
           finest.low_pa_gauge);
    CHECK(coarse.high_pa_gauge > 7e5);
    CHECK_NEAR(fine.high_pa_gauge, coarse.high_pa_gauge, 0.01);
    CHECK_NEAR(finest.high_pa_gauge, coarse.high_pa_gauge, 0.01);
}

/* Shut at once every section sees rho a v either way, at its own height; its reservoir nothing. */
TEST(watched_sections_keep_their_swing)
{
    const double held_pa = 3e6, weight = 1000 * QLL_GRAVITY_M_S2;
    pipes_scene scene = pipes_scene_of(24, 0.026, 1200, held_pa);
    scene.joints[1].elevation_m = 8;
    const double flow_m3s = pipes_area_m2(&scene.line);
    qll_pipeline *pipeline = pipes_make(&scene, 0.002, arena);
    CHECK(qll_pipeline_grid(pipeline)->cells == 10);
    qll_pipeline_begin(pipeline, 0, (double[]){held_pa, held_pa - 8 * weight}, &flow_m3s);
    qll_pipeline_watch(pipeline);
    for (int step = 0; step < 100; step++) {
        qll_pipeline_step(pipeline);
    }
    for (size_t i = 0; i <= 10; i++) {
        const double rest_pa = held_pa - 0.8 * weight * (double)i;
        const double swing_pa = i == 0 ? 0 : 1.2e6;
        const qll_range range = qll_pipeline_range(pipeline, 0, i);
        CHECK_NEAR(range.high_pa_gauge, rest_pa + swing_pa, 1e-9);
        CHECK_NEAR(range.low_pa_gauge, rest_pa - swing_pa, 1e-9);
    }
    const qll_line_now now = qll_pipeline_line(pipeline, 0);
    CHECK_NEAR(now.high_pa_gauge, held_pa - 0.8 * weight + 1.2e6, 1e-9);
    CHECK_NEAR(now.low_pa_gauge, held_pa - 8 * weight - 1.2e6, 1e-9);
}

/* A tap that wants the step of the pipes in eight parts. */
static double an_eighth_s(const void *state)
{
    (void)state;
    return 0.002 / 8;
}

/* Parts of a step: rest stays rest, and what is done evenly in time comes out as in whole steps. */
TEST(step_in_parts)
{
    qll_boundary_kind careful = qll_opening_kind;
    careful.longest_step_s = an_eighth_s;
    double closed_pa[2];
    for (int i = 0; i < 2; i++) {
        pipes_scene scene = pipes_scene_of(24, 0.026, 1200, 3e6);
        scene.line.friction = (qll_friction){2e6, 8e10};
        const qll_opening_move shuts = {
            .begins_s = 0.1, .takes_s = 0.2, .from = 1, .to = 0, .power = 1};
        scene.outlet = (qll_opening){.coefficient = qll_opening_coefficient(5e-4, 3e6),
                                     .at_first = 1,
                                     .moves = &shuts,
                                     .move_count = 1};
        qll_pipeline *pipeline =
            pipes_make_with(&scene, i == 0 ? &qll_opening_kind : &careful, 0.002, arena);
        qll_pipeline_rest(pipeline, 0);
        const double rest_pa = pipes_pa(pipeline, 1);
        for (int step = 0; step < 50; step++) {
            qll_pipeline_step(pipeline);
            CHECK_WITHIN(pipes_pa(pipeline, 1), rest_pa, 0.2); /* 1e-5 of the friction */
        }
        closed_pa[i] = rest_pa;
        for (int step = 50; step < 200; step++) {
            qll_pipeline_step(pipeline);
            closed_pa[i] = fmax(closed_pa[i], pipes_pa(pipeline, 1));
        }
    }
    CHECK(closed_pa[0] > 3.05e6);
    CHECK_NEAR(closed_pa[1] - 3e6, closed_pa[0] - 3e6, 0.02);
}

/* Where it boils in the pipe, what is watched is the vapor's pressure and the peak as cavities close. */
TEST(watched_sections_boil)
{
    pipes_scene scene = pipes_scene_of(48, 0.026, 1200, 3e5);
    scene.network.vapour_pa_gauge = -99e3;
    const double flow_m3s = 0.6 * pipes_area_m2(&scene.line);
    qll_pipeline *pipeline = pipes_make(&scene, 0.001, arena);
    qll_pipeline_begin(pipeline, 0, (double[]){3e5, 3e5}, &flow_m3s);
    qll_pipeline_watch(pipeline);
    while (qll_pipeline_line(pipeline, 0).cavity_m3 == 0 && qll_pipeline_time_s(pipeline) < 2) {
        qll_pipeline_step(pipeline);
    }
    const double high_pa = qll_pipeline_line(pipeline, 0).high_pa_gauge;
    CHECK(high_pa > 3e5 + 7.2e5);
    for (int step = 0; step < 200; step++) {
        qll_pipeline_step(pipeline);
    }
    const qll_line_now now = qll_pipeline_line(pipeline, 0);
    CHECK(now.low_pa_gauge == -99e3);
    CHECK(now.cavity_most > 0 && now.cavity_most < 0.1);
    CHECK(now.high_pa_gauge >= high_pa);
    for (size_t i = 1; i < 40; i++) {
        CHECK(qll_pipeline_range(pipeline, 0, i).high_pa_gauge > 3e5 + 7e5);
    }
}

/* Whichever allocation fails, it says so. */
TEST(memory_may_fail)
{
    qll_status status = QLL_NO_MEMORY;
    size_t failing = 0;
    while (status == QLL_NO_MEMORY && failing < 1000) {
        failing += 1;
        qll_arena *small = qll_arena_open((size_t)1 << 20);
        pipes_scene scene = pipes_scene_of(30, 0.02, 1200, 4e5);
        scene.boundary =
            (qll_boundary){.kind = &qll_opening_kind, .state = &scene.outlet, .node = {1}};
        scene.network.lines = &scene.line;
        scene.network.line_count = 1;
        scene.network.joints = scene.joints;
        scene.network.joint_count = 2;
        scene.network.boundaries = &scene.boundary;
        scene.network.boundary_count = 1;
        qll_problems problems = qll_problems_none(small);
        qll_pipeline *pipeline = NULL;
        qll_arena_fail(small, failing, false);
        status =
            qll_pipeline_make(&scene.network, &(qll_grid_limits){0}, &problems, small, &pipeline);
        qll_arena_close(small);
    }
    CHECK(status == QLL_OK && failing > 20);
}

int main(void)
{
    arena = qll_arena_open((size_t)64 << 20);
    TEST_RUN(shut_at_once_gives_the_square_wave);
    TEST_RUN(water_is_neither_made_nor_lost);
    TEST_RUN(tee_passes_its_share);
    TEST_RUN(halves_are_the_whole);
    TEST_RUN(finer_cells_change_little);
    TEST_RUN(watched_sections_keep_their_swing);
    TEST_RUN(step_in_parts);
    TEST_RUN(watched_sections_boil);
    TEST_RUN(memory_may_fail);
    qll_arena_close(arena);
    return TEST_END();
}
