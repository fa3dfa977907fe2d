/* What stands beside the recommended station is what its role says: of all arrangements, looked at one by one, none is
 * cheaper to install than the cheapest, none quieter than the quietest by what a callback would cost. */
#include "check.h"
#include "search/design.h"
#include "search_brute.h"
#include "search_scene.h"

#define TEST_CHOICE_CASES  240
#define TEST_CHOICE_ARENA  ((size_t)1 << 28)
/* The best where a callback costs eight times as much, for at most twice the price: search/design.c. */
#define TEST_QUIET_FACTOR  8.0
#define TEST_QUIET_DEARER  2.0
#define TEST_CHOICE_CENT   0.01
#define TEST_CHOICE_CHANCE 1e-9

/** A building with its design; points into itself. */
typedef struct chosen {
    scene given;
    scene_case made;
    qll_catalogue catalogue;
    qll_design design;
} chosen;

typedef struct tally {
    size_t cheaper, quieter, sought, simpler, usual;
} tally;

static bool choose(unsigned number, qll_arena *arena, chosen *at)
{
    qll_random random = qll_random_seeded(number);
    at->given = scene_draw(&random, number % 2 == 0 ? 2.5 : 4.0);
    const qll_search_options options = qll_search_options_default();
    const qll_design_case given = {.site = &at->made.site,
                                   .duty = &at->made.duty,
                                   .catalogue = &at->catalogue,
                                   .options = &options,
                                   .has_alternatives = true};
    return CHECK(scene_make(&at->given, arena, &at->made))
           && CHECK(scene_catalogue(qll_random_bits(&random), 4 + number % 3, &at->given, arena,
                                    &at->catalogue))
           && CHECK(qll_design_make(&given, arena, &at->design) == QLL_OK);
}

static const qll_shown *shown_as(const chosen *at, qll_role role)
{
    const qll_shown *found = NULL;
    for (size_t i = 0; i < at->design.count; i++) {
        if ((at->design.shown[i].roles & 1U << (unsigned)role) != 0) {
            CHECK(found == NULL);
            found = &at->design.shown[i];
        }
    }
    return found;
}

/* The best of all up to so many stages, where a callback costs so many times as much. */
static bool look_at_all(chosen *at, double visit_factor, size_t stages_max, qll_arena *arena,
                        brute *best)
{
    if (!CHECK(brute_open(best, &at->made.yardstick, &at->catalogue, arena))) {
        return false;
    }
    best->visit_factor = visit_factor;
    brute_search(best, stages_max);
    return CHECK(!best->is_short_of_memory) && best->has_best;
}

/* Twins, of the same sizes in the same places, are shown once. */
static bool is_twin(const brute *best, const qll_shown *shown)
{
    brute_laid laid;
    brute_lay(best, &best->best, &laid);
    const qll_station *a = &shown->station;
    bool is = a->stage_count == laid.station.stage_count;
    for (size_t k = 0; is && k < a->stage_count; k++) {
        is = a->stages[k].branch_count == laid.station.stages[k].branch_count;
        for (size_t j = 0; is && j < a->stages[k].branch_count; j++) {
            is = a->stages[k].branches[j].valve->nominal_m
                 == laid.station.stages[k].branches[j].valve->nominal_m;
        }
    }
    return is;
}

static void check_cheapest(chosen *at, qll_arena *arena, tally *met)
{
    const qll_shown *cheapest = shown_as(at, QLL_ROLE_CHEAPEST);
    brute best;
    if (CHECK(cheapest != NULL) && CHECK(cheapest->fitness.is_fit)
        && CHECK(look_at_all(at, 0.0, 2, arena, &best))) {
        CHECK(is_twin(&best, cheapest)
              || fabs(cheapest->cost.installed - best.installed) <= TEST_CHOICE_CENT);
        met->cheaper += cheapest != at->design.shown ? 1 : 0;
    }
}

static void check_quietest(chosen *at, qll_arena *arena, tally *met)
{
    const qll_shown *recommended = at->design.shown;
    const qll_shown *quietest = shown_as(at, QLL_ROLE_QUIETEST);
    const double most = TEST_QUIET_DEARER * recommended->cost.installed;
    if (!CHECK(quietest != NULL)) {
        return;
    }
    CHECK(quietest->fitness.is_fit && quietest->cost.installed <= most + TEST_CHOICE_CENT);
    CHECK(quietest->cost.callback_share <= recommended->cost.callback_share);
    met->quieter += quietest != recommended ? 1 : 0;
    brute best;
    if (recommended->station.stage_count == 1 && look_at_all(at, TEST_QUIET_FACTOR, 1, arena, &best)
        && best.installed <= most - TEST_CHOICE_CENT) {
        CHECK(is_twin(&best, quietest)
              || quietest->cost.callback_share <= best.chance + TEST_CHOICE_CHANCE);
        met->sought += best.chance < recommended->cost.callback_share - 1e-6 ? 1 : 0;
    }
}

/* One valve of the pipe's size, set to what is wanted. */
static void check_usual(const chosen *at, tally *met)
{
    const qll_shown *usual = shown_as(at, QLL_ROLE_USUAL);
    const double pipe_m = at->made.site.pipe_limit_m;
    size_t count = 0;
    for (size_t i = 0; i < at->catalogue.count; i++) {
        const qll_valve *valve = &at->catalogue.valves[i];
        count += fabs(valve->nominal_m / pipe_m - 1.0) < 0.05
                         && at->made.site.set_pa_gauge <= valve->set_max_pa_gauge
                         && at->made.site.set_pa_gauge >= valve->set_min_pa_gauge
                     ? 1
                     : 0;
    }
    if (CHECK((usual != NULL) == (count > 0)) && usual != NULL) {
        const qll_stage *stage = usual->station.stages;
        CHECK(usual->station.stage_count == 1 && stage->branch_count == 1);
        CHECK(fabs(stage->branches[0].valve->nominal_m / pipe_m - 1.0) < 0.05);
        CHECK(stage->branches[0].set_pa_gauge == at->made.site.set_pa_gauge);
        met->usual += usual != at->design.shown ? 1 : 0;
    }
}

/* The best of one stage, or of one valve, that a larger station beat; or the reason says that there was none. */
static void check_simpler(chosen *at, qll_arena *arena, tally *met)
{
    const qll_shown *recommended = at->design.shown;
    const qll_station *station = &recommended->station;
    const qll_reason reason = at->design.reason;
    const bool is_one = station->stage_count == 1 && station->stages[0].branch_count == 1;
    CHECK(is_one == (reason == QLL_REASON_ONE_VALVE));
    if (is_one || station->stage_count == 1) {
        CHECK(is_one || reason == QLL_REASON_PAIR_PAYS || reason == QLL_REASON_PAIR_CARRIES);
        return;
    }
    brute best;
    const bool has_one = look_at_all(at, 1.0, 1, arena, &best);
    CHECK(has_one == (reason == QLL_REASON_STAGES_PAY));
    if (has_one && CHECK(at->design.simpler < at->design.count)) {
        const qll_shown *simpler = &at->design.shown[at->design.simpler];
        CHECK(simpler->station.stage_count == 1);
        CHECK_WITHIN(simpler->cost.expected, best.expected, TEST_CHOICE_CENT);
        met->simpler += 1;
    }
}

TEST(every_role_is_played_by_the_best_for_it)
{
    tally met = {0};
    for (unsigned i = 0; i < TEST_CHOICE_CASES; i++) {
        qll_arena *arena = qll_arena_open(TEST_CHOICE_ARENA);
        static chosen at;
        const int before = check_failures;
        if (choose(8000 + i, arena, &at) && at.design.count > 0 && at.design.is_fit
            && !brute_leaves_out(&at.design.shown[0].station)) {
            CHECK(shown_as(&at, QLL_ROLE_RECOMMENDED) == at.design.shown);
            for (size_t k = 1; k < at.design.count; k++) {
                CHECK(!at.design.shown[k].fitness.is_fit
                      || at.design.shown[k].cost.expected
                             >= at.design.shown[0].cost.expected - TEST_CHOICE_CENT);
            }
            check_cheapest(&at, arena, &met);
            check_quietest(&at, arena, &met);
            check_usual(&at, &met);
            check_simpler(&at, arena, &met);
        }
        if (check_failures != before) {
            printf("    in case %u\n", 8000 + i);
        }
        qll_arena_close(arena);
    }
    printf("    cheaper %zu, quieter %zu, of one stage %zu, simpler %zu, usual %zu\n", met.cheaper,
           met.quieter, met.sought, met.simpler, met.usual);
    /* Every role must be another's than the best's somewhere, or nothing is held by this. */
    CHECK(met.cheaper > 5 && met.quieter > 5 && met.sought > 3 && met.simpler > 1 && met.usual > 5);
}

int main(void)
{
    TEST_RUN(every_role_is_played_by_the_best_for_it);
    return TEST_END();
}
