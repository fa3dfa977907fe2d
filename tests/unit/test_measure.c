/* What a station is expected to cost: docs/theory/recommendation.md, eq. 1 to 3, on a made-up building. */
#include "check.h"
#include "search_scene.h"
#include "station/connection.h"
#include "station/operate.h"
#include "station/spread.h"

#define TEST_MOST 3

/* A building with a station of one valve, a pair or two stages of a made-up catalogue. */
typedef struct measured {
    qll_arena *arena;
    scene given;
    scene_case made;
    qll_catalogue catalogue;
    qll_branch branches[TEST_MOST];
    qll_stage stages[2];
    qll_station station;
    qll_cost cost;
} measured;

static bool scene_open(uint64_t seed, double ratio, measured *at)
{
    at->arena = qll_arena_open(1 << 24);
    qll_random random = qll_random_seeded(seed);
    at->given = scene_draw(&random, 2.0);
    at->given.static_high_psi = ratio * at->given.set_psi;
    at->given.static_low_psi = 0.9 * at->given.static_high_psi;
    const size_t size = at->given.pipe;
    return CHECK(scene_make(&at->given, at->arena, &at->made))
           && CHECK(varied_catalogue(seed, TEST_MOST, size > 0 ? size - 1 : 0, size, at->arena,
                                     &at->catalogue));
}

static void set_branch(measured *at, size_t j, double set_pa_gauge)
{
    at->branches[j] = (qll_branch){.valve = &at->catalogue.valves[j],
                                   .law = &at->catalogue.laws[j],
                                   .set_pa_gauge = set_pa_gauge};
    CHECK(qll_branch_connect(&at->made.site, at->arena, &at->branches[j]) == QLL_OK);
}

static bool make_station(measured *at, size_t stage_count, size_t last_count)
{
    const double wanted_pa_gauge = at->made.site.set_pa_gauge;
    const double supply_pa_gauge = at->made.duty.inlet_static_pa[1] - at->made.site.barometric_pa;
    const double between_pa_gauge = sqrt(wanted_pa_gauge * supply_pa_gauge);
    for (size_t j = 0; j < last_count; j++) {
        set_branch(at, j, wanted_pa_gauge - 4.0 * (double)j * TEST_VARIED_PSI);
    }
    at->stages[stage_count - 1] =
        (qll_stage){at->branches, last_count, stage_count > 1 ? between_pa_gauge : supply_pa_gauge};
    if (stage_count > 1) {
        set_branch(at, last_count, between_pa_gauge);
        at->stages[0] = (qll_stage){at->branches + last_count, 1, supply_pa_gauge};
    }
    at->station = (qll_station){at->stages, stage_count};
    qll_cost cost;
    if (!CHECK(qll_station_measure(&at->station, &at->made.yardstick, at->arena, &cost)
               == QLL_OK)) {
        return false;
    }
    at->cost = cost;
    return true;
}

/* Calls @p check on a hundred stations of all kinds. */
static void for_each(void (*check)(measured *at))
{
    for (uint64_t seed = 0; seed < 99; seed++) {
        measured at;
        if (scene_open(seed, 1.3 + 0.02 * (double)seed, &at)
            && make_station(&at, seed % 3 == 2 ? 2 : 1, seed % 3 == 0 ? 1 : 2)) {
            check(&at);
        }
        qll_arena_close(at.arena);
    }
}

static void check_sums_up(measured *at)
{
    const qll_cost *cost = &at->cost;
    const qll_unknowns *unknowns = at->made.yardstick.unknowns;
    double survives = 0.0;
    for (size_t k = 0; k < QLL_NODES; k++) {
        CHECK(cost->survival[k] >= 0.0 && cost->survival[k] <= 1.0);
        survives += unknowns->chance[k] * cost->survival[k];
        /* More of everything is worse; of one exponential it would be the square and the root. */
        CHECK(cost->doubled[k] <= cost->survival[k] && cost->survival[k] <= cost->halved[k]);
        CHECK(cost->doubled[k] >= cost->survival[k] * cost->survival[k] - 1e-12);
        CHECK(cost->survival[k] >= cost->halved[k] * cost->halved[k] - 1e-12);
    }
    CHECK_WITHIN(cost->callback_share, 1.0 - (1.0 - cost->rest_chance) * survives, 1e-12);
    const qll_costs *costs = &at->made.costs;
    CHECK_NEAR(cost->installed, qll_costs_installed(costs, &at->station, at->made.yardstick.pipe_m),
               1e-12);
    CHECK_NEAR(cost->callback,
               qll_costs_callback(qll_costs_once(costs, &at->station), cost->callback_share),
               1e-12);
    CHECK_NEAR(cost->expected, cost->installed + cost->callback_share * cost->callback, 1e-12);
}

TEST(expected_is_installed_and_callbacks)
{
    for_each(check_sums_up);
}

/* One mechanism alone never brings more people back than all of them, nor all of them more than their sum. */
static void check_parts(measured *at)
{
    double sum = 0.0;
    for (size_t m = 0; m < QLL_MECHANISM_COUNT; m++) {
        double share = at->cost.mechanism_share[m];
        CHECK(share >= 0.0 && share <= at->cost.callback_share + 1e-12);
        sum += share;
    }
    CHECK(at->cost.callback_share <= sum + 1e-12);
    CHECK_NEAR(at->cost.mechanism_share[QLL_MECHANISM_PRESSURE], at->cost.rest_chance, 1e-12);
}

TEST(no_part_is_more_than_the_whole)
{
    for_each(check_parts);
}

/* Where all nodes are alike the mechanisms are independent: the chances of none multiply. */
static void check_product(measured *at)
{
    const size_t count = at->made.duty.flow_count;
    double(*weights)[QLL_DEMAND_NODES] = qll_arena_take(at->arena, count, sizeof *weights);
    qll_unknowns alike = *at->made.yardstick.unknowns;
    if (!CHECK(weights != NULL)) {
        return;
    }
    for (size_t f = 0; f < count; f++) {
        for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
            weights[f][i] = at->made.yardstick.unknowns->flow_weight[f][2];
        }
    }
    alike.flow_weight = weights;
    for (size_t n = 0; n < QLL_SUPPLY_NODES; n++) {
        memcpy(alike.supply_weight[n], at->made.yardstick.unknowns->supply_weight[1],
               sizeof alike.supply_weight[n]);
    }
    at->made.yardstick.unknowns = &alike;
    qll_cost cost;
    CHECK(qll_station_measure(&at->station, &at->made.yardstick, at->arena, &cost) == QLL_OK);
    double none = 1.0;
    for (size_t m = 0; m < QLL_MECHANISM_COUNT; m++) {
        none *= 1.0 - cost.mechanism_share[m];
    }
    CHECK_WITHIN(1.0 - cost.callback_share, none, 1e-12);
}

TEST(what_is_independent_multiplies)
{
    for_each(check_product);
}

/* Sums of wear and of who is starved over a duty, from the states of every point. */
typedef struct sums {
    double wear[2][QLL_NODES], starved[QLL_NODES];
} sums;

static double clamped(double x)
{
    return fmin(fmax(x, 0.0), 1.0);
}

static void add_point(const measured *at, const qll_operating_point *point, double need_pa,
                      const double *weights, sums *to)
{
    for (size_t s = 0; s < at->station.stage_count; s++) {
        double wear = 0.0;
        bool passes = !isnan(point->stage_outlet_pa[s]);
        for (size_t j = 0; passes && j < at->stages[s].branch_count; j++) {
            const qll_branch *branch = &at->stages[s].branches[j];
            double bore_m = fmin(branch->valve->nominal_m, branch->pipe_bore_m);
            double speed_fps = point->branches[s][j].flow_m3s
                               / (0.25 * 3.141592653589793 * bore_m * bore_m) / 0.3048;
            wear +=
                point->branches[s][j].flow_m3s / point->flow_m3s * clamped((speed_fps - 8.0) / 7.0);
        }
        for (size_t k = 0; k < QLL_NODES; k++) {
            to->wear[s][k] += weights[k] * (passes ? wear : 1.0);
            bool is_last = s + 1 == at->station.stage_count;
            double starved =
                is_last ? qll_spread_below(need_pa - point->outlet_pa, 3.0 * TEST_VARIED_PSI) : 0.0;
            to->starved[k] += weights[k] * (passes ? starved : 1.0);
        }
    }
}

static void check_sums(measured *at)
{
    const qll_duty *duty = &at->made.duty;
    const qll_yardstick *yardstick = &at->made.yardstick;
    const qll_unknowns *unknowns = yardstick->unknowns;
    sums all;
    memset(&all, 0, sizeof all);
    double weights[QLL_NODES];
    qll_operating_point point;
    for (size_t s = 0; s < duty->supply_count; s++) {
        for (size_t f = 0; f < duty->flow_count; f++) {
            size_t here = s * duty->flow_count + f;
            CHECK(qll_station_operate(&at->station, &at->made.site, duty->inlet_pa[here],
                                      duty->flow_m3s[f], at->arena, &point)
                  == QLL_OK);
            for (size_t k = 0; k < QLL_NODES; k++) {
                weights[k] = qll_node_weight(unknowns, k, s, f);
            }
            add_point(at, &point, yardstick->need_pa[here], weights, &all);
        }
    }
    /* The design peak at the lowest supply: a fiftieth. */
    CHECK(qll_station_operate(&at->station, &at->made.site, yardstick->peak_inlet_pa[0],
                              duty->peak_m3s, at->arena, &point)
          == QLL_OK);
    for (size_t k = 0; k < QLL_NODES; k++) {
        weights[k] = 0.02;
    }
    sums peak;
    memset(&peak, 0, sizeof peak);
    add_point(at, &point, yardstick->peak_need_pa[0], weights, &peak);
    /* Classes of less than a millionth of the time are left out of the measure. */
    double starved = 0.0;
    for (size_t k = 0; k < QLL_NODES; k++) {
        starved += unknowns->chance[k] * exp(-2.0 * (all.starved[k] + peak.starved[k]));
    }
    CHECK_WITHIN(at->cost.mechanism_share[QLL_MECHANISM_STARVED], 1.0 - starved, 2e-6);
    double least = 0.0;
    double most = 0.0;
    for (size_t k = 0; k < QLL_NODES; k++) {
        double wear = all.wear[0][k] + all.wear[1][k];
        double at_peak = peak.wear[0][k] + peak.wear[1][k];
        least += unknowns->chance[k] * (1.0 - exp(-2.0 * wear));
        most += unknowns->chance[k] * (1.0 - exp(-2.0 * (wear + at_peak)));
    }
    CHECK(at->cost.mechanism_share[QLL_MECHANISM_WEAR] >= least - 1e-9);
    CHECK(at->cost.mechanism_share[QLL_MECHANISM_WEAR] <= most + 1e-9);
}

TEST(wear_and_starved_are_sums_over_points)
{
    for_each(check_sums);
}

/* One valve never hunts; two by the nearer of their set-points at the ends of the inlet. */
TEST(hunting_of_a_stage)
{
    qll_valve valves[2] = {{.hysteresis_pa = 1.0 * TEST_VARIED_PSI}, {.hysteresis_pa = NAN}};
    valves[1].inlet_effect = 0.05;
    const qll_branch branches[2] = {{.valve = &valves[0], .set_pa_gauge = 60.0 * TEST_VARIED_PSI},
                                    {.valve = &valves[1], .set_pa_gauge = 57.0 * TEST_VARIED_PSI}};
    const qll_stage one = {branches, 1, 100.0 * TEST_VARIED_PSI};
    const qll_stage two = {branches, 2, 100.0 * TEST_VARIED_PSI};
    CHECK(qll_stage_hunting(&one, 80.0 * TEST_VARIED_PSI, 120.0 * TEST_VARIED_PSI) == 0.0);
    double gap_pa = 2.0 * TEST_VARIED_PSI; /* 20 psi more bring the second 1 psi nearer */
    CHECK_NEAR(qll_stage_hunting(&two, 80.0 * TEST_VARIED_PSI, 120.0 * TEST_VARIED_PSI),
               qll_hunting_severity(1.0 * TEST_VARIED_PSI, gap_pa), 1e-9);
    CHECK_NEAR(qll_stage_hunting(&two, 80.0 * TEST_VARIED_PSI, 100.0 * TEST_VARIED_PSI),
               qll_hunting_severity(1.0 * TEST_VARIED_PSI, 3.0 * TEST_VARIED_PSI), 1e-9);
}

static void check_arena(measured *at)
{
    qll_arena_mark mark = qll_arena_now(at->arena);
    qll_cost again;
    CHECK(qll_station_measure(&at->station, &at->made.yardstick, at->arena, &again) == QLL_OK);
    qll_arena_mark after = qll_arena_now(at->arena);
    CHECK(memcmp(&mark, &after, sizeof mark) == 0);
    CHECK(again.expected == at->cost.expected);
}

/* Measured again the shapes of its pipes are there: it takes nothing and finds the same. */
TEST(what_it_took_is_given_back)
{
    for_each(check_arena);
}

int main(void)
{
    TEST_RUN(expected_is_installed_and_callbacks);
    TEST_RUN(no_part_is_more_than_the_whole);
    TEST_RUN(what_is_independent_multiplies);
    TEST_RUN(wear_and_starved_are_sums_over_points);
    TEST_RUN(hunting_of_a_stage);
    TEST_RUN(what_it_took_is_given_back);
    return TEST_END();
}
