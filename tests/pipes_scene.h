/* Pipes with water in motion, as several tests need them. */
#ifndef QUELL_TESTS_PIPES_SCENE_H
#define QUELL_TESTS_PIPES_SCENE_H

#include "check.h"
#include "dynamics/opening.h"
#include "dynamics/pipeline.h"
#include "physics/water.h"

static const double pipes_pi = 3.14159265358979323846;

/* A pipe from joint 0, a reservoir, to joint 1, an outlet. */
typedef struct pipes_scene {
    qll_line line;
    qll_joint joints[2];
    qll_opening outlet;
    qll_boundary boundary;
    qll_network network;
} pipes_scene;

static inline double pipes_area_m2(const qll_line *line)
{
    return pipes_pi / 4 * line->bore_m * line->bore_m;
}

/* Of water without weight or vapor, unless the test says more; the pointers are set by pipes_make(). */
static inline pipes_scene pipes_scene_of(double length_m, double bore_m, double wave_speed_m_s,
                                         double held_pa)
{
    return (pipes_scene){.line = {.from = 0,
                                  .to = 1,
                                  .length_m = length_m,
                                  .bore_m = bore_m,
                                  .wave_speed_m_s = wave_speed_m_s},
                         .joints = {{.held_pa_gauge = held_pa, .start_pa_gauge = held_pa},
                                    {.held_pa_gauge = NAN, .start_pa_gauge = held_pa}},
                         .network = {.density_kg_m3 = 1000, .vapour_pa_gauge = -INFINITY}};
}

static inline qll_pipeline *pipes_make_with(pipes_scene *scene, const qll_boundary_kind *kind,
                                            double step_most_s, qll_arena *arena)
{
    scene->boundary = (qll_boundary){.kind = kind, .state = &scene->outlet, .node = {1}};
    scene->network.lines = &scene->line;
    scene->network.line_count = 1;
    scene->network.joints = scene->joints;
    scene->network.joint_count = 2;
    scene->network.boundaries = &scene->boundary;
    scene->network.boundary_count = 1;
    qll_problems problems = qll_problems_none(arena);
    qll_pipeline *pipeline = NULL;
    CHECK(qll_pipeline_make(&scene->network, &(qll_grid_limits){.step_most_s = step_most_s},
                            &problems, arena, &pipeline)
          == QLL_OK);
    return pipeline;
}

static inline qll_pipeline *pipes_make(pipes_scene *scene, double step_most_s, qll_arena *arena)
{
    return pipes_make_with(scene, &qll_opening_kind, step_most_s, arena);
}

static inline double pipes_pa(const qll_pipeline *pipeline, size_t joint)
{
    return qll_pipeline_joint(pipeline, joint)->pressure_pa_gauge;
}

#endif
