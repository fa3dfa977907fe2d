/* How fast waves go through a pipe, in cells times steps per second, beside what memory lets through: a loop that only copies as
 * many numbers (two in and two out for each cell). Processor time, the least of several runs. Beside it run
 *   python3 bench/waves_numpy.py
 * which takes the same step in NumPy. */
#include "pipes_scene.h"

#include <stdio.h>
#include <time.h>

enum {
    QLL_RUNS = 9
};

static const double work = 1e7; /* cells times steps of a run */

static double seconds(void)
{
    return (double)clock() / CLOCKS_PER_SEC;
}

/* One run of a pipe of so many cells between a reservoir and a dead end. */
static double pipe_s(size_t cells, bool is_watched, double *steps)
{
    qll_arena *arena = qll_arena_open((size_t)256 << 20);
    const double length_m = 0.06 * (double)cells;
    pipes_scene scene = pipes_scene_of(length_m, 0.05, 1200, 6e5);
    scene.line.friction.square_pa_s2_m6 = 1e6 * length_m;
    scene.line.friction.linear_pa_s_m3 = 1e3 * length_m;
    scene.network.vapour_pa_gauge = -99e3;
    qll_problems problems = qll_problems_none(arena);
    qll_pipeline *pipeline = NULL;
    scene.network.lines = &scene.line;
    scene.network.line_count = 1;
    scene.network.joints = scene.joints;
    scene.network.joint_count = 2;
    if (qll_pipeline_make(&scene.network, &(qll_grid_limits){.step_most_s = 0.06 / 1200}, &problems,
                          arena, &pipeline)
        != QLL_OK) {
        return NAN;
    }
    const double flow_m3s = 1e-4;
    qll_pipeline_begin(pipeline, 0, (double[]){6e5, 6e5 - 1}, &flow_m3s);
    if (is_watched) {
        qll_pipeline_watch(pipeline);
    }
    *steps = work / (double)cells;
    double least_s = INFINITY;
    for (int run = 0; run < QLL_RUNS; run++) {
        const double start_s = seconds();
        double step = 0;
        while (step < *steps) {
            qll_pipeline_step(pipeline);
            step++;
        }
        least_s = fmin(least_s, seconds() - start_s);
    }
    if (qll_pipeline_grid(pipeline)->cells != cells
        || qll_pipeline_line(pipeline, 0).cavity_most > 0) {
        printf("not the pipe that was meant\n");
    }
    qll_arena_close(arena);
    return least_s;
}

static void copy(size_t count, const double *restrict a, const double *restrict b,
                 double *restrict c, double *restrict d)
{
    for (size_t i = 0; i < count; i++) {
        c[i] = b[i];
        d[i] = a[i];
    }
}

/* The same numbers moved, and nothing else done. */
static double copy_s(size_t cells, double steps)
{
    qll_arena *arena = qll_arena_open((size_t)256 << 20);
    double *from[2], *to[2];
    for (int i = 0; i < 2; i++) {
        from[i] = qll_arena_take(arena, cells, sizeof(double));
        to[i] = qll_arena_take(arena, cells, sizeof(double));
    }
    double least_s = INFINITY;
    for (int run = 0; run < QLL_RUNS; run++) {
        const double start_s = seconds();
        double step = 0;
        while (step < steps) {
            copy(cells, from[0], from[1], to[0], to[1]);
            copy(cells, to[0], to[1], from[0], from[1]);
            step += 2;
        }
        least_s = fmin(least_s, seconds() - start_s);
    }
    qll_arena_close(arena);
    return least_s;
}

int main(void)
{
    static const size_t sizes[] = {100, 1000, 10000, 100000};
    printf("cells,million cells a second,of what copying lets through,with pressures watched\n");
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        double steps = 0;
        const double plain_s = pipe_s(sizes[i], false, &steps);
        const double watched_s = pipe_s(sizes[i], true, &steps);
        const double moved_s = copy_s(sizes[i], steps);
        printf("%zu,%.0f,%.2f,%.0f\n", sizes[i], work / plain_s / 1e6, moved_s / plain_s,
               work / watched_s / 1e6);
    }
    return 0;
}
