/* The search against brute force, and against itself with the catalogue in another order. */
#include "check.h"
#include "search/split.h"
#include "search_brute.h"
#include "search_case.h"

static bool front_holds(const qll_front *front, const brute_station *wanted)
{
    char name[256];
    char other[256];
    name_of(&wanted->station, name);
    for (size_t i = 0; i < front->count; i++) {
        qll_stage stages[QLL_STAGES_MOST];
        const qll_arrangement *arrangement = &front->members[i]->arrangement;
        for (size_t k = 0; k < arrangement->stage_count; k++) {
            stages[k] = qll_stage_choice_view(&arrangement->stages[k]);
        }
        qll_station station = {.stages = stages, .stage_count = arrangement->stage_count};
        name_of(&station, other);
        if (strcmp(name, other) == 0) {
            const qll_objectives *a = &front->members[i]->objectives;
            const qll_objectives *b = &wanted->objectives;
            CHECK_NEAR(a->noise, b->noise, 1e-9);
            CHECK_NEAR(a->unsteady, b->unsteady, 1e-9);
            CHECK_NEAR(a->wear, b->wear, 1e-9);
            CHECK_NEAR(a->price, b->price, 1e-12);
            return true;
        }
    }
    printf("    not in the front: %s\n", name);
    return false;
}

static void compare_with_brute_force(const scene *given, const scene_valve *valves, size_t count,
                                     size_t stages_max)
{
    qll_arena *arena = qll_arena_open(TEST_ARENA_CEILING);
    scene_case made;
    qll_catalogue catalogue;
    qll_search_options options = options_of(stages_max, 3);
    qll_searching searching;
    if (CHECK(scene_make(given, arena, &made))
        && CHECK(scene_catalogue(valves, count, arena, &catalogue))
        && CHECK(qll_search_all(&made.site, &made.duty, &catalogue, &options, arena, &searching)
                 == QLL_OK)) {
        brute all = {
            .site = &made.site, .duty = &made.duty, .catalogue = &catalogue, .arena = arena};
        CHECK(brute_all(&all, stages_max));
        size_t left = 0;
        size_t missing = 0;
        for (size_t i = 0; i < all.count; i++) {
            if (!all.stations[i].is_beaten) {
                left += 1;
                missing += front_holds(&searching.front, &all.stations[i]) ? 0 : 1;
            }
        }
        CHECK(missing == 0);
        CHECK(left == searching.front.count);
        printf(
            "    %zu assessed, %zu break no hard rule, %zu left (search: %zu scored, %zu left)\n",
            all.tried, all.count, left, searching.counts.scored, searching.front.count);
        free(all.stations);
    }
    qll_arena_close(arena);
}

TEST(search_equals_brute_force_in_one_stage)
{
    const scene given = {.static_low_psi = 85.0,
                         .static_high_psi = 105.0,
                         .set_psi = 60.0,
                         .peak_gpm = 60.0,
                         .typical_gpm = 5.0,
                         .spread = 1.1,
                         .idle_share = 0.3,
                         .class_count = 16};
    compare_with_brute_force(&given, six, TEST_SIX, 1);
}

TEST(search_equals_brute_force_in_two_stages)
{
    const scene given = {.static_low_psi = 165.0,
                         .static_high_psi = 190.0,
                         .set_psi = 55.0,
                         .peak_gpm = 50.0,
                         .typical_gpm = 6.0,
                         .spread = 1.2,
                         .idle_share = 0.2,
                         .class_count = 10};
    compare_with_brute_force(&given, six, TEST_SIX, 2);
}

TEST(search_equals_brute_force_on_random_duties)
{
    scene_random random = {7};
    for (int i = 0; i < 4; i++) {
        scene_valve valves[TEST_SIX];
        for (size_t k = 0; k < TEST_SIX; k++) {
            valves[k] = six[k];
            valves[k].kv_m3h *= scene_uniform(&random, 0.7, 1.4);
            valves[k].band_psi = scene_uniform(&random, 6.0, 20.0);
            valves[k].flow_min_gpm *= scene_uniform(&random, 0.3, 3.0);
            valves[k].price *= scene_uniform(&random, 0.7, 1.4);
            valves[k].inlet_effect = scene_uniform(&random, -0.05, 0.05);
        }
        double high = scene_uniform(&random, 95.0, 200.0);
        scene given = {.static_low_psi = high * scene_uniform(&random, 0.8, 0.98),
                       .static_high_psi = high,
                       .set_psi = scene_uniform(&random, 45.0, 65.0),
                       .peak_gpm = scene_uniform(&random, 15.0, 120.0),
                       .spread = scene_uniform(&random, 0.5, 1.6),
                       .idle_share = scene_uniform(&random, 0.0, 0.6),
                       .class_count = 8};
        given.typical_gpm = given.peak_gpm * scene_uniform(&random, 0.03, 0.4);
        compare_with_brute_force(&given, valves, TEST_SIX, 2);
    }
}

/* What the search adds up for stations of @p stages is what a full assessment finds; every nth of
 * the front is looked at. Returns how many. */
static size_t compare_with_full_assessment(const qll_searching *searching, size_t stages,
                                           size_t every)
{
    size_t compared = 0;
    for (size_t i = 0; i < searching->front.count; i += every) {
        const qll_front_member *member = searching->front.members[i];
        qll_candidate whole;
        if (member->arrangement.stage_count != stages
            || !CHECK(qll_candidate_make(&member->arrangement, searching->site, searching->duty,
                                         searching->arena, &whole)
                      == QLL_OK)) {
            continue;
        }
        const qll_objectives *sum = &whole.assessment.objectives;
        CHECK_NEAR(member->objectives.noise, sum->noise, 1e-9);
        CHECK_NEAR(member->objectives.unsteady, sum->unsteady, 1e-9);
        CHECK_NEAR(member->objectives.wear, sum->wear, 1e-9);
        CHECK_NEAR(member->objectives.price, sum->price, 1e-12);
        compared += 1;
    }
    return compared;
}

static void check_counts(const qll_search_counts *counts)
{
    size_t all = counts->by_handover + counts->beaten + counts->scored;
    for (size_t rule = 0; rule < QLL_RULE_COUNT; rule++) {
        all += counts->by_rule[rule];
    }
    CHECK(all == counts->arrangements);
}

TEST(sums_of_three_stages_equal_a_full_assessment)
{
    const scene given = {.static_low_psi = 260.0,
                         .static_high_psi = 285.0,
                         .set_psi = 30.0,
                         .peak_gpm = 30.0,
                         .typical_gpm = 5.0,
                         .spread = 1.0,
                         .idle_share = 0.3,
                         .class_count = 10};
    qll_arena *arena = qll_arena_open(TEST_ARENA_CEILING);
    scene_case made;
    qll_catalogue catalogue;
    const qll_search_options options = options_of(3, 3);
    qll_searching searching;
    size_t compared = 0;
    if (CHECK(scene_make(&given, arena, &made))
        && CHECK(scene_catalogue(six, TEST_SIX, arena, &catalogue))
        && CHECK(qll_search_all(&made.site, &made.duty, &catalogue, &options, arena, &searching)
                 == QLL_OK)) {
        compared = compare_with_full_assessment(&searching, 3, 1);
        check_counts(&searching.counts);
    }
    CHECK(compared > 10);
    printf("    %zu compared\n", compared);
    qll_arena_close(arena);
}

/* The stations of the front with a stage at another offset than that of the plan. */
static size_t count_offsets(const qll_searching *searching, size_t stage)
{
    size_t moved = 0;
    for (size_t i = 0; i < searching->front.count; i++) {
        const qll_arrangement *arrangement = &searching->front.members[i]->arrangement;
        const qll_stage_choice *choice = &arrangement->stages[stage];
        if (arrangement->stage_count != 2 || choice->branch_count != 2) {
            continue;
        }
        const qll_split split =
            qll_split_at(searching, arrangement->stages[0].branches[0].set_pa_gauge);
        const qll_stage_plan *plan = stage == 0 ? &split.first_plan : &split.second_plan;
        double by_rule_pa = qll_offset_by_rule_pa(&choice->branches[0], &choice->branches[1], plan,
                                                  searching->site);
        double offset_pa = choice->branches[0].set_pa_gauge - choice->branches[1].set_pa_gauge;
        moved += fabs(offset_pa - by_rule_pa) > 0.01 * TEST_PSI ? 1 : 0;
    }
    return moved;
}

/* More valves than brute force can bear, with inlet-pressure effects of both signs: what is taken over
 * from other stations is what would have been solved. */
TEST(sums_of_two_stages_equal_a_full_assessment)
{
    scene_random random = {23};
    size_t compared = 0;
    size_t moved[2] = {0, 0};
    for (int i = 0; i < 3; i++) {
        scene given = {.static_low_psi = 150.0,
                       .static_high_psi = scene_uniform(&random, 190.0, 230.0),
                       .set_psi = scene_uniform(&random, 45.0, 60.0),
                       .peak_gpm = scene_uniform(&random, 40.0, 200.0),
                       .spread = scene_uniform(&random, 0.5, 1.6),
                       .idle_share = 0.3,
                       .class_count = 12};
        given.typical_gpm = given.peak_gpm * scene_uniform(&random, 0.03, 0.4);
        qll_arena *arena = qll_arena_open(TEST_ARENA_CEILING);
        scene_case made;
        qll_catalogue catalogue;
        const qll_search_options options = options_of(2, 3);
        qll_searching searching;
        if (CHECK(scene_make(&given, arena, &made))
            && CHECK(scene_catalogue_of(16, arena, &catalogue))
            && CHECK(qll_search_all(&made.site, &made.duty, &catalogue, &options, arena, &searching)
                     == QLL_OK)) {
            compared += compare_with_full_assessment(&searching, 2, 15);
            check_counts(&searching.counts);
            moved[0] += count_offsets(&searching, 0);
            moved[1] += count_offsets(&searching, 1);
        }
        qll_arena_close(arena);
    }
    CHECK(compared > 50);
    CHECK(moved[0] > 50 && moved[1] > 50);
    printf("    %zu compared; %zu and %zu of the fronts at other offsets\n", compared, moved[0],
           moved[1]);
}

TEST(a_shuffled_catalogue_gives_the_same_answer)
{
    const scene given = {.static_low_psi = 130.0,
                         .static_high_psi = 160.0,
                         .set_psi = 55.0,
                         .peak_gpm = 80.0,
                         .typical_gpm = 5.0,
                         .spread = 1.0,
                         .idle_share = 0.3,
                         .class_count = 16};
    scene_valve valves[TEST_SIX];
    memcpy(valves, six, sizeof six);
    searched first;
    qll_search_options options = qll_search_options_default();
    search_scene(&given, valves, TEST_SIX, &options, &first);
    scene_random random = {99};
    for (int round = 0; round < 3; round++) {
        for (size_t i = TEST_SIX - 1; i > 0; i--) {
            size_t k = (size_t)scene_uniform(&random, 0.0, (double)i + 0.999);
            scene_valve swapped = valves[i];
            valves[i] = valves[k];
            valves[k] = swapped;
        }
        searched again;
        search_scene(&given, valves, TEST_SIX, &options, &again);
        CHECK(again.design.count == first.design.count);
        CHECK(again.design.runner_up == first.design.runner_up);
        CHECK(again.design.counts.front == first.design.counts.front);
        CHECK(again.design.counts.arrangements == first.design.counts.arrangements);
        for (size_t i = 0; i < again.design.count && i < first.design.count; i++) {
            char a[256];
            char b[256];
            name_of(&first.design.candidates[i].station, a);
            name_of(&again.design.candidates[i].station, b);
            CHECK_TEXT(b, a);
        }
        qll_arena_close(again.arena);
    }
    qll_arena_close(first.arena);
}

int main(void)
{
    TEST_RUN(search_equals_brute_force_in_one_stage);
    TEST_RUN(search_equals_brute_force_in_two_stages);
    TEST_RUN(search_equals_brute_force_on_random_duties);
    TEST_RUN(sums_of_three_stages_equal_a_full_assessment);
    TEST_RUN(sums_of_two_stages_equal_a_full_assessment);
    TEST_RUN(a_shuffled_catalogue_gives_the_same_answer);
    return TEST_END();
}
