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
        /* The step in which the wave comes back shows it already. */
        const bool is_high = ((step - 1) / 80) % 2 == 0;
        if (step % 80 == 0) {
            continue; /* the front stands at the valve: half of both */
        }
        CHECK_WITHIN(pipes_pa(pipeline, 1) - held_pa, is_high ? rise_pa : -rise_pa,
                     1e-9 * rise_pa);
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
    const qll_move shuts[] = {{.begins_s = 0.01, .takes_s = 0.004, .from = 1, .to = 0, .power = 1}};
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

int main(void)
{
    arena = qll_arena_open((size_t)64 << 20);
    TEST_RUN(shut_at_once_gives_the_square_wave);
    TEST_RUN(water_is_neither_made_nor_lost);
    qll_arena_close(arena);
    return TEST_END();
}
