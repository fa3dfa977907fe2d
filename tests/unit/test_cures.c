/* Cures of stations that are there: each kind where it is due, and the best of each kind against everything
 * tried. */
#include "cures_brute.h"

static const char valves[] =
    "{\"catalogue\":1,\"valves\":["
    "{\"id\":\"S-15\",\"nominal\":\"1/2 in\",\"acting\":\"direct\",\"kv\":\"1.9 m3/h\","
    "\"set_range\":[\"15 psi\",\"150 psi\"],\"inlet_max\":\"400 psi\",\"band\":\"14 psi\","
    "\"price\":110},"
    "{\"id\":\"S-20\",\"nominal\":\"3/4 in\",\"acting\":\"direct\",\"kv\":\"3.8 m3/h\","
    "\"set_range\":[\"15 psi\",\"150 psi\"],\"inlet_max\":\"400 psi\",\"band\":\"14 psi\","
    "\"price\":150},"
    "{\"id\":\"S-32\",\"nominal\":\"1-1/4 in\",\"acting\":\"direct\",\"kv\":\"10 m3/h\","
    "\"set_range\":[\"15 psi\",\"150 psi\"],\"inlet_max\":\"400 psi\",\"band\":\"16 psi\","
    "\"price\":390},"
    "{\"id\":\"S-50\",\"nominal\":\"2 in\",\"acting\":\"direct\",\"kv\":\"24 m3/h\","
    "\"set_range\":[\"15 psi\",\"150 psi\"],\"inlet_max\":\"400 psi\",\"band\":\"18 psi\","
    "\"price\":800},"
    "{\"id\":\"S-80\",\"nominal\":\"3 in\",\"acting\":\"direct\",\"kv\":\"55 m3/h\","
    "\"set_range\":[\"15 psi\",\"150 psi\"],\"inlet_max\":\"400 psi\",\"band\":\"18 psi\","
    "\"price\":2200}]}";

static bool cure(const given *of, building *made)
{
    if (!open_building(of, made)) {
        return false;
    }
    const qll_cures_case asked = {.station = &made->station,
                                  .assessment = &made->assessment,
                                  .catalogue = &made->catalogue,
                                  .units = QLL_UNITS_US};
    return CHECK(
               qll_station_assess(&made->station, &made->yardstick, made->arena, &made->assessment)
               == QLL_OK)
           && CHECK(qll_cures_find(&asked, &made->yardstick, made->arena, &made->cures) == QLL_OK);
}

static const qll_cure *cure_of(const building *made, qll_cure_kind kind)
{
    for (size_t i = 0; i < made->cures.count; i++) {
        if (made->cures.cures[i].kind == kind) {
            return &made->cures.cures[i];
        }
    }
    return NULL;
}

/* Every kind that was found is the best there is, and none is missing that would lower the cost. */
static void compare(building *made, bool has_settings)
{
    brute all = {.of = made};
    try_all(&all);
    const double as_is = made->cures.fitness.is_fit ? made->cures.now.expected : (double)INFINITY;
    for (int kind = QLL_CURE_SETTINGS; kind <= QLL_CURE_STAGE_BEFORE; kind++) {
        const qll_cure *found = cure_of(made, (qll_cure_kind)kind);
        bool is_due = all.best[kind] < as_is;
        if ((kind == QLL_CURE_SETTINGS && !has_settings)
            || !check_report((found != NULL) == is_due, __FILE__, __LINE__, qll_cure_words[kind])
            || found == NULL) {
            continue;
        }
        check_report(fabs(found->cost.expected - all.best[kind]) < 1e-6, __FILE__, __LINE__,
                     qll_cure_words[kind]);
    }
    CHECK(all.tried > 50);
}

static void check_order(const building *made)
{
    for (size_t i = 0; i < made->cures.count; i++) {
        const qll_cure *one = &made->cures.cures[i];
        bool is_asked = one->kind == QLL_CURE_TANK || one->kind == QLL_CURE_STRAINER;
        CHECK(isnan(one->cost.expected) == is_asked);
        CHECK(is_asked || one->fitness.is_fit);
        CHECK(is_asked || !made->cures.fitness.is_fit
              || one->cost.expected < made->cures.now.expected);
        CHECK(i == 0 || !(one->cost.expected < made->cures.cures[i - 1].cost.expected));
        CHECK(is_asked
              || fabs(one->cost.installed + one->cost.callback_share * one->cost.callback
                      - one->cost.expected)
                     < 1e-9 * one->cost.expected);
    }
}

#define TEST_ONE(valve, set) \
    "{\"branches\":[{\"valve\":\"" valve "\",\"set_pressure\":\"" set " psi\"}]}"

TEST(large_valve_gets_a_small_one_beside_it)
{
    const given of = {120.0, 60.0, 30.0, "3 in", TEST_ONE("G-D80", "60"), "", NULL};
    building made;
    if (cure(&of, &made)) {
        const qll_cure *found = cure_of(&made, QLL_CURE_SMALL_BESIDE);
        if (CHECK(found != NULL)) {
            const qll_stage *stage = &found->station.stages[0];
            CHECK(found == &made.cures.cures[0]);
            CHECK(stage->branch_count == 2 && found->branch == 0);
            CHECK(strcmp(stage->branches[1].valve->id, "G-D80") == 0);
            CHECK(stage->branches[0].set_pa_gauge > stage->branches[1].set_pa_gauge);
            CHECK(found->cost.callback_share < made.cures.now.callback_share);
        }
        CHECK(made.cures.now.installed == 0.0);
        check_order(&made);
        compare(&made, true);
    }
    qll_arena_close(made.arena);
}

/* A single stage of 4:1 cannot be left: a stage before it, or all anew, whatever that costs. */
TEST(too_much_in_one_stage_gets_a_stage_before)
{
    const given of = {200.0, 50.0, 20.0, "1-1/4 in", TEST_ONE("S-32", "50"), "", valves};
    building made;
    if (cure(&of, &made)) {
        CHECK(!made.cures.fitness.is_fit);
        CHECK(made.cures.fitness.breach[QLL_PRACTICE_RATIO] > 0.0);
        const qll_cure *found = cure_of(&made, QLL_CURE_STAGE_BEFORE);
        if (CHECK(found != NULL)) {
            CHECK(found->station.stage_count == 2);
            CHECK(found->station.stages[1].set_inlet_pa_gauge
                  == found->station.stages[0].branches[0].set_pa_gauge);
        }
        CHECK(cure_of(&made, QLL_CURE_SETTINGS) == NULL);
        CHECK(cure_of(&made, QLL_CURE_SMALL_BESIDE) == NULL);
        check_order(&made);
        compare(&made, true);
    }
    qll_arena_close(made.arena);
}

/* A pair set on one gauge hunts: the screws alone cure it. */
TEST(pair_set_alike_is_set_anew)
{
    const given of = {110.0,
                      60.0,
                      40.0,
                      "2 in",
                      "{\"branches\":[{\"valve\":\"S-20\",\"set_pressure\":\"60 psi\"},"
                      "{\"valve\":\"S-50\",\"set_pressure\":\"60 psi\"}]}",
                      "",
                      valves};
    building made;
    if (cure(&of, &made)) {
        const qll_cure *found = cure_of(&made, QLL_CURE_SETTINGS);
        if (CHECK(found != NULL)) {
            CHECK(found == &made.cures.cures[0]);
            CHECK(found->cost.installed == made.yardstick.site->costs->visit);
            const qll_stage *stage = &found->station.stages[0];
            CHECK(strcmp(stage->branches[0].valve->id, "S-20") == 0);
            CHECK(stage->branches[0].set_pa_gauge - stage->branches[1].set_pa_gauge > 2.9 * psi);
        }
        check_order(&made);
        compare(&made, true);
    }
    qll_arena_close(made.arena);
}

/* Two stages, each far too large, the last one set below what is wanted. */
TEST(two_stages_are_looked_at_in_turn)
{
    const given of = {
        180.0, 60.0, 25.0, "2 in", TEST_ONE("S-50", "105") "," TEST_ONE("S-50", "40"), "", valves};
    building made;
    if (cure(&of, &made)) {
        CHECK(cure_of(&made, QLL_CURE_SETTINGS) != NULL);
        CHECK(cure_of(&made, QLL_CURE_SMALLER_VALVE) != NULL);
        check_order(&made);
        compare(&made, false);
    }
    qll_arena_close(made.arena);
}

/* A large valve where hardly any water runs: one small valve in its place. Built from nothing the station would be
 * that valve alone, and is not offered a second time. */
TEST(smaller_valve_has_no_twin)
{
    const given of = {160.0, 60.0, 12.0, "3 in", TEST_ONE("S-80", "60"), "", valves};
    building made;
    if (cure(&of, &made)) {
        const qll_cure *smaller = cure_of(&made, QLL_CURE_SMALLER_VALVE);
        qll_search_options options = qll_search_options_default();
        qll_search_result built = {.kind_count = 0};
        CHECK(qll_search(&made.yardstick, &made.catalogue, &options, made.arena, &built) == QLL_OK);
        if (CHECK(smaller != NULL) && CHECK(built.kind_count > 0)) {
            const qll_station *whole = &built.kinds[0].station;
            const qll_valve *valve = smaller->station.stages[0].branches[0].valve;
            CHECK(qll_station_valve_count(whole) == 1);
            CHECK(whole->stages[0].branches[0].valve == valve);
            CHECK(valve->kv_m3h < made.station.stages[0].branches[0].valve->kv_m3h);
        }
        CHECK(cure_of(&made, QLL_CURE_WHOLE) == NULL);
        check_order(&made);
        compare(&made, true);
    }
    qll_arena_close(made.arena);
}

/* What stands there is not fit, and only another station is: it is the one that the search finds, and the visit and
 * the opened pipe are paid for on top. */
TEST(whole_is_what_would_be_built)
{
    const given of = {115.0, 55.0, 60.0, "2 in", TEST_ONE("S-20", "55"), "", valves};
    building made;
    if (cure(&of, &made)) {
        const qll_cure *whole = cure_of(&made, QLL_CURE_WHOLE);
        qll_search_options options = qll_search_options_default();
        qll_search_result built = {.kind_count = 0};
        CHECK(!made.cures.fitness.is_fit);
        CHECK(qll_search(&made.yardstick, &made.catalogue, &options, made.arena, &built) == QLL_OK);
        if (CHECK(whole != NULL) && CHECK(built.kind_count > 0)) {
            const qll_costs *costs = made.yardstick.site->costs;
            double anyway = costs->visit + qll_costs_beside(costs, made.yardstick.pipe_m);
            CHECK(fabs(whole->cost.expected - built.kinds[0].cost.expected - anyway) < 1e-6);
            CHECK(whole->cost.callback_share == built.kinds[0].cost.callback_share);
        }
        check_order(&made);
        compare(&made, true);
    }
    qll_arena_close(made.arena);
}

/* What the expansion verdict asks for stands last, without figures, beside the station that is there. */
TEST(tank_is_asked_for_without_figures)
{
    const given of = {110.0,
                      60.0,
                      12.0,
                      "1 in",
                      TEST_ONE("S-20", "60"),
                      ",\"heater\":{\"volume\":\"50 gal\",\"relief\":\"150 psi\"}",
                      valves};
    building made;
    if (cure(&of, &made)) {
        const qll_cure *tank = cure_of(&made, QLL_CURE_TANK);
        if (CHECK(tank != NULL)) {
            CHECK(tank == &made.cures.cures[made.cures.count - 1]);
            CHECK(isnan(tank->cost.callback_share) && isnan(tank->cost.installed));
            CHECK(tank->station.stages == made.station.stages);
            CHECK(tank->verdict->rule == QLL_RULE_EXPANSION);
        }
        check_order(&made);
    }
    qll_arena_close(made.arena);
}

int main(void)
{
    TEST_RUN(large_valve_gets_a_small_one_beside_it);
    TEST_RUN(too_much_in_one_stage_gets_a_stage_before);
    TEST_RUN(pair_set_alike_is_set_anew);
    TEST_RUN(two_stages_are_looked_at_in_turn);
    TEST_RUN(smaller_valve_has_no_twin);
    TEST_RUN(whole_is_what_would_be_built);
    TEST_RUN(tank_is_asked_for_without_figures);
    return TEST_END();
}
