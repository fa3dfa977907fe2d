/* Made-up catalogues, buildings and duties for the tests and the benchmark of the search: no valve
 * here is anybody's. Bores are those of ASTM B88 type L. */
#ifndef QUELL_TESTS_SEARCH_SCENE_H
#define QUELL_TESTS_SEARCH_SCENE_H

#include "limits_scene.h"
#include "search/search.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>

#define TEST_PSI 6894.757293168
#define TEST_IN  0.0254
#define TEST_GPM (3.785411784e-3 / 60.0)

/* A small generator of its own: the same scene on every machine. */
typedef struct scene_random {
    uint64_t state;
} scene_random;

static inline double scene_uniform(scene_random *random, double low, double high)
{
    random->state = random->state * 6364136223846793005u + 1442695040888963407u;
    return low + (high - low) * ((double)(random->state >> 11) * 0x1p-53);
}

static inline const qll_pipe_size *const *scene_sizes(size_t *count)
{
    static const qll_pipe_size sizes[] = {
        {.nominal = "1/2 in", .nominal_m = 0.5 * TEST_IN, .bore_m = 0.545 * TEST_IN},
        {.nominal = "3/4 in", .nominal_m = 0.75 * TEST_IN, .bore_m = 0.785 * TEST_IN},
        {.nominal = "1 in", .nominal_m = 1.0 * TEST_IN, .bore_m = 1.025 * TEST_IN},
        {.nominal = "1-1/4 in", .nominal_m = 1.25 * TEST_IN, .bore_m = 1.265 * TEST_IN},
        {.nominal = "1-1/2 in", .nominal_m = 1.5 * TEST_IN, .bore_m = 1.505 * TEST_IN},
        {.nominal = "2 in", .nominal_m = 2.0 * TEST_IN, .bore_m = 1.985 * TEST_IN},
        {.nominal = "2-1/2 in", .nominal_m = 2.5 * TEST_IN, .bore_m = 2.465 * TEST_IN},
        {.nominal = "3 in", .nominal_m = 3.0 * TEST_IN, .bore_m = 2.945 * TEST_IN},
        {.nominal = "4 in", .nominal_m = 4.0 * TEST_IN, .bore_m = 3.905 * TEST_IN},
        {.nominal = "6 in", .nominal_m = 6.0 * TEST_IN, .bore_m = 5.845 * TEST_IN},
    };
    static const qll_pipe_size *const pointers[] = {
        &sizes[0], &sizes[1], &sizes[2], &sizes[3], &sizes[4],
        &sizes[5], &sizes[6], &sizes[7], &sizes[8], &sizes[9],
    };
    *count = sizeof sizes / sizeof sizes[0];
    return pointers;
}

/** What one made-up valve is; everything else follows from it. */
typedef struct scene_valve {
    const char *id;
    double inches;
    double kv_m3h;
    double band_psi; /* fall-off at full travel */
    double set_min_psi, set_max_psi;
    double flow_min_gpm;
    double price;
    double inlet_effect;
} scene_valve;

static inline qll_valve scene_valve_make(const scene_valve *given)
{
    qll_valve valve = {
        .id = given->id,
        .nominal_m = given->inches * TEST_IN,
        .acting = QLL_ACTING_DIRECT,
        .kv_m3h = given->kv_m3h,
        .set_min_pa_gauge = given->set_min_psi * TEST_PSI,
        .set_max_pa_gauge = given->set_max_psi * TEST_PSI,
        .inlet_max_pa_gauge = 300.0 * TEST_PSI,
        .temperature_max_degc = 82.0,
        .sheet_inlet_pa_gauge = 100.0 * TEST_PSI,
        .sheet_set_pa_gauge = 50.0 * TEST_PSI,
        .band_pa = given->band_psi * TEST_PSI,
        .lockup_rise_pa = 3.0 * TEST_PSI,
        .inlet_effect = given->inlet_effect,
        .flow_min_m3s = given->flow_min_gpm * TEST_GPM,
        .hysteresis_pa = 0.5 * TEST_PSI,
        .fl = 0.9,
        .fd = 0.46,
        .xfz = NAN,
        .strainer_kv_m3h = NAN,
        .price = given->price,
        .lead_days = NAN,
    };
    return valve;
}

/** Turns descriptions into a catalogue in @p arena; false without memory or on an impossible one. */
static inline bool scene_catalogue(const scene_valve *given, size_t count, qll_arena *arena,
                                   qll_catalogue *catalogue)
{
    qll_valve *valves = qll_arena_take(arena, count, sizeof *valves);
    qll_opening_law *laws = qll_arena_take(arena, count, sizeof *laws);
    if (valves == NULL || laws == NULL) {
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        valves[i] = scene_valve_make(&given[i]);
        if (qll_opening_law_make(&valves[i], arena, &laws[i]) != QLL_OK) {
            return false;
        }
    }
    *catalogue = (qll_catalogue){
        .name = "scene", .valves = valves, .laws = laws, .count = count, .invented = true};
    return true;
}

/** @p count valves over the sizes 1/2 to 6 in, each size in as many variants as it takes. */
static inline bool scene_catalogue_of(size_t count, qll_arena *arena, qll_catalogue *catalogue)
{
    static const double inches[] = {0.5, 0.75, 1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 6.0};
    static const double kv[] = {2.0, 3.6, 6.3, 9.5, 14.0, 23.0, 36.0, 52.0, 90.0, 200.0};
    static const double price[] = {110.0, 150.0,  210.0,  330.0,  450.0,
                                   690.0, 1150.0, 1700.0, 2800.0, 5200.0};
    scene_random random = {20240611};
    scene_valve *given = qll_arena_take(arena, count, sizeof *given);
    if (given == NULL) {
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        size_t size = i % 10;
        char *id = qll_arena_take(arena, 24, 1);
        if (id == NULL) {
            return false;
        }
        snprintf(id, 24, "V%03zu", i);
        bool high = (i / 10) % 2 == 1; /* every other variant has the stiff spring */
        given[i] = (scene_valve){.id = id,
                                 .inches = inches[size],
                                 .kv_m3h = kv[size] * scene_uniform(&random, 0.8, 1.2),
                                 .band_psi = scene_uniform(&random, 9.0, 20.0),
                                 .set_min_psi = high ? 40.0 : 20.0,
                                 .set_max_psi = high ? 160.0 : 110.0,
                                 .flow_min_gpm = kv[size] * scene_uniform(&random, 0.05, 0.2),
                                 .price = price[size] * scene_uniform(&random, 0.8, 1.25),
                                 .inlet_effect = (double)(i % 3) * 0.01};
    }
    return scene_catalogue(given, count, arena, catalogue);
}

/** A building: what comes in, what is wanted, and how much water, when. */
typedef struct scene {
    double static_low_psi, static_high_psi;
    double set_psi;
    double peak_gpm;    /* design peak */
    double typical_gpm; /* middle of the flows it sees */
    double spread;      /* of their logarithm */
    double idle_share;
    size_t class_count;
} scene;

enum {
    QLL_SCENE_STEPS = 60
};

/** Everything a search needs; the pointers reach into this struct, so it stays where it is. */
typedef struct scene_case {
    qll_site site;
    qll_duty duty;
    qll_point test[2];
    qll_outlet outlet;
    qll_point time[QLL_SCENE_STEPS], volume[QLL_SCENE_STEPS];
    qll_duty_scenario scenario;
} scene_case;

/* Flows spread about the typical one like a bell on a logarithmic scale, up to the peak. */
static inline void scene_flows(const scene *given, scene_case *made)
{
    double time = 0.0;
    double volume = 0.0;
    double least = given->peak_gpm * 1e-3;
    double step = pow(given->peak_gpm / least, 1.0 / (QLL_SCENE_STEPS - 1));
    for (size_t i = 0; i < QLL_SCENE_STEPS; i++) {
        double flow = least * pow(step, (double)i);
        double from_typical = log(flow / given->typical_gpm) / given->spread;
        double share = exp(-0.5 * from_typical * from_typical) + 1e-9;
        time += share;
        volume += share * flow;
        double flow_m3s = (i + 1 == QLL_SCENE_STEPS ? given->peak_gpm : flow) * TEST_GPM;
        made->time[i] = (qll_point){flow_m3s, time};
        made->volume[i] = (qll_point){flow_m3s, volume};
    }
    for (size_t i = 0; i < QLL_SCENE_STEPS; i++) {
        made->time[i].y = given->idle_share + (1.0 - given->idle_share) * made->time[i].y / time;
        made->volume[i].y /= volume;
    }
}

static inline bool scene_make(const scene *given, qll_arena *arena, scene_case *made)
{
    double middle = 0.5 * (given->static_low_psi + given->static_high_psi);
    made->test[0] = (qll_point){0.0, middle * TEST_PSI};
    made->test[1] = (qll_point){given->peak_gpm * TEST_GPM, (middle - 6.0) * TEST_PSI};
    made->outlet = (qll_outlet){.name = "top",
                                .elevation_m = 6.0,
                                .needs_pa_gauge = 15.0 * TEST_PSI,
                                .path = NULL,
                                .path_count = 0};
    size_t size_count = 0;
    const qll_pipe_size *const *sizes = scene_sizes(&size_count);
    double barometric_pa = 101325.0;
    made->site = (qll_site){
        .name = "scene",
        .water = qll_water_at(12.0, 5e5),
        .barometric_pa = barometric_pa,
        .supply = {.test = made->test,
                   .count = 2,
                   .static_high_pa_gauge = given->static_high_psi * TEST_PSI,
                   .static_low_pa_gauge = given->static_low_psi * TEST_PSI},
        .station_sizes = sizes,
        .station_size_count = size_count,
        .set_pa_gauge = given->set_psi * TEST_PSI,
        .static_max_pa_gauge = 80.0 * TEST_PSI,
        .outlets = &made->outlet,
        .outlet_count = 1,
        .limits = scene_limits(),
    };
    scene_flows(given, made);
    made->scenario = (qll_duty_scenario){.name = "scene",
                                         .peak_m3s = given->peak_gpm * TEST_GPM,
                                         .idle_share = given->idle_share,
                                         .weight = 1.0,
                                         .time_at_or_below = made->time,
                                         .volume_at_or_below = made->volume,
                                         .count = QLL_SCENE_STEPS};
    return qll_duty_make(&made->site, &made->scenario, 1, given->class_count, arena, &made->duty)
           == QLL_OK;
}

#endif
