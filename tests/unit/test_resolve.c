/* What coarse readings hide: what must hold whatever the log says (docs/theory/metered.md). */
#include "check.h"
#include "demand/resolve.h"

typedef struct scene {
    qll_arena *arena;
    qll_metered_peak peak;
    qll_duration_point point;
    qll_metered log;
    qll_scenario scenario;
} scene;

static scene *scene_of(double interval_s, double peak_m3s, double mean_m3s)
{
    static scene at;
    at = (scene){.arena = qll_arena_open((size_t)64 << 20),
                 .peak = {interval_s, peak_m3s},
                 .point = {peak_m3s, 1.0, 1.0}};
    at.log = (qll_metered){.name = "log",
                           .duration = {&at.point, 1, 0.0, mean_m3s},
                           .peaks = &at.peak,
                           .peak_count = 1,
                           .interval_s = interval_s,
                           .seed = 1,
                           .time_s = 86400.0,
                           .night_least_m3s = (double)NAN};
    at.scenario = (qll_scenario){.name = "scene",
                                 .use = QLL_USE_APARTMENT,
                                 .homes = (double)NAN,
                                 .peak_method = QLL_PEAK_METHOD_COUNT,
                                 .peak_given_m3s = (double)NAN,
                                 .quantile = 0.99,
                                 .metered = &at.log};
    CHECK(qll_scenario_fault(&at.scenario).id == QLL_TEXT_NONE);
    return &at;
}

static qll_resolved resolve(scene *at)
{
    qll_resolved resolved;
    CHECK(qll_resolve(&at->scenario, at->arena, &resolved) == QLL_OK);
    qll_arena_close(at->arena);
    return resolved;
}

TEST(a_log_of_seconds_is_left_as_it_is)
{
    static const double intervals_s[] = {1.0, 4.0, 10.0};
    for (size_t i = 0; i < 3; i++) {
        qll_resolved found = resolve(scene_of(intervals_s[i], 3e-4, 5e-5));
        CHECK(found.factor == 1.0 && found.days == 0);
    }
}

TEST(longer_intervals_hide_more)
{
    static const double intervals_s[] = {30.0, 300.0, 900.0, 3600.0};
    double before = 1.0;
    for (size_t i = 0; i < 4; i++) {
        qll_resolved found = resolve(scene_of(intervals_s[i], 3e-4, 5e-5));
        CHECK(found.factor > before);
        before = found.factor;
    }
}

TEST(a_large_building_hides_little)
{
    qll_resolved small = resolve(scene_of(900.0, 3e-4, 5e-5));
    qll_resolved large = resolve(scene_of(900.0, 3e-2, 1e-2));
    CHECK(small.people < large.people);
    CHECK(large.factor < 1.4 && large.factor > 1.0);
    CHECK(small.factor > 2.0);
    /* Days until a million uses, 3 to 40; a person of the dwelling set has 26.65 uses a day (data/enduse.csv:
     * 5 + 0.7 + 0.05 + 10 + 10 + 0.6 + 0.3). */
    CHECK(small.days == 40);
    CHECK(large.days == (size_t)fmax(1e6 / (26.65 * large.people), 3.0) && large.days < 40);
}

/* A flushometer draws 1.514 L/s (data/enduse.csv), however little the quarter of an hour shows. */
TEST(flushometers_show_their_own_flow)
{
    scene *at = scene_of(900.0, 2e-4, 3e-5);
    at->scenario.use = QLL_USE_OFFICE;
    qll_resolved found = resolve(at);
    CHECK(found.factor * 2e-4 > 1.514e-3);
}

TEST(what_never_stops_hides_nothing)
{
    scene *at = scene_of(900.0, 3e-4, 3e-4);
    at->log.night_least_m3s = 3e-4;
    qll_resolved found = resolve(at);
    CHECK(found.factor == 1.0 && found.people == 0.0);
    at = scene_of(900.0, 3e-4, 2e-4);
    double without = resolve(at).factor;
    at = scene_of(900.0, 3e-4, 2e-4);
    at->log.night_least_m3s = 1e-4;
    CHECK(resolve(at).factor < without);
}

TEST(odd_logs_have_an_answer)
{
    static const double peaks_m3s[] = {0.0, 1e-12, 1e-7, 5.0};
    static const double intervals_s[] = {61.0, 419.3, 86400.0};
    for (size_t i = 0; i < 4; i++) {
        qll_resolved found = resolve(scene_of(intervals_s[i % 3], peaks_m3s[i], 1e-12));
        CHECK(isfinite(found.factor) && found.factor >= 1.0);
    }
}

TEST(every_failed_allocation_is_reported)
{
    scene *at = scene_of(900.0, 3e-3, 1e-3);
    qll_resolved whole;
    CHECK(qll_resolve(&at->scenario, at->arena, &whole) == QLL_OK);
    size_t count = qll_arena_count(at->arena);
    size_t said = 0;
    for (size_t n = 1; n <= count; n += count / 20 + 1) {
        qll_resolved found;
        qll_arena_fail(at->arena, n, true);
        said += qll_resolve(&at->scenario, at->arena, &found) == QLL_NO_MEMORY ? 1U : 0U;
        qll_arena_fail(at->arena, 0, false);
    }
    CHECK(said == (count - 1) / (count / 20 + 1) + 1);
    qll_arena_close(at->arena);
}

int main(void)
{
    TEST_RUN(a_log_of_seconds_is_left_as_it_is);
    TEST_RUN(longer_intervals_hide_more);
    TEST_RUN(a_large_building_hides_little);
    TEST_RUN(flushometers_show_their_own_flow);
    TEST_RUN(what_never_stops_hides_nothing);
    TEST_RUN(odd_logs_have_an_answer);
    TEST_RUN(every_failed_allocation_is_reported);
    return TEST_END();
}
