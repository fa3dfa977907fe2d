/* Verdicts and the measure speak of the same nodes, verdicts and the hard rules of the same numbers. */
#include "building_scene.h"
#include "check.h"
#include "station/rules.h"

#include <string.h>

static qll_unknowns even_chances(void)
{
    qll_unknowns unknowns = {.flow_count = 0};
    for (size_t k = 0; k < QLL_NODES; k++) {
        unknowns.chance[k] = 1.0 / QLL_NODES;
    }
    return unknowns;
}

/* 1 - exp(-2 S) by hand: 1/2 at S = ln 2 / 2 = 0.34657, 0.86466 at S = 1. */
TEST(a_verdict_fails_by_the_chance_of_a_complaint)
{
    const qll_unknowns unknowns = even_chances();
    qll_hazard_sums sums;
    memset(&sums, 0, sizeof sums);
    CHECK(qll_row_chance(&unknowns, &sums, QLL_ROW_NOISE) == 0.0);
    sums.at[QLL_ROW_NOISE][0] = 0.34657;
    sums.at[QLL_ROW_NOISE][7] = 1.0;
    CHECK_WITHIN(qll_row_chance(&unknowns, &sums, QLL_ROW_NOISE), (0.5 + 0.86466) / 15.0, 1e-5);
    /* One of four own nodes at three of the fifteen. */
    for (size_t k = 0; k < 3; k++) {
        sums.at[qll_row_chatter(1) + 2][k] = 1.0;
    }
    CHECK_WITHIN(qll_own_chance(&unknowns, &sums, qll_row_chatter(1)), 0.05 * 0.86466, 1e-6);
}

TEST(one_half_and_one_tenth_are_the_steps)
{
    static const struct {
        double chance;
        qll_grade grade;
        double holds;
    } facts[] = {
        {0.0, QLL_GRADE_GOOD, 1.0},      {0.10, QLL_GRADE_GOOD, 0.90},
        {0.11, QLL_GRADE_CAUTION, 0.11}, {0.5, QLL_GRADE_CAUTION, 0.5},
        {0.51, QLL_GRADE_FAIL, 0.51},    {1.0, QLL_GRADE_FAIL, 1.0},
    };

    for (size_t i = 0; i < sizeof facts / sizeof *facts; i++) {
        qll_verdict verdict = qll_verdict_new(QLL_RULE_NOISE, QLL_KIND_NUMBER);
        qll_verdict_weigh(&verdict, facts[i].chance);
        CHECK(verdict.grade == facts[i].grade);
        CHECK_WITHIN(verdict.holds_share, facts[i].holds, 1e-12);
        qll_verdict_weigh_at_most_caution(&verdict, facts[i].chance);
        CHECK(verdict.grade == (i < 2 ? QLL_GRADE_GOOD : QLL_GRADE_CAUTION));
    }
}

typedef struct built {
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still;
    qll_site site;
    scene_demand demand;
    qll_duty duty;
    scene_valve valve;
    qll_branch branch;
    qll_stage stage;
    qll_station station;
} built;

static bool fails(const qll_assessment *found, qll_rule rule)
{
    const qll_verdict *verdict = scene_verdict(found, rule);
    return verdict != NULL && verdict->grade == QLL_GRADE_FAIL;
}

/* Chance that a verdict fails; what is a fact has none. */
static double fails_chance(const qll_assessment *found, qll_rule rule)
{
    const qll_verdict *verdict = scene_verdict(found, rule);
    return verdict->grade == QLL_GRADE_GOOD ? 1.0 - verdict->holds_share : verdict->holds_share;
}

/* Of one valve: what the verdict says is what the measure counts. */
static void check_shares(const qll_station *station, qll_yardstick *yardstick,
                         const qll_assessment *found, qll_arena *arena)
{
    qll_cost cost;
    if (!CHECK(qll_station_measure(station, yardstick, arena, &cost) == QLL_OK)) {
        return;
    }
    CHECK_WITHIN(fails_chance(found, QLL_RULE_LOW_FLOW),
                 cost.mechanism_share[QLL_MECHANISM_CHATTER], 1e-12);
    CHECK_WITHIN(fails_chance(found, QLL_RULE_CAVITATION),
                 cost.mechanism_share[QLL_MECHANISM_CAVITATION], 1e-12);
    CHECK_WITHIN(fails_chance(found, QLL_RULE_STATIC), cost.mechanism_share[QLL_MECHANISM_PRESSURE],
                 1e-12);
}

/* One valve behind a street of @p supply_psi, set to @p set_psi of 60 wanted, at a flow. */
static void compare(double supply_psi, double set_psi, double flow_gpm, size_t broken[])
{
    qll_arena *arena = qll_arena_open(1 << 24);
    built made = {.still = {0.0, supply_psi * TEST_SCENE_PSI}};
    made.site = scene_site(made.sizes, &made.still);
    double flow_m3s = flow_gpm * TEST_SCENE_GPM;
    double always = 1.0;
    scene_demand_make(&made.demand, flow_m3s, &flow_m3s, &always, 1);
    scene_valve_make(&made.valve, 6.0, 14.0 * TEST_SCENE_PSI, 1e-6, 0.0254);
    made.valve.valve.inlet_max_pa_gauge = 200.0 * TEST_SCENE_PSI;
    made.branch = scene_branch(&made.valve, set_psi * TEST_SCENE_PSI, scene_sizes[1].bore_m);
    made.stage = (qll_stage){&made.branch, 1, supply_psi * TEST_SCENE_PSI};
    made.station = (qll_station){&made.stage, 1};
    const qll_size_cost size = {0.0254, 100.0, 100.0, 100.0, 100.0};
    const qll_costs costs = {.visit = 100.0, .sizes = &size, .size_count = 1};
    made.site.costs = &costs;
    made.site.pipe_limit_m = NAN;
    made.site.service_m = NAN;
    qll_assessment found;
    qll_yardstick yardstick;
    qll_fitness fitness;
    CHECK(qll_duty_make(&made.site, &made.demand.scenario, 1, 24, arena, &made.duty) == QLL_OK);
    CHECK(scene_yardstick(&made.site, &made.duty, arena, &yardstick));
    CHECK(qll_station_assess(&made.station, &yardstick, arena, &found) == QLL_OK);
    CHECK(qll_station_fitness(&made.station, &yardstick, arena, &fitness) == QLL_OK);

    check_shares(&made.station, &yardstick, &found, arena);

    static const struct {
        qll_rule rule;
        qll_practice practice;
    } pairs[] = {{QLL_RULE_RATING, QLL_PRACTICE_RATING},
                 {QLL_RULE_RATIO, QLL_PRACTICE_RATIO},
                 {QLL_RULE_VELOCITY, QLL_PRACTICE_SPEED},
                 {QLL_RULE_DELIVERY, QLL_PRACTICE_DELIVERY},
                 {QLL_RULE_STATIC, QLL_PRACTICE_STATIC}};

    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        bool is_broken = fitness.breach[pairs[i].practice] > 0.0;
        CHECK(fails(&found, pairs[i].rule) == is_broken);
        broken[i] += is_broken ? 1 : 0;
    }
    qll_arena_close(arena);
}

TEST(a_verdict_fails_where_the_hard_rule_is_broken_and_nowhere_else)
{
    size_t broken[5] = {0};
    size_t count = 0;
    for (int supply_psi = 65; supply_psi <= 215; supply_psi += 15) {
        for (int set_psi = 40; set_psi <= 92; set_psi += 13) {
            for (int flow_gpm = 5; flow_gpm <= 40; flow_gpm += 7) {
                compare(supply_psi, set_psi, flow_gpm, broken);
                count += 1;
            }
        }
    }
    for (size_t i = 0; i < 5; i++) {
        CHECK(broken[i] > 10 && broken[i] < count - 10);
    }
}

int main(void)
{
    TEST_RUN(a_verdict_fails_by_the_chance_of_a_complaint);
    TEST_RUN(one_half_and_one_tenth_are_the_steps);
    TEST_RUN(a_verdict_fails_where_the_hard_rule_is_broken_and_nowhere_else);
    return TEST_END();
}
