/* A 1 in direct-acting valve set to 3 bar at 8 bar, by an invented sheet, and the water around it: for
 * tests and benches of its motion. */
#ifndef QUELL_TESTS_MOVING_SCENE_H
#define QUELL_TESTS_MOVING_SCENE_H

#include "dynamics/lumped.h"

#define TEST_ATMOSPHERE_PA 1e5

typedef struct moving_scene {
    qll_valve valve;
    qll_opening_law law;
    qll_water water;
    qll_motion motion;
    double set_pa, set_inlet_pa;
    qll_regulator regulator;
} moving_scene;

/** The regulator anew, after the scene was changed. */
static inline qll_status moving_scene_regulator(moving_scene *scene, qll_arena *arena)
{
    const qll_regulator_of of = {.valve = &scene->valve,
                                 .law = &scene->law,
                                 .motion = &scene->motion,
                                 .set_pa = scene->set_pa,
                                 .set_inlet_pa = scene->set_inlet_pa,
                                 .water = &scene->water};
    qll_status status = qll_opening_law_make(&scene->valve, arena, &scene->law);
    return status == QLL_OK ? qll_regulator_make(&of, arena, &scene->regulator) : status;
}

/** A valve of that size with a sheet that says its Kv and band alone. */
static inline qll_valve moving_valve(double nominal_m, double kv_m3h, double band_pa)
{
    qll_valve valve = {.id = "valve",
                       .nominal_m = nominal_m,
                       .acting = QLL_ACTING_DIRECT,
                       .kv_m3h = kv_m3h,
                       .band_pa = band_pa,
                       .sheet_inlet_pa_gauge = 8e5,
                       .sheet_set_pa_gauge = 3e5,
                       .temperature_max_degc = NAN,
                       .lockup_rise_pa = NAN,
                       .inlet_effect = NAN,
                       .flow_min_m3s = NAN,
                       .hysteresis_pa = NAN,
                       .fl = NAN,
                       .fd = NAN,
                       .xfz = NAN,
                       .seat_bore_m = NAN};
    qll_valve_fill_defaults(&valve);
    return valve;
}

static inline void moving_scene_make(moving_scene *scene, qll_arena *arena)
{
    *scene = (moving_scene){.valve = moving_valve(0.0254, 5, 0.85e5),
                            .water = qll_water_at(15, 5e5),
                            .motion = qll_motion_usual(),
                            .set_pa = 3e5 + TEST_ATMOSPHERE_PA,
                            .set_inlet_pa = 8e5 + TEST_ATMOSPHERE_PA};
    (void)moving_scene_regulator(scene, arena);
}

/** Ten meters of 1 in copper before and five behind; what gives at the outlet's node is added. */
static inline qll_around moving_around(const moving_scene *scene, double outlet_m3_pa)
{
    double density = scene->water.density_kg_m3, before, behind;
    const qll_lumped_pipe inlet = {10, 0.026, 1250, 0.1}, outlet = {5, 0.026, 1250, 0.1};
    qll_around around = {.supply_pa = scene->set_inlet_pa, .barometric_pa = TEST_ATMOSPHERE_PA};
    around.before = qll_lumped_pipe_plug(&inlet, density, &before);
    around.behind = qll_lumped_pipe_plug(&outlet, density, &behind);
    around.before_m3_pa = before / 2 + 1e-12;
    around.behind_m3_pa = behind / 2 + outlet_m3_pa;
    around.far_m3_pa = behind / 2 + 1e-11;
    return around;
}

#endif
