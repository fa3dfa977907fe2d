/* Random cases for the laws of the search's bounds. */
#ifndef QUELL_TESTS_BOUNDS_CASE_H
#define QUELL_TESTS_BOUNDS_CASE_H

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
    size_t needs;   /* second stages that are said to be short behind something */
    size_t outlets; /* known to a little by tables */
} bounds_case;

static inline bool open_case(unsigned number, double ratio_least, double ratio_most,
                             bounds_case *at)
{
    *at =
        (bounds_case){.arena = qll_arena_open(TEST_LAW_ARENA), .random = qll_random_seeded(number)};
    at->given = scene_draw(&at->random, ratio_most);
    /* In some the least flow is no trickle: valves open together at all of them. */
    at->given.class_count = number % 6 == 0 ? 2 : at->given.class_count;
    at->given.typical_share = number % 6 == 0 ? 0.5 : at->given.typical_share;
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

static inline void check_above(const double *bound, const double *exact, double slack)
{
    bool holds = true;
    for (size_t k = 0; k < QLL_NODES; k++) {
        holds = holds && bound[k] >= exact[k] - slack;
    }
    CHECK(holds);
}

static inline void check_equal(const double *a, const double *b)
{
    check_above(a, b, TEST_LAW_BITS);
    check_above(b, a, TEST_LAW_BITS);
}

/* Two that may stand side by side, the small one first; false if the pick is not one. */
static inline bool draw_pick(bounds_case *at, double wanted_pa_gauge, qll_pick *pick)
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

/* The number of a second valve's set-point. */
static inline size_t set_of(const qll_stage_place *place, double set_pa_gauge)
{
    size_t set = 0;
    while (set + 1 < QLL_SET_SECOND_COUNT && qll_set_pa_gauge(place, set) != set_pa_gauge) {
        set += 1;
    }
    return set;
}

/* The tables of a place for one lead. */
static inline qll_seconds tables_of(bounds_case *at, const qll_stage_place *place,
                                    const qll_lead *lead)
{
    const qll_seconds tables = {&at->searching, place, lead, &at->room.tables};
    qll_seconds_begin(&tables);
    qll_seconds_of_lead(&tables);
    return tables;
}

#endif
