/* The short ways of the search against what they are short for: docs/theory/search.md. */
#include "check.h"
#include "search/split.h"
#include "search_scene.h"

#define TEST_LAW_CASES  300
#define TEST_LAW_VALVES 8
#define TEST_LAW_ARENA  ((size_t)1 << 27)
/* Sums are taken in another order. */
#define TEST_LAW_BITS   1e-12

typedef struct bounds_case {
    qll_arena *arena;
    qll_random random;
    scene given;
    scene_case made;
    qll_catalogue catalogue;
    qll_search_options options;
    qll_searching searching;
    qll_walk_room room, other;
    qll_trial_room trials;
    size_t held;    /* bounds that were looked at */
    size_t peaks;   /* of those that say something of the peaks */
    size_t besides; /* of pairs, that say more of both */
} bounds_case;

static bool open_case(unsigned number, double ratio_least, double ratio_most, bounds_case *at)
{
    *at =
        (bounds_case){.arena = qll_arena_open(TEST_LAW_ARENA), .random = qll_random_seeded(number)};
    at->given = scene_draw(&at->random, ratio_most);
    double least_psi = ratio_least * at->given.set_psi;
    if (at->given.static_high_psi < least_psi) {
        at->given.static_low_psi *= least_psi / at->given.static_high_psi;
        at->given.static_high_psi = least_psi;
    }
    at->options = qll_search_options_default();
    at->searching = (qll_searching){
        .yardstick = &at->made.yardstick, .options = &at->options, .arena = at->arena};
    bool holds = CHECK(scene_make(&at->given, at->arena, &at->made))
                 && CHECK(scene_catalogue(qll_random_bits(&at->random), TEST_LAW_VALVES, &at->given,
                                          at->arena, &at->catalogue));
    if (!holds) {
        return false;
    }
    /* Some whose outlet sinks as the inlet rises. */
    qll_valve *valves = qll_arena_take(at->arena, TEST_LAW_VALVES, sizeof *valves);
    for (size_t i = 0; i < TEST_LAW_VALVES && valves != NULL; i++) {
        valves[i] = at->catalogue.valves[i];
        valves[i].inlet_effect *= qll_random_unit(&at->random) < 0.15 ? -1.0 : 1.0;
    }
    at->catalogue.valves = valves;
    return CHECK(valves != NULL)
           && CHECK(qll_pool_make(&at->made.yardstick, &at->catalogue, true, at->arena,
                                  &at->searching.pool)
                    == QLL_OK)
           && CHECK(qll_book_open(1.0, INFINITY, at->arena, &at->searching.book) == QLL_OK)
           && CHECK(qll_walk_room_make(&at->searching, &at->room) == QLL_OK)
           && CHECK(qll_walk_room_make(&at->searching, &at->other) == QLL_OK)
           && CHECK(qll_trial_room_make(&at->searching, &at->trials) == QLL_OK);
}

static void check_above(const double *bound, const double *exact, double slack)
{
    bool holds = true;
    for (size_t k = 0; k < QLL_NODES; k++) {
        holds = holds && bound[k] >= exact[k] - slack;
    }
    CHECK(holds);
}

static void check_equal(const double *a, const double *b)
{
    check_above(a, b, TEST_LAW_BITS);
    check_above(b, a, TEST_LAW_BITS);
}

/* Two that may stand side by side, the small one first; false if the pick is not one. */
static bool draw_pick(bounds_case *at, double wanted_pa_gauge, qll_pick *pick)
{
    const qll_pool *pool = &at->searching.pool;
    size_t i = (size_t)((double)pool->count * qll_random_unit(&at->random));
    size_t j = (size_t)((double)pool->count * qll_random_unit(&at->random));
    double offset_pa =
        qll_offsets_pa[(size_t)((double)QLL_OFFSET_COUNT * qll_random_unit(&at->random))];
    bool is_above = qll_random_unit(&at->random) < 0.5;
    *pick = (qll_pick){.count = 2,
                       .part = {i, j},
                       .set_pa_gauge = {wanted_pa_gauge + (is_above ? offset_pa : 0.0),
                                        wanted_pa_gauge - (is_above ? 0.0 : offset_pa)}};
    return pool->parts[j].branch.valve->kv_m3h
           >= QLL_LARGER_LEAST * pool->parts[i].branch.valve->kv_m3h;
}

/* What two that are fit together can carry by the short way is at least what they must. */
static void check_carries(const bounds_case *at, const qll_stage_place *place, const qll_lead *lead,
                          const qll_pick *pick)
{
    const qll_searching *searching = &at->searching;
    const qll_part *second = &searching->pool.parts[pick->part[1]];
    for (size_t c = 0; c < at->made.duty.scenario_count; c++) {
        double together_m3s =
            lead->room->hard_m3s[c]
            + qll_part_hard_m3s(searching, place, second, pick->set_pa_gauge[1], c);
        CHECK(at->made.yardstick.peak_m3s[c] <= together_m3s * (1.0 + 1e-9));
        CHECK(at->made.yardstick.peak_m3s[c]
              <= QLL_SPEED_MOST_M_S * (lead->part->area_m2 + second->area_m2) * (1.0 + 1e-9));
    }
}

/* What is said to survive of all pairs of a lead, less the hunting of this one. */
static void pair_bound(const bounds_case *at, const qll_lead *lead, const qll_stage_place *place,
                       const qll_pick *pick, double bound[QLL_NODES])
{
    const qll_searching *searching = &at->searching;
    qll_branch branches[2];
    for (size_t j = 0; j < 2; j++) {
        branches[j] = searching->pool.parts[pick->part[j]].branch;
        branches[j].set_pa_gauge = pick->set_pa_gauge[j];
    }
    const qll_stage stage = {
        .branches = branches, .branch_count = 2, .set_inlet_pa_gauge = place->set_inlet_pa_gauge};
    double open_share[QLL_NODES];
    qll_lead_survival(searching, lead, pick->set_pa_gauge[1], bound);
    qll_lead_both_open(searching, lead, pick->set_pa_gauge[1], open_share);
    qll_survival_hunting(qll_stage_hunting(&stage, place->low_pa_gauge, place->high_pa_gauge),
                         open_share, bound);
}

TEST(a_lead_alone_does_no_more_than_its_pair)
{
    size_t held = 0;
    size_t used = 0;
    for (unsigned i = 0; i < TEST_LAW_CASES; i++) {
        bounds_case at;
        bool holds = open_case(100 + i, 1.3, 3.0, &at);
        const double wanted_pa_gauge = at.made.site.set_pa_gauge;
        const qll_stage_place place = qll_stage_place_first(&at.searching, wanted_pa_gauge, true);
        for (size_t n = 0; n < 60 && holds; n++) {
            qll_pick pick;
            if (!draw_pick(&at, wanted_pa_gauge, &pick)) {
                continue;
            }
            qll_trial exact, shorter;
            qll_lead lead;
            qll_lead_begin(&at.searching, &place, pick.part[0], pick.set_pa_gauge[0], &at.room.lead,
                           &lead);
            qll_lead_solve(&at.searching, &lead);
            qll_practice broken =
                qll_trial_make(&at.searching, &place, &pick, NULL, NULL, &at.trials, &exact);
            CHECK(
                qll_trial_make(&at.searching, &place, &pick, NULL, &lead, &at.room.trial, &shorter)
                == broken);
            if (broken < QLL_PRACTICE_COUNT) {
                continue;
            }
            double bound[QLL_NODES];
            pair_bound(&at, &lead, &place, &pick, bound);
            check_above(bound, exact.survival, TEST_LAW_BITS);
            check_equal(shorter.survival, exact.survival);
            check_carries(&at, &place, &lead, &pick);
            held += 1;
            used += bound[0] < 1.0 - 1e-6 ? 1 : 0;
        }
        qll_arena_close(at.arena);
    }
    printf("    %zu pairs, %zu bounds that say something\n", held, used);
    CHECK(held > 1000 && used > 500);
}

/* A single valve as a lead and as a trial. */
TEST(a_lead_by_itself_is_a_stage)
{
    size_t fit = 0;
    for (unsigned i = 0; i < TEST_LAW_CASES; i++) {
        bounds_case at;
        bool holds = open_case(300 + i, 1.3, 3.0, &at);
        const double wanted_pa_gauge = at.made.site.set_pa_gauge;
        const qll_stage_place place = qll_stage_place_first(&at.searching, wanted_pa_gauge, true);
        for (size_t p = 0; holds && p < at.searching.pool.count; p++) {
            qll_lead lead;
            qll_trial trial;
            const qll_pick pick = {.count = 1, .part = {p}, .set_pa_gauge = {wanted_pa_gauge}};
            qll_lead_begin(&at.searching, &place, p, wanted_pa_gauge, &at.room.lead, &lead);
            qll_lead_solve(&at.searching, &lead);
            bool is_fit = qll_lead_broken(&at.searching, &lead) == QLL_PRACTICE_COUNT;
            qll_practice broken =
                qll_trial_make(&at.searching, &place, &pick, NULL, NULL, &at.trials, &trial);
            CHECK(is_fit == (broken == QLL_PRACTICE_COUNT));
            if (is_fit && broken == QLL_PRACTICE_COUNT) {
                double survival[QLL_NODES];
                qll_lead_survival(&at.searching, &lead, -(double)INFINITY, survival);
                check_equal(survival, trial.survival);
                CHECK_NEAR(lead.rest_pa, trial.outlets.rest_pa, TEST_LAW_BITS);
                fit += 1;
            }
        }
        qll_arena_close(at.arena);
    }
    CHECK(fit > 300);
}

/* Pressures at the grid and the peaks, one after the other. */
typedef struct pressures {
    double *grid_pa, *peak_pa;
    double rest_pa;
} pressures;

static bool take_pressures(bounds_case *at, double value, pressures *made)
{
    const size_t grid = at->made.duty.supply_count * at->made.duty.flow_count;
    const size_t peaks = at->made.duty.scenario_count * QLL_SUPPLY_LEVELS;
    double *all = qll_arena_take(at->arena, grid + peaks, sizeof *all);
    for (size_t i = 0; i < grid + peaks && all != NULL; i++) {
        all[i] = value;
    }
    *made =
        (pressures){.grid_pa = all, .peak_pa = all == NULL ? NULL : all + grid, .rest_pa = value};
    return CHECK(all != NULL);
}

static qll_inlets inlets_of(const pressures *of)
{
    return (qll_inlets){.grid_pa = of->grid_pa, .peak_pa = of->peak_pa, .rest_pa = of->rest_pa};
}

static void widen(const double *with, size_t count, double *low, double *high)
{
    for (size_t i = 0; i < count; i++) {
        low[i] = with[i] < low[i] ? with[i] : low[i];
        high[i] = with[i] > high[i] ? with[i] : high[i];
    }
}

/* What first stages that hold @p between_pa_gauge give: least and most. False if there are fewer than two. */
static bool try_firsts(bounds_case *at, double between_pa_gauge, pressures *low, pressures *high)
{
    qll_stage_place first = qll_stage_place_first(&at->searching, between_pa_gauge, false);
    first.clear_pa_gauge = at->made.site.set_pa_gauge + QLL_CLEAR_PA;
    size_t count = 0;
    for (size_t n = 0; n < 40; n++) {
        qll_pick pick;
        bool is_pair = draw_pick(at, between_pa_gauge, &pick);
        pick.count = is_pair && n % 2 == 1 ? 2 : 1;
        qll_trial trial;
        if (qll_trial_make(&at->searching, &first, &pick, NULL, NULL, &at->trials, &trial)
            == QLL_PRACTICE_COUNT) {
            widen(trial.outlets.grid_pa, at->made.duty.supply_count * at->made.duty.flow_count,
                  low->grid_pa, high->grid_pa);
            widen(trial.outlets.peak_pa, at->made.duty.scenario_count * QLL_SUPPLY_LEVELS,
                  low->peak_pa, high->peak_pa);
            low->rest_pa = fmin(low->rest_pa, trial.outlets.rest_pa);
            high->rest_pa = fmax(high->rest_pa, trial.outlets.rest_pa);
            count += 1;
        }
    }
    for (size_t i = 0; i < at->made.duty.supply_count * at->made.duty.flow_count; i++) {
        if (!(low->grid_pa[i] <= high->grid_pa[i])) {
            return false;
        }
    }
    return count > 1;
}

/* Some pressures between the least and the most: all at one share of the way, or each at its own. */
static void draw_between(bounds_case *at, const pressures *low, const pressures *high,
                         pressures *made)
{
    const size_t count = at->made.duty.supply_count * at->made.duty.flow_count
                         + at->made.duty.scenario_count * QLL_SUPPLY_LEVELS;
    const bool is_each = qll_random_unit(&at->random) < 0.5;
    double share = floor(3.0 * qll_random_unit(&at->random)) / 2.0;
    for (size_t i = 0; i < count; i++) { /* the peaks stand behind the grid */
        share = is_each ? qll_random_unit(&at->random) : share;
        made->grid_pa[i] = low->grid_pa[i] + share * (high->grid_pa[i] - low->grid_pa[i]);
        made->grid_pa[i] = fmin(made->grid_pa[i], high->grid_pa[i]);
    }
    made->rest_pa = low->rest_pa + share * (high->rest_pa - low->rest_pa);
}

/* A second stage behind inlets that are known only between two ends, and behind some of those inlets. */
static void check_second(bounds_case *at, const qll_stage_place *bound_place,
                         const qll_stage_place *exact_place)
{
    qll_pick pick;
    bool is_pair = draw_pick(at, at->made.site.set_pa_gauge, &pick);
    pick.count = is_pair ? 2 : 1;
    pick.set_pa_gauge[0] = is_pair ? pick.set_pa_gauge[0] : at->made.site.set_pa_gauge;
    qll_trial exact;
    if (qll_trial_make(&at->searching, exact_place, &pick, NULL, NULL, &at->trials, &exact)
        < QLL_PRACTICE_COUNT) {
        return;
    }
    qll_lead lead;
    double bound[QLL_NODES];
    qll_lead_begin(&at->searching, bound_place, pick.part[0], pick.set_pa_gauge[0], &at->other.lead,
                   &lead);
    qll_lead_solve(&at->searching, &lead);
    if (is_pair) {
        pair_bound(at, &lead, bound_place, &pick, bound);
    } else {
        qll_lead_survival(&at->searching, &lead, -(double)INFINITY, bound);
    }
    qll_least_room room;
    if (!CHECK(qll_least_room_make(&at->searching, &room) == QLL_OK)) {
        return;
    }
    const double share = qll_peaks_least(&at->searching, bound_place, &pick, &room);
    double besides[QLL_NODES];
    qll_pair_least(&at->searching, bound_place, &pick, &room, besides);
    at->peaks += share < 1.0 - 1e-6 ? 1 : 0;
    at->besides += besides[QLL_NODES / 2] < share - 1e-3 ? 1 : 0;
    double by_peaks[QLL_NODES];
    for (size_t k = 0; k < QLL_NODES; k++) {
        by_peaks[k] = bound[k] * share;
        bound[k] *= is_pair ? besides[k] : share;
    }
    check_above(by_peaks, exact.survival, TEST_LAW_BITS);
    check_above(bound, exact.survival, TEST_LAW_BITS);
    if (is_pair) {
        check_carries(at, bound_place, &lead, &pick);
    } else {
        CHECK(qll_lead_broken(&at->searching, &lead) == QLL_PRACTICE_COUNT);
    }
    at->held += 1;
}

TEST(a_bound_over_inlets_holds_for_any_between)
{
    size_t held = 0;
    size_t peaks = 0;
    size_t besides = 0;
    for (unsigned i = 0; i < TEST_LAW_CASES; i++) {
        bounds_case at;
        pressures low, high, some;
        bool holds = open_case(500 + i, 2.0, 5.0, &at) && take_pressures(&at, INFINITY, &low)
                     && take_pressures(&at, -(double)INFINITY, &high)
                     && take_pressures(&at, NAN, &some);
        const double wanted_pa_gauge = holds ? at.made.site.set_pa_gauge : 0.0;
        const double high_pa_gauge = at.given.static_high_psi * TEST_VARIED_PSI;
        const double between_pa_gauge = sqrt(wanted_pa_gauge * high_pa_gauge);
        if (holds && try_firsts(&at, between_pa_gauge, &low, &high)) {
            const qll_inlets highest = {high.grid_pa, high.peak_pa, low.rest_pa};
            qll_stage_place bound_place = {.inlets = inlets_of(&low),
                                           .highest = &highest,
                                           .set_inlet_pa_gauge = between_pa_gauge,
                                           .low_pa_gauge = between_pa_gauge,
                                           .high_pa_gauge = between_pa_gauge,
                                           .wanted_pa_gauge = wanted_pa_gauge,
                                           .clear_pa_gauge = -INFINITY,
                                           .is_last = true};
            for (size_t n = 0; n < 60; n++) {
                draw_between(&at, &low, &high, &some);
                qll_stage_place exact_place = bound_place;
                exact_place.inlets = inlets_of(&some);
                exact_place.highest = NULL;
                check_second(&at, &bound_place, &exact_place);
            }
        }
        held += at.held;
        peaks += at.peaks;
        besides += at.besides;
        qll_arena_close(at.arena);
    }
    printf("    %zu second stages, %zu with peaks that say something, %zu pairs with more\n", held,
           peaks, besides);
    CHECK(held > 3000 && peaks > 1000 && besides > 300);
}

static void check_within(const double *low, const double *high, const double *exact, size_t count)
{
    const double bits_pa = 1e-3; /* of a solver that stops at 1e-9 of some bar */
    bool holds = true;
    for (size_t i = 0; i < count; i++) {
        holds = holds && !(exact[i] < low[i] - bits_pa) && !(exact[i] > high[i] + bits_pa);
    }
    CHECK(holds);
}

/* First stages that keep the rules, against what was foreseen of them all; returns how many. */
static size_t check_foreseen(bounds_case *at, const qll_split *split)
{
    const qll_duty *duty = &at->made.duty;
    const qll_between_range *range = &split->range;
    size_t count = 0;
    for (size_t n = 0; n < 80; n++) {
        qll_pick pick;
        bool is_pair = draw_pick(at, split->between_pa_gauge, &pick);
        bool is_below = pick.set_pa_gauge[0] == split->between_pa_gauge;
        pick.count = is_pair && n % 2 == 1 ? 2 : 1;
        if (!is_below) { /* in a first stage the small valve stands at the pressure between */
            continue;
        }
        qll_trial trial;
        if (qll_trial_make(&at->searching, &split->first, &pick, NULL, NULL, &at->trials, &trial)
            == QLL_PRACTICE_COUNT) {
            check_within(range->low_pa, range->high_pa, trial.outlets.grid_pa,
                         duty->supply_count * duty->flow_count);
            check_within(range->low_peak_pa, range->high_peak_pa, trial.outlets.peak_pa,
                         duty->scenario_count * QLL_SUPPLY_LEVELS);
            CHECK(trial.outlets.rest_pa >= range->rest_low_pa - 1e-3);
            count += 1;
        }
    }
    return count;
}

/* How much of the grid has a lower end. */
static double known_share(const bounds_case *at, const qll_split *split)
{
    const size_t grid = at->made.duty.supply_count * at->made.duty.flow_count;
    double known = 0.0;
    for (size_t i = 0; i < grid; i++) {
        known += isnan(split->range.low_pa[i]) ? 0.0 : 1.0;
    }
    return known / (double)grid;
}

TEST(first_stages_give_what_was_foreseen)
{
    size_t held = 0;
    double known = 0.0;
    for (unsigned i = 0; i < TEST_LAW_CASES; i++) {
        bounds_case at;
        qll_split split;
        qll_split_room room;
        bool holds = open_case(700 + i, 2.0, 5.0, &at);
        const double wanted_pa_gauge = holds ? at.made.site.set_pa_gauge : 0.0;
        const double between_pa_gauge =
            sqrt(wanted_pa_gauge * at.given.static_high_psi * TEST_VARIED_PSI);
        at.searching.larger_least = QLL_LARGER_LEAST;
        qll_pool_pair(&at.searching.pool, at.searching.larger_least);
        if (holds && CHECK(qll_split_room_make(&at.searching, &room) == QLL_OK)
            && CHECK(qll_split_open(&at.searching, between_pa_gauge, 2, &split) == QLL_OK)) {
            qll_split_foresee(&split, &room);
            held += check_foreseen(&at, &split);
            const qll_rest_of_station rest = qll_rest_costing(0.0);
            CHECK(qll_split_list_leads(&split, &rest, &room) == QLL_OK);
            held += check_foreseen(&at, &split);
            known += known_share(&at, &split);
        }
        qll_arena_close(at.arena);
    }
    printf("    %zu first stages, %.2f of the points known\n", held, known / TEST_LAW_CASES);
    CHECK(held > 1000 && known > 0.5 * TEST_LAW_CASES);
}

int main(void)
{
    TEST_RUN(a_lead_alone_does_no_more_than_its_pair);
    TEST_RUN(a_lead_by_itself_is_a_stage);
    TEST_RUN(a_bound_over_inlets_holds_for_any_between);
    TEST_RUN(first_stages_give_what_was_foreseen);
    return TEST_END();
}
