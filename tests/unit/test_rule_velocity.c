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
    CHECK(scene_assess(&made->station, &made->site, &made->duty, arena, &found) == QLL_OK);
    made->found = found;
    return scene_verdict(&made->found, QLL_RULE_VELOCITY);
}

/* v [ft/s] = 0.4085 gpm / d^2 [in] (handbook form) in the valve's own size, no more than the bore of ASTM B88
 * type L; the trade's band 3 to 6 ft/s only informs. Wear by hand: S = 1.02 (v - 8)/7 where the demand is as given
 * or more, three nodes of five, and less below; the chance of a complaint there is 1 - exp(-2 S), so that of the
 * verdict lies between three fifths of it and all of it. */
TEST(velocity_in_the_valve_s_own_size)
{
    static const struct {
        double flow_gpm;
        size_t size;
        qll_grade grade;
        qll_finding finding;
        double worn, right_inch; /* chance in the upper nodes; 0 = none named */
    } facts[] = {
        {12.0, 1, QLL_GRADE_GOOD, QLL_FINDING_VELOCITY_IN_BAND, 0.0, 0.0},
        {15.0, 4, QLL_GRADE_GOOD, QLL_FINDING_VELOCITY_SLOW, 0.0, 0.0},
        {18.0, 1, QLL_GRADE_GOOD, QLL_FINDING_VELOCITY_QUICK, 0.0, 0.0},
        {20.2, 1, QLL_GRADE_GOOD, QLL_FINDING_VELOCITY_QUICK, 0.071, 0.0},
        {25.0, 1, QLL_GRADE_CAUTION, QLL_FINDING_VELOCITY_FAST, 0.474, 0.0},
        {36.0, 1, QLL_GRADE_CAUTION, QLL_FINDING_VELOCITY_FAST, 0.858, 0.0},
        {37.0, 1, QLL_GRADE_FAIL, QLL_FINDING_VELOCITY_ABOVE_MAX, 0.0, 1.25}, /* 15.1 ft/s */
    };

    qll_arena *arena = qll_arena_open(1 << 24);
    for (size_t i = 0; i < sizeof facts / sizeof *facts; i++) {
        velocity_scene made;
        const qll_pipe_size *pipe = &scene_sizes[facts[i].size];
        scene_make(&made, facts[i].flow_gpm, facts[i].flow_gpm);
        add_valve(&made, 10.0, pipe);
        const qll_verdict *velocity = judge(&made, arena);
        CHECK(velocity->grade == facts[i].grade && velocity->finding == facts[i].finding);
        bool is_fast = facts[i].finding == QLL_FINDING_VELOCITY_FAST;
        double worn = is_fast ? velocity->holds_share : 1.0 - velocity->holds_share;
        if (facts[i].grade != QLL_GRADE_FAIL) {
            CHECK(worn >= 0.6 * facts[i].worn - 1e-3 && worn <= facts[i].worn + 1e-3);
        }
        double own_inch = fmin(pipe->bore_m, pipe->nominal_m) / TEST_SCENE_INCH;
        CHECK_NEAR(velocity->value / TEST_SCENE_FPS,
                   0.4085 * facts[i].flow_gpm / (own_inch * own_inch), 2e-4);
        if (facts[i].right_inch > 0.0) {
            CHECK_NEAR(velocity->right_size_m, facts[i].right_inch * TEST_SCENE_INCH, 1e-9);
        } else {
            CHECK(isnan(velocity->right_size_m));
        }
    }
    qll_arena_close(arena);
}

/* A design peak of 36.5 gpm in 1 in is 14.9 ft/s, of 37 gpm 15.1 ft/s, however seldom. */
TEST(the_design_peak_alone_may_be_too_fast)
{
    qll_arena *arena = qll_arena_open(1 << 24);
    velocity_scene made;
    scene_make(&made, 12.0, 36.5);
    add_valve(&made, 10.0, &scene_sizes[1]);
    const qll_verdict *verdict = judge(&made, arena);
    CHECK(verdict->grade == QLL_GRADE_GOOD && verdict->finding == QLL_FINDING_VELOCITY_IN_BAND);
    scene_make(&made, 12.0, 37.0);
    add_valve(&made, 10.0, &scene_sizes[1]);
    verdict = judge(&made, arena);
    CHECK(verdict->grade == QLL_GRADE_FAIL && verdict->finding == QLL_FINDING_VELOCITY_ABOVE_MAX);
    CHECK_NEAR(verdict->value / TEST_SCENE_FPS, 0.4085 * 12.0, 2e-4);
    CHECK_NEAR(verdict->value_at_peak / TEST_SCENE_FPS, 0.4085 * 37.0, 2e-4);
    CHECK_NEAR(verdict->right_size_m, 1.25 * TEST_SCENE_INCH, 1e-12); /* 9.7 ft/s */
    qll_arena_close(arena);
}

/* 20 gpm in a 1 in pipe of 1.025 in are 7.8 ft/s, 21 gpm 8.2 ft/s: a caution that names the pipe, whatever
 * the valve. */
TEST(eight_feet_a_second_is_a_rule_for_the_pipe)
{
    qll_arena *arena = qll_arena_open(1 << 24);
    for (size_t i = 0; i < 2; i++) {
        velocity_scene made;
        scene_make(&made, 12.0, i == 0 ? 20.0 : 21.0);
        qll_pipe_size size = scene_sizes[1];
        size.material = "copper";
        size.velocity_max_m_s = 8.0 * TEST_SCENE_FPS;
        const qll_element pipes[] = {
            {.kind = QLL_ELEMENT_PIPE, .pipe = {.bore_m = scene_sizes[4].bore_m}},
            {.kind = QLL_ELEMENT_PIPE, .pipe = {.bore_m = size.bore_m}, .size = &size}};
        made.site.upstream = pipes;
        made.site.upstream_count = 2;
        add_valve(&made, 10.0, &scene_sizes[2]);
        const qll_verdict *verdict = judge(&made, arena);
        CHECK(verdict->grade == (i == 0 ? QLL_GRADE_GOOD : QLL_GRADE_CAUTION));
        if (i == 1) {
            CHECK(verdict->finding == QLL_FINDING_VELOCITY_PIPE && verdict->pipe == &size);
            CHECK_NEAR(verdict->value / TEST_SCENE_FPS, 0.4085 * 21.0 / (1.025 * 1.025), 2e-4);
        }
    }
    qll_arena_close(arena);
}

/* Behind the station, too: 20 gpm in 1.025 in are 7.8 ft/s, 21 gpm 8.2 ft/s; a branch that carries 20 gpm of the 21 is
 * within its limit. The farthest above it is named, with where it leads. */
TEST(the_rule_reads_the_ways_to_the_outlets)
{
    qll_arena *arena = qll_arena_open(1 << 24);
    qll_pipe_size size = scene_sizes[1];
    size.material = "copper";
    size.velocity_max_m_s = 8.0 * TEST_SCENE_FPS;
    for (size_t i = 0; i < 3; i++) {
        velocity_scene made;
        scene_make(&made, 12.0, i == 0 ? 20.0 : 21.0);
        const double carries_m3s = i == 2 ? 20.0 * TEST_SCENE_GPM : (double)NAN;
        const qll_path_run wide = {.pipe = {.length_m = 1.0, .bore_m = scene_sizes[4].bore_m},
                                   .carries_m3s = NAN};
        const qll_path_run narrow = {.pipe = {.length_m = 1.0, .bore_m = size.bore_m},
                                     .size = &size,
                                     .carries_m3s = carries_m3s};
        const qll_path_run paths[] = {wide, narrow};
        const qll_outlet outlets[] = {{.name = "hose", .path = paths, .path_count = 1},
                                      {.name = "shower", .path = paths, .path_count = 2}};
        made.site.outlets = outlets;
        made.site.outlet_count = 2;
        add_valve(&made, 10.0, &scene_sizes[2]);
        const qll_verdict *verdict = judge(&made, arena);
        CHECK(verdict->grade == (i == 1 ? QLL_GRADE_CAUTION : QLL_GRADE_GOOD));
        if (i == 1) {
            CHECK(verdict->finding == QLL_FINDING_VELOCITY_PIPE && verdict->pipe == &size
                  && verdict->spot.outlet == 1);
            CHECK_NEAR(verdict->value / TEST_SCENE_FPS, 0.4085 * 21.0 / (1.025 * 1.025), 2e-4);
        }
    }
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
    static const double want_fps[2] = {0.4085 * 50.0, 0.4085 * 150.0 / (1.985 * 1.985)};
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
    TEST_RUN(velocity_in_the_valve_s_own_size);
    TEST_RUN(the_design_peak_alone_may_be_too_fast);
    TEST_RUN(eight_feet_a_second_is_a_rule_for_the_pipe);
    TEST_RUN(the_rule_reads_the_ways_to_the_outlets);
    TEST_RUN(what_cannot_pass_is_shared_by_the_openings);
    return TEST_END();
}
