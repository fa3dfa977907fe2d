/* The short list against a judgement of every station that is left. */
#include "check.h"
#include "search/judge.h"
#include "search/searching.h"
#include "search_case.h"

/* Through plastic nothing has a level, so the pipes of the scene get walls of copper type L here. */
static bool put_walls(scene_case *made, qll_arena *arena)
{
    const size_t count = made->site.station_size_count;
    qll_pipe_size *sizes = qll_arena_take(arena, count, sizeof *sizes);
    /* NOLINTNEXTLINE(bugprone-sizeof-expression): pointers are meant */
    const qll_pipe_size **pointers = qll_arena_take(arena, count, sizeof *pointers);
    if (sizes == NULL || pointers == NULL) {
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        sizes[i] = *made->site.station_sizes[i];
        sizes[i].material = "copper";
        sizes[i].wall_m = 0.04 * sizes[i].bore_m;
        sizes[i].outside_m = sizes[i].bore_m + 2.0 * sizes[i].wall_m;
        pointers[i] = &sizes[i];
    }
    made->site.station_sizes = pointers;
    return true;
}

/** The whole front, each member judged in full. */
typedef struct all_judged {
    qll_arena *arena;
    scene_case made;
    qll_catalogue catalogue;
    qll_searching searching;
    qll_field field;
    qll_judgement *judged;
    size_t count;
    bool is_done;
} all_judged;

static void judge_scene(const scene *given, all_judged *all)
{
    static const qll_search_options options = {.stages_max = 2, .branches_max = 3, .seed = 1};
    all->arena = qll_arena_open(TEST_ARENA_CEILING);
    all->is_done = CHECK(scene_make(given, all->arena, &all->made))
                   && CHECK(put_walls(&all->made, all->arena))
                   && CHECK(scene_catalogue(six, TEST_SIX, all->arena, &all->catalogue))
                   && CHECK(qll_search_all(&all->made.site, &all->made.duty, &all->catalogue,
                                           &options, all->arena, &all->searching)
                            == QLL_OK);
    if (!all->is_done) {
        return;
    }
    all->field = (qll_field){.site = &all->made.site,
                             .duty = &all->made.duty,
                             .front = all->searching.front,
                             .singles = all->searching.singles,
                             .single_count = all->searching.single_count,
                             .seed = 1};
    all->count = all->field.front.count;
    all->judged = qll_arena_take(all->arena, all->count, sizeof *all->judged);
    all->is_done = CHECK(all->judged != NULL) && CHECK(all->count > 0);
    for (size_t i = 0; i < all->count && all->is_done; i++) {
        all->is_done = CHECK(
            qll_judge_fully(&all->field, all->field.front.members[i], all->arena, &all->judged[i])
            == QLL_OK);
    }
}

static bool one_stage_suffices(const all_judged *all)
{
    size_t fewest = SIZE_MAX;
    size_t taking = SIZE_MAX;
    for (size_t i = 0; i < all->count; i++) {
        const qll_judgement *judged = &all->judged[i];
        bool takes = judged->member->arrangement.stage_count == 1 && !judged->drop_fails;
        fewest = judged->fail_count < fewest ? judged->fail_count : fewest;
        taking = takes && judged->fail_count < taking ? judged->fail_count : taking;
    }
    return taking != SIZE_MAX && taking == fewest;
}

/* True if no station of as many valves has fewer fails or is clearly less disquiet. */
static bool can_be_chosen(const all_judged *all, const qll_judgement *judged, bool one_stage_only)
{
    for (size_t i = 0; i < all->count; i++) {
        const qll_judgement *other = &all->judged[i];
        bool competes = other->member->part_count == judged->member->part_count
                        && (!one_stage_only || other->member->arrangement.stage_count == 1);
        bool is_better = other->fail_count < judged->fail_count
                         || (other->fail_count == judged->fail_count
                             && judged->disquiet > other->disquiet * (1.0 + QLL_CLEAR_SHARE));
        if (competes && is_better) {
            return false;
        }
    }
    return true;
}

static bool is_listed(const qll_shortlist *list, const qll_judgement *judged)
{
    for (size_t i = 0; i < list->count; i++) {
        const qll_judgement *listed = &list->judged[i];
        if (listed->member == judged->member) {
            CHECK_NEAR(listed->disquiet, judged->disquiet, 1e-12);
            return listed->fail_count == judged->fail_count
                   && listed->caution_weight == judged->caution_weight
                   && listed->drop_fails == judged->drop_fails;
        }
    }
    return false;
}

static void check_list(const scene *given, bool expects_one_stage)
{
    all_judged all;
    qll_shortlist list;
    judge_scene(given, &all);
    if (all.is_done && CHECK(qll_shortlist_make(&all.field, all.arena, &list) == QLL_OK)) {
        const bool suffices = one_stage_suffices(&all);
        size_t chosen = 0;
        size_t missing = 0;
        double loudest = 0.0;
        CHECK(suffices == expects_one_stage);
        CHECK(list.one_stage_suffices == suffices);
        for (size_t i = 0; i < all.count; i++) {
            const qll_judgement *judged = &all.judged[i];
            bool is_one = judged->member->arrangement.stage_count == 1;
            /* Single stages are also climbed by themselves, for the runner-up. */
            bool counts = (is_one && can_be_chosen(&all, judged, true))
                          || (!suffices && can_be_chosen(&all, judged, false));
            chosen += counts ? 1 : 0;
            missing += counts && !is_listed(&list, judged) ? 1 : 0;
            double quiet = judged->member->objectives.noise + 0.1 * judged->caution_weight
                           + judged->member->objectives.unsteady / all.made.site.set_pa_gauge;
            loudest = fmax(loudest, judged->disquiet - quiet);
        }
        CHECK(chosen > 0);
        CHECK(missing == 0);
        CHECK(loudest > 0.01); /* loudness has its part in it */
        printf("    %zu left, %zu on the short list, %zu of them can be chosen\n", all.count,
               list.count, chosen);
    }
    qll_arena_close(all.arena);
}

TEST(the_short_list_holds_all_that_can_be_chosen_where_one_stage_does)
{
    const scene given = {.static_low_psi = 100.0,
                         .static_high_psi = 115.0,
                         .set_psi = 60.0,
                         .peak_gpm = 60.0,
                         .typical_gpm = 6.0,
                         .spread = 1.0,
                         .idle_share = 0.3,
                         .class_count = 20};
    check_list(&given, true);
}

TEST(the_short_list_holds_all_that_can_be_chosen_where_the_drop_is_shared)
{
    const scene given = {.static_low_psi = 175.0,
                         .static_high_psi = 190.0,
                         .set_psi = 50.0,
                         .peak_gpm = 40.0,
                         .typical_gpm = 12.0,
                         .spread = 0.6,
                         .idle_share = 0.2,
                         .class_count = 20};
    check_list(&given, false);
}

TEST(the_short_list_holds_all_that_can_be_chosen_where_everything_fails)
{
    /* 10:1: no split in two keeps 3:1. */
    const scene given = {.static_low_psi = 290.0,
                         .static_high_psi = 300.0,
                         .set_psi = 29.0,
                         .peak_gpm = 30.0,
                         .typical_gpm = 6.0,
                         .spread = 0.8,
                         .idle_share = 0.3,
                         .class_count = 12};
    check_list(&given, false);
}

int main(void)
{
    TEST_RUN(the_short_list_holds_all_that_can_be_chosen_where_one_stage_does);
    TEST_RUN(the_short_list_holds_all_that_can_be_chosen_where_the_drop_is_shared);
    TEST_RUN(the_short_list_holds_all_that_can_be_chosen_where_everything_fails);
    return TEST_END();
}
