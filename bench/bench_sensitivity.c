/* Draws of a recommended station in a second, on made-up catalogues and buildings. Prints one CSV row
 * each. */
#include "bench_scenes.h"
#include "search/sensitivity.h"

enum {
    QLL_DRAWS = 10000
};

enum {
    QLL_SIZES_MOST = 16
};

/* The pipes of the scene with their walls, so that noise is figured too: ASTM B88 type L, one wall
 * for all (2 in: 0.070 in). */
static void add_walls(qll_site *site, qll_pipe_size *sizes, const qll_pipe_size **pointers)
{
    for (size_t i = 0; i < site->station_size_count && i < QLL_SIZES_MOST; i++) {
        sizes[i] = *site->station_sizes[i];
        sizes[i].wall_m = 0.070 * TEST_IN;
        sizes[i].material = "copper";
        pointers[i] = &sizes[i];
    }
    site->station_sizes = pointers;
}

enum {
    QLL_ASSESSMENTS = 200
};

/* One full assessment (all verdicts, levels and shares) for each operating point it looks at: the
 * duty, two corners for each scenario, and no flow. */
static bool time_assessment(const qll_candidate *candidate, const scene_case *made,
                            qll_arena *arena)
{
    double from = seconds_now();
    for (int i = 0; i < QLL_ASSESSMENTS; i++) {
        qll_arena_mark mark = qll_arena_now(arena);
        qll_assessment assessment;
        if (qll_station_assess(&candidate->station, &made->site, &made->duty, arena, &assessment)
            != QLL_OK) {
            return false;
        }
        qll_arena_reset(arena, mark);
    }
    size_t points =
        made->duty.flow_count * made->duty.supply_count + 2 * made->duty.scenario_count + 1;
    printf("# full evaluation %.2f us for each of %zu operating points\n",
           (seconds_now() - from) * 1e6 / QLL_ASSESSMENTS / (double)points, points);
    return true;
}

static bool run_one(const named_scene *of)
{
    qll_arena *arena = qll_arena_open((size_t)1024 * 1024 * 1024);
    scene_case made;
    qll_catalogue catalogue;
    qll_design design;
    qll_drawing *drawing = NULL;
    qll_sensitivity found;
    qll_search_options options = qll_search_options_default();
    const qll_uncertainty uncertainty = qll_uncertainty_default();
    qll_pipe_size sizes[QLL_SIZES_MOST];
    const qll_pipe_size *pointers[QLL_SIZES_MOST];
    scene given = of->given;
    given.class_count = 48; /* as a survey's */
    bool is_done = scene_make(&given, arena, &made) && scene_catalogue_of(20, arena, &catalogue);
    if (is_done) {
        add_walls(&made.site, sizes, pointers);
    }
    is_done = is_done
              && qll_search(&made.site, &made.duty, &catalogue, &options, arena, &design) == QLL_OK
              && design.count > 0;
    double from = seconds_now();
    is_done =
        is_done
        && qll_drawing_make(&made.site, &made.duty, &uncertainty, 1, arena, &drawing) == QLL_OK
        && qll_sensitivity_of(drawing, &design.candidates[0].station,
                              &design.candidates[0].assessment, QLL_DRAWS, arena, &found)
               == QLL_OK;
    double seconds = seconds_now() - from;
    if (is_done) {
        printf("%s,%zu,%zu,%d,%.3f\n", of->name, design.candidates[0].station.stage_count,
               design.candidates[0].part_count, QLL_DRAWS, seconds);
        const qll_assessment *assessed = &design.candidates[0].assessment;
        for (size_t i = 0; i < assessed->verdict_count; i++) {
            const qll_verdict *verdict = &assessed->verdicts[i];
            printf("# %s %s holds in %.4f\n", qll_rule_words[verdict->rule],
                   qll_grade_words[verdict->grade], found.holds_share[verdict->rule]);
        }
        is_done = time_assessment(&design.candidates[0], &made, arena);
    }
    qll_arena_close(arena);
    return is_done;
}

int main(void)
{
    printf("building,stages,valves,draws,seconds\n");
    for (size_t i = 0; i < sizeof named_scenes / sizeof named_scenes[0]; i++) {
        if (!run_one(&named_scenes[i])) {
            printf("%s: failed\n", named_scenes[i].name);
            return 1;
        }
    }
    return 0;
}
