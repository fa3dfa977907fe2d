/* What the search takes over instead of solving it, and what it gives up without looking at it. */
#include "check.h"
#include "search/lead.h"
#include "search/pair.h"
#include "search_case.h"

/** How often a stage was met with its first branch alone, and with others open. */
typedef struct met {
    size_t alone, together;
} met;

static void check_lead(const qll_tally_stage *stage, const qll_tally_stage *lead, double inlet_pa,
                       double flow_m3s, met *found)
{
    const qll_tally_term whole = qll_tally_at(stage, inlet_pa, flow_m3s);
    const qll_tally_term single = qll_tally_at(lead, inlet_pa, flow_m3s);
    const bool is_alone = qll_leads_alone(stage, inlet_pa, whole.outlet_pa);
    CHECK(qll_leads_alone(stage, inlet_pa, single.outlet_pa) == is_alone);
    CHECK(qll_leads_alone(lead, inlet_pa, single.outlet_pa));
    found->alone += is_alone ? 1 : 0;
    found->together += is_alone ? 0 : 1;
    if (is_alone) {
        CHECK_NEAR(whole.outlet_pa, single.outlet_pa, 1e-12);
        CHECK_NEAR(whole.noise, single.noise, 1e-9);
        CHECK_NEAR(whole.wear, single.wear, 1e-9);
        CHECK_NEAR(whole.unsteady_pa, single.unsteady_pa, 1e-9);
    }
}

TEST(a_stage_does_what_its_lead_does_while_that_is_alone)
{
    scene_random random = {5};
    const scene given = {.static_low_psi = 90.0,
                         .static_high_psi = 110.0,
                         .set_psi = 55.0,
                         .peak_gpm = 60.0,
                         .typical_gpm = 5.0,
                         .spread = 1.0,
                         .class_count = 4};
    qll_arena *arena = qll_arena_open(TEST_ARENA_CEILING);
    scene_case made;
    qll_catalogue catalogue;
    qll_pool pool;
    met found = {0, 0};
    if (CHECK(scene_make(&given, arena, &made)) && CHECK(scene_catalogue_of(20, arena, &catalogue))
        && CHECK(qll_pool_make(&made.site, &catalogue, arena, &pool) == QLL_OK)) {
        for (int i = 0; i < 2000; i++) {
            qll_arena_mark mark = qll_arena_now(arena);
            qll_stage_choice choice = {.branch_count = i % 2 == 0 ? 2 : 3,
                                       .set_inlet_pa_gauge = 100.0 * TEST_PSI};
            /* Offsets that do not hand over too: what a lead does when it is wide open. */
            const double offset_psi = scene_uniform(&random, 0.5, 30.0);
            for (size_t j = 0; j < choice.branch_count; j++) {
                choice.branches[j] = pool.branches[(size_t)scene_uniform(&random, 0.0, 19.999)];
                choice.branches[j].set_pa_gauge = (60.0 - (double)j * offset_psi) * TEST_PSI;
            }
            qll_stage_choice single = choice;
            single.branch_count = 1;
            qll_tally_stage *stage = NULL;
            qll_tally_stage *lead = NULL;
            CHECK(qll_tally_stage_make(&choice, &made.site, arena, &stage) == QLL_OK);
            CHECK(qll_tally_stage_make(&single, &made.site, arena, &lead) == QLL_OK);
            for (int k = 0; k < 20; k++) {
                double inlet_pa =
                    made.site.barometric_pa + scene_uniform(&random, 60.0, 200.0) * TEST_PSI;
                double flow_m3s = TEST_GPM * exp(scene_uniform(&random, -1.0, 5.0));
                check_lead(stage, lead, inlet_pa, flow_m3s, &found);
            }
            qll_arena_reset(arena, mark);
        }
    }
    CHECK(found.alone > 5000 && found.together > 5000);
    printf("    %zu alone, %zu with others open\n", found.alone, found.together);
    qll_arena_close(arena);
}

/* How far the exact terms of pairs of stages fall below their bounds, as a share of the bounds. */
typedef struct shortfall {
    double worst;
    double bounds, exact; /* sums of noise, to see that the bounds are worth having */
} shortfall;

static void compare_bounds(const qll_searching *searching, qll_split *split,
                           const qll_first_stage *first, const qll_tally_stage *of,
                           shortfall *found)
{
    qll_split_bound_pair(split, first);
    for (size_t g = 0; g < split->group_count; g++) {
        qll_objectives exact = {0.0, 0.0, 0.0, 0.0};
        for (size_t p = split->groups[g].from; p < split->groups[g].to; p++) {
            const qll_duty_point *point = &searching->points.points[p];
            qll_tally_term last = qll_tally_at(of, first->terms[p].outlet_pa, point->flow_m3s);
            qll_tally_term both = qll_tally_both(&first->terms[p], &last);
            qll_tally_add(&exact, &both, point->weight);
        }
        const qll_bound *rest = &split->rest[g];
        double weight = split->groups[g].weight;
        found->worst = fmax(found->worst, (rest[0].noise - rest[1].noise - exact.noise) / weight);
        found->worst = fmax(found->worst, (rest[0].wear - rest[1].wear - exact.wear) / weight);
        found->worst = fmax(found->worst,
                            (rest[0].unsteady - rest[1].unsteady - exact.unsteady) / weight / 1e3);
        found->bounds += rest[0].noise - rest[1].noise;
        found->exact += exact.noise;
    }
}

static void check_bounds_between(qll_searching *searching, double between_pa_gauge,
                                 shortfall *found)
{
    qll_split split = qll_split_at(searching, between_pa_gauge);
    qll_second_choice **seconds = NULL;
    size_t count = 0;
    CHECK(qll_split_begin(searching, &split) == QLL_OK);
    CHECK(qll_split_seconds(searching, &split.second_plan, &split, &seconds, &count) == QLL_OK);
    for (size_t i = 0; i < count; i++) {
        qll_tally_stage *of = NULL;
        CHECK(qll_tally_stage_make(&seconds[i]->choice, searching->site, searching->arena, &of)
              == QLL_OK);
        qll_split_bound(of, seconds[i]->lead, &split);
        for (size_t k = 0; k < split.first_count; k++) {
            compare_bounds(searching, &split, split.firsts[k], of, found);
        }
    }
}

TEST(bounds_of_a_second_stage_are_below_its_terms)
{
    /* The bounds rest on an assumption about what lies between two inlet pressures
     * (docs/theory/search.md, eq. 6): this is where it is measured. */
    scene_random random = {11};
    shortfall found = {0.0, 0.0, 0.0};
    for (int i = 0; i < 3; i++) {
        scene given = {.static_low_psi = 150.0,
                       .static_high_psi = scene_uniform(&random, 160.0, 220.0),
                       .set_psi = scene_uniform(&random, 45.0, 65.0),
                       .peak_gpm = scene_uniform(&random, 20.0, 150.0),
                       .spread = scene_uniform(&random, 0.5, 1.6),
                       .class_count = 10};
        given.typical_gpm = given.peak_gpm * scene_uniform(&random, 0.03, 0.4);
        qll_arena *arena = qll_arena_open(TEST_ARENA_CEILING);
        scene_case made;
        qll_catalogue catalogue;
        const qll_search_options options = options_of(1, 2);
        qll_searching searching;
        double between_pa_gauge[QLL_BETWEEN_MOST];
        if (CHECK(scene_make(&given, arena, &made))
            && CHECK(scene_catalogue_of(10, arena, &catalogue))
            && CHECK(qll_search_all(&made.site, &made.duty, &catalogue, &options, arena, &searching)
                     == QLL_OK)) {
            size_t count = qll_between_pressures(&made.site, &made.duty, between_pa_gauge);
            for (size_t k = 0; k < count; k++) {
                check_bounds_between(&searching, between_pa_gauge[k], &found);
            }
        }
        qll_arena_close(arena);
    }
    CHECK(found.exact > 0.0);
    CHECK(found.bounds > 0.8 * found.exact);
    CHECK(found.worst <= 1e-9);
    printf("    bounds are %.1f %% of the noise; greatest excess over a term %.2g\n",
           100.0 * found.bounds / found.exact, found.worst);
}

/** How many second stages break a rule behind every first stage, and how many do not. */
typedef struct judged {
    size_t broken, sound;
} judged;

/* A second stage that breaks a rule of its own behind the best of all first stages must break one behind
 * each of them. */
static void check_best(qll_searching *searching, double between_pa_gauge, judged *found)
{
    qll_split split = qll_split_at(searching, between_pa_gauge);
    qll_second_choice **seconds = NULL;
    size_t count = 0;
    qll_pair_room room;
    CHECK(qll_split_begin(searching, &split) == QLL_OK);
    CHECK(qll_pair_room_make(searching, &room) == QLL_OK);
    if (split.first_count == 0) {
        return;
    }
    CHECK(qll_split_seconds(searching, &split.second_plan, &split, &seconds, &count) == QLL_OK);
    for (size_t i = 0; i < count; i++) {
        qll_second_stage second;
        CHECK(qll_second_stage_make(searching, &seconds[i]->choice, &second) == QLL_OK);
        if (qll_second_stage_broken(searching, &second, &split) == QLL_RULE_COUNT) {
            found->sound += 1;
            continue;
        }
        found->broken += 1;
        for (size_t k = 0; k < split.first_count; k++) {
            qll_stage_corners_follow(searching->duty, &split.firsts[k]->corners, &room.behind);
            qll_stage_corners_solve(searching->duty, second.of->solver, second.choice->branch_count,
                                    &room.behind);
            CHECK(qll_corner_broken_by_stage(&searching->corners, &second.of->stage, &room.behind)
                  != QLL_RULE_COUNT);
        }
    }
}

/* Half of the valves bear hardly more than stands between the stages, and lock up at that. */
static void make_tender(const qll_catalogue *catalogue, double between_pa_gauge,
                        scene_random *random, qll_valve valves[TEST_SIX])
{
    for (size_t k = 0; k < TEST_SIX; k++) {
        valves[k] = catalogue->valves[k];
        valves[k].lockup_rise_pa = scene_uniform(random, 0.0, 12.0) * TEST_PSI;
        if (k % 2 == 1) {
            valves[k].inlet_max_pa_gauge =
                between_pa_gauge + scene_uniform(random, 0.0, 12.0) * TEST_PSI;
        }
    }
}

static void check_best_of_building(scene_random *random, judged *found)
{
    scene given = {.static_low_psi = 150.0,
                   .static_high_psi = scene_uniform(random, 160.0, 220.0),
                   .set_psi = scene_uniform(random, 45.0, 65.0),
                   .peak_gpm = scene_uniform(random, 40.0, 250.0),
                   .spread = 1.0,
                   .class_count = 4};
    given.typical_gpm = given.peak_gpm * 0.1;
    qll_arena *arena = qll_arena_open(TEST_ARENA_CEILING);
    scene_case made;
    qll_catalogue catalogue;
    qll_valve valves[TEST_SIX];
    const qll_search_options options = options_of(1, 2);
    qll_searching searching;
    double between_pa_gauge[QLL_BETWEEN_MOST];
    if (CHECK(scene_make(&given, arena, &made))
        && CHECK(scene_catalogue(six, TEST_SIX, arena, &catalogue))) {
        size_t count = qll_between_pressures(&made.site, &made.duty, between_pa_gauge);
        make_tender(&catalogue, between_pa_gauge[0], random, valves);
        catalogue.valves = valves;
        CHECK(qll_search_all(&made.site, &made.duty, &catalogue, &options, arena, &searching)
              == QLL_OK);
        for (size_t k = 0; k < count; k++) {
            check_best(&searching, between_pa_gauge[k], found);
        }
    }
    qll_arena_close(arena);
}

TEST(what_breaks_a_rule_behind_the_best_first_stages_breaks_it_behind_all)
{
    scene_random random = {31};
    judged found = {0, 0};
    for (int i = 0; i < 6; i++) {
        check_best_of_building(&random, &found);
    }
    CHECK(found.broken > 50 && found.sound > 50);
    printf("    %zu second stages break a rule behind all first ones, %zu do not\n", found.broken,
           found.sound);
}

int main(void)
{
    TEST_RUN(a_stage_does_what_its_lead_does_while_that_is_alone);
    TEST_RUN(bounds_of_a_second_stage_are_below_its_terms);
    TEST_RUN(what_breaks_a_rule_behind_the_best_first_stages_breaks_it_behind_all);
    return TEST_END();
}
