/* The best of every kind: which of two comes first, and what is kept. */
#include "check.h"
#include "search/book.h"

#include <math.h>
#include <stdio.h>

#define TEST_PARTS 400

typedef struct book_scene {
    qll_arena *arena;
    qll_valve valves[TEST_PARTS];
    char ids[TEST_PARTS][8];
    qll_part parts[TEST_PARTS];
    qll_pool pool;
    qll_book book;
} book_scene;

static book_scene at;

/* Every part is of its own size, ids in the order of the parts. */
static void scene_open(double keep, double known)
{
    at.arena = qll_arena_open(1 << 22);
    for (size_t i = 0; i < TEST_PARTS; i++) {
        (void)snprintf(at.ids[i], sizeof at.ids[i], "V%03zu", i);
        at.valves[i] = (qll_valve){.id = at.ids[i]};
        at.parts[i] = (qll_part){.branch = {.valve = &at.valves[i]}, .size = i};
    }
    at.pool = (qll_pool){.parts = at.parts, .count = TEST_PARTS};
    CHECK(qll_book_open(keep, known, at.arena, &at.book) == QLL_OK);
}

static qll_whole one_of(size_t part, double set_pa, double expected, double installed)
{
    qll_whole whole = {.stage_count = 1, .expected = expected, .installed = installed};
    whole.stages[0] = (qll_pick){.count = 1, .part = {part}, .set_pa_gauge = {set_pa}};
    return whole;
}

static qll_whole pair_of(size_t first, size_t second, double expected, double installed)
{
    qll_whole whole = one_of(first, 4e5, expected, installed);
    whole.stages[0].count = 2;
    whole.stages[0].part[1] = second;
    whole.stages[0].set_pa_gauge[1] = 3.8e5;
    return whole;
}

static qll_whole stages_of(size_t first, size_t second, double expected, double installed)
{
    qll_whole whole = one_of(first, 7e5, expected, installed);
    whole.stage_count = 2;
    whole.stages[1] = (qll_pick){.count = 1, .part = {second}, .set_pa_gauge = {4e5}};
    return whole;
}

static void check_before(qll_whole a, qll_whole b)
{
    CHECK(qll_whole_before(&at.pool, &a, &b));
    CHECK(!qll_whole_before(&at.pool, &b, &a));
}

TEST(whole_cents_come_first_then_what_is_simpler)
{
    scene_open(1.0, INFINITY);
    check_before(stages_of(0, 1, 99.994, 90.0), one_of(0, 4e5, 100.0, 80.0));
    /* The same to the cent: fewer stages, fewer valves, less to install, ids, the higher set-point. */
    check_before(pair_of(0, 1, 100.001, 99.0), stages_of(0, 1, 99.996, 10.0));
    check_before(one_of(5, 4e5, 100.001, 99.0), pair_of(0, 1, 99.996, 10.0));
    check_before(one_of(5, 4e5, 100.001, 60.0), one_of(0, 4e5, 99.996, 60.01));
    check_before(one_of(0, 4e5, 100.001, 60.001), one_of(5, 4.1e5, 99.996, 60.0));
    check_before(one_of(0, 4.1e5, 100.001, 60.0), one_of(0, 4e5, 99.996, 60.0));
    check_before(pair_of(0, 7, 100.0, 60.0), pair_of(1, 2, 100.0, 60.0));
    check_before(pair_of(0, 2, 100.0, 60.0), pair_of(0, 7, 100.0, 60.0));
    /* As many valves: the fewer of them in the first stage. */
    qll_whole late = stages_of(9, 2, 100.0, 60.0);
    late.stages[1].count = 2;
    qll_whole early = stages_of(0, 2, 100.0, 60.0);
    early.stages[0].count = 2;
    check_before(late, early);
    qll_whole same = one_of(0, 4e5, 100.0, 60.0);
    CHECK(!qll_whole_before(&at.pool, &same, &same));
    qll_arena_close(at.arena);
}

TEST(the_best_of_a_kind_stays)
{
    scene_open(2.0, INFINITY);
    at.parts[1].size = 0; /* the same kind as part 0 */
    qll_whole put[] = {one_of(1, 4e5, 110.0, 60.0), one_of(0, 4e5, 100.0, 60.0),
                       one_of(1, 4e5, 105.0, 60.0), pair_of(0, 2, 101.0, 60.0),
                       pair_of(2, 0, 103.0, 60.0),  stages_of(0, 2, 104.0, 60.0)};
    for (size_t i = 0; i < sizeof put / sizeof *put; i++) {
        qll_book_put(&at.book, &at.pool, &put[i]);
    }
    CHECK(at.book.count == 4); /* one valve; a pair; the pair the other way round; two stages */
    CHECK_NEAR(at.book.kinds[0].expected, 100.0, 1e-12);
    CHECK_NEAR(at.book.least, 100.0, 1e-12);
    CHECK_NEAR(at.book.limit, 200.0, 1e-12);
    qll_arena_close(at.arena);
}

/* What costs the same to the cent may still come first: the limit lies above it. */
TEST(the_limit_leaves_room_for_the_same_cent)
{
    scene_open(1.0, INFINITY);
    qll_whole whole = one_of(0, 4e5, 100.004, 60.0);
    qll_book_put(&at.book, &at.pool, &whole);
    CHECK(at.book.limit > 100.00499 && at.book.limit <= 100.0101);
    whole = one_of(1, 4e5, 150.0, 60.0);
    qll_book_put(&at.book, &at.pool, &whole);
    CHECK(at.book.limit > 100.00499 && at.book.limit <= 100.0101);
    qll_arena_close(at.arena);
    scene_open(1.0, 90.0);
    CHECK_NEAR(at.book.limit, 90.0, 1e-12); /* what is known already */
    qll_arena_close(at.arena);
}

TEST(of_too_many_kinds_the_dearest_give_way)
{
    scene_open(1e9, INFINITY);
    for (size_t i = 0; i < TEST_PARTS; i++) {
        qll_whole whole = one_of(i, 4e5, 100.0 + (double)((i * 7) % TEST_PARTS), 60.0);
        qll_book_put(&at.book, &at.pool, &whole);
    }
    CHECK(at.book.count == QLL_KINDS_KEPT);
    /* The first in the book is the dearest, and no dearer one takes its place. */
    qll_book other;
    CHECK(qll_book_open(1e9, INFINITY, at.arena, &other) == QLL_OK);
    for (size_t i = 0; i < TEST_PARTS; i++) {
        qll_whole whole = one_of(i, 4e5, 500.0 - (double)i, 60.0);
        qll_book_put(&other, &at.pool, &whole);
    }
    double most = 0.0;
    for (size_t i = 0; i < other.count; i++) {
        most = fmax(most, other.kinds[i].expected);
    }
    CHECK_NEAR(most, 500.0 - (double)(TEST_PARTS - QLL_KINDS_KEPT), 1e-12);
    double dearest = 0.0;
    for (size_t i = 0; i < at.book.count; i++) {
        dearest = fmax(dearest, at.book.kinds[i].expected);
    }
    CHECK_NEAR(dearest, 100.0 + QLL_KINDS_KEPT - 1.0, 1e-12); /* the cheapest 256 of them */
    qll_arena_close(at.arena);
}

TEST(a_whole_is_made_a_station)
{
    scene_open(1.0, INFINITY);
    qll_whole whole = stages_of(3, 4, 100.0, 60.0);
    whole.set_inlet_pa_gauge[0] = 12e5;
    whole.set_inlet_pa_gauge[1] = 7e5;
    qll_station station;
    CHECK(qll_whole_station(&whole, &at.pool, at.arena, &station) == QLL_OK);
    CHECK(station.stage_count == 2 && station.stages[1].branch_count == 1);
    CHECK(station.stages[0].branches[0].valve == &at.valves[3]);
    CHECK(station.stages[1].branches[0].valve == &at.valves[4]);
    CHECK_NEAR(station.stages[0].branches[0].set_pa_gauge, 7e5, 0.0);
    CHECK_NEAR(station.stages[1].set_inlet_pa_gauge, 7e5, 0.0);
    qll_arena_close(at.arena);
}

int main(void)
{
    TEST_RUN(whole_cents_come_first_then_what_is_simpler);
    TEST_RUN(the_best_of_a_kind_stays);
    TEST_RUN(the_limit_leaves_room_for_the_same_cent);
    TEST_RUN(of_too_many_kinds_the_dearest_give_way);
    TEST_RUN(a_whole_is_made_a_station);
    return TEST_END();
}
