/* What a search does only for want of anything plainer, against looking at all: docs/theory/search.md, 5, 6. */
#include "few_valves.h"

#define TEST_PSI_STEP 5.0

static const double offsets_psi[] = {3.0, 4.0, 6.0, 8.0, 10.0};

/** The best of what was looked at one by one. */
typedef struct looked {
    size_t count, fit_count;
    double expected;    /* of the fit ones, the least */
    double least_total; /* of breaches */
} looked;

static void look(few_case *at, const qll_stage *stages, size_t count, looked *sum)
{
    const qll_station station = {stages, count};
    qll_fitness fitness;
    qll_cost cost;
    if (CHECK(qll_station_fitness(&station, &at->made.yardstick, at->arena, &fitness) == QLL_OK)
        && CHECK(qll_station_measure(&station, &at->made.yardstick, at->arena, &cost) == QLL_OK)) {
        sum->count += 1;
        sum->fit_count += fitness.is_fit ? 1 : 0;
        sum->expected = fitness.is_fit ? fmin(sum->expected, cost.expected) : sum->expected;
        sum->least_total = fmin(sum->least_total, fitness.total);
    }
}

/* Valves in the order in which they open: by size, Kv, id; the first set highest, the others one offset below one
 * another, and the last or the first of them at the wanted pressure. */
static void look_side_by_side(few_case *at, const size_t *index, size_t count, looked *sum)
{
    for (size_t i = 0; i < sizeof offsets_psi / sizeof *offsets_psi; i++) {
        for (int above = 0; above < 2; above++) {
            const double offset_pa = offsets_psi[i] * TEST_VARIED_PSI;
            double set_pa_gauge =
                at->made.site.set_pa_gauge + (above == 1 ? (double)(count - 1) * offset_pa : 0.0);
            qll_branch branches[3];
            for (size_t j = 0; j < count; j++) {
                branches[j] = few_branch(at, index[j], set_pa_gauge);
                set_pa_gauge -= offset_pa;
            }
            const qll_stage stage = {branches, count, few_set_inlet_pa_gauge(at)};
            look(at, &stage, 1, sum);
        }
    }
}

static looked nothing_yet(void)
{
    return (looked){.expected = INFINITY, .least_total = INFINITY};
}

/* All singles, pairs or threes of a catalogue whose valves stand in the order in which they open. */
static looked look_at_all(few_case *at, size_t count)
{
    looked sum = nothing_yet();
    const size_t n = at->catalogue.count;
    for (size_t a = 0; a < n; a++) {
        if (count == 1) {
            const qll_branch branch = few_branch(at, a, at->made.site.set_pa_gauge);
            look(at, &(qll_stage){&branch, 1, few_set_inlet_pa_gauge(at)}, 1, &sum);
            continue;
        }
        for (size_t b = a; b < n; b++) {
            for (size_t c = b; c < (count == 3 ? n : b + 1); c++) {
                look_side_by_side(at, (const size_t[3]){a, b, c}, count, &sum);
            }
        }
    }
    return sum;
}

/* A 2 in pipe on 110 psi, and two valves of 1 in. */
static void open_busy(few_case *at, double peak_gpm)
{
    scene given = few_house();
    given.peak_gpm = peak_gpm;
    given.pipe = 5;
    few_open(at, &given);
    (void)few_add(at, "B", 2, 2.9);
    (void)few_add(at, "A", 2, 3.3);
    at->valves[0].price -= 20.0;
}

TEST(three_side_by_side_where_two_cannot_carry_the_peak)
{
    few_case at;
    open_busy(&at, 50.0);
    if (few_search(&at)) {
        const looked one = look_at_all(&at, 1);
        const looked two = look_at_all(&at, 2);
        const looked three = look_at_all(&at, 3);
        CHECK(one.fit_count == 0 && two.fit_count == 0 && three.fit_count > 0);
        CHECK(at.found.is_fit && at.found.kinds[0].station.stage_count == 1
              && few_most_branches(&at.found.kinds[0].station) == 3);
        if (!CHECK_WITHIN(at.found.kinds[0].cost.expected, three.expected, 0.01)) {
            few_print(&at);
        }
    }
    qll_arena_close(at.arena);
}

TEST(never_three_side_by_side_where_two_carry_it)
{
    few_case at;
    open_busy(&at, 38.0);
    at.options.keep = 4.0;
    if (few_search(&at)) {
        const looked one = look_at_all(&at, 1);
        const looked two = look_at_all(&at, 2);
        CHECK(one.fit_count == 0 && two.fit_count > 0 && look_at_all(&at, 3).fit_count > 0);
        CHECK(at.found.is_fit);
        CHECK_WITHIN(at.found.kinds[0].cost.expected, two.expected, 0.01);
        for (size_t i = 0; i < at.found.kind_count; i++) {
            CHECK(few_most_branches(&at.found.kinds[i].station) == 2);
        }
    }
    qll_arena_close(at.arena);
}

/* ---- three stages ---- */

/* From a supply down to 60 psi: by equal sigma, 1.013 bar less the pressure of vapour beneath each, p is a geometric row. */
static double between_psi(const few_case *at, double supply_psi, size_t stage, size_t stages)
{
    const double under_psi =
        (at->made.site.barometric_pa - at->made.site.water.vapour_pressure_pa) / TEST_VARIED_PSI;
    const double share = (double)(stage + 1) / (double)stages;
    const double psi =
        (supply_psi + under_psi) * pow((60.0 + under_psi) / (supply_psi + under_psi), share);
    return floor((psi - under_psi) / TEST_PSI_STEP + 0.5) * TEST_PSI_STEP;
}

static looked look_at_three_stages(few_case *at)
{
    looked sum = nothing_yet();
    const double held_psi[3] = {between_psi(at, 180.0, 0, 3), between_psi(at, 180.0, 1, 3), 60.0};
    const size_t n = at->catalogue.count;
    for (size_t i = 0; i < n * n * n; i++) {
        const size_t index[3] = {i / (n * n), i / n % n, i % n};
        qll_branch branches[3];
        qll_stage stages[3];
        double inlet_pa_gauge = few_set_inlet_pa_gauge(at);
        for (size_t k = 0; k < 3; k++) {
            branches[k] = few_branch(at, index[k], held_psi[k] * TEST_VARIED_PSI);
            stages[k] = (qll_stage){&branches[k], 1, inlet_pa_gauge};
            inlet_pa_gauge = held_psi[k] * TEST_VARIED_PSI;
        }
        look(at, stages, 3, &sum);
    }
    return sum;
}

/* Three valves, of which one can be set to no more than 75 psi and one bears no more than 130. */
static void open_high(few_case *at, double ratio_max)
{
    scene given = few_house();
    given.static_high_psi = 180.0;
    given.static_low_psi = 172.0;
    given.peak_gpm = 10.0;
    few_open(at, &given);
    few_add(at, "LOW", 2, 2.6)->set_max_pa_gauge = 75.0 * TEST_VARIED_PSI;
    few_add(at, "WEAK", 2, 3.0)->inlet_max_pa_gauge = 130.0 * TEST_VARIED_PSI;
    few_add(at, "ANY", 2, 3.3)->price += 60.0;
    at->made.site.limits.ratio_max = ratio_max;
    few_remake(at);
}

TEST(three_stages_where_two_cannot_keep_the_ratio)
{
    few_case at;
    open_high(&at, 1.55); /* 1.55^2 = 2.4 < 3 < 1.55^3 = 3.7 */
    if (few_search(&at)) {
        const looked all = look_at_three_stages(&at);
        CHECK(all.fit_count > 0);
        CHECK(at.found.is_fit && at.found.kinds[0].station.stage_count == 3);
        if (!CHECK_WITHIN(at.found.kinds[0].cost.expected, all.expected, 0.01)) {
            few_print(&at);
        }
    }
    qll_arena_close(at.arena);
}

TEST(never_three_stages_where_two_keep_it)
{
    few_case at;
    open_high(&at, 1.95);
    at.options.keep = 4.0;
    if (few_search(&at)) {
        CHECK(look_at_three_stages(&at).fit_count > 0);
        CHECK(at.found.is_fit);
        for (size_t i = 0; i < at.found.kind_count; i++) {
            CHECK(at.found.kinds[i].station.stage_count == 2);
        }
    }
    qll_arena_close(at.arena);
}

/* ---- stopped on the way ---- */

typedef struct asked_often {
    size_t calls, stop_at;
    double share;
} asked_often;

static bool told(double share, void *context)
{
    asked_often *at = context;
    CHECK(at->stop_at == 0 || at->calls < at->stop_at);
    CHECK(share >= at->share && share <= 1.0);
    at->share = share;
    at->calls += 1;
    return at->calls != at->stop_at;
}

static bool search_until(few_case *at, size_t stop_at, asked_often *asked)
{
    *asked = (asked_often){.stop_at = stop_at};
    at->options.progress = told;
    at->options.progress_context = asked;
    return CHECK(
        qll_search(&at->made.yardstick, &at->catalogue, &at->options, at->arena, &at->found)
        == QLL_OK);
}

/* Before anything is found there is nothing to tell, and nothing unfit is told for want of time. */
static void check_stops(few_case *at)
{
    asked_often asked;
    (void)search_until(at, 0, &asked);
    const size_t calls = asked.calls;
    const bool is_fit = at->found.is_fit;
    CHECK(!at->found.stopped && calls > 0);
    double before = INFINITY;
    for (size_t stop = 1; stop <= calls && search_until(at, stop, &asked); stop++) {
        CHECK(at->found.stopped && asked.calls == stop);
        if (at->found.kind_count > 0) {
            CHECK(at->found.is_fit == is_fit);
            CHECK(!is_fit || at->found.kinds[0].cost.expected <= before + 0.01);
            before = at->found.kinds[0].cost.expected;
        }
    }
    printf("    %zu calls\n", calls);
    CHECK(isfinite(before)); /* the last call is heard when something has been found */
}

TEST(a_stop_is_heard_among_the_last_resorts)
{
    few_case at;
    open_busy(&at, 50.0);
    check_stops(&at);
    qll_arena_close(at.arena);
    open_high(&at, 1.55);
    check_stops(&at);
    qll_arena_close(at.arena);
    open_busy(&at, 900.0); /* nothing carries that; the nearest of forty */
    CHECK(scene_catalogue(3, 40, &at.given, at.arena, &at.catalogue));
    check_stops(&at);
    CHECK(!at.found.is_fit);
    qll_arena_close(at.arena);
}

/* ---- nothing fits ---- */

/* Singles, and pairs 6 psi apart in both placements. */
static looked look_for_nearest(few_case *at)
{
    looked sum = look_at_all(at, 1);
    for (size_t a = 0; a < at->catalogue.count; a++) {
        for (size_t b = a; b < at->catalogue.count; b++) {
            for (int above = 0; above < 2; above++) {
                const double top_pa_gauge =
                    at->made.site.set_pa_gauge + (above == 1 ? 6.0 * TEST_VARIED_PSI : 0.0);
                const qll_branch branches[2] = {
                    few_branch(at, a, top_pa_gauge),
                    few_branch(at, b, top_pa_gauge - 6.0 * TEST_VARIED_PSI)};
                look(at, &(qll_stage){branches, 2, few_set_inlet_pa_gauge(at)}, 1, &sum);
            }
        }
    }
    return sum;
}

/* Two stages that share the drop by equal sigma, a first valve that can be set so, any valve behind it. */
static looked look_for_nearest_stages(few_case *at)
{
    looked sum = nothing_yet();
    const double between_pa_gauge =
        TEST_VARIED_PSI * between_psi(at, at->given.static_high_psi, 0, 2);
    const size_t n = at->catalogue.count;
    for (size_t i = 0; i < n * n; i++) {
        const qll_valve *first = &at->catalogue.valves[i / n];
        if (between_pa_gauge > first->set_max_pa_gauge
            || between_pa_gauge < first->set_min_pa_gauge) {
            continue;
        }
        const qll_branch branches[2] = {few_branch(at, i / n, between_pa_gauge),
                                        few_branch(at, i % n, at->made.site.set_pa_gauge)};
        const qll_stage stages[2] = {{&branches[0], 1, few_set_inlet_pa_gauge(at)},
                                     {&branches[1], 1, between_pa_gauge}};
        look(at, stages, 2, &sum);
    }
    return sum;
}

static void check_nearest(few_case *at)
{
    const looked all = look_for_nearest(at);
    const looked stages = look_for_nearest_stages(at);
    CHECK(all.fit_count == 0 && all.count == at->catalogue.count * (at->catalogue.count + 2));
    at->options.stages_max = 1;
    at->options.branches_max = 2;
    if (few_search(at)) {
        const qll_candidate *nearest = &at->found.kinds[0];
        CHECK(!at->found.is_fit && !nearest->fitness.is_fit);
        if (!CHECK_NEAR(nearest->fitness.total, all.least_total, 1e-9)) {
            few_print(at);
        }
    }
    at->options = qll_search_options_default();
    if (few_search(at)) { /* stages come nearer, or nothing does */
        CHECK(!at->found.is_fit);
        const double least_total = fmin(all.least_total, stages.least_total);
        if (!CHECK_NEAR(at->found.kinds[0].fitness.total, least_total, 1e-9)) {
            few_print(at);
        }
    }
}

/* A main of 110 psi, 60 wanted, 14 gpm, and a pipe of 1 in: each valve breaks another rule. */
TEST(the_nearest_breaks_least)
{
    few_case at;
    const scene given = few_house();
    few_open(&at, &given);
    few_add(&at, "WEAK", 1, 2.1)->inlet_max_pa_gauge = 60.0 * TEST_VARIED_PSI;
    few_add(&at, "SMALL", 1, 2.2)->set_max_pa_gauge = 45.0 * TEST_VARIED_PSI;
    few_add(&at, "SPRUNG", 2, 3.3)->set_min_pa_gauge = 68.0 * TEST_VARIED_PSI;
    (void)few_add(&at, "LARGE", 6, 8.4);
    check_nearest(&at);
    qll_arena_close(at.arena);
}

/* More water than anything here carries: a pair comes nearer than one. */
TEST(the_nearest_may_be_a_pair)
{
    few_case at;
    open_busy(&at, 90.0);
    check_nearest(&at);
    CHECK(at.found.kind_count > 0 && few_most_branches(&at.found.kinds[0].station) == 2);
    qll_arena_close(at.arena);
}

/* 250 psi over 60 with at most 1.5 a stage: not even three stages keep it; two come nearer than one. */
TEST(the_nearest_may_have_two_stages)
{
    few_case at;
    scene given = few_house();
    given.static_high_psi = 250.0;
    given.static_low_psi = 240.0;
    few_open(&at, &given);
    (void)few_add(&at, "ONLY", 2, 3.3);
    at.made.site.limits.ratio_max = 1.5;
    few_remake(&at);
    check_nearest(&at);
    CHECK(at.found.kind_count > 0 && at.found.kinds[0].station.stage_count == 2);
    qll_arena_close(at.arena);
}

/* The same, where the nearest first stage and the nearest second one are valves of their own. */
TEST(the_nearest_stages_are_any_two_valves)
{
    few_case at;
    scene given = few_house();
    given.static_high_psi = 250.0;
    given.static_low_psi = 240.0;
    few_open(&at, &given);
    (void)few_add(&at, "FIRST", 2, 3.3);
    few_add(&at, "LAST", 2, 3.0)->set_max_pa_gauge = 80.0 * TEST_VARIED_PSI;
    few_add(&at, "WEAK", 2, 2.6)->inlet_max_pa_gauge = 130.0 * TEST_VARIED_PSI;
    few_add(&at, "HIGH", 2, 3.6)->set_min_pa_gauge = 100.0 * TEST_VARIED_PSI;
    at.made.site.limits.ratio_max = 1.5;
    few_remake(&at);
    check_nearest(&at);
    CHECK(at.found.kind_count > 0 && at.found.kinds[0].station.stage_count == 2);
    qll_arena_close(at.arena);
}

int main(void)
{
    TEST_RUN(three_side_by_side_where_two_cannot_carry_the_peak);
    TEST_RUN(never_three_side_by_side_where_two_carry_it);
    TEST_RUN(three_stages_where_two_cannot_keep_the_ratio);
    TEST_RUN(never_three_stages_where_two_keep_it);
    TEST_RUN(a_stop_is_heard_among_the_last_resorts);
    TEST_RUN(the_nearest_breaks_least);
    TEST_RUN(the_nearest_may_be_a_pair);
    TEST_RUN(the_nearest_may_have_two_stages);
    TEST_RUN(the_nearest_stages_are_any_two_valves);
    return TEST_END();
}
