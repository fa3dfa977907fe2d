/* The short ways of the search against what they are short for: docs/theory/search.md. */
#include "bounds_case.h"

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

/* What is known of both open, and the floor of the peaks, come on top; true if they say more. */
static bool check_both_open(bounds_case *at, const qll_lead *lead, const qll_pick *pick,
                            const double bound[QLL_NODES], const double exact[QLL_NODES])
{
    const qll_seconds tables = tables_of(at, lead->place, lead);
    const double floor = tables.room->floors[at->searching.pool.parts[pick->part[1]].size];
    double with_floor[QLL_NODES], besides[QLL_NODES];
    qll_picked made;
    qll_pick_set(&at->searching, lead->place, pick, &at->trials.solver, &made);
    qll_hazard_sums none;
    memset(&none, 0, sizeof none);
    const size_t from = qll_lead_alone_anywhere(&at->searching, lead, pick->set_pa_gauge[1],
                                                at->searching.pool.effects);
    qll_pair_least_of(&made, &lead->place->ends, from, &none, &at->trials.least, besides);
    const bool rises = qll_pick_rises(&at->searching, pick);
    for (size_t k = 0; k < QLL_NODES; k++) {
        with_floor[k] = bound[k] * floor * (rises ? besides[k] : 1.0);
    }
    check_above(with_floor, exact, TEST_LAW_BITS);
    return rises && with_floor[QLL_NODES / 2] < bound[QLL_NODES / 2] - 1e-3;
}

/* What a pair that has been tried does over one supply, less hunting. */
static void sum_exactly(const bounds_case *at, const qll_picked *made, const double *outlet_pa,
                        size_t supply, qll_pair_sums sums)
{
    const qll_yardstick *yardstick = &at->made.yardstick;
    const size_t count = yardstick->duty->flow_count;
    memset(sums, 0, sizeof(qll_pair_sums));
    for (size_t f = 0; f < count; f++) {
        const size_t point = supply * count + f;
        double row[QLL_ROWS(2)];
        qll_hazard_point(&made->ruler, yardstick->duty->inlet_pa[point],
                         yardstick->duty->flow_m3s[f], outlet_pa[point], yardstick->need_pa[point],
                         row);
        qll_hazard_add(yardstick->unknowns, f, row, QLL_ROWS(2), sums);
    }
}

/* Each mechanism's sums by tables against those of the pair solved. */
static void check_rows(bounds_case *at, const qll_pick *pick, const qll_lead *lead,
                       const double *outlet_pa, qll_pair_sums sums[QLL_SUPPLY_LEVELS])
{
    qll_picked made;
    qll_pick_set(&at->searching, lead->place, pick, &at->trials.solver, &made);
    bool holds = true;
    for (size_t s = 0; s < QLL_SUPPLY_LEVELS; s++) {
        qll_pair_sums exact;
        sum_exactly(at, &made, outlet_pa, s, exact);
        for (size_t r = 0; r < QLL_ROWS(2); r++) {
            for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
                holds = holds && sums[s][r][i] <= exact[r][i] + TEST_LAW_BITS;
            }
        }
    }
    CHECK(holds);
}

/* What a pair gives by tables, and what it does at its peaks, against the pair solved; true if the peaks say something. */
static bool check_peaks(bounds_case *at, const qll_pair_case *of, const qll_pick *pick,
                        const qll_trial *trial, double row[QLL_ROWS(2)])
{
    const qll_stage_place *place = of->lead->place;
    const qll_duty *duty = &at->made.duty;
    qll_picked made;
    qll_pick_set(&at->searching, place, pick, &at->trials.solver, &made);
    qll_hazard_sums exact;
    memset(&exact, 0, sizeof exact);
    qll_hazard_add_peaks(&made.ruler, place->inlets.peak_pa, trial->outlets.peak_pa,
                         QLL_SUPPLY_LEVELS, &exact);
    qll_pair_peaks(of, &at->room.pairs, row);
    bool holds = true;
    for (size_t r = 0; r < QLL_ROWS(2); r++) {
        holds = holds && row[r] <= exact.at[r][0] + TEST_LAW_BITS;
    }
    CHECK(holds && row[QLL_ROW_WEAR] == 0.0);
    const size_t grid = duty->supply_count * duty->flow_count;
    double *least_pa = qll_arena_take(at->arena, grid, 2 * sizeof *least_pa);
    if (!CHECK(least_pa != NULL)) {
        return false;
    }
    qll_pair_outlets(of, &at->room.pairs, least_pa, least_pa + grid);
    const double bits_pa = 1e-3; /* of a solver that stops at 1e-9 of some bar */
    for (size_t i = 0; i < grid; i++) {
        const double outlet_pa = trial->outlets.grid_pa[i];
        holds = holds && !(outlet_pa < least_pa[i] - bits_pa)
                && !(outlet_pa > least_pa[grid + i] + bits_pa);
        at->outlets += least_pa[grid + i] - least_pa[i] < 3.0 * TEST_VARIED_PSI ? 1 : 0;
    }
    return CHECK(holds) && qll_pair_peaks_survival(of, row) < 1.0 - 1e-3;
}

/* What a pair does by tables over the outlet; true if little is missing. */
static bool check_summed(bounds_case *at, const qll_lead *lead, const qll_pick *pick,
                         const qll_trial *trial)
{
    const double *exact = trial->survival;
    const qll_stage_place *place = lead->place;
    const double set_pa_gauge = pick->set_pa_gauge[1];
    const qll_part *second = &at->searching.pool.parts[pick->part[1]];
    const qll_pair_case of = {
        .searching = &at->searching,
        .lead = lead,
        .part = pick->part[1],
        .set = set_of(place, set_pa_gauge),
        .set_pa_gauge = set_pa_gauge,
        .open_from =
            qll_lead_alone_anywhere(&at->searching, lead, set_pa_gauge, at->searching.pool.effects),
        .chatters = qll_branch_chatters(second->branch.valve,
                                        place->set_inlet_pa_gauge - set_pa_gauge, set_pa_gauge)};
    qll_pair_sums sums[QLL_SUPPLY_LEVELS];
    qll_pair_room_begin(&at->searching, place, &at->room.pairs);
    qll_pair_room_of_lead(&at->room.pairs);
    CHECK(qll_pair_take(&of, &at->room.pairs) == QLL_OK);
    if (!qll_pair_sums_alone(&of, &at->room.pairs, sums)) {
        CHECK(lead->part->branch.valve->inlet_effect < 0.0
              || second->branch.valve->inlet_effect < 0.0);
        return false;
    }
    static const size_t order[QLL_SUPPLY_LEVELS] = {1, 0, 2};
    double survival[QLL_NODES], by_peaks[QLL_NODES], peaks[QLL_ROWS(2)];
    at->peaks += check_peaks(at, &of, pick, trial, peaks) ? 1 : 0;
    const double floor = tables_of(at, place, lead).room->floors[second->size];
    pair_bound(at, lead, place, pick, by_peaks);
    for (size_t k = 0; k < QLL_NODES; k++) {
        by_peaks[k] *= floor * qll_pair_peaks_survival(&of, peaks);
    }
    check_above(by_peaks, exact, TEST_LAW_BITS);
    for (size_t s = 0; s < QLL_SUPPLY_LEVELS; s++) {
        qll_pair_sums_add(&of, order[s], &at->room.pairs, sums[order[s]]);
        qll_pair_sums_survival(&of, sums, peaks, survival);
        check_above(survival, exact, TEST_LAW_BITS);
    }
    check_rows(at, pick, lead, trial->outlets.grid_pa, sums);
    return survival[QLL_NODES / 2] < exact[QLL_NODES / 2] + 0.1;
}

TEST(a_lead_alone_does_no_more_than_its_pair)
{
    size_t held = 0;
    size_t used = 0;
    size_t sharper = 0;
    size_t near = 0;
    size_t peaks = 0;
    size_t outlets = 0;
    for (unsigned i = 0; i < TEST_LAW_CASES; i++) {
        static bounds_case at; /* too large for a frame */
        bool holds = open_case(100 + i, 1.3, 3.0, &at);
        const double wanted_pa_gauge = at.made.site.set_pa_gauge;
        qll_stage_place place = qll_stage_place_first(&at.searching, wanted_pa_gauge, true);
        holds = holds && CHECK(qll_ends_make(&at.made.duty, at.arena, &place.ends) == QLL_OK);
        qll_place_ends(&at.made.duty, &place);
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
            sharper += check_both_open(&at, &lead, &pick, bound, exact.survival) ? 1 : 0;
            near += check_summed(&at, &lead, &pick, &exact) ? 1 : 0;
            check_carries(&at, &place, &lead, &pick);
            held += 1;
            used += bound[0] < 1.0 - 1e-6 ? 1 : 0;
        }
        peaks += at.peaks;
        outlets += at.outlets;
        qll_arena_close(at.arena);
    }
    printf(
        "    %zu pairs, %zu bounds that say something, %zu sharper by what both do, %zu near by tables\n",
        held, used, sharper, near);
    printf("    %zu with peaks by tables, %zu outlets known to 3 psi\n", peaks, outlets);
    CHECK(held > 1000 && used > 500 && sharper > 300 && near > held / 2);
    CHECK(peaks > held / 4 && outlets > 20 * held);
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
    qll_pair_least(&at->searching, bound_place, &pick, 0, &room, besides);
    at->peaks += share < 1.0 - 1e-6 ? 1 : 0;
    at->besides += besides[QLL_NODES / 2] < share - 1e-3 ? 1 : 0;
    double by_peaks[QLL_NODES];
    for (size_t k = 0; k < QLL_NODES; k++) {
        by_peaks[k] = bound[k] * share;
        bound[k] *= is_pair ? besides[k] : share;
    }
    check_above(by_peaks, exact.survival, TEST_LAW_BITS);
    check_above(bound, exact.survival, TEST_LAW_BITS);
    const qll_seconds tables = tables_of(at, bound_place, &lead);
    const double needs_pa = is_pair ? qll_second_needs_pa(&tables, pick.part[1],
                                                          set_of(bound_place, pick.set_pa_gauge[1]))
                                    : qll_lead_needs_pa(&tables);
    CHECK(!(exact_place->inlets.peak_pa[0] < needs_pa - 1e-3));
    at->needs += needs_pa > bound_place->inlets.peak_pa[0] ? 1 : 0;
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
    size_t needs = 0;
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
            holds = CHECK(qll_ends_make(&at.made.duty, at.arena, &bound_place.ends) == QLL_OK);
            for (size_t n = 0; n < 60 && holds; n++) {
                qll_place_ends(&at.made.duty, &bound_place);
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
        needs += at.needs;
        qll_arena_close(at.arena);
    }
    printf(
        "    %zu second stages, %zu with peaks that say something, %zu pairs with more, %zu that need "
        "more than the least\n",
        held, peaks, besides, needs);
    CHECK(held > 3000 && peaks > 1000 && besides > 300 && needs > 50);
}

int main(void)
{
    TEST_RUN(a_lead_alone_does_no_more_than_its_pair);
    TEST_RUN(a_lead_by_itself_is_a_stage);
    TEST_RUN(a_bound_over_inlets_holds_for_any_between);
    return TEST_END();
}
