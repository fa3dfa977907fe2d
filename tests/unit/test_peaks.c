#include "base/customary.h"
#include "check.h"
#include "demand/demand.h"
#include "demand/din1988.h"
#include "demand_says.h"

#define TEST_CEILING ((size_t)128 << 20)
#define TEST_LOADS   8

typedef struct scene {
    qll_arena *arena;
    qll_fixture_table kinds;
    qll_fixture_load loads[TEST_LOADS];
    qll_scenario scenario;
    qll_demand demand;
} scene;

static scene *scene_of(qll_use use, double homes)
{
    static scene at;
    at = (scene){.arena = qll_arena_open(TEST_CEILING)};
    CHECK(qll_fixture_table_read(at.arena, &at.kinds) == QLL_OK);
    at.scenario = (qll_scenario){.name = "test",
                                 .use = use,
                                 .people = 100,
                                 .homes = homes,
                                 .loads = at.loads,
                                 .weight = 1,
                                 .peak_method = QLL_PEAK_METHOD_COUNT,
                                 .peak_given_m3s = NAN,
                                 .quantile = 0.99};
    return &at;
}

static void add(scene *at, const char *word, size_t count)
{
    at->loads[at->scenario.load_count] =
        (qll_fixture_load){.kind = qll_fixture_find(&at->kinds, qll_text_of(word)),
                           .count = count,
                           .flow_m3s = NAN,
                           .use_probability = NAN};
    CHECK(at->loads[at->scenario.load_count].kind != NULL);
    at->scenario.load_count += 1;
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

static void add_flat(scene *at, size_t count)
{
    add(at, "lavatory", count);
    add(at, "tub/shower", count);
    add(at, "kitchen sink", count);
    add(at, "toilet", count);
    add(at, "washing machine", count);
    add(at, "dishwasher", count);
}

/* Forty flats, sum V_R = 40 x 0.93 = 37.2 l/s: 1.48 x 37.2^0.19 - 0.94 = 2.002150 l/s (DIN
 * 1988-300 constants; arithmetic ours). */
TEST(din_1988_300_for_forty_flats)
{
    scene *at = scene_of(QLL_USE_APARTMENT, 40);
    add_flat(at, 40);
    CHECK(ask(at) == QLL_OK);
    CHECK_WITHIN(estimate(at, QLL_PEAK_DIN_1988_300)->peak_m3s, 2.002150e-3, 1e-9);
    CHECK(estimate(at, QLL_PEAK_DIN_1988_300)->table.id == QLL_TEXT_TABLE_DIN);
    at->scenario.peak_method = QLL_PEAK_DIN_1988_300;
    CHECK(ask(at) == QLL_OK);
    CHECK_WITHIN(at->demand.peak_m3s, 2.002150e-3, 1e-9);
    qll_arena_close(at->arena);
}

/* A German trade journal's bathroom (rule from memory): bidet .07, WC .13, two basins .07, shower
 * .15, bath .15 l/s, cold side alone; sum 0.64, the two largest outlets of the usage unit 0.30. */
TEST(din_usage_unit_is_its_two_largest_outlets)
{
    scene *at = scene_of(QLL_USE_APARTMENT, 1);
    add(at, "bidet", 1);
    add(at, "toilet", 1);
    add(at, "basin", 2);
    add(at, "shower", 1);
    add(at, "bathtub", 1);
    static const double cold_m3s[] = {0.07e-3, 0.13e-3, 0.07e-3, 0.15e-3, 0.15e-3};
    for (size_t i = 0; i < 5; i++) {
        at->loads[i].flow_m3s = cold_m3s[i];
    }
    const qll_din1988_sum sum = qll_din1988_sum_of(&at->scenario);
    CHECK_NEAR(sum.sum_m3s, 0.64e-3, 1e-12);
    CHECK_NEAR(sum.unit_m3s, 0.30e-3, 1e-12);
    CHECK(ask(at) == QLL_OK);
    CHECK_NEAR(estimate(at, QLL_PEAK_DIN_1988_300)->peak_m3s, 0.30e-3, 1e-12);
    at->scenario.use = QLL_USE_HOUSE; /* several usage units: the formula, 0.419677 */
    CHECK(ask(at) == QLL_OK);
    CHECK_WITHIN(estimate(at, QLL_PEAK_DIN_1988_300)->peak_m3s, 0.419677e-3, 1e-9);
    qll_arena_close(at->arena);
}

TEST(din_says_why_not)
{
    scene *at = scene_of(QLL_USE_RESTAURANT, NAN);
    add(at, "kitchen sink, restaurant", 4);
    at->scenario.peak_method = QLL_PEAK_DIN_1988_300;
    CHECK(ask(at) == QLL_REFUSED && says(at, "no constants for this use (restaurant)"));
    at->scenario.use = QLL_USE_HOTEL;
    CHECK(ask(at) == QLL_OK);
    add(at, "drinking fountain", 1);
    CHECK(ask(at) == QLL_REFUSED && says(at, "no calculation flow for \"drinking fountain\""));
    at->loads[1].flow_m3s = 0.05e-3;
    CHECK(ask(at) == QLL_OK);
    at->loads[0].count = 2000; /* 1000 l/s */
    CHECK(ask(at) == QLL_REFUSED && says(at, "holds from 3.2 gpm to 7925 gpm"));
    qll_arena_close(at->arena);
}

/* An Austrian textbook's flat by EN 806-3: washing machine 2 + basin 1 + bath 4 + WC 1 + dishwasher
 * 2 + sink 2 = 12. UK college notes by BS 6700: 2 bath taps x 10, 2 basins x 1.5, 2 WC x 2, 2
 * showers x 3, 2 sink taps x 3, 2 machine taps x 3 = 45. */
TEST(loading_units_of_worked_examples)
{
    scene *at = scene_of(QLL_USE_APARTMENT, 1);
    add_flat(at, 1);
    CHECK(ask(at) == QLL_OK);
    CHECK(at->demand.loading[QLL_LOADING_EN].units == 12.0);
    CHECK(at->demand.loading[QLL_LOADING_EN].missing == NULL);
    CHECK(estimate(at, QLL_PEAK_LOADING_UNITS_EN) == NULL);
    at->scenario.load_count = 0;
    add(at, "bathtub", 2);
    add(at, "basin", 2);
    add(at, "toilet", 2);
    add(at, "shower", 2);
    add(at, "kitchen sink", 2);
    add(at, "washing machine", 2);
    CHECK(ask(at) == QLL_OK);
    CHECK(at->demand.loading[QLL_LOADING_BS].units == 45.0);
    at->scenario.use = QLL_USE_SCHOOL; /* basins in rapid succession count 3 */
    CHECK(ask(at) == QLL_OK);
    CHECK(at->demand.loading[QLL_LOADING_BS].units == 48.0);
    add(at, "hose bibb", 1);
    CHECK(ask(at) == QLL_OK);
    CHECK_TEXT(at->demand.loading[QLL_LOADING_BS].missing->word, "hose bibb");
    qll_arena_close(at->arena);
}

/* Straight lines between points that a user read off; nothing outside of them. The points here are
 * invented. */
TEST(loading_units_flow_only_by_the_users_points)
{
    scene *at = scene_of(QLL_USE_APARTMENT, 10);
    add_flat(at, 10);
    at->scenario.peak_method = QLL_PEAK_LOADING_UNITS_EN;
    CHECK(ask(at) == QLL_REFUSED && says(at, "120.0 units of EN 806-3"));
    CHECK(says(at, "not in the program"));
    static qll_point points[] = {{100, 1.0e-3}, {200, 1.5e-3}};
    at->scenario.graphs[QLL_LOADING_EN] = (qll_loading_graph){points, 2};
    CHECK(ask(at) == QLL_OK);
    CHECK_NEAR(at->demand.peak_m3s, 1.1e-3, 1e-12);
    points[0].x = 130;
    CHECK(ask(at) == QLL_REFUSED && says(at, "outside the points"));
    points[0].x = 250;
    CHECK(ask(at) == QLL_REFUSED && says(at, "do not rise"));
    qll_arena_close(at->arena);
}

/* The trade table: 240 fixtures of flats at 0.28 = 67.2 gpm, in a band from 65 to 115. 51 at 0.35
 * would be 17.9, below that band's least of 30. */
TEST(gallons_per_fixture_is_a_band)
{
    scene *at = scene_of(QLL_USE_APARTMENT, 40);
    add_flat(at, 40);
    CHECK(ask(at) == QLL_OK);
    CHECK_NEAR(estimate(at, QLL_PEAK_PER_FIXTURE)->peak_m3s, 67.2 * QLL_GPM_M3S, 1e-12);
    CHECK(
        demand_notes(at->arena, estimate(at, QLL_PEAK_PER_FIXTURE), "least for so many is 65 gpm"));
    CHECK(demand_notes(at->arena, estimate(at, QLL_PEAK_PER_FIXTURE), "most 115 gpm"));
    at->scenario.load_count = 0;
    add(at, "bathroom", 17); /* of three fixtures each */
    CHECK(ask(at) == QLL_OK);
    CHECK_NEAR(estimate(at, QLL_PEAK_PER_FIXTURE)->peak_m3s, 30.0 * QLL_GPM_M3S, 1e-12);
    at->scenario.use = QLL_USE_HOTEL;
    at->loads[0].count = 15; /* the first row: 45 at 0.65, from 25 to 33 */
    CHECK(ask(at) == QLL_OK);
    CHECK_NEAR(estimate(at, QLL_PEAK_PER_FIXTURE)->peak_m3s, 29.25 * QLL_GPM_M3S, 1e-12);
    at->loads[0].count = 1000; /* 3000 at 0.20, no upper end */
    CHECK(ask(at) == QLL_OK);
    CHECK_NEAR(estimate(at, QLL_PEAK_PER_FIXTURE)->peak_m3s, 600.0 * QLL_GPM_M3S, 1e-12);
    at->scenario.use = QLL_USE_RESTAURANT;
    CHECK(ask(at) == QLL_OK && estimate(at, QLL_PEAK_PER_FIXTURE) == NULL);
    qll_arena_close(at->arena);
}

TEST(normal_approximation_says_where_it_holds)
{
    scene *at = scene_of(QLL_USE_APARTMENT, 40);
    add_flat(at, 40); /* 6.6 busy */
    CHECK(ask(at) == QLL_OK);
    CHECK(
        demand_notes(at->arena, estimate(at, QLL_PEAK_NORMAL_APPROXIMATION), "at once; here 6.60"));
    for (size_t i = 0; i < 6; i++) {
        at->loads[i].count = 10;
    }
    CHECK(ask(at) == QLL_OK);
    CHECK(demand_notes(at->arena, estimate(at, QLL_PEAK_NORMAL_APPROXIMATION), "here only 1.65"));
    qll_arena_close(at->arena);
}

TEST(a_log_takes_the_place_of_the_day)
{
    scene *at = scene_of(QLL_USE_APARTMENT, 40);
    static const qll_duration_point points[] = {{0, 0.5, 0}, {2e-4, 0.9, 0.6}, {6e-4, 1, 1}};
    static const qll_metered_peak peaks[] = {{1, 6e-4}, {900, 2.5e-4}};
    static qll_metered log = {.name = "last-tenant.csv",
                              .duration = {points, 3, .idle_share = 0.5, .mean_m3s = 1.4e-4},
                              .peaks = peaks,
                              .peak_count = 2,
                              .interval_s = 1,
                              .time_s = 54922,
                              .seed = 1};
    at->scenario.metered = &log;
    at->scenario.people = 0;
    at->scenario.homes = 0;
    CHECK(ask(at) == QLL_OK);
    CHECK(at->demand.is_metered && at->demand.estimate_count == 1);
    CHECK(at->demand.estimates[0].method == QLL_PEAK_METERED && at->demand.peak_m3s == 6e-4);
    CHECK(at->demand.day.duration.points == points);
    CHECK_NEAR(at->demand.day.volume_m3, 1.4e-4 * 86400, 1e-12);
    CHECK(!demand_notes(at->arena, &at->demand.estimates[0], "show neither"));
    log.interval_s = 900;
    CHECK(ask(at) == QLL_OK);
    CHECK(demand_notes(at->arena, &at->demand.estimates[0], "show neither the peak nor low flow"));
    log.duration.count = 2;
    CHECK(ask(at) == QLL_REFUSED && says(at, "rises from 0 to 1"));
    at->scenario.metered = NULL;
    at->scenario.people = 100;
    at->scenario.peak_method = QLL_PEAK_METERED;
    CHECK(ask(at) == QLL_REFUSED && says(at, "no meter's log"));
    qll_arena_close(at->arena);
}

/* A fixture more beside a log: the code's figure only where it is no less than what was measured. */
TEST(a_log_that_rose_above_the_code_goes_before_it)
{
    scene *at = scene_of(QLL_USE_APARTMENT, 40);
    static const qll_duration_point points[] = {{0, 0.5, 0}, {6e-4, 1, 1}};
    static const qll_metered_peak peaks[] = {{1, 6e-4}};
    static const qll_metered log = {.name = "last-tenant.csv",
                                    .duration = {points, 2, .idle_share = 0.5, .mean_m3s = 3e-4},
                                    .peaks = peaks,
                                    .peak_count = 1,
                                    .interval_s = 1,
                                    .time_s = 1e6,
                                    .seed = 1};
    at->scenario.metered = &log;
    add(at, "lavatory", 1); /* 0.7 units: 2.1 gpm, 1.3e-4 m3/s */
    CHECK(ask(at) == QLL_OK);
    CHECK(at->demand.peak_m3s == 6e-4 && says(at, "above the code's 2.1 gpm"));
    CHECK(isnan(at->demand.no_fixture_open_share) && isnan(at->demand.leak_only_share));
    CHECK(at->demand.no_flow_share == 0.5);
    at->loads[0].count = 40; /* 28 units, 22.2 gpm */
    CHECK(ask(at) == QLL_OK);
    CHECK(at->demand.estimates[at->demand.chosen].method == QLL_PEAK_FIXTURE_UNITS_IPC);
    CHECK(at->demand.peak_m3s > 6e-4 && at->demand.warnings == NULL);
    qll_arena_close(at->arena);
}

/* Forty flats: 87.4 gpm by units; exact 50.0 (ratio 0.572); DIN 31.7 (0.363); 67.2 for each
 * fixture lies within a third. */
TEST(estimates_that_disagree_are_named)
{
    scene *at = scene_of(QLL_USE_APARTMENT, 40);
    add(at, "bathroom group, tank", 40);
    add(at, "kitchen sink", 40);
    add(at, "dishwasher", 40);
    add(at, "washing machine", 40);
    CHECK(ask(at) == QLL_OK);
    CHECK_NEAR(at->demand.peak_m3s, 87.4 * QLL_GPM_M3S, 1e-9);
    at->scenario.load_count = 0;
    add_flat(at, 40);
    CHECK(ask(at) == QLL_OK);
    bool is_named[QLL_PEAK_METHOD_COUNT] = {false};
    for (size_t i = 0; i < at->demand.disagreement_count; i++) {
        const qll_disagreement *one = &at->demand.disagreements[i];
        const qll_peak_estimate *other = &at->demand.estimates[one->estimate];
        is_named[other->method] = true;
        CHECK_NEAR(one->ratio, other->peak_m3s / at->demand.peak_m3s, 1e-12);
        CHECK(fabs(one->ratio - 1.0) > 1.0 / 3.0);
    }
    CHECK(is_named[QLL_PEAK_SIMULTANEOUS_USE] && is_named[QLL_PEAK_DIN_1988_300]);
    CHECK(is_named[QLL_PEAK_PULSE_MODEL]);
    /* On both sides of a third, with a peak that is given. */
    const double units_m3s = at->demand.peak_m3s;
    at->scenario.peak_method = QLL_PEAK_GIVEN;
    for (int is_over = 0; is_over < 2; is_over++) {
        at->scenario.peak_given_m3s = units_m3s / (4.0 / 3.0 + (is_over ? 1e-3 : -1e-3));
        CHECK(ask(at) == QLL_OK);
        bool is_units_named = false;
        for (size_t i = 0; i < at->demand.disagreement_count; i++) {
            const size_t which = at->demand.disagreements[i].estimate;
            is_units_named =
                is_units_named || at->demand.estimates[which].method == QLL_PEAK_FIXTURE_UNITS_IPC;
        }
        CHECK(is_units_named == (is_over == 1));
    }
    CHECK(!is_named[QLL_PEAK_PER_FIXTURE] && !is_named[QLL_PEAK_FIXTURE_UNITS_IPC]);
    qll_arena_close(at->arena);
}

/* At 15 psi instead of 60 a tank fills at half the flow and twice as long; a shower's regulator is
 * below its knee of 20 psi, sqrt(15/20). */
TEST(pressure_scales_flows_and_the_time_that_volumes_take)
{
    scene *at = scene_of(QLL_USE_APARTMENT, 40);
    add(at, "toilet", 40);
    add(at, "shower", 40);
    at->scenario.outlet_pa_gauge = 103421.4;
    const qll_use_group tank = qll_use_group_of(&at->scenario, &at->loads[0]);
    CHECK_NEAR(tank.flow_m3s, 1.5 * QLL_GPM_M3S, 1e-6);
    CHECK_NEAR(tank.probability, 0.02, 1e-6);
    const qll_use_group shower = qll_use_group_of(&at->scenario, &at->loads[1]);
    CHECK_NEAR(shower.flow_m3s, 2.0 * sqrt(0.75) * QLL_GPM_M3S, 1e-6);
    CHECK(shower.probability == 0.045);
    const qll_status status = ask(at);
    CHECK(status == QLL_OK);
    const double units_m3s = estimate(at, QLL_PEAK_FIXTURE_UNITS_IPC)->peak_m3s;
    at->scenario.outlet_pa_gauge = 0;
    CHECK(ask(at) == QLL_OK);
    CHECK(units_m3s == estimate(at, QLL_PEAK_FIXTURE_UNITS_IPC)->peak_m3s);
    at->scenario.outlet_pa_gauge = 1.0;
    CHECK(ask(at) == QLL_REFUSED && says(at, "1 psi and 300 psi"));
    qll_arena_close(at->arena);
}

TEST(scaling_out_of_range_is_refused)
{
    scene *at = scene_of(QLL_USE_SCHOOL, NAN);
    add(at, "toilet", 4);
    at->scenario.break_share = 0.6;
    CHECK(ask(at) == QLL_REFUSED && says(at, "1 to 60 minutes"));
    at->scenario.break_s = 600;
    CHECK(ask(at) == QLL_OK);
    at->scenario.rate_cv = 3;
    CHECK(ask(at) == QLL_REFUSED);
    at->scenario.rate_cv = 0.4;
    at->scenario.day_volume_m3 = -1;
    CHECK(ask(at) == QLL_REFUSED);
    qll_arena_close(at->arena);
}

int main(void)
{
    TEST_RUN(din_1988_300_for_forty_flats);
    TEST_RUN(din_usage_unit_is_its_two_largest_outlets);
    TEST_RUN(din_says_why_not);
    TEST_RUN(loading_units_of_worked_examples);
    TEST_RUN(loading_units_flow_only_by_the_users_points);
    TEST_RUN(gallons_per_fixture_is_a_band);
    TEST_RUN(normal_approximation_says_where_it_holds);
    TEST_RUN(a_log_takes_the_place_of_the_day);
    TEST_RUN(a_log_that_rose_above_the_code_goes_before_it);
    TEST_RUN(estimates_that_disagree_are_named);
    TEST_RUN(pressure_scales_flows_and_the_time_that_volumes_take);
    TEST_RUN(scaling_out_of_range_is_refused);
    return TEST_END();
}
