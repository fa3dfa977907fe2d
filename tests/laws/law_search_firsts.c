/* What is foretold of first stages and of pairs before they are solved, against what comes of them:
 * docs/theory/search.md. */
#include "bounds_case.h"

/* How often the foretold was looked at and bit. */
typedef struct foretold {
    size_t too_fast, foreseen, given;
} foretold;

/* What is foretold of a pair in a first place, against what came of it. */
static void check_foretold(bounds_case *at, const qll_stage_place *place, const qll_pick *pick,
                           qll_practice broken, foretold *count)
{
    qll_lead lead;
    qll_lead_begin(&at->searching, place, pick->part[0], pick->set_pa_gauge[0], &at->other.lead,
                   &lead);
    const qll_seconds tables = tables_of(at, place, &lead);
    const size_t set = set_of(place, pick->set_pa_gauge[1]);
    const bool is_fast = qll_second_is_fast(&tables, pick->part[1], set);
    CHECK(!is_fast || broken < QLL_PRACTICE_COUNT);
    count->too_fast += broken == QLL_PRACTICE_SPEED ? 1 : 0;
    count->foreseen += broken == QLL_PRACTICE_SPEED && is_fast ? 1 : 0;
    if (broken == QLL_PRACTICE_COUNT) {
        const double gives_pa = qll_second_gives_pa(&tables, pick->part[1], set);
        CHECK(!(at->trials.peak_pa[0] > gives_pa + 1e-3));
        count->given += gives_pa < place->inlets.peak_pa[0] ? 1 : 0;
    }
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
static size_t check_foreseen(bounds_case *at, const qll_split *split, foretold *told)
{
    const qll_duty *duty = &at->made.duty;
    const qll_between_range *range = &split->range;
    size_t count = 0;
    for (size_t n = 0; n < 80; n++) {
        qll_pick pick;
        bool is_pair = draw_pick(at, split->between_pa_gauge, &pick);
        bool is_below = pick.set_pa_gauge[0] == split->between_pa_gauge;
        pick.count = is_pair && n % 2 == 1 ? 2 : 1;
        const qll_part *parts = at->searching.pool.parts;
        if (!is_below /* in a first stage the small valve stands at the pressure between */
            || (pick.count == 2 && parts[pick.part[1]].rank < parts[pick.part[0]].rank)) {
            continue;
        }
        qll_trial trial;
        const qll_practice broken =
            qll_trial_make(&at->searching, &split->first, &pick, NULL, NULL, &at->trials, &trial);
        if (pick.count == 2) {
            check_foretold(at, &split->first, &pick, broken, told);
        }
        if (broken == QLL_PRACTICE_COUNT) {
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

/* Where nothing is too dear, all that are kept after their peaks are left when they are solved, and none does less than was
 * said of it then; returns how many. */
static size_t check_kept(bounds_case *at, qll_split *split, const qll_rest_of_station *rest,
                         qll_split_room *room)
{
    CHECK(qll_split_list_firsts(split, rest, room) == QLL_OK);
    CHECK(split->firsts.count == split->kept.count);
    for (size_t i = 0; i < split->firsts.count && i < split->kept.count; i++) {
        const qll_half *exact = &split->firsts.items[i];
        const qll_kept *kept = &split->kept.items[i];
        double survival[QLL_NODES];
        for (size_t k = 0; k < QLL_NODES; k++) {
            survival[k] = (double)kept->survival[k];
        }
        check_above(survival, exact->survival, TEST_LAW_BITS);
        CHECK((double)kept->gives_pa >= exact->gives_pa && exact->pick.part[0] == kept->lead);
        CHECK(exact->pick.count == 1 || exact->pick.part[1] == kept->second);
    }
    qll_halves front;
    CHECK(qll_kept_front(&at->searching, &split->kept, &front) == QLL_OK);
    CHECK(front.count <= split->kept.count && (front.count > 0) == (split->kept.count > 0));
    return split->kept.count;
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
    foretold told = {0};
    double known = 0.0;
    size_t kept = 0;
    for (unsigned i = 0; i < TEST_LAW_CASES; i++) {
        static bounds_case at; /* too large for a frame */
        qll_split split;
        bool holds = open_case(700 + i, 2.0, 5.0, &at);
        qll_split_room *room = qll_arena_take(at.arena, 1, sizeof *room);
        const double wanted_pa_gauge = holds ? at.made.site.set_pa_gauge : 0.0;
        const double between_pa_gauge =
            sqrt(wanted_pa_gauge * at.given.static_high_psi * TEST_VARIED_PSI);
        at.searching.larger_least = QLL_LARGER_LEAST;
        qll_pool_pair(&at.searching.pool, at.searching.larger_least);
        if (holds && CHECK(room != NULL)
            && CHECK(qll_split_room_make(&at.searching, room) == QLL_OK)
            && CHECK(qll_split_open(&at.searching, between_pa_gauge, 2, &split) == QLL_OK)) {
            qll_split_foresee(&split, room);
            held += check_foreseen(&at, &split, &told);
            const qll_rest_of_station rest = qll_rest_costing(0.0);
            CHECK(qll_split_list_leads(&split, &rest, room) == QLL_OK);
            held += check_foreseen(&at, &split, &told);
            known += known_share(&at, &split);
            for (size_t n = 0; n < split.firsts.count; n++) {
                qll_marks_put(&split.firsts_left, &at.searching.pool, &split.firsts.items[n]);
            }
            CHECK(qll_split_keep_firsts(&split, &rest, room) == QLL_OK);
            held += check_foreseen(&at, &split, &told);
            kept += check_kept(&at, &split, &rest, room);
        }
        qll_arena_close(at.arena);
    }
    printf("    %zu first stages, %.2f of the points known\n", held, known / TEST_LAW_CASES);
    printf("    %zu kept after their peaks\n", kept);
    printf("    %zu pairs too fast, %zu of them foretold; %zu said to give less than all\n",
           told.too_fast, told.foreseen, told.given);
    CHECK(kept > 500);
    CHECK(held > 1000 && known > 0.5 * TEST_LAW_CASES);
    CHECK(told.too_fast > 50 && told.foreseen > told.too_fast / 2 && told.given > 100);
}

int main(void)
{
    TEST_RUN(first_stages_give_what_was_foreseen);
    return TEST_END();
}
