#include "check.h"
#include "search/robust.h"
#include "search/sensitivity.h"
#include "search_case.h"

/* One station in a made-up building, assessed. */
typedef struct studied {
    qll_arena *arena;
    scene_case made;
    qll_catalogue catalogue;
    qll_branch branch;
    qll_stage stage;
    qll_station station;
    qll_assessment assessment;
    bool is_done;
} studied;

/* A 1 in valve of the six, set to 60 psi, at 100 psi at the least and @p high_psi at most. */
static void study(double high_psi, studied *result)
{
    const scene given = {.static_low_psi = 100.0,
                         .static_high_psi = high_psi,
                         .set_psi = 60.0,
                         .peak_gpm = 20.0,
                         .typical_gpm = 8.0,
                         .spread = 0.5,
                         .idle_share = 0.2,
                         .class_count = 24};
    result->arena = qll_arena_open(TEST_ARENA_CEILING);
    result->is_done = CHECK(scene_make(&given, result->arena, &result->made))
                      && CHECK(scene_catalogue(six, TEST_SIX, result->arena, &result->catalogue));
    result->branch = (qll_branch){.valve = &result->catalogue.valves[2],
                                  .law = &result->catalogue.laws[2],
                                  .set_pa_gauge = 60.0 * TEST_PSI,
                                  .pipe_bore_m = 1.025 * TEST_IN,
                                  .series_kv_m3h = NAN};
    result->stage = (qll_stage){
        .branches = &result->branch, .branch_count = 1, .set_inlet_pa_gauge = 100.0 * TEST_PSI};
    result->station = (qll_station){.stages = &result->stage, .stage_count = 1};
    result->is_done =
        result->is_done
        && CHECK(qll_station_assess(&result->station, &result->made.site, &result->made.duty,
                                    result->arena, &result->assessment)
                 == QLL_OK);
}

static qll_sensitivity draw(const studied *of, const qll_uncertainty *uncertainty, uint64_t seed,
                            size_t draw_count)
{
    qll_drawing *drawing = NULL;
    qll_sensitivity found = {.draw_count = 0};
    CHECK(qll_drawing_make(&of->made.site, &of->made.duty, uncertainty, seed, of->arena, &drawing)
          == QLL_OK);
    CHECK(qll_sensitivity_of(drawing, &of->station, &of->assessment, draw_count, of->arena, &found)
          == QLL_OK);
    CHECK(found.draw_count == draw_count);
    return found;
}

static qll_uncertainty nothing_uncertain(void)
{
    return (qll_uncertainty){.stable_ratio = 1.0, .stable_ratio_estimated = 1.0};
}

TEST(verdicts_alone_are_those_of_the_assessment)
{
    studied of;
    study(170.0, &of);
    qll_verdict worst[QLL_RULE_COUNT];
    size_t count = 0;
    size_t taken = qll_arena_size(of.arena);
    if (of.is_done
        && CHECK(
            qll_station_grade(&of.station, &of.made.site, &of.made.duty, of.arena, worst, &count)
            == QLL_OK)) {
        CHECK(count >= 8);
        CHECK(count == of.assessment.verdict_count);
        for (size_t i = 0; i < of.assessment.verdict_count; i++) {
            const qll_verdict *verdict = &of.assessment.verdicts[i];
            CHECK(worst[i].rule == verdict->rule && worst[i].grade == verdict->grade);
            CHECK(worst[i].finding == verdict->finding);
            CHECK(worst[i].value == verdict->value || isnan(verdict->value));
        }
        for (int i = 0; i < 100; i++) {
            CHECK(qll_station_grade(&of.station, &of.made.site, &of.made.duty, of.arena, worst,
                                    &count)
                  == QLL_OK);
        }
        CHECK(qll_arena_size(of.arena)
              <= taken + (size_t)65536 * 4); /* what it takes it gives back */
    }
    qll_arena_close(of.arena);
}

/* The drawn building is the building where nothing is uncertain: what the draws look up of the
 * losses, and how they put a duty together, changes no verdict. */
TEST(where_nothing_is_uncertain_every_verdict_holds)
{
    static const double highs_psi[] = {105.0, 119.9, 120.1, 140.0, 179.0, 182.0, 230.0};
    for (size_t i = 0; i < sizeof highs_psi / sizeof highs_psi[0]; i++) {
        studied of;
        study(highs_psi[i], &of);
        const qll_uncertainty none = nothing_uncertain();
        const qll_sensitivity found = draw(&of, &none, 1, 5);
        for (size_t v = 0; v < of.assessment.verdict_count; v++) {
            CHECK_NEAR(found.holds_share[of.assessment.verdicts[v].rule], 1.0, 1e-12);
        }
        qll_arena_close(of.arena);
    }
}

/* The ratio of a stage is its highest inlet over its set-point. With the supply's level alone
 * uncertain, evenly by 5 %, 122 psi over 60 psi is above 2:1 from 120/122 = 1 - 0.01639 on: in
 * (0.05 + 0.01639)/0.1 = 0.6639 of the draws. */
TEST(a_share_that_can_be_worked_out_comes_out)
{
    studied of;
    study(122.0, &of);
    qll_uncertainty one = nothing_uncertain();
    one.static_share = 0.05;
    const size_t draws = 20000;
    const qll_sensitivity found = draw(&of, &one, 7, draws);
    const double wanted = (0.05 + 1.0 - 120.0 / 122.0) / 0.1;
    const double deviation = sqrt(wanted * (1.0 - wanted) / (double)draws);
    double share = found.holds_share[QLL_RULE_RATIO];
    printf("    %.4f, by hand %.4f\n", share, wanted);
    /* The smallest flow takes some pascals of the inlet: less than a deviation. */
    CHECK(fabs(share - wanted) < 4.0 * deviation);
    CHECK_NEAR(found.holds_share[QLL_RULE_CAPACITY], 1.0, 1e-12);
    qll_arena_close(of.arena);
}

/* With the set-point alone uncertain, evenly by 2 psi, 122 psi is above 2:1 up to 61 psi: in three
 * draws of four. */
TEST(drifting_set_points_move_the_ratio)
{
    studied of;
    study(122.0, &of);
    qll_uncertainty one = nothing_uncertain();
    one.set_drift_pa = 2.0 * TEST_PSI;
    const qll_sensitivity found = draw(&of, &one, 3, 20000);
    CHECK(fabs(found.holds_share[QLL_RULE_RATIO] - 0.75) < 4.0 * sqrt(0.75 * 0.25 / 20000.0));
    qll_arena_close(of.arena);
}

TEST(the_seed_decides_and_nothing_else)
{
    studied of;
    study(122.0, &of);
    const qll_uncertainty all = qll_uncertainty_default();
    const qll_sensitivity first = draw(&of, &all, 1, 400);
    const qll_sensitivity again = draw(&of, &all, 1, 400);
    const qll_sensitivity other = draw(&of, &all, 2, 400);
    bool differs = false;
    for (size_t v = 0; v < of.assessment.verdict_count; v++) {
        qll_rule rule = of.assessment.verdicts[v].rule;
        CHECK(first.holds_share[rule] == again.holds_share[rule]);
        CHECK(fabs(first.holds_share[rule] - other.holds_share[rule]) < 0.15);
        differs = differs || first.holds_share[rule] != other.holds_share[rule];
    }
    CHECK(differs);
    qll_arena_close(of.arena);
}

TEST(without_memory_it_says_so)
{
    studied of;
    study(122.0, &of);
    const qll_uncertainty all = qll_uncertainty_default();
    bool is_through = false;
    for (size_t nth = 1; nth < 1000 && !is_through; nth++) {
        qll_drawing *drawing = NULL;
        qll_sensitivity found;
        qll_arena_fail(of.arena, nth, false);
        qll_status status =
            qll_drawing_make(&of.made.site, &of.made.duty, &all, 1, of.arena, &drawing);
        if (status == QLL_OK) {
            status = qll_sensitivity_of(drawing, &of.station, &of.assessment, 2, of.arena, &found);
        }
        is_through = status == QLL_OK;
        CHECK(is_through || status == QLL_NO_MEMORY);
    }
    CHECK(is_through);
    qll_arena_fail(of.arena, 0, false);
    qll_arena_close(of.arena);
}

int main(void)
{
    TEST_RUN(verdicts_alone_are_those_of_the_assessment);
    TEST_RUN(where_nothing_is_uncertain_every_verdict_holds);
    TEST_RUN(a_share_that_can_be_worked_out_comes_out);
    TEST_RUN(drifting_set_points_move_the_ratio);
    TEST_RUN(the_seed_decides_and_nothing_else);
    TEST_RUN(without_memory_it_says_so);
    return TEST_END();
}
