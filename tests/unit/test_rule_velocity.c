#include "building_scene.h"
#include "check.h"
#include "station/verdict.h"

/* A stage of one or two valves behind a main of 110 psi; v [ft/s] = 0.4085 gpm/d^2 [in] (handbook form). */
typedef struct velocity_scene {
    const qll_pipe_size *sizes[TEST_SCENE_SIZES];
    qll_point still;
    qll_site site;
    scene_demand demand;
    qll_duty duty;
    scene_valve valves[2];
    qll_branch branches[2];
    qll_stage stage;
    qll_station station;
    qll_assessment found;
} velocity_scene;

static void scene_make(velocity_scene *made, double lived_gpm, double peak_gpm)
{
    made->still = (qll_point){0.0, 110.0 * TEST_SCENE_PSI};
    made->site = scene_site(made->sizes, &made->still);
    double flow_m3s = lived_gpm * TEST_SCENE_GPM;
    double always = 1.0;
    scene_demand_make(&made->demand, peak_gpm * TEST_SCENE_GPM, &flow_m3s, &always, 1);
    made->stage = (qll_stage){made->branches, 0, 110.0 * TEST_SCENE_PSI};
    made->station = (qll_station){&made->stage, 1};
}

static void add_valve(velocity_scene *made, double kv_m3h, const qll_pipe_size *pipe)
{
    size_t j = made->stage.branch_count;
    scene_valve_make(&made->valves[j], kv_m3h, 8.0 * TEST_SCENE_PSI, 1e-6, pipe->nominal_m);
    made->branches[j] = scene_branch(&made->valves[j], 60.0 * TEST_SCENE_PSI, pipe->bore_m);
    made->stage.branch_count += 1;
}

static const qll_verdict *judge(velocity_scene *made, qll_arena *arena)
{
    CHECK(qll_duty_make(&made->site, &made->demand.scenario, 1, 24, arena, &made->duty) == QLL_OK);
    qll_assessment found = {0};
    CHECK(qll_station_assess(&made->station, &made->site, &made->duty, arena, &found) == QLL_OK);
    made->found = found;
    return scene_verdict(&made->found, QLL_RULE_VELOCITY);
}

/* 12 gpm in 1 in are 4.67 ft/s, in the band; a design peak of 20 gpm 7.78 ft/s, of 23.5 gpm 9.14 ft/s. */
TEST(a_valve_in_charge_is_too_fast_by_its_peak_alone)
{
    qll_arena *arena = qll_arena_open(1 << 24);
    velocity_scene made;
    scene_make(&made, 12.0, 20.0);
    add_valve(&made, 10.0, &scene_sizes[1]);
    const qll_verdict *verdict = judge(&made, arena);
    CHECK(verdict->grade == QLL_GRADE_GOOD && verdict->finding == QLL_FINDING_VELOCITY_IN_BAND);
    scene_make(&made, 12.0, 23.5);
    add_valve(&made, 10.0, &scene_sizes[1]);
    verdict = judge(&made, arena);
    CHECK(verdict->grade == QLL_GRADE_FAIL && verdict->finding == QLL_FINDING_VELOCITY_ABOVE_MAX);
    CHECK_NEAR(verdict->value / TEST_SCENE_FPS, 0.4085 * 12.0 / (1.025 * 1.025), 2e-4);
    CHECK_NEAR(verdict->value_at_peak / TEST_SCENE_FPS, 0.4085 * 23.5 / (1.025 * 1.025), 2e-4);
    CHECK_NEAR(verdict->right_size_m, 1.5 * TEST_SCENE_INCH, 1e-12); /* 4.2 ft/s; 2 in: 2.4 */
    qll_arena_close(arena);
}

/* Kv 2 and 6 cannot pass 200 gpm: 50 gpm would have to run in the 1 in and 150 gpm in the 2 in pipe. */
TEST(what_cannot_pass_is_shared_by_the_openings)
{
    qll_arena *arena = qll_arena_open(1 << 24);
    velocity_scene made;
    scene_make(&made, 12.0, 200.0);
    add_valve(&made, 2.0, &scene_sizes[1]);
    add_valve(&made, 6.0, &scene_sizes[4]);
    (void)judge(&made, arena);
    static const double want_fps[2] = {0.4085 * 50.0 / (1.025 * 1.025),
                                       0.4085 * 150.0 / (1.985 * 1.985)};
    size_t seen = 0;
    for (size_t i = 0; i < made.found.detail_count; i++) {
        const qll_verdict *one = &made.found.details[i];
        if (one->rule == QLL_RULE_VELOCITY) {
            CHECK_NEAR(one->value_at_peak / TEST_SCENE_FPS, want_fps[one->spot.branch], 2e-4);
            CHECK(one->finding == QLL_FINDING_VELOCITY_ABOVE_MAX);
            seen += 1;
        }
    }
    CHECK(seen == 2);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(a_valve_in_charge_is_too_fast_by_its_peak_alone);
    TEST_RUN(what_cannot_pass_is_shared_by_the_openings);
    return TEST_END();
}
