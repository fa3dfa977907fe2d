/* An invented building that several tests of the station share: water, supply and pipes of which
 * the figures are round, so that results can be worked out by hand. */
#ifndef QUELL_TESTS_BUILDING_SCENE_H
#define QUELL_TESTS_BUILDING_SCENE_H

#include "limits_scene.h"
#include "station/verdict.h"
#include "station_scene.h"
#include "yardstick_scene.h"

#define TEST_SCENE_INCH 0.0254
#define TEST_SCENE_FPS  0.3048

/* Bores of ASTM B88 type L, inches. */
static const qll_pipe_size scene_sizes[] = {
    {.nominal = "3/4 in", .nominal_m = 0.75 * TEST_SCENE_INCH, .bore_m = 0.785 * TEST_SCENE_INCH},
    {.nominal = "1 in", .nominal_m = 1.00 * TEST_SCENE_INCH, .bore_m = 1.025 * TEST_SCENE_INCH},
    {.nominal = "1-1/4 in", .nominal_m = 1.25 * TEST_SCENE_INCH, .bore_m = 1.265 * TEST_SCENE_INCH},
    {.nominal = "1-1/2 in", .nominal_m = 1.50 * TEST_SCENE_INCH, .bore_m = 1.505 * TEST_SCENE_INCH},
    {.nominal = "2 in", .nominal_m = 2.00 * TEST_SCENE_INCH, .bore_m = 1.985 * TEST_SCENE_INCH},
};

#define TEST_SCENE_SIZES (sizeof scene_sizes / sizeof *scene_sizes)

/* A supply that stands at one pressure whatever flows. */
static inline qll_site scene_site(const qll_pipe_size **sizes, const qll_point *still)
{
    for (size_t i = 0; i < TEST_SCENE_SIZES; i++) {
        sizes[i] = &scene_sizes[i];
    }
    return (qll_site){.name = "scene",
                      .water = scene_water(),
                      .barometric_pa = TEST_SCENE_ATM,
                      .supply = {.test = still,
                                 .count = 1,
                                 .static_high_pa_gauge = still->y,
                                 .static_low_pa_gauge = still->y},
                      .station_sizes = sizes,
                      .station_size_count = TEST_SCENE_SIZES,
                      .set_pa_gauge = 60.0 * TEST_SCENE_PSI,
                      .static_max_pa_gauge = 80.0 * TEST_SCENE_PSI,
                      .limits = scene_limits()};
}

/* Flows and the shares of all time spent at each; the rest is idle. */
typedef struct scene_demand {
    qll_point time[8], volume[8];
    qll_duty_scenario scenario;
} scene_demand;

static inline void scene_demand_make(scene_demand *made, double peak_m3s, const double *flows_m3s,
                                     const double *shares, size_t count)
{
    double busy = 0.0;
    double mean = 0.0;
    for (size_t i = 0; i < count; i++) {
        busy += shares[i];
        mean += shares[i] * flows_m3s[i];
    }
    double time = 1.0 - busy;
    double volume = 0.0;
    made->time[0] = (qll_point){0.0, time};
    made->volume[0] = (qll_point){0.0, 0.0};
    for (size_t i = 0; i < count; i++) {
        time += shares[i];
        volume += shares[i] * flows_m3s[i] / mean;
        made->time[i + 1] = (qll_point){flows_m3s[i], time};
        made->volume[i + 1] = (qll_point){flows_m3s[i], volume};
    }
    made->scenario = (qll_duty_scenario){.name = "scene",
                                         .peak_m3s = peak_m3s,
                                         .idle_share = 1.0 - busy,
                                         .weight = 1.0,
                                         .time_at_or_below = made->time,
                                         .volume_at_or_below = made->volume,
                                         .count = count + 1};
}

static inline const qll_verdict *scene_verdict(const qll_assessment *assessment, qll_rule rule)
{
    for (size_t i = 0; i < assessment->verdict_count; i++) {
        if (assessment->verdicts[i].rule == rule) {
            return &assessment->verdicts[i];
        }
    }
    return NULL;
}

#endif
