/* Invented valves and stages that several tests of the station share. */
#ifndef QUELL_TESTS_STATION_SCENE_H
#define QUELL_TESTS_STATION_SCENE_H

#include "station/balance.h"

#include <math.h>

#define TEST_SCENE_BAR 1e5
#define TEST_SCENE_M3H (1.0 / 3600.0)
#define TEST_SCENE_GPM (3.785411784e-3 / 60.0)
#define TEST_SCENE_PSI 6894.757293168361
#define TEST_SCENE_ATM 101325.0

/* Water of the reference density, so that Kv is in its own units. */
static inline qll_water scene_water(void)
{
    return (qll_water){.temperature_degc = 15.0,
                       .density_kg_m3 = QLL_REFERENCE_DENSITY_KG_M3,
                       .viscosity_pa_s = 1.1375e-3,
                       .vapour_pressure_pa = 1705.8,
                       .sound_speed_m_s = 1465.9,
                       .bulk_modulus_pa = 2.147e9,
                       .expansion_per_k = 1.5e-4};
}

/* One valve with a straight opening law; room holds the law's two points. */
typedef struct scene_valve {
    qll_valve valve;
    qll_opening_law law;
    qll_point points[2];
} scene_valve;

static inline void scene_valve_make(scene_valve *made, double kv_m3h, double band_pa,
                                    double flow_min_m3s, double nominal_m)
{
    *made = (scene_valve){.valve = {.id = "scene",
                                    .nominal_m = nominal_m,
                                    .kv_m3h = kv_m3h,
                                    .set_min_pa_gauge = 1.0 * TEST_SCENE_BAR,
                                    .set_max_pa_gauge = 6.0 * TEST_SCENE_BAR,
                                    .inlet_max_pa_gauge = 20.0 * TEST_SCENE_BAR,
                                    .temperature_max_degc = 80.0,
                                    .sheet_inlet_pa_gauge = 8.0 * TEST_SCENE_BAR,
                                    .sheet_set_pa_gauge = 3.0 * TEST_SCENE_BAR,
                                    .band_pa = band_pa,
                                    .lockup_rise_pa = 0.2 * TEST_SCENE_BAR,
                                    .flow_min_m3s = flow_min_m3s,
                                    .hysteresis_pa = 0.05 * TEST_SCENE_BAR,
                                    .fl = 0.9,
                                    .fd = 0.46,
                                    .xfz = NAN,
                                    .seat_bore_m = NAN,
                                    .strainer_kv_m3h = NAN,
                                    .price = 100.0,
                                    .lead_days = NAN},
                          .points = {{0.0, 0.0}, {band_pa, kv_m3h}}};
    made->law = (qll_opening_law){{made->points, 2}, band_pa};
}

static inline qll_branch scene_branch(const scene_valve *valve, double set_pa_gauge, double bore_m)
{
    return (qll_branch){.valve = &valve->valve,
                        .law = &valve->law,
                        .set_pa_gauge = set_pa_gauge,
                        .pipe_bore_m = bore_m,
                        .series_kv_m3h = NAN};
}

#endif
