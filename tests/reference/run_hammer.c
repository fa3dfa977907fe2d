/* Water hammer at a valve behind a reservoir; the cases are those of tests/oracles/waves.py. */
#include "pipes_scene.h"
#include "truth.h"

static qll_arena *arena;

/* Runs to @p time_s, which is a whole number of steps or within one; pressure at the valve there. */
static double run_to(qll_pipeline *pipeline, double time_s)
{
    const double step_s = qll_pipeline_grid(pipeline)->step_s;
    while (qll_pipeline_time_s(pipeline) + step_s / 2 < time_s) {
        qll_pipeline_step(pipeline);
    }
    return pipes_pa(pipeline, 1);
}

/* The textbook's reservoir, pipe and valve that closes in 2.1 s; 100 cells. */
static double head_m(double time_s)
{
    const double density_kg_m3 = 1000, weight = density_kg_m3 * QLL_GRAVITY_M_S2;
    pipes_scene scene = pipes_scene_of(600, 0.5, 1200, 150 * weight);
    const double area_m2 = pipes_area_m2(&scene.line);
    scene.line.friction.square_pa_s2_m6 =
        0.018 * 600 / 0.5 * density_kg_m3 / (2 * area_m2 * area_m2);
    const qll_opening_move closes = {
        .begins_s = 0, .takes_s = 2.1, .from = 1, .to = 0, .power = 1.5};
    scene.outlet = (qll_opening){.coefficient = 0.009 * sqrt(2 / density_kg_m3),
                                 .at_first = 1,
                                 .moves = &closes,
                                 .move_count = 1};
    qll_pipeline *pipeline = pipes_make(&scene, 0.005, arena);
    CHECK(qll_pipeline_grid(pipeline)->cells == 100);
    qll_pipeline_rest(pipeline, 0);
    CHECK_NEAR(qll_pipeline_line(pipeline, 0).last_m3s, 0.477448, 1e-5);
    CHECK_WITHIN(pipes_pa(pipeline, 1) / weight, 143.488, 0.005);
    return run_to(pipeline, time_s) / weight;
}

typedef struct parted {
    double pressure_pa, room_m3;
} parted;

/* A column that parts at a valve shut at once; 300 cells. */
static parted part(double speed_m_s, double time_s)
{
    pipes_scene scene = pipes_scene_of(36, 0.026, 1200, 400e3);
    scene.network.vapour_pa_gauge = -99e3;
    const double flow_m3s = speed_m_s * pipes_area_m2(&scene.line);
    qll_pipeline *pipeline = pipes_make(&scene, 0.0001, arena);
    qll_pipeline_begin(pipeline, 0, (double[]){400e3, 400e3}, &flow_m3s);
    parted found = {0};
    const double step_s = qll_pipeline_grid(pipeline)->step_s;
    while (qll_pipeline_time_s(pipeline) + step_s / 2 < time_s) {
        qll_pipeline_step(pipeline);
        found.room_m3 = fmax(found.room_m3, qll_pipeline_joint(pipeline, 1)->cavity_m3);
    }
    found.pressure_pa = pipes_pa(pipeline, 1);
    return found;
}

int main(void)
{
    arena = qll_arena_open((size_t)64 << 20);
    const qll_table rows = truth_read("tests/reference/hammer.csv", arena);
    CHECK(rows.row_count > 0);
    for (size_t row = 0; row < rows.row_count; row++) {
        const qll_arena_mark mark = qll_arena_now(arena);
        const double time_s = truth_number(&rows, row, "time_s");
        double found = NAN;
        if (truth_is(&rows, row, "quantity", "head_m")) {
            found = head_m(time_s);
        } else if (truth_is(&rows, row, "quantity", "pressure_pa")) {
            found = part(truth_number(&rows, row, "speed_m_s"), time_s).pressure_pa;
        } else if (truth_is(&rows, row, "quantity", "room_m3")) {
            found = part(truth_number(&rows, row, "speed_m_s"), time_s).room_m3;
        }
        if (!CHECK_WITHIN(found, truth_number(&rows, row, "expected"),
                          truth_number(&rows, row, "tolerance"))) {
            printf("    in hammer.csv row %zu\n", row + 1);
        }
        qll_arena_reset(arena, mark);
    }
    qll_arena_close(arena);
    return TEST_END();
}
