/* One search of a made-up building with a made-up catalogue, ready to be looked at. */
#ifndef QUELL_TESTS_SEARCH_CASE_H
#define QUELL_TESTS_SEARCH_CASE_H

#include "check.h"
#include "search_scene.h"

#define TEST_ARENA_CEILING ((size_t)512 * 1024 * 1024)

/* Sizes and coefficients of the order that reducing valves have; prices made up. */
static const scene_valve six[] = {
    {"half", 0.5, 2.0, 15.0, 20.0, 110.0, 0.3, 110.0, 0.01},
    {"three-quarter", 0.75, 3.6, 14.0, 20.0, 110.0, 0.5, 150.0, 0.01},
    {"one", 1.0, 6.3, 14.0, 20.0, 160.0, 0.9, 210.0, 0.01},
    {"inch-and-half", 1.5, 14.0, 13.0, 20.0, 110.0, 2.0, 450.0, 0.01},
    {"two", 2.0, 23.0, 12.0, 20.0, 160.0, 4.0, 690.0, 0.01},
    {"three", 3.0, 52.0, 12.0, 20.0, 110.0, 9.0, 1700.0, 0.01},
};
#define TEST_SIX (sizeof six / sizeof six[0])

/** Everything of one search. */
typedef struct searched {
    qll_arena *arena;
    scene_case made;
    qll_catalogue catalogue;
    qll_design design;
    bool is_done;
} searched;

static inline qll_search_options options_of(size_t stages_max, size_t branches_max)
{
    qll_search_options options = qll_search_options_default();
    options.stages_max = stages_max;
    options.branches_max = branches_max;
    return options;
}

static inline void search_scene(const scene *given, const scene_valve *valves, size_t count,
                                const qll_search_options *options, searched *result)
{
    result->arena = qll_arena_open(TEST_ARENA_CEILING);
    result->is_done =
        CHECK(scene_make(given, result->arena, &result->made))
        && CHECK(scene_catalogue(valves, count, result->arena, &result->catalogue))
        && CHECK(qll_search(&result->made.site, &result->made.duty, &result->catalogue, options,
                            result->arena, &result->design)
                 == QLL_OK);
}

/** The name by which stations are told apart: ids and set-points in hundredths of a psi. */
static inline void name_of(const qll_station *station, char name[256])
{
    size_t used = 0;
    name[0] = '\0';
    for (size_t i = 0; i < station->stage_count; i++) {
        for (size_t k = 0; k < station->stages[i].branch_count && used < 256; k++) {
            const qll_branch *branch = &station->stages[i].branches[k];
            int more = snprintf(name + used, 256 - used, "%s%s@%.2f", k > 0 ? "+" : " / ",
                                branch->valve->id, branch->set_pa_gauge / TEST_PSI);
            used += (size_t)more;
        }
    }
}

#endif
