/* Time of a full search (all singles, pairs and triples in one stage, all pairs in two) against the
 * number of valves, on made-up catalogues and two made-up buildings. Prints one CSV row each. */
#include "bench_scenes.h"

static bool run_one(const named_scene *of, size_t valve_count, double *seconds)
{
    qll_arena *arena = qll_arena_open((size_t)1024 * 1024 * 1024);
    scene_case made;
    qll_catalogue catalogue;
    qll_design design;
    qll_search_options options = qll_search_options_default();
    bool is_done =
        scene_make(&of->given, arena, &made) && scene_catalogue_of(valve_count, arena, &catalogue);
    double from = seconds_now();
    is_done = is_done
              && qll_search(&made.site, &made.duty, &catalogue, &options, arena, &design) == QLL_OK;
    *seconds = seconds_now() - from;
    if (is_done) {
        printf("%s,%zu,%.3f,%zu,%zu,%zu,%zu,%.1f\n", of->name, valve_count, *seconds,
               design.counts.arrangements, design.counts.beaten, design.counts.scored,
               design.counts.front, (double)qll_arena_size(arena) / 1048576.0);
    }
    qll_arena_close(arena);
    return is_done;
}

int main(void)
{
    static const size_t counts[] = {10, 20, 40, 80};
    printf("building,valves,seconds,arrangements,beaten,scored,front,arena_mib\n");
    for (size_t i = 0; i < sizeof named_scenes / sizeof named_scenes[0]; i++) {
        double before = 0.0;
        for (size_t k = 0; k < sizeof counts / sizeof counts[0]; k++) {
            double seconds = 0.0;
            if (!run_one(&named_scenes[i], counts[k], &seconds)) {
                printf("%s,%zu: failed\n", named_scenes[i].name, counts[k]);
                return 1;
            }
            if (k > 0) {
                printf("# growth exponent %zu to %zu valves: %.2f\n", counts[k - 1], counts[k],
                       log(seconds / before) / log((double)counts[k] / (double)counts[k - 1]));
            }
            before = seconds;
        }
    }
    return 0;
}
