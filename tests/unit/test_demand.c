#include "base/customary.h"
#include "check.h"
#include "demand/demand.h"
#include "demand_says.h"

#define TEST_CEILING ((size_t)64 << 20)
#define TEST_LOADS   4

/* Forty flats as a survey would have them, changed by each test. */
typedef struct scene {
    qll_arena *arena;
    qll_fixture_table kinds;
    qll_fixture_load loads[TEST_LOADS];
    qll_scenario scenario;
    qll_demand demand;
} scene;

static void load(scene *at, size_t index, const char *word, size_t count)
{
    at->loads[index] = (qll_fixture_load){.kind = qll_fixture_find(&at->kinds, qll_text_of(word)),
                                          .count = count,
                                          .flow_m3s = NAN,
                                          .use_probability = NAN};
    CHECK(at->loads[index].kind != NULL);
}

static void open_scene(scene *at)
{
    *at = (scene){.arena = qll_arena_open(TEST_CEILING)};
    CHECK(qll_fixture_table_read(at->arena, &at->kinds) == QLL_OK);
    load(at, 0, "shower", 40);
    load(at, 1, "lavatory", 40);
    load(at, 2, "toilet", 40);
    load(at, 3, "kitchen sink", 40);
    at->scenario = (qll_scenario){.name = "flats",
                                  .use = QLL_USE_APARTMENT,
                                  .people = 92,
                                  .homes = 40,
                                  .loads = at->loads,
                                  .load_count = TEST_LOADS,
                                  .weight = 1,
                                  .peak_method = QLL_PEAK_METHOD_COUNT,
                                  .peak_given_m3s = NAN,
                                  .quantile = 0.99};
}

static qll_status ask(scene *at)
{
    return qll_demand_of(&at->scenario, at->arena, &at->demand);
}

static const qll_peak_estimate *estimate(const scene *at, qll_peak_method method)
{
    for (size_t i = 0; i < at->demand.estimate_count; i++) {
        if (at->demand.estimates[i].method == method) {
            return &at->demand.estimates[i];
        }
    }
    return NULL;
}

static bool says(const scene *at, const char *part)
{
    return demand_says(at->arena, &at->demand, part);
}

/* 40 x (1.4 + 0.7 + 2.2 + 1.4) = 228 units: 70 + 3/25 x 5 = 70.6 gpm. */
TEST(fixture_units_are_the_design_peak_unless_asked)
{
    scene at;
    open_scene(&at);
    CHECK(ask(&at) == QLL_OK);
    CHECK(at.demand.warnings == NULL && at.demand.refusal == NULL);
    CHECK(at.demand.estimate_count == 6);
    CHECK(at.demand.estimates[at.demand.chosen].method == QLL_PEAK_FIXTURE_UNITS_IPC);
    CHECK_NEAR(at.demand.peak_m3s, 70.6 * QLL_GPM_M3S, 1e-12);
    CHECK(estimate(&at, QLL_PEAK_FIXTURE_UNITS_UPC) == NULL);
    CHECK(estimate(&at, QLL_PEAK_GIVEN) == NULL);
    CHECK(at.demand.simultaneous.flow_m3s == estimate(&at, QLL_PEAK_SIMULTANEOUS_USE)->peak_m3s);
    for (size_t i = 0; i < at.demand.estimate_count; i++) {
        CHECK(at.demand.estimates[i].table.id != QLL_TEXT_NONE
              && at.demand.estimates[i].source.id != QLL_TEXT_NONE);
        CHECK(at.demand.estimates[i].notes != NULL);
    }
    qll_arena_close(at.arena);
}

TEST(every_method_can_be_asked_for)
{
    static const qll_peak_method methods[] = {QLL_PEAK_FIXTURE_UNITS_IPC, QLL_PEAK_SIMULTANEOUS_USE,
                                              QLL_PEAK_NORMAL_APPROXIMATION, QLL_PEAK_PULSE_MODEL,
                                              QLL_PEAK_GIVEN};
    scene at;
    open_scene(&at);
    at.scenario.peak_given_m3s = 3e-3;
    for (size_t i = 0; i < 5; i++) {
        at.scenario.peak_method = methods[i];
        CHECK(ask(&at) == QLL_OK);
        CHECK(at.demand.estimates[at.demand.chosen].method == methods[i]);
        CHECK(at.demand.peak_m3s == at.demand.estimates[at.demand.chosen].peak_m3s);
    }
    CHECK(at.demand.peak_m3s == 3e-3);
    at.scenario.peak_method = QLL_PEAK_FIXTURE_UNITS_UPC;
    CHECK(ask(&at) == QLL_REFUSED);
    CHECK(says(&at, "UPC chart"));
    qll_arena_close(at.arena);
}

/* IPC E102.2.2: in gpm, after the conversion. A given peak has them in it. */
TEST(continuous_flows_are_added_after_conversion)
{
    scene at;
    open_scene(&at);
    at.scenario.peak_given_m3s = 5e-3;
    CHECK(ask(&at) == QLL_OK);
    const double units_m3s = estimate(&at, QLL_PEAK_FIXTURE_UNITS_IPC)->peak_m3s;
    const double use_m3s = estimate(&at, QLL_PEAK_SIMULTANEOUS_USE)->peak_m3s;
    const qll_continuous flows[] = {{"tower", 3e-4, 9 * 3600.0, 17 * 3600.0},
                                    {"softener", 2e-4, 2 * 3600.0, 3 * 3600.0}};
    at.scenario.continuous = flows;
    at.scenario.continuous_count = 2;
    CHECK(ask(&at) == QLL_OK);
    CHECK_NEAR(at.demand.continuous_peak_m3s, 3e-4, 1e-12);
    CHECK_NEAR(estimate(&at, QLL_PEAK_FIXTURE_UNITS_IPC)->peak_m3s, units_m3s + 3e-4, 1e-12);
    CHECK_NEAR(estimate(&at, QLL_PEAK_SIMULTANEOUS_USE)->peak_m3s, use_m3s + 3e-4, 1e-12);
    CHECK(estimate(&at, QLL_PEAK_GIVEN)->peak_m3s == 5e-3);
    at.scenario.peak_method = QLL_PEAK_GIVEN;
    at.scenario.peak_given_m3s = 2e-4;
    CHECK(ask(&at) == QLL_REFUSED);
    CHECK(says(&at, "less than the continuous flows"));
    qll_arena_close(at.arena);
}

TEST(probabilities_of_homes_hold_for_homes)
{
    scene at;
    open_scene(&at);
    at.scenario.use = QLL_USE_OFFICE;
    CHECK(ask(&at) == QLL_OK);
    CHECK(estimate(&at, QLL_PEAK_SIMULTANEOUS_USE) == NULL);
    for (size_t i = 0; i < TEST_LOADS; i++) {
        at.loads[i].use_probability = 0.1;
    }
    CHECK(ask(&at) == QLL_OK);
    CHECK(estimate(&at, QLL_PEAK_SIMULTANEOUS_USE) != NULL);
    at.loads[1].use_probability = NAN;
    at.scenario.peak_method = QLL_PEAK_SIMULTANEOUS_USE;
    CHECK(ask(&at) == QLL_REFUSED);
    CHECK(says(&at, "homes only") && says(&at, "\"lavatory\""));
    qll_arena_close(at.arena);
}

TEST(a_fixture_without_probability_says_so)
{
    scene at;
    open_scene(&at);
    load(&at, 1, "hose bibb", 2);
    CHECK(ask(&at) == QLL_OK);
    CHECK(estimate(&at, QLL_PEAK_SIMULTANEOUS_USE) == NULL);
    at.scenario.peak_method = QLL_PEAK_SIMULTANEOUS_USE;
    CHECK(ask(&at) == QLL_REFUSED);
    CHECK(says(&at, "\"hose bibb\"") && says(&at, "use_probability"));
    at.loads[1].use_probability = 0.01;
    CHECK(ask(&at) == QLL_OK);
    qll_arena_close(at.arena);
}

/* The table's last value, 593 gpm (E103.3(3), 5000 wsfu), as a floor; never another method's figure. */
TEST(beyond_the_table_its_last_value_is_a_floor)
{
    scene at;
    open_scene(&at);
    load(&at, 0, "shower", 4000);
    CHECK(ask(&at) == QLL_OK);
    CHECK(at.demand.warnings != NULL && at.demand.refusal == NULL);
    CHECK(says(&at, "ends at 5000") && says(&at, "593 gpm") && says(&at, "give the \"peak\""));
    CHECK(at.demand.estimates[at.demand.chosen].method == QLL_PEAK_FIXTURE_UNITS_IPC);
    CHECK_NEAR(at.demand.peak_m3s, 593.0 * QLL_GPM_M3S, 1e-12);
    at.scenario.peak_method = QLL_PEAK_FIXTURE_UNITS_IPC;
    CHECK(ask(&at) == QLL_OK && says(&at, "ends at 5000"));
    at.scenario.peak_method = QLL_PEAK_SIMULTANEOUS_USE;
    CHECK(ask(&at) == QLL_OK && !says(&at, "ends at 5000"));
    qll_arena_close(at.arena);
}

TEST(the_pulse_model_is_the_peak_only_where_asked_for)
{
    scene at;
    open_scene(&at);
    at.scenario.load_count = 0;
    CHECK(ask(&at) == QLL_REFUSED);
    CHECK(says(&at, "lists no fixtures") && says(&at, "\"peak\" as a flow"));
    at.scenario.peak_method = QLL_PEAK_PULSE_MODEL;
    CHECK(ask(&at) == QLL_OK);
    CHECK(at.demand.estimate_count == 1);
    double busiest = 0.0;
    for (size_t h = 0; h < 24; h++) {
        busiest = fmax(busiest, at.demand.day.hours[h].quantile_m3s);
    }
    CHECK(at.demand.peak_m3s == busiest);
    at.scenario.peak_method = QLL_PEAK_METHOD_COUNT;
    at.scenario.people = 0;
    at.scenario.homes = 0;
    CHECK(ask(&at) == QLL_REFUSED && says(&at, "nothing uses"));
    qll_arena_close(at.arena);
}

static void spoil(scene *at, int what)
{
    static const qll_continuous negative = {"x", -1e-3, 0, 3600};
    static const qll_continuous late = {"x", 1e-3, 0, 86401};
    at->scenario.continuous_count = what == 9 || what == 10 ? 1 : 0;
    switch (what) {
    case 0: at->scenario.people = -1.0; break;
    case 1: at->scenario.people = (double)NAN; break;
    case 2: at->scenario.people = 1e7; break;
    case 3: at->scenario.homes = -1.0; break;
    case 4: at->scenario.quantile = 1.0; break;
    case 5: at->scenario.quantile = (double)NAN; break;
    case 6: at->loads[0].count = QLL_FIXTURE_COUNT_MAX + 1; break;
    case 7: at->loads[1].flow_m3s = 0.0; break;
    case 8: at->loads[2].use_probability = 1.5; break;
    case 9: at->scenario.continuous = &negative; break;
    case 10: at->scenario.continuous = &late; break;
    default: break;
    }
}

TEST(impossible_values_are_refused)
{
    for (int what = 0; what <= 11; what++) {
        scene at;
        open_scene(&at);
        spoil(&at, what);
        CHECK(ask(&at) == (what == 11 ? QLL_OK : QLL_REFUSED));
        CHECK((at.demand.refusal != NULL) == (what != 11));
        qll_arena_close(at.arena);
    }
}

TEST(every_failed_allocation_is_reported)
{
    for (size_t nth = 1;; nth++) {
        scene at;
        open_scene(&at);
        at.scenario.people = 0;
        qll_arena_fail(at.arena, nth, true);
        const qll_status status = ask(&at);
        qll_arena_close(at.arena);
        if (status == QLL_OK) {
            CHECK(nth > 100);
            break;
        }
        CHECK(status == QLL_NO_MEMORY);
    }
}

int main(void)
{
    TEST_RUN(fixture_units_are_the_design_peak_unless_asked);
    TEST_RUN(every_method_can_be_asked_for);
    TEST_RUN(continuous_flows_are_added_after_conversion);
    TEST_RUN(probabilities_of_homes_hold_for_homes);
    TEST_RUN(a_fixture_without_probability_says_so);
    TEST_RUN(beyond_the_table_its_last_value_is_a_floor);
    TEST_RUN(the_pulse_model_is_the_peak_only_where_asked_for);
    TEST_RUN(impossible_values_are_refused);
    TEST_RUN(every_failed_allocation_is_reported);
    return TEST_END();
}
