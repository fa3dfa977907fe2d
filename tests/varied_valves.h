/* Made-up catalogues of any length for the laws and the benchmark of the search: ordinary proportions, each
 * figure varied. No valve here is anybody's. */
#ifndef QUELL_TESTS_VARIED_VALVES_H
#define QUELL_TESTS_VARIED_VALVES_H

#include "base/random.h"
#include "search/search.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define TEST_VARIED_PSI   6894.757293168361
#define TEST_VARIED_INCH  0.0254
#define TEST_VARIED_GPM   (3.785411784e-3 / 60.0)
#define TEST_VARIED_SIZES 10

static inline double varied_between(qll_random *random, double low, double high)
{
    return low + (high - low) * qll_random_unit(random);
}

/* What is ordinary by size; from memory. */
typedef struct varied_size {
    double inches;
    double direct_kv, pilot_kv;
    double direct_price, pilot_price;
    double inlet_effect; /* direct-acting */
} varied_size;

static const varied_size varied_sizes[TEST_VARIED_SIZES] = {
    {0.50, 1.2, 0.0, 115.0, 0.0, 0.060},        {0.75, 2.1, 0.0, 160.0, 0.0, 0.055},
    {1.00, 3.3, 0.0, 230.0, 0.0, 0.050},        {1.25, 5.3, 0.0, 420.0, 0.0, 0.040},
    {1.50, 8.4, 27.0, 560.0, 2100.0, 0.035},    {2.00, 13.0, 43.0, 900.0, 2400.0, 0.030},
    {2.50, 22.0, 62.0, 1700.0, 2900.0, 0.030},  {3.00, 34.0, 100.0, 2450.0, 3500.0, 0.025},
    {4.00, 58.0, 170.0, 4000.0, 4600.0, 0.020}, {6.00, 130.0, 390.0, 8000.0, 6500.0, 0.020},
};

/* Its fall-off at shares of its full Kv, with 100 psi before and 50 psi behind; false without memory. */
static inline bool varied_falloff(qll_valve *valve, double stiffness, qll_arena *arena)
{
    static const double shares[] = {0.08, 0.20, 0.34, 0.50, 0.68};
    static const double direct_psi[] = {3.0, 5.5, 8.5, 11.5, 14.5};
    static const double pilot_psi[] = {0.5, 1.0, 1.7, 2.4, 3.2};
    const size_t count = sizeof shares / sizeof *shares;
    qll_point *points = qll_arena_take(arena, count, sizeof *points);
    for (size_t i = 0; i < count && points != NULL; i++) {
        bool pilot = valve->acting == QLL_ACTING_PILOT;
        double falloff_pa = stiffness * (pilot ? pilot_psi : direct_psi)[i] * TEST_VARIED_PSI;
        double drop_pa = 50.0 * TEST_VARIED_PSI + falloff_pa;
        points[i] = (qll_point){.x = shares[i] * valve->kv_m3h * sqrt(drop_pa / 1e5) / 3600.0,
                                .y = falloff_pa};
    }
    valve->sheet_inlet_pa_gauge = 100.0 * TEST_VARIED_PSI;
    valve->sheet_set_pa_gauge = 50.0 * TEST_VARIED_PSI;
    valve->falloff_points = points;
    valve->falloff_count = count;
    valve->band_pa = NAN;
    return points != NULL;
}

static inline void varied_set_range(qll_valve *valve, size_t which)
{
    static const double ranges_psi[3][2] = {{25.0, 75.0}, {75.0, 150.0}, {30.0, 150.0}};
    const double *range = ranges_psi[valve->acting == QLL_ACTING_PILOT ? 2 : which % 3];
    valve->set_min_pa_gauge = range[0] * TEST_VARIED_PSI;
    valve->set_max_pa_gauge = range[1] * TEST_VARIED_PSI;
}

/** One valve of size @p size (0 to TEST_VARIED_SIZES - 1), varied by @p random; false without memory. */
static inline bool varied_valve(qll_random *random, size_t size, size_t number, qll_arena *arena,
                                qll_valve *valve, qll_opening_law *law)
{
    const varied_size *of = &varied_sizes[size];
    bool pilot = of->pilot_kv > 0.0 && qll_random_unit(random) < 0.25;
    double kv_m3h = (pilot ? of->pilot_kv : of->direct_kv) * varied_between(random, 0.75, 1.3);
    double price = (pilot ? of->pilot_price : of->direct_price) * varied_between(random, 0.8, 1.3);
    double effect = (pilot ? 0.01 : of->inlet_effect) * varied_between(random, 0.5, 1.5);
    char *id = qll_arena_take(arena, 24, 1);
    if (id == NULL) {
        return false;
    }
    (void)snprintf(id, 24, "V%05zu", number);
    *valve = (qll_valve){
        .id = id,
        .nominal_m = of->inches * TEST_VARIED_INCH,
        .acting = pilot ? QLL_ACTING_PILOT : QLL_ACTING_DIRECT,
        .kv_m3h = kv_m3h,
        .inlet_max_pa_gauge =
            qll_random_unit(random) < 0.2 ? 200.0 * TEST_VARIED_PSI : 400.0 * TEST_VARIED_PSI,
        .temperature_max_degc = NAN,
        .lockup_rise_pa = varied_between(random, 1.0, 4.0) * TEST_VARIED_PSI,
        .inlet_effect = effect,
        .flow_min_m3s = number % 2 == 0
                            ? (double)NAN
                            : kv_m3h * varied_between(random, 0.15, 0.4) * TEST_VARIED_GPM,
        .hysteresis_pa = varied_between(random, 0.4, 1.8) * TEST_VARIED_PSI,
        .fl = varied_between(random, 0.84, 0.92),
        .fd = NAN,
        .xfz = NAN,
        .seat_bore_m = NAN,
        .strainer_kv_m3h = NAN,
        .price = floor(price),
        .lead_days = NAN,
    };
    double stiffness = varied_between(random, 0.7, 1.2);
    varied_set_range(valve, (size_t)(3.0 * qll_random_unit(random)));
    if (!varied_falloff(valve, stiffness, arena)) {
        return false;
    }
    qll_valve_fill_defaults(valve);
    return qll_opening_law_make(valve, arena, law) == QLL_OK;
}

/** @p count valves of sizes @p least to @p most in turn; false without memory. */
static inline bool varied_catalogue(uint64_t seed, size_t count, size_t least, size_t most,
                                    qll_arena *arena, qll_catalogue *made)
{
    qll_random random = qll_random_seeded(seed);
    qll_valve *valves = qll_arena_take(arena, count, sizeof *valves);
    qll_opening_law *laws = qll_arena_take(arena, count, sizeof *laws);
    bool holds = valves != NULL && laws != NULL;
    for (size_t i = 0; i < count && holds; i++) {
        holds =
            varied_valve(&random, least + i % (most - least + 1), i, arena, &valves[i], &laws[i]);
    }
    *made = (qll_catalogue){
        .name = "varied", .valves = valves, .laws = laws, .count = count, .invented = true};
    return holds;
}

#endif
