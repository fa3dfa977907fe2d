/* The search against every arrangement looked at one by one, on random buildings and catalogues. */
#include "check.h"
#include "search_brute.h"
#include "search_scene.h"

#define TEST_LAW_CASES (240 / TEST_ONE_IN)
#define TEST_LAW_ARENA ((size_t)1 << 28)

/** A building with a catalogue, searched. */
typedef struct searched {
    scene given;
    scene_case made;
    qll_catalogue catalogue;
    qll_search_result found;
} searched;

static bool search(searched *at, const qll_search_options *options, qll_arena *arena)
{
    return CHECK(qll_search(&at->made.yardstick, &at->catalogue, options, arena, &at->found)
                 == QLL_OK);
}

static void print_station(const qll_station *station)
{
    for (size_t k = 0; k < station->stage_count; k++) {
        for (size_t j = 0; j < station->stages[k].branch_count; j++) {
            const qll_branch *branch = &station->stages[k].branches[j];
            printf("%s%s@%.1f", j > 0 ? "+" : (k > 0 ? " / " : "    "), branch->valve->id,
                   branch->set_pa_gauge / TEST_VARIED_PSI);
        }
    }
    printf("\n");
}

/* Stages, valves, ids and set-points. */
static bool is_same(const qll_station *a, const qll_station *b)
{
    bool same = a->stage_count == b->stage_count;
    for (size_t k = 0; same && k < a->stage_count; k++) {
        same = a->stages[k].branch_count == b->stages[k].branch_count;
        for (size_t j = 0; same && j < a->stages[k].branch_count; j++) {
            const qll_branch *left = &a->stages[k].branches[j];
            const qll_branch *right = &b->stages[k].branches[j];
            same = strcmp(left->valve->id, right->valve->id) == 0
                   && fabs(left->set_pa_gauge - right->set_pa_gauge) < 1e-3;
        }
    }
    return same;
}

/* Only the last bits decide between what differs by so little from half a cent. */
static bool is_at_half_a_cent(double money)
{
    double cents = 100.0 * money + 0.5;
    return fabs(cents - floor(cents + 0.5)) < 1e-6;
}

typedef struct kinds_met {
    size_t none, one, pair, stages, stages_with_pair;
} kinds_met;

static void count_kind(const brute *best, kinds_met *met)
{
    bool has_pair = best->best.stages[0].count > 1
                    || (best->best.stage_count > 1 && best->best.stages[1].count > 1);
    met->none += best->has_best ? 0 : 1;
    met->one += best->has_best && best->best.stage_count == 1 && !has_pair ? 1 : 0;
    met->pair += best->has_best && best->best.stage_count == 1 && has_pair ? 1 : 0;
    met->stages += best->has_best && best->best.stage_count == 2 && !has_pair ? 1 : 0;
    met->stages_with_pair += best->has_best && best->best.stage_count == 2 && has_pair ? 1 : 0;
}

static void compare(const searched *at, const brute *best, unsigned number)
{
    const qll_search_result *found = &at->found;
    if (!best->has_best) {
        CHECK(!found->is_fit || brute_leaves_out(&found->kinds[0].station));
        return;
    }
    bool holds = CHECK(found->kind_count > 0 && found->is_fit);
    if (holds) {
        double expected = found->kinds[0].cost.expected;
        brute_laid laid;
        brute_lay(best, &best->best, &laid);
        holds = CHECK_WITHIN(expected, best->expected, 0.01);
        holds = CHECK(is_same(&found->kinds[0].station, &laid.station)
                      || is_at_half_a_cent(expected) || is_at_half_a_cent(best->expected))
                && holds;
        if (!holds) {
            printf("    case %u: found %.6f, brute %.6f of %zu\n", number, expected, best->expected,
                   best->looked_at);
            print_station(&found->kinds[0].station);
            print_station(&laid.station);
        }
    } else {
        printf("    case %u: nothing found, brute %.6f\n", number, best->expected);
    }
}

static bool draw(unsigned number, double ratio_most, size_t count, qll_arena *arena, searched *at)
{
    qll_random random = qll_random_seeded(number);
    at->given = scene_draw(&random, ratio_most);
    return CHECK(scene_make(&at->given, arena, &at->made))
           && CHECK(
               scene_catalogue(qll_random_bits(&random), count, &at->given, arena, &at->catalogue));
}

TEST(the_best_is_that_of_looking_at_all)
{
    kinds_met met = {0};
    size_t looked_at = 0;
    for (unsigned i = 0; i < TEST_LAW_CASES; i++) {
        qll_arena *arena = qll_arena_open(TEST_LAW_ARENA);
        searched at;
        brute best;
        const qll_search_options options = qll_search_options_default();
        if (draw(1000 + i, i % 2 == 0 ? 3.0 : 5.0, 4 + i % 3, arena, &at)
            && search(&at, &options, arena)
            && CHECK(brute_open(&best, &at.made.yardstick, &at.catalogue, arena))) {
            brute_search(&best, 2);
            CHECK(!best.is_short_of_memory);
            compare(&at, &best, 1000 + i);
            count_kind(&best, &met);
            looked_at += best.looked_at;
        }
        qll_arena_close(arena);
    }
    printf("    %zu stations; best: one %zu, pair %zu, stages %zu, with a pair %zu, none %zu\n",
           looked_at, met.one, met.pair, met.stages, met.stages_with_pair, met.none);
    /* Every kind must win somewhere, or nothing is held by this. */
    const size_t some = TEST_ONE_IN == 1 ? 20 : 2;
    CHECK(met.one > some && met.pair > some && met.stages > some / 4
          && met.stages_with_pair > some);
}

/* A pipe's size may not be exceeded, and stages follow one another by 10 psi. */
static void check_shape(const searched *at)
{
    for (size_t i = 0; i < at->found.kind_count; i++) {
        const qll_candidate *one = &at->found.kinds[i];
        double before_pa_gauge = INFINITY;
        for (size_t k = 0; k < one->station.stage_count; k++) {
            const qll_stage *stage = &one->station.stages[k];
            double highest_pa_gauge = -INFINITY;
            double lowest_pa_gauge = INFINITY;
            for (size_t j = 0; j < stage->branch_count; j++) {
                const qll_branch *branch = &stage->branches[j];
                CHECK(!at->found.is_fit
                      || branch->valve->nominal_m <= 1.001 * at->made.site.pipe_limit_m);
                highest_pa_gauge = fmax(highest_pa_gauge, branch->set_pa_gauge);
                lowest_pa_gauge = fmin(lowest_pa_gauge, branch->set_pa_gauge);
                CHECK(j == 0 || branch->set_pa_gauge < branch[-1].set_pa_gauge);
            }
            CHECK(!at->found.is_fit
                  || before_pa_gauge - highest_pa_gauge >= 10.0 * TEST_VARIED_PSI - 1e-3);
            before_pa_gauge = lowest_pa_gauge;
        }
    }
}

TEST(no_valve_is_larger_than_the_pipe_and_stages_are_in_order)
{
    for (unsigned i = 0; i < 60 / TEST_ONE_IN; i++) {
        qll_arena *arena = qll_arena_open(TEST_LAW_ARENA);
        searched at;
        qll_search_options options = qll_search_options_default();
        options.keep = 1.5;
        if (draw(2000 + i, 4.5, 12, arena, &at) && search(&at, &options, arena)) {
            check_shape(&at);
        }
        qll_arena_close(arena);
    }
}

/* What more valves may do to an answer. */
TEST(more_valves_never_make_it_worse)
{
    size_t better = 0;
    for (unsigned i = 0; i < 80 / TEST_ONE_IN; i++) {
        qll_arena *arena = qll_arena_open(TEST_LAW_ARENA);
        searched all;
        const qll_search_options options = qll_search_options_default();
        if (draw(3000 + i, 3.6, 16, arena, &all) && search(&all, &options, arena)) {
            searched some = all;
            some.catalogue.count = 6;
            (void)search(&some, &options, arena);
            bool was_fit = some.found.kind_count > 0 && some.found.is_fit
                           && !brute_leaves_out(&some.found.kinds[0].station);
            if (was_fit && CHECK(all.found.kind_count > 0 && all.found.is_fit)) {
                double before = some.found.kinds[0].cost.expected;
                double after = all.found.kinds[0].cost.expected;
                CHECK(after <= before + 0.01);
                better += after < before - 0.01 ? 1 : 0;
            }
        }
        qll_arena_close(arena);
    }
    CHECK(better > 10 / TEST_ONE_IN);
}

TEST(the_order_of_a_catalogue_says_nothing)
{
    for (unsigned i = 0; i < 60 / TEST_ONE_IN; i++) {
        qll_arena *arena = qll_arena_open(TEST_LAW_ARENA);
        searched at;
        const qll_search_options options = qll_search_options_default();
        if (draw(4000 + i, 3.6, 15, arena, &at) && search(&at, &options, arena)) {
            searched other = at;
            qll_valve valves[15];
            qll_opening_law laws[15];
            for (size_t k = 0; k < 15; k++) {
                valves[k] = at.catalogue.valves[(k * 7 + 3 + i) % 15];
                laws[k] = at.catalogue.laws[(k * 7 + 3 + i) % 15];
            }
            other.catalogue.valves = valves;
            other.catalogue.laws = laws;
            (void)search(&other, &options, arena);
            CHECK(at.found.kind_count == 0 || other.found.kind_count > 0);
            if (at.found.kind_count > 0 && other.found.kind_count > 0) {
                CHECK(is_same(&at.found.kinds[0].station, &other.found.kinds[0].station));
                CHECK_NEAR(other.found.kinds[0].cost.expected, at.found.kinds[0].cost.expected,
                           1e-12);
            }
        }
        qll_arena_close(arena);
    }
}

/* With g = chance / (1 - chance) a station costs I + g (visit + dearest): a dearer visit asks for no greater
 * g, but for what a cent hides. */
TEST(a_dearer_visit_never_asks_for_a_greater_chance)
{
    size_t lower = 0;
    for (unsigned i = 0; i < 80 / TEST_ONE_IN; i++) {
        qll_arena *arena = qll_arena_open(TEST_LAW_ARENA);
        searched at;
        const qll_search_options options = qll_search_options_default();
        if (draw(5000 + i, 3.6, 14, arena, &at) && search(&at, &options, arena)) {
            searched dearer = at;
            const double more = 100.0 + 40.0 * (double)i;
            at.made.costs.visit += more; /* what its site points at */
            (void)search(&dearer, &options, arena);
            if (at.found.kind_count > 0 && at.found.is_fit
                && CHECK(dearer.found.kind_count > 0 && dearer.found.is_fit)) {
                double before = at.found.kinds[0].cost.callback_share;
                double after = dearer.found.kinds[0].cost.callback_share;
                CHECK(after / (1.0 - fmin(after, 0.99))
                      <= before / (1.0 - fmin(before, 0.99)) + 0.02 / more);
                lower += after < before - 1e-6 ? 1 : 0;
            }
        }
        qll_arena_close(arena);
    }
    CHECK(lower > 10 / TEST_ONE_IN);
}

/* The first rule that @p station breaks in the world of @p at; QLL_PRACTICE_COUNT if none. */
static qll_practice broken_in(const searched *at, const qll_station *station, qll_arena *arena)
{
    qll_fitness fitness;
    CHECK(qll_station_fitness(station, &at->made.yardstick, arena, &fitness) == QLL_OK);
    for (size_t r = 0; r < QLL_PRACTICE_COUNT; r++) {
        if (fitness.breach[r] > 0.0) {
            return (qll_practice)r;
        }
    }
    return QLL_PRACTICE_COUNT;
}

/* Set to the middle of the supply, as whoever installs it there would do. */
static void set_again(const qll_station *given, const searched *where, qll_stage stages[3],
                      qll_station *made)
{
    for (size_t k = 0; k < given->stage_count; k++) {
        stages[k] = given->stages[k];
    }
    stages[0].set_inlet_pa_gauge =
        where->made.duty.inlet_static_pa[1] - where->made.site.barometric_pa;
    *made = (qll_station){stages, given->stage_count};
}

typedef struct cliffs {
    size_t seen, by_rule[QLL_PRACTICE_COUNT];
    double worst;
} cliffs;

/* Both answers' cost; a jump must be a hard rule's, by which one of them is no answer to the other. */
static void compare_worlds(const searched *here, const searched *there, qll_arena *arena,
                           cliffs *met, unsigned number)
{
    if (here->found.kind_count == 0 || there->found.kind_count == 0 || !here->found.is_fit
        || !there->found.is_fit) {
        return;
    }
    const qll_candidate *a = &here->found.kinds[0];
    const qll_candidate *b = &there->found.kinds[0];
    const double moved = fabs(b->cost.expected / a->cost.expected - 1.0);
    met->seen += 1;
    if (moved <= 0.05) {
        met->worst = fmax(met->worst, moved);
        return;
    }
    qll_stage stages[3];
    qll_station moved_station;
    set_again(&a->station, there, stages, &moved_station);
    qll_practice rule = broken_in(there, &moved_station, arena);
    if (rule == QLL_PRACTICE_COUNT) {
        set_again(&b->station, here, stages, &moved_station);
        rule = broken_in(here, &moved_station, arena);
    }
    if (CHECK(rule < QLL_PRACTICE_COUNT)) {
        met->by_rule[rule] += 1;
    } else {
        printf("    case %u: %.2f (%.3f) to %.2f (%.3f)\n", number, a->cost.expected,
               a->cost.callback_share, b->cost.expected, b->cost.callback_share);
        print_station(&a->station);
        print_station(&b->station);
        for (size_t m = 0; m < QLL_MECHANISM_COUNT; m++) {
            printf("    %s %.4f %.4f\n", qll_mechanism_words[m], a->cost.mechanism_share[m],
                   b->cost.mechanism_share[m]);
        }
    }
}

static void print_cliffs(const char *what, const cliffs *met)
{
    printf("    %s: %zu, at most %.1f %% but for", what, met->seen, 100.0 * met->worst);
    for (size_t r = 0; r < QLL_PRACTICE_COUNT; r++) {
        if (met->by_rule[r] > 0) {
            printf(" %s %zu", qll_practice_words[r], met->by_rule[r]);
        }
    }
    printf("\n");
}

/* One psi in the street, or 2 % more water. */
TEST(a_little_more_moves_the_cost_a_little)
{
    cliffs psi = {0};
    cliffs demand = {0};
    for (unsigned i = 0; i < 90 / TEST_ONE_IN; i++) {
        qll_arena *arena = qll_arena_open(TEST_LAW_ARENA);
        searched at;
        const qll_search_options options = qll_search_options_default();
        if (draw(6000 + i, 4.0, 14, arena, &at) && search(&at, &options, arena)) {
            searched more = at;
            more.given.static_high_psi += 1.0;
            more.given.static_low_psi += 1.0;
            if (CHECK(scene_make(&more.given, arena, &more.made))
                && search(&more, &options, arena)) {
                compare_worlds(&at, &more, arena, &psi, 6000 + i);
            }
            searched busier = at;
            busier.given.peak_gpm *= 1.02;
            if (CHECK(scene_make(&busier.given, arena, &busier.made))
                && search(&busier, &options, arena)) {
                compare_worlds(&at, &busier, arena, &demand, 6000 + i);
            }
        }
        qll_arena_close(arena);
    }
    print_cliffs("one psi", &psi);
    print_cliffs("2 % demand", &demand);
    CHECK(psi.seen > 60 / TEST_ONE_IN && demand.seen > 60 / TEST_ONE_IN);
}

typedef struct asked_often {
    size_t calls, stop_at;
    double share;
    bool fell; /* the share told was less than before, or none at all */
} asked_often;

static bool told(double share, void *context)
{
    asked_often *at = context;
    CHECK(at->stop_at == 0 || at->calls < at->stop_at); /* nobody asks again after a stop */
    at->fell = at->fell || !(share >= at->share - 1e-12 && share <= 1.0);
    at->share = share;
    at->calls += 1;
    return at->calls != at->stop_at;
}

/* Leads are what a search spends its time on: between two questions there are those of one valve. */
TEST(a_stop_is_heard_at_once_and_the_best_so_far_is_told)
{
    for (unsigned i = 0; i < 6; i++) {
        qll_arena *arena = qll_arena_open(TEST_LAW_ARENA);
        searched at;
        asked_often asked = {0};
        qll_search_options options = qll_search_options_default();
        options.progress = told;
        options.progress_context = &asked;
        if (!draw(7000 + i, 3.0, 12, arena, &at) || !search(&at, &options, arena)) {
            continue;
        }
        const qll_search_result whole = at.found;
        const size_t calls = asked.calls;
        CHECK(!whole.stopped && calls > 3);
        CHECK(!asked.fell);
        CHECK(whole.kind_count == 0 || whole.floor == whole.kinds[0].cost.expected);
        size_t leads = 0;
        double before = INFINITY;
        double floor = 0.0;
        for (size_t stop = 1; stop <= calls; stop++) {
            asked = (asked_often){.stop_at = stop};
            const qll_arena_mark mark = qll_arena_now(arena);
            (void)search(&at, &options, arena);
            CHECK(at.found.stopped && asked.calls == stop);
            CHECK(at.found.counts.leads - leads <= 11);
            leads = at.found.counts.leads;
            if (at.found.kind_count > 0 && at.found.is_fit) {
                CHECK(at.found.kinds[0].cost.expected <= before + 0.01);
                before = at.found.kinds[0].cost.expected;
                CHECK(before >= whole.kinds[0].cost.expected - 0.01);
                CHECK(at.found.floor <= whole.kinds[0].cost.expected + 0.01);
                CHECK(at.found.floor >= floor);
                floor = at.found.floor;
            }
            qll_arena_reset(arena, mark);
        }
        qll_arena_close(arena);
    }
}

int main(void)
{
    TEST_RUN(the_best_is_that_of_looking_at_all);
    TEST_RUN(no_valve_is_larger_than_the_pipe_and_stages_are_in_order);
    TEST_RUN(more_valves_never_make_it_worse);
    TEST_RUN(the_order_of_a_catalogue_says_nothing);
    TEST_RUN(a_dearer_visit_never_asks_for_a_greater_chance);
    TEST_RUN(a_little_more_moves_the_cost_a_little);
    TEST_RUN(a_stop_is_heard_at_once_and_the_best_so_far_is_told);
    return TEST_END();
}
