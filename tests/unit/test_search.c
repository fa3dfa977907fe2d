#include "check.h"
#include "search/arrangement.h"
#include "search/search.h"
#include "search_case.h"

/* ---- what the trade expects ---- */

static void print_design(const qll_design *design)
{
    for (size_t i = 0; i < design->count; i++) {
        char name[256];
        const qll_assessment *found = &design->candidates[i].assessment;
        name_of(&design->candidates[i].station, name);
        printf("    %s: fails %zu cautions %zu noise %.4g unsteady %.4g wear %.4g price %.0f%s\n",
               name, found->fail_count, found->caution_count, found->objectives.noise,
               found->objectives.unsteady, found->objectives.wear, found->objectives.price,
               i == design->runner_up ? " (runner-up)" : "");
    }
}

TEST(above_three_to_one_two_stages_are_recommended)
{
    /* Common practice: above 3:1 (gauge) use two stages. 190/50 = 3.8. */
    const scene given = {.static_low_psi = 175.0,
                         .static_high_psi = 190.0,
                         .set_psi = 50.0,
                         .peak_gpm = 40.0,
                         .typical_gpm = 12.0,
                         .spread = 0.6,
                         .idle_share = 0.2,
                         .class_count = 24};
    searched result;
    qll_search_options options = qll_search_options_default();
    search_scene(&given, six, TEST_SIX, &options, &result);
    if (result.is_done && CHECK(result.design.count > 0)) {
        print_design(&result.design);
        CHECK(result.design.candidates[0].station.stage_count == 2);
    }
    qll_arena_close(result.arena);
}

static qll_grade ratio_grade(const qll_assessment *assessment)
{
    for (size_t i = 0; i < assessment->verdict_count; i++) {
        if (assessment->verdicts[i].rule == QLL_RULE_RATIO) {
            return assessment->verdicts[i].grade;
        }
    }
    return QLL_GRADE_COUNT;
}

TEST(above_nine_to_one_three_stages_are_recommended)
{
    /* 3:1 at most for each stage (common practice): two of them reach 9:1. */
    const scene given = {.static_low_psi = 270.0,
                         .static_high_psi = 280.0,
                         .set_psi = 30.0,
                         .peak_gpm = 30.0,
                         .typical_gpm = 6.0,
                         .spread = 0.8,
                         .idle_share = 0.3,
                         .class_count = 16};
    qll_search_options options = qll_search_options_default();
    searched result;
    search_scene(&given, six, TEST_SIX, &options, &result);
    if (result.is_done && CHECK(result.design.count > 0)) {
        const qll_candidate *best = &result.design.candidates[0];
        CHECK(best->station.stage_count == 3);
        CHECK(result.design.reason == QLL_REASON_THREE_SHARE_THE_DROP
              || result.design.reason == QLL_REASON_LEAST_BAD);
        CHECK(ratio_grade(&best->assessment) < QLL_GRADE_FAIL);
        for (size_t i = 1; i < result.design.count; i++) {
            const qll_candidate *other = &result.design.candidates[i];
            CHECK(other->station.stage_count == 3
                  || ratio_grade(&other->assessment) == QLL_GRADE_FAIL);
        }
        print_design(&result.design);
    }
    qll_arena_close(result.arena);
}

TEST(where_two_stages_keep_the_ratio_three_change_nothing)
{
    const scene given = {.static_low_psi = 225.0,
                         .static_high_psi = 240.0,
                         .set_psi = 30.0,
                         .peak_gpm = 30.0,
                         .typical_gpm = 6.0,
                         .spread = 0.8,
                         .idle_share = 0.3,
                         .class_count = 12};
    qll_search_options options = options_of(2, 3);
    searched two;
    searched three;
    search_scene(&given, six, TEST_SIX, &options, &two);
    options.stages_max = 3;
    search_scene(&given, six, TEST_SIX, &options, &three);
    CHECK(two.design.counts.arrangements == three.design.counts.arrangements);
    CHECK(two.design.count == three.design.count);
    for (size_t i = 0; i < two.design.count && i < three.design.count; i++) {
        char a[256];
        char b[256];
        name_of(&two.design.candidates[i].station, a);
        name_of(&three.design.candidates[i].station, b);
        CHECK_TEXT(b, a);
    }
    qll_arena_close(two.arena);
    qll_arena_close(three.arena);
}

TEST(small_and_large_flows_get_small_and_large_in_parallel)
{
    /* Common practice: the usual answer to chatter is a small valve that carries nearly all the
     * hours and a large one that opens only for the peak. */
    const scene given = {.static_low_psi = 95.0,
                         .static_high_psi = 110.0,
                         .set_psi = 60.0,
                         .peak_gpm = 110.0,
                         .typical_gpm = 2.5,
                         .spread = 1.0,
                         .idle_share = 0.3,
                         .class_count = 24};
    searched result;
    qll_search_options options = qll_search_options_default();
    search_scene(&given, six, TEST_SIX, &options, &result);
    if (result.is_done && CHECK(result.design.count > 0)) {
        print_design(&result.design);
        const qll_station *station = &result.design.candidates[0].station;
        CHECK(station->stage_count == 1);
        const qll_stage *stage = &station->stages[0];
        if (CHECK(stage->branch_count >= 2)) {
            const qll_branch *small = &stage->branches[0];
            const qll_branch *large = &stage->branches[stage->branch_count - 1];
            CHECK(small->valve->kv_m3h < large->valve->kv_m3h);
            CHECK(small->set_pa_gauge > large->set_pa_gauge);
            qll_operating_point point;
            CHECK(qll_station_operate(station, &result.made.site,
                                      result.made.duty.inlet_static_pa[1],
                                      given.typical_gpm * TEST_GPM, result.arena, &point)
                  == QLL_OK);
            CHECK(point.branches[0][0].working);
            CHECK(!point.branches[0][1].working);
        }
        CHECK(result.design.reason == QLL_REASON_QUIETER_EARNS_PARTS
              || result.design.reason == QLL_REASON_SIMPLEST_NOT_BEATEN);
    }
    qll_arena_close(result.arena);
}

TEST(a_single_valve_without_caution_wins)
{
    /* docs/theory/recommendation.md: a pair must earn its second valve; a single one without
     * caution wins. */
    const scene given = {.static_low_psi = 80.0,
                         .static_high_psi = 90.0,
                         .set_psi = 55.0,
                         .peak_gpm = 16.0,
                         .typical_gpm = 10.0,
                         .spread = 0.2,
                         .idle_share = 0.4,
                         .class_count = 24};
    searched result;
    qll_search_options options = qll_search_options_default();
    search_scene(&given, six, TEST_SIX, &options, &result);
    if (result.is_done && CHECK(result.design.count > 0)) {
        print_design(&result.design);
        const qll_candidate *best = &result.design.candidates[0];
        CHECK(best->part_count == 1);
        CHECK(best->assessment.fail_count == 0 && best->assessment.caution_count == 0);
        CHECK(result.design.reason == QLL_REASON_SINGLE_WITHOUT_CAUTION);
        CHECK(result.design.runner_up == SIZE_MAX);
    }
    qll_arena_close(result.arena);
}

/* Two valves alike in all that is scored; one locks up so high that the static pressure stands half a
 * psi inside what is good. Returns the id of the recommended one. */
static const char *edge_or_clear(double clear_price, bool edge_first)
{
    static const scene_valve both[] = {{"edge", 1.0, 6.3, 14.0, 20.0, 160.0, 0.9, 210.0, 0.01},
                                       {"clear", 1.0, 6.3, 14.0, 20.0, 160.0, 0.9, 0.0, 0.01}};
    const scene given = {.static_low_psi = 88.0,
                         .static_high_psi = 95.0,
                         .set_psi = 55.0,
                         .peak_gpm = 14.0,
                         .typical_gpm = 10.0,
                         .spread = 0.3,
                         .idle_share = 0.5,
                         .class_count = 24};
    const char *recommended = "none";
    qll_arena *arena = qll_arena_open(TEST_ARENA_CEILING);
    scene_case made;
    qll_valve valves[2];
    qll_opening_law laws[2];
    for (size_t i = 0; i < 2; i++) {
        const scene_valve *from = &both[edge_first ? i : 1 - i];
        bool is_edge = from == &both[0];
        valves[i] = scene_valve_make(from);
        valves[i].lockup_rise_pa = (is_edge ? 22.5 : 3.0) * TEST_PSI;
        valves[i].price = is_edge ? from->price : clear_price;
        CHECK(qll_opening_law_make(&valves[i], arena, &laws[i]) == QLL_OK);
    }
    const qll_catalogue catalogue = {
        .name = "edge", .valves = valves, .laws = laws, .count = 2, .invented = true};
    const qll_search_options options = options_of(1, 1);
    qll_design design;
    if (CHECK(scene_make(&given, arena, &made))
        && CHECK(qll_search(&made.site, &made.duty, &catalogue, &options, arena, &design) == QLL_OK)
        && CHECK(design.count > 0)) {
        CHECK(design.reason == QLL_REASON_SINGLE_WITHOUT_CAUTION);
        const char *id = design.candidates[0].station.stages[0].branches[0].valve->id;
        recommended = strcmp(id, "edge") == 0 ? "edge" : "clear";
    }
    qll_arena_close(arena);
    return recommended;
}

TEST(of_near_ties_the_one_off_the_edge_is_recommended)
{
    CHECK_TEXT(edge_or_clear(220.0, true), "clear");
    CHECK_TEXT(edge_or_clear(220.0, false), "clear");
    /* A tenth of the price is near, a quarter is not. */
    CHECK_TEXT(edge_or_clear(263.0, true), "edge");
    CHECK_TEXT(edge_or_clear(263.0, false), "edge");
}

TEST(a_valve_of_the_pipes_size_is_shown_as_oversized)
{
    const scene given = {.static_low_psi = 80.0,
                         .static_high_psi = 90.0,
                         .set_psi = 55.0,
                         .peak_gpm = 16.0,
                         .typical_gpm = 6.0,
                         .spread = 0.6,
                         .idle_share = 0.4,
                         .class_count = 24};
    searched result;
    qll_search_options options = qll_search_options_default();
    options.pipe_size_m = 2.1 * TEST_IN; /* nearest: 2 in */
    search_scene(&given, six, TEST_SIX, &options, &result);
    if (result.is_done && CHECK(result.design.by_pipe_size != NULL)) {
        const qll_candidate *pipe = result.design.by_pipe_size;
        CHECK_TEXT(pipe->station.stages[0].branches[0].valve->id, "two");
        CHECK(pipe->assessment.verdicts[QLL_RULE_VELOCITY].finding
              == QLL_FINDING_VELOCITY_OVERSIZED);
        CHECK(pipe->assessment.verdicts[QLL_RULE_VELOCITY].right_size_m < 2.0 * TEST_IN);
    }
    qll_arena_close(result.arena);
}

TEST(without_a_pipe_size_there_is_no_valve_of_that_size)
{
    const scene given = {.static_low_psi = 80.0,
                         .static_high_psi = 90.0,
                         .set_psi = 55.0,
                         .peak_gpm = 16.0,
                         .typical_gpm = 6.0,
                         .spread = 0.6,
                         .class_count = 8};
    searched result;
    qll_search_options options = options_of(1, 1);
    search_scene(&given, six, TEST_SIX, &options, &result);
    CHECK(result.design.by_pipe_size == NULL);
    qll_arena_close(result.arena);
}

/* ---- counts ---- */

TEST(counts_add_up_and_an_empty_front_says_why)
{
    /* 400 gpm through at most a 1/2 in valve: nothing passes it. */
    const scene given = {.static_low_psi = 85.0,
                         .static_high_psi = 105.0,
                         .set_psi = 60.0,
                         .peak_gpm = 400.0,
                         .typical_gpm = 40.0,
                         .spread = 1.0,
                         .class_count = 8};
    searched result;
    qll_search_options options = qll_search_options_default();
    search_scene(&given, six, 1, &options, &result);
    const qll_search_counts *counts = &result.design.counts;
    CHECK(result.design.count == 0);
    CHECK(counts->front == 0);
    CHECK(counts->by_rule[QLL_RULE_CAPACITY] > 0);
    size_t sum = counts->by_handover + counts->beaten + counts->scored;
    for (size_t i = 0; i < QLL_RULE_COUNT; i++) {
        sum += counts->by_rule[i];
    }
    CHECK(sum == counts->arrangements);
    qll_arena_close(result.arena);
}

TEST(an_empty_catalogue_is_no_failure)
{
    const scene given = {.static_low_psi = 85.0,
                         .static_high_psi = 105.0,
                         .set_psi = 60.0,
                         .peak_gpm = 40.0,
                         .typical_gpm = 4.0,
                         .spread = 1.0,
                         .class_count = 8};
    searched result;
    qll_search_options options = qll_search_options_default();
    options.pipe_size_m = 2.0 * TEST_IN;
    search_scene(&given, six, 0, &options, &result);
    CHECK(result.design.count == 0);
    CHECK(result.design.counts.arrangements == 0);
    CHECK(result.design.by_pipe_size == NULL);
    qll_arena_close(result.arena);
}

TEST(three_valves_come_in_where_two_cannot_carry_the_peak)
{
    /* Three 3/4 in valves carry what two do not: two stages then need three legs somewhere. */
    const scene given = {.static_low_psi = 170.0,
                         .static_high_psi = 180.0,
                         .set_psi = 50.0,
                         .peak_gpm = 80.0,
                         .typical_gpm = 10.0,
                         .spread = 0.8,
                         .idle_share = 0.2,
                         .class_count = 8};
    searched result;
    qll_search_options options = qll_search_options_default();
    const scene_valve one[] = {{"only", 0.75, 4.2, 20.0, 20.0, 160.0, 0.5, 150.0, 0.01}};
    search_scene(&given, one, 1, &options, &result);
    print_design(&result.design);
    bool threes = false;
    for (size_t i = 0; i < result.design.count; i++) {
        const qll_station *station = &result.design.candidates[i].station;
        if (station->stage_count == 2) {
            CHECK(station->stages[1].branch_count == 3 || station->stages[0].branch_count == 3);
            threes = true;
        }
    }
    CHECK(threes);
    qll_arena_close(result.arena);
}

/* ---- progress and memory ---- */

typedef struct heard {
    size_t count;
    double last;
    bool is_falling;
    size_t stop_at;
} heard;

/* A small valve of great fall-off: by its travel alone its neighbour would be set far below it. */
TEST(no_branch_is_set_farther_below_than_a_building_bears)
{
    const scene_valve pair[] = {{"long", 0.75, 3.6, 60.0, 20.0, 160.0, 0.5, 150.0, 0.0},
                                {"large", 3.0, 52.0, 12.0, 20.0, 160.0, 9.0, 1700.0, 0.0}};
    const scene given = {.static_low_psi = 90.0,
                         .static_high_psi = 110.0,
                         .set_psi = 60.0,
                         .peak_gpm = 60.0,
                         .typical_gpm = 5.0,
                         .spread = 1.0,
                         .class_count = 4};
    qll_arena *arena = qll_arena_open(TEST_ARENA_CEILING);
    scene_case made;
    qll_catalogue catalogue;
    qll_pool pool;
    if (CHECK(scene_make(&given, arena, &made))
        && CHECK(scene_catalogue(pair, 2, arena, &catalogue))
        && CHECK(qll_pool_make(&made.site, &catalogue, arena, &pool) == QLL_OK)) {
        qll_stage_plan plan = {.set_pa_gauge = 60.0 * TEST_PSI,
                               .set_inlet_pa_gauge = 100.0 * TEST_PSI,
                               .offset_most_pa = INFINITY,
                               .all_offsets = true};
        qll_stage_choice choice = {.branches = {pool.branches[0], pool.branches[1]},
                                   .branch_count = 2};
        double free_pa =
            qll_offset_by_rule_pa(&pool.branches[0], &pool.branches[1], &plan, &made.site);
        CHECK(free_pa > 15.0 * TEST_PSI);
        plan.offset_most_pa = QLL_OFFSET_MOST_PA;
        qll_stage_choice offsets[QLL_OFFSETS_MOST];
        size_t count = qll_stage_choice_offsets(&choice, &plan, &made.site, offsets);
        CHECK(count == 6);
        for (size_t i = 0; i < count; i++) {
            double apart_pa =
                offsets[i].branches[0].set_pa_gauge - offsets[i].branches[1].set_pa_gauge;
            CHECK(apart_pa > 0.0 && apart_pa <= 10.0 * TEST_PSI + 1e-6);
        }
        plan.offset_most_pa = QLL_OFFSET_MOST_FIRST_PA;
        CHECK_NEAR(qll_offset_by_rule_pa(&pool.branches[0], &pool.branches[1], &plan, &made.site),
                   15.0 * TEST_PSI, 1e-9);
    }
    qll_arena_close(arena);
}

static bool hear(double share, void *context)
{
    heard *told = context;
    told->count += 1;
    told->is_falling = told->is_falling || share < told->last || share > 1.0;
    told->last = share;
    return told->count != told->stop_at;
}

TEST(progress_rises_and_may_stop_the_search)
{
    const scene given = {.static_low_psi = 170.0,
                         .static_high_psi = 180.0,
                         .set_psi = 50.0,
                         .peak_gpm = 60.0,
                         .typical_gpm = 10.0,
                         .spread = 0.8,
                         .class_count = 8};
    for (size_t stop_at = 0; stop_at < 3; stop_at += 2) {
        qll_arena *arena = qll_arena_open(TEST_ARENA_CEILING);
        scene_case made;
        qll_catalogue catalogue;
        heard told = {.stop_at = stop_at};
        qll_search_options options = options_of(2, 2);
        options.progress = hear;
        options.progress_context = &told;
        qll_design design;
        if (CHECK(scene_make(&given, arena, &made))
            && CHECK(scene_catalogue_of(20, arena, &catalogue))
            && CHECK(qll_search(&made.site, &made.duty, &catalogue, &options, arena, &design)
                     == QLL_OK)) {
            CHECK(!told.is_falling);
            CHECK(stop_at == 0 ? told.count > 2 : told.count == stop_at);
            CHECK(design.stopped == (stop_at != 0));
        }
        qll_arena_close(arena);
    }
}

TEST(without_memory_it_says_so)
{
    const scene given = {.static_low_psi = 120.0,
                         .static_high_psi = 130.0,
                         .set_psi = 50.0,
                         .peak_gpm = 30.0,
                         .typical_gpm = 10.0,
                         .spread = 0.8,
                         .class_count = 4};
    qll_status status = QLL_NO_MEMORY;
    size_t failures = 0;
    for (size_t nth = 1; status == QLL_NO_MEMORY; nth += 1 + nth / 8) {
        qll_arena *arena = qll_arena_open(TEST_ARENA_CEILING);
        scene_case made;
        qll_catalogue catalogue;
        qll_search_options options = options_of(2, 2);
        options.pipe_size_m = TEST_IN;
        qll_design design;
        if (CHECK(scene_make(&given, arena, &made))
            && CHECK(scene_catalogue(six, 2, arena, &catalogue))) {
            qll_arena_fail(arena, nth, nth % 2 == 0);
            status = qll_search(&made.site, &made.duty, &catalogue, &options, arena, &design);
            CHECK(status == QLL_OK || status == QLL_NO_MEMORY);
            failures += status == QLL_NO_MEMORY ? 1 : 0;
        }
        qll_arena_close(arena);
    }
    CHECK(failures > 20);
}

int main(void)
{
    TEST_RUN(above_three_to_one_two_stages_are_recommended);
    TEST_RUN(above_nine_to_one_three_stages_are_recommended);
    TEST_RUN(where_two_stages_keep_the_ratio_three_change_nothing);
    TEST_RUN(small_and_large_flows_get_small_and_large_in_parallel);
    TEST_RUN(a_single_valve_without_caution_wins);
    TEST_RUN(of_near_ties_the_one_off_the_edge_is_recommended);
    TEST_RUN(a_valve_of_the_pipes_size_is_shown_as_oversized);
    TEST_RUN(without_a_pipe_size_there_is_no_valve_of_that_size);
    TEST_RUN(counts_add_up_and_an_empty_front_says_why);
    TEST_RUN(an_empty_catalogue_is_no_failure);
    TEST_RUN(three_valves_come_in_where_two_cannot_carry_the_peak);
    TEST_RUN(no_branch_is_set_farther_below_than_a_building_bears);
    TEST_RUN(progress_rises_and_may_stop_the_search);
    TEST_RUN(without_memory_it_says_so);
    return TEST_END();
}
