/* A building and a handful of valves without quirks, for scenes of the search in which one thing decides. */
#ifndef QUELL_TESTS_FEW_VALVES_H
#define QUELL_TESTS_FEW_VALVES_H

#include "check.h"
#include "search_scene.h"
#include "station/connection.h"

#define TEST_FEW_ARENA ((size_t)1 << 29)

/** A building with a catalogue; points into itself. */
typedef struct few_case {
    qll_arena *arena;
    scene given;
    scene_case made;
    qll_valve valves[8];
    qll_opening_law laws[8];
    qll_catalogue catalogue;
    qll_search_options options;
    qll_search_result found;
} few_case;

/* A house on 110 psi that wants 60, with a pipe of 1 in. */
static inline scene few_house(void)
{
    return (scene){.static_low_psi = 100.0,
                   .static_high_psi = 110.0,
                   .set_psi = 60.0,
                   .peak_gpm = 14.0,
                   .typical_share = 0.1,
                   .spread = 0.8,
                   .idle_share = 0.7,
                   .drop_psi = 3.0,
                   .pipe = 2,
                   .class_count = 12,
                   .people = QLL_PEOPLE_NEXT_ROOM,
                   .needs_psi = NAN,
                   .falloff_share = 0.2};
}

static inline void few_open(few_case *at, const scene *given)
{
    memset(at, 0, sizeof *at);
    at->arena = qll_arena_open(TEST_FEW_ARENA);
    at->given = *given;
    at->options = qll_search_options_default();
    CHECK(scene_make(&at->given, at->arena, &at->made));
    at->catalogue = (qll_catalogue){.name = "few", .valves = at->valves, .laws = at->laws};
}

/* A direct-acting valve of @p size with no quirks: 10 psi of fall-off over its whole travel. */
static inline qll_valve *few_add(few_case *at, const char *id, size_t size, double kv_m3h)
{
    qll_valve *valve = &at->valves[at->catalogue.count];
    *valve = (qll_valve){.id = id,
                         .nominal_m = varied_sizes[size].inches * TEST_VARIED_INCH,
                         .acting = QLL_ACTING_DIRECT,
                         .kv_m3h = kv_m3h,
                         .inlet_max_pa_gauge = 400.0 * TEST_VARIED_PSI,
                         .set_min_pa_gauge = 20.0 * TEST_VARIED_PSI,
                         .set_max_pa_gauge = 300.0 * TEST_VARIED_PSI,
                         .temperature_max_degc = NAN,
                         .lockup_rise_pa = 2.0 * TEST_VARIED_PSI,
                         .inlet_effect = 0.01,
                         .flow_min_m3s = NAN,
                         .hysteresis_pa = 1.0 * TEST_VARIED_PSI,
                         .band_pa = NAN,
                         .fl = 0.9,
                         .fd = NAN,
                         .xfz = NAN,
                         .seat_bore_m = NAN,
                         .strainer_kv_m3h = NAN,
                         .price = varied_sizes[size].direct_price,
                         .lead_days = NAN};
    CHECK(varied_falloff(valve, 0.7, at->arena));
    qll_valve_fill_defaults(valve);
    CHECK(qll_opening_law_make(valve, at->arena, &at->laws[at->catalogue.count]) == QLL_OK);
    at->catalogue.count += 1;
    return valve;
}

static inline bool few_search(few_case *at)
{
    return CHECK(
               qll_search(&at->made.yardstick, &at->catalogue, &at->options, at->arena, &at->found)
               == QLL_OK)
           && CHECK(at->found.kind_count > 0);
}

static inline void few_print(const few_case *at)
{
    const qll_candidate *best = &at->found.kinds[0];
    printf("    fit %d, %.2f:", at->found.is_fit, best->cost.expected);
    for (size_t k = 0; k < best->station.stage_count; k++) {
        for (size_t j = 0; j < best->station.stages[k].branch_count; j++) {
            const qll_branch *branch = &best->station.stages[k].branches[j];
            printf("%s%s@%.1f", j > 0 ? " + " : " / ", branch->valve->id,
                   branch->set_pa_gauge / TEST_VARIED_PSI);
        }
    }
    for (size_t r = 0; r < QLL_PRACTICE_COUNT; r++) {
        if (best->fitness.breach[r] > 0.0) {
            printf("; %s %.3g", qll_practice_words[r], best->fitness.breach[r]);
        }
    }
    printf("\n");
}

/** Duty and yardstick again, after the site was changed. */
static inline void few_remake(few_case *at)
{
    scene_case *made = &at->made;
    CHECK(qll_duty_make(&made->site, &made->scenario, 1, at->given.class_count, at->arena,
                        &made->duty)
          == QLL_OK);
    CHECK(scene_yardstick(&made->site, &made->duty, at->arena, &made->yardstick));
}

/** Valve @p index connected here and set. */
static inline qll_branch few_branch(few_case *at, size_t index, double set_pa_gauge)
{
    qll_branch branch = {.valve = &at->valves[index], .law = &at->laws[index]};
    CHECK(qll_branch_connect(&at->made.site, at->arena, &branch) == QLL_OK);
    branch.set_pa_gauge = set_pa_gauge;
    return branch;
}

/** The gauge inlet at which a first stage is set: the middle of the supply. */
static inline double few_set_inlet_pa_gauge(const few_case *at)
{
    return at->made.duty.inlet_static_pa[QLL_SUPPLY_LEVELS / 2] - at->made.site.barometric_pa;
}

static inline size_t few_most_branches(const qll_station *station)
{
    size_t most = 0;
    for (size_t k = 0; k < station->stage_count; k++) {
        size_t count = station->stages[k].branch_count;
        most = count > most ? count : most;
    }
    return most;
}

#endif
