#include "check.h"
#include "demand/scenario.h"
#include "said.h"

/* A scenario without a fault, and a log without one. */
typedef struct scene {
    qll_fixture_kind kind;
    qll_fixture_load load;
    qll_continuous flow;
    qll_duration_point points[2];
    qll_metered_peak peaks[2];
    qll_metered log;
    qll_scenario scenario;
} scene;

static scene *scene_of(void)
{
    static scene at;
    at = (scene){.kind = {.word = "shower"},
                 .load = {.kind = &at.kind, .count = 3, .flow_m3s = NAN, .use_probability = NAN},
                 .flow = {.name = "tower", .flow_m3s = 1e-4, .from_s = 0.0, .to_s = 3600.0},
                 .points = {{0.0, 0.5, 0.0}, {1e-3, 1.0, 1.0}},
                 .peaks = {{60.0, 1e-3}, {300.0, 8e-4}}};
    at.log = (qll_metered){.name = "log",
                           .duration = {at.points, 2, 0.5, 5e-4},
                           .peaks = at.peaks,
                           .peak_count = 2,
                           .interval_s = 60.0,
                           .time_s = 86400.0,
                           .night_least_m3s = NAN};
    at.scenario = (qll_scenario){.name = "scene",
                                 .use = QLL_USE_APARTMENT,
                                 .people = 10.0,
                                 .homes = NAN,
                                 .loads = &at.load,
                                 .load_count = 1,
                                 .continuous = &at.flow,
                                 .continuous_count = 1,
                                 .weight = 1.0,
                                 .peak_method = QLL_PEAK_METHOD_COUNT,
                                 .peak_given_m3s = NAN,
                                 .quantile = 0.99,
                                 .metered = &at.log};
    return &at;
}

static bool is_faulty(const scene *at)
{
    return qll_scenario_fault(&at->scenario).id != QLL_TEXT_NONE;
}

TEST(a_good_scenario_has_no_fault)
{
    scene *at = scene_of();
    CHECK(!is_faulty(at));
    at->scenario.metered = NULL;
    at->scenario.people = QLL_PEOPLE_MAX;
    at->scenario.homes = 0.0;
    at->load.count = QLL_FIXTURE_COUNT_MAX;
    at->load.use_probability = 1.0;
    at->flow.from_s = 86400.0;
    at->scenario.break_share = 1.0;
    at->scenario.break_s = 3600.0;
    at->scenario.rate_cv = 2.0;
    at->scenario.day_volume_m3 = 10.0;
    at->scenario.outlet_pa_gauge = 4e5;
    at->scenario.reference_pa_gauge = 300.0 * 6894.757293168361;
    CHECK(!is_faulty(at));
}

/* One figure after the other out of its range, or no number. */
#define CHECK_FAULT(name, member, bad)                                        \
    do {                                                                      \
        scene *at = scene_of();                                               \
        at->member = (bad);                                                   \
        CHECK(qll_scenario_fault(&at->scenario).id == QLL_TEXT_FAULT_##name); \
    } while (0)

TEST(every_figure_of_a_scenario_has_its_range)
{
    CHECK_FAULT(PEOPLE, scenario.people, -1.0);
    CHECK_FAULT(PEOPLE, scenario.people, 1.1 * QLL_PEOPLE_MAX);
    CHECK_FAULT(PEOPLE, scenario.people, NAN);
    CHECK_FAULT(PEOPLE, scenario.homes, -1.0);
    CHECK_FAULT(QUANTILE, scenario.quantile, 0.0);
    CHECK_FAULT(QUANTILE, scenario.quantile, 1.0);
    CHECK_FAULT(QUANTILE, scenario.quantile, NAN);
    CHECK_FAULT(FIXTURES, load.count, QLL_FIXTURE_COUNT_MAX + 1);
    CHECK_FAULT(FIXTURE_FLOW, load.flow_m3s, 0.0);
    CHECK_FAULT(FIXTURE_FLOW, load.flow_m3s, INFINITY);
    CHECK_FAULT(PROBABILITY, load.use_probability, -0.1);
    CHECK_FAULT(PROBABILITY, load.use_probability, 1.1);
    CHECK_FAULT(CONTINUOUS, flow.flow_m3s, -1e-9);
    CHECK_FAULT(CONTINUOUS, flow.flow_m3s, NAN);
    CHECK_FAULT(CONTINUOUS, flow.from_s, -1.0);
    CHECK_FAULT(CONTINUOUS, flow.to_s, 86401.0);
    CHECK_FAULT(DAY, scenario.day, QLL_DAY_KIND_COUNT);
    CHECK_FAULT(DAY_VOLUME, scenario.day_volume_m3, 10.1);
    CHECK_FAULT(RATES, scenario.rate_cv, 2.1);
    CHECK_FAULT(RATES, scenario.rate_cv, NAN);
    CHECK_FAULT(BREAK, scenario.break_share, 0.5); /* of a break that lasts nothing */
    CHECK_FAULT(BREAK, scenario.break_s, 59.0);
    CHECK_FAULT(BREAK, scenario.break_s, 3601.0);
    CHECK_FAULT(OUTLETS, scenario.outlet_pa_gauge, 6000.0);
    CHECK_FAULT(OUTLETS, scenario.reference_pa_gauge, 2.2e6);
}

TEST(every_figure_of_a_log_has_its_range)
{
    CHECK_FAULT(DURATION, points[0].flow_m3s, -1e-6);
    CHECK_FAULT(DURATION, points[1].flow_m3s, INFINITY);
    CHECK_FAULT(DURATION, points[0].flow_m3s, 2e-3);
    CHECK_FAULT(DURATION, points[0].time_share, 1.1);
    CHECK_FAULT(DURATION, points[1].time_share, 0.4);
    CHECK_FAULT(DURATION, points[1].time_share, 0.9); /* the last is 1 */
    CHECK_FAULT(DURATION, points[1].volume_share, NAN);
    CHECK_FAULT(DURATION, log.duration.count, 0);
    CHECK_FAULT(DURATION, log.duration.mean_m3s, NAN);
    CHECK_FAULT(DURATION, log.duration.idle_share, -0.1);
    CHECK_FAULT(READINGS, log.peak_count, 0);
    CHECK_FAULT(READINGS, log.interval_s, -1.0);
    CHECK_FAULT(READINGS, log.time_s, NAN);
    CHECK_FAULT(LOG_PEAKS, peaks[0].averaging_s, 0.0);
    CHECK_FAULT(LOG_PEAKS, peaks[1].averaging_s, 60.0);
    CHECK_FAULT(LOG_PEAKS, peaks[1].flow_m3s, -1e-6);
    CHECK_FAULT(LOG_PEAKS, peaks[0].flow_m3s, INFINITY);
}

/* The limits as a reader's own units have them; nothing else says them, since surveys are checked before. */
TEST(limits_are_said_in_units)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 20);
    scene *at = scene_of();
    at->scenario.day_volume_m3 = 11.0;
    const qll_said volume = qll_scenario_fault(&at->scenario);
    CHECK_TEXT(said_text(arena, &volume), "a person's water is at most 2642 gal a day");
    at = scene_of();
    at->scenario.outlet_pa_gauge = 3e6;
    const qll_said pressure = qll_scenario_fault(&at->scenario);
    CHECK_TEXT(said_text(arena, &pressure), "pressures at outlets lie between 1 psi and 300 psi");
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(a_good_scenario_has_no_fault);
    TEST_RUN(every_figure_of_a_scenario_has_its_range);
    TEST_RUN(every_figure_of_a_log_has_its_range);
    TEST_RUN(limits_are_said_in_units);
    return TEST_END();
}
