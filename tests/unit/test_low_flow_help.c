#include "building_scene.h"
#include "check.h"

/* A valve with 0.85 bar of fall-off at full travel, steady from a tenth of its full flow at 3 bar and
 * 3 bar (tests/reference/stable_flow.csv), that takes 10 bar down to 3 at one flow for ever. */
typedef struct judged {
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still;
    qll_site site;
    scene_demand demand;
    qll_duty duty;
    scene_valve valve;
    qll_branch branches[2];
    qll_stage stages[2];
    qll_station station;
    qll_assessment assessment;
} judged;

/* @p share: the flow, of the least stable one with 7 bar over and 3 bar behind the valve. */
static void judge(judged *made, double share, size_t stages, qll_arena *arena)
{
    made->still = (qll_point){0.0, 10e5};
    made->site = scene_site(made->sizes, &made->still);
    made->site.set_pa_gauge = 3e5;
    double at_three_m3s = 0.1 * 10.0 * sqrt(3.0) / 3600.0;
    double flow_m3s =
        share * at_three_m3s * sqrt(7.0 / 3.0) * (2.0 / 3.0) / (1.0 / 7.0 + 1.0 / 3.0);
    double always = 1.0;
    scene_demand_make(&made->demand, flow_m3s, &flow_m3s, &always, 1);
    scene_valve_make(&made->valve, 10.0, 0.85e5, at_three_m3s, 0.0254);
    made->valve.valve.sheet_inlet_pa_gauge = 6e5;
    made->valve.valve.sheet_set_pa_gauge = 3e5;
    made->branches[0] = scene_branch(&made->valve, stages == 2 ? 7e5 : 3e5, 0.026);
    made->branches[1] = scene_branch(&made->valve, 3e5, 0.026);
    made->stages[0] = (qll_stage){&made->branches[0], 1, 10e5};
    made->stages[1] = (qll_stage){&made->branches[1], 1, 7e5};
    made->station = (qll_station){made->stages, stages};
    CHECK(qll_duty_make(&made->site, &made->demand.scenario, 1, 24, arena, &made->duty) == QLL_OK);
    CHECK(qll_station_assess(&made->station, &made->site, &made->duty, arena, &made->assessment)
          == QLL_OK);
}

static const qll_low_flow_help *help_of(const judged *made, qll_help_kind kind)
{
    for (size_t i = 0; i < made->assessment.help_count; i++) {
        if (made->assessment.help[i].kind == kind) {
            return &made->assessment.help[i];
        }
    }
    return NULL;
}

/* Share of time after @p kind; what wins nothing is not offered. */
static double then_of(const judged *made, qll_help_kind kind)
{
    const qll_low_flow_help *help = help_of(made, kind);
    return help == NULL ? 1.0 : help->time_then;
}

/* By hand from docs/theory/stability.md: half as much more fall-off leaves 0.667 of the least flow,
 * by a stiffer spring 0.940; two stages of equal least flow meet at 7.10 bar and leave 0.631. */
TEST(each_help_is_worth_what_the_formula_says)
{
    static const struct {
        double share;
        double more, stiffer, two;
    } facts[] = {{0.98, 0, 0, 0}, {0.80, 0, 1, 0}, {0.645, 1, 1, 0}, {0.60, 1, 1, 1}};

    for (size_t i = 0; i < sizeof facts / sizeof *facts; i++) {
        qll_arena *arena = qll_arena_open(1 << 24);
        judged made = {0};
        judge(&made, facts[i].share, 1, arena);
        CHECK((double)made.assessment.help_count
              == QLL_HELP_COUNT - facts[i].more - facts[i].stiffer - facts[i].two);
        for (size_t k = 0; k < made.assessment.help_count; k++) {
            CHECK_NEAR(made.assessment.help[k].time_now, 1.0, 1e-12);
            CHECK(made.assessment.help[k].spot.stage == 0);
        }
        CHECK_WITHIN(then_of(&made, QLL_HELP_MORE_FALLOFF), facts[i].more, 1e-12);
        CHECK_WITHIN(then_of(&made, QLL_HELP_STIFFER_SPRING), facts[i].stiffer, 1e-12);
        CHECK_WITHIN(then_of(&made, QLL_HELP_TWO_STAGES), facts[i].two, 1e-12);
        const qll_low_flow_help *two = help_of(&made, QLL_HELP_TWO_STAGES);
        CHECK(two == NULL || fabs(two->between_pa_gauge - 7.099e5) < 0.05e5);
        CHECK(isnan(help_of(&made, QLL_HELP_AIR)->time_then));
        qll_arena_close(arena);
    }
}

TEST(no_help_for_a_steady_valve_and_no_split_of_two_stages)
{
    qll_arena *arena = qll_arena_open(1 << 24);
    judged made = {0};
    judge(&made, 1.1, 1, arena);
    CHECK(made.assessment.help_count == 0);
    /* Each flow from a tenth to all: where a split would win most it is not offered to two stages. */
    size_t other_count = 0;
    for (int i = 0; i < 18; i++) {
        judge(&made, 0.1 + 0.05 * i, 2, arena);
        CHECK(help_of(&made, QLL_HELP_TWO_STAGES) == NULL);
        other_count += help_of(&made, QLL_HELP_MORE_FALLOFF) != NULL ? 1 : 0;
    }
    CHECK(other_count > 0);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(each_help_is_worth_what_the_formula_says);
    TEST_RUN(no_help_for_a_steady_valve_and_no_split_of_two_stages);
    return TEST_END();
}
