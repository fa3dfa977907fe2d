/* Valves of plausible build with pipes of plausible length, drawn from the ranges of
 * docs/theory/valve_motion.md and stability.md. */
#ifndef QUELL_TESTS_RANDOM_MOTION_H
#define QUELL_TESTS_RANDOM_MOTION_H

#include "base/random.h"
#include "dynamics/linear.h"
#include "dynamics/motion_state.h"
#include "moving_scene.h"

/** What is drawn, and what it is drawn for. */
typedef struct random_motion {
    moving_scene scene;
    qll_around around;
    double full_m3s; /* at full opening */
    qll_lumped_pipe inlet, outlet;
    double here_m3_pa, far_m3_pa; /* beside what the pipes give */
} random_motion;

static inline double random_between(qll_random *random, double low, double high)
{
    return low * pow(high / low, qll_random_unit(random));
}

/* As stability.md: inlet 1 to 30 m, outlet 1 to 15 m, copper or plastic, 3 to 40 % lost in a round trip; local
 * 1e-13 to 1e-11, far 1e-12 to 1e-9 m3/Pa; fall-off at full travel 0.7 to 2 bar; balanced or not. */
static inline void random_around(random_motion *drawn, double drop_pa, qll_random *random)
{
    double density = drawn->scene.water.density_kg_m3, before, behind;
    double bore = drawn->scene.valve.nominal_m;
    double speed = qll_random_unit(random) < 0.5 ? 1250 : 400;
    drawn->inlet = (qll_lumped_pipe){random_between(random, 1, 30), bore, speed,
                                     random_between(random, 0.03, 0.4)};
    drawn->outlet = (qll_lumped_pipe){random_between(random, 1, 15), bore, speed,
                                      random_between(random, 0.03, 0.4)};
    drawn->here_m3_pa = random_between(random, 1e-13, 1e-11);
    drawn->far_m3_pa = random_between(random, 1e-12, 1e-9);
    qll_around *around = &drawn->around;
    *around = (qll_around){.supply_pa = drawn->scene.set_pa + drop_pa,
                           .barometric_pa = TEST_ATMOSPHERE_PA};
    around->before = qll_lumped_pipe_plug(&drawn->inlet, density, &before);
    around->behind = qll_lumped_pipe_plug(&drawn->outlet, density, &behind);
    around->before_m3_pa = before / 2 + drawn->here_m3_pa;
    around->behind_m3_pa = behind / 2 + drawn->here_m3_pa;
    around->far_m3_pa = behind / 2 + drawn->far_m3_pa;
}

/* A valve of that size at 55 psi behind it, drop_pa over it. Kv of 1 in is 5 m3/h and grows with the square of
 * the size (common of such valves, from memory). */
static inline qll_status random_motion_make(random_motion *drawn, double nominal_m, double drop_pa,
                                            qll_random *random, qll_arena *arena)
{
    double kv = 5 * pow(nominal_m / 0.0254, 2);
    *drawn = (random_motion){.scene = {.water = qll_water_at(15, 5e5)}};
    moving_scene *scene = &drawn->scene;
    scene->valve = moving_valve(nominal_m, kv, random_between(random, 0.7e5, 2e5));
    scene->valve.inlet_effect = qll_random_unit(random) < 0.5   ? 0
                                : qll_random_unit(random) < 0.5 ? 0.05
                                                                : -0.05;
    for (int i = 0; i < QLL_MOTION_COUNT; i++) {
        scene->motion.of[i] = qll_motion_within((qll_motion_value)i, qll_random_unit(random));
    }
    scene->set_pa = TEST_ATMOSPHERE_PA + 55 * 6894.757;
    scene->set_inlet_pa = scene->set_pa + drop_pa;
    drawn->full_m3s = kv / 3600 * sqrt(drop_pa / 1e5);
    random_around(drawn, drop_pa, random);
    return moving_scene_regulator(scene, arena);
}

/** The run of stability.md: a tap closes from 1.3 q to q in 40 ms, 2 s, of which the last half is watched. */
static inline qll_motion_event random_event(double flow_m3s)
{
    return (qll_motion_event){.flow_before_m3s = 1.3 * flow_m3s,
                              .flow_m3s = flow_m3s,
                              .taps_s = 0.04,
                              .duration_s = 2,
                              .watched_s = 0.5,
                              .tolerance = 1e-4};
}

#endif
