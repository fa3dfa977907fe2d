#include "check.h"
#include "search/bound.h"
#include "search/front.h"

#include <math.h>

/* Figures without a pattern, the same on every machine. */
static double draw(unsigned *state)
{
    *state = *state * 1103515245U + 12345U;
    return (double)(*state >> 8U) / 16777216.0;
}

/* Survivals lie side by side, as those of real stages do: else hardly one would stand behind another. */
static qll_half drawn(unsigned *state)
{
    qll_half one = {.cost = floor(40.0 * draw(state)),
                    .dearest = floor(10.0 * draw(state)),
                    .gives_pa = draw(state) < 0.5 ? (double)INFINITY : draw(state),
                    .needs_pa = draw(state) < 0.5 ? -(double)INFINITY : draw(state)};
    const double level = draw(state);
    for (size_t k = 0; k < QLL_NODES; k++) {
        one.survival[k] = level * (0.9 + 0.1 * draw(state));
    }
    one.chance = 1.0 - level;
    return one;
}

/* The least that a station of one of the list and of @p known costs. */
static double least_of(const qll_half_known *known, const qll_halves *list)
{
    double least = INFINITY;
    for (size_t i = 0; i < list->count; i++) {
        const qll_half_bound bound = qll_half_bound_of(&list->items[i]);
        least = fmin(least, qll_half_cost(known, &bound, INFINITY));
    }
    return least;
}

static const qll_costs costs = {.visit = 90.0};
static const qll_site site = {.costs = &costs};
static const qll_search_options options = {.callback_factor = 1.0};

/* Whatever stands beside it, the front says the same as its list, to the last bit, and no two of it the same. */
TEST(the_front_costs_what_its_list_costs)
{
    qll_unknowns unknowns = {0};
    for (size_t k = 0; k < QLL_NODES; k++) {
        unknowns.chance[k] = 1.0 / QLL_NODES;
    }
    qll_yardstick yardstick = {.site = &site, .unknowns = &unknowns};
    qll_arena *arena = qll_arena_open((size_t)1 << 27);
    qll_searching searching = {.yardstick = &yardstick, .options = &options, .arena = arena};
    unsigned state = 7;
    size_t kept = 0;
    size_t listed = 0;
    for (size_t n = 0; n < 60 && CHECK(arena != NULL); n++) {
        qll_halves list = {0};
        qll_halves front;
        for (size_t i = 0; i < 1 + 5 * n; i++) {
            const qll_half one = drawn(&state);
            CHECK(qll_halves_put(&list, &one, arena) == QLL_OK);
        }
        CHECK(qll_halves_front(&searching, &list, &front) == QLL_OK);
        kept += front.count;
        listed += list.count;
        for (size_t i = 0; i < 50; i++) {
            const qll_half beside = drawn(&state);
            const qll_half_bound of = qll_half_bound_of(&beside);
            const qll_rest_of_station rest = qll_rest_costing(10.0 * draw(&state));
            const qll_half_known known = qll_half_know(&searching, &rest, &of);
            CHECK(least_of(&known, &front) == least_of(&known, &list));
        }
        for (size_t i = 1; i < front.count; i++) {
            CHECK(front.items[i - 1].cost <= front.items[i].cost);
        }
    }
    printf("    %zu of %zu\n", kept, listed);
    CHECK(kept > 60 && kept < listed / 2);
    qll_arena_close(arena);
}

TEST(the_front_of_nothing_is_empty)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 16);
    qll_searching searching = {.options = &options, .arena = arena};
    const qll_halves none = {0};
    qll_halves front;
    CHECK(qll_halves_front(&searching, &none, &front) == QLL_OK && front.count == 0);
    qll_arena_close(arena);
}

/* What is as good as one that is there already is not put again. */
TEST(two_alike_are_one)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 20);
    qll_searching searching = {.options = &options, .arena = arena};
    unsigned state = 3;
    const qll_half one = drawn(&state);
    qll_half dearer = one;
    dearer.dearest += 1.0;
    qll_half surer = one;
    surer.survival[QLL_NODES - 1] *= 1.01;
    qll_halves list = {0};
    qll_halves front;
    CHECK(qll_halves_put(&list, &one, arena) == QLL_OK);
    CHECK(qll_halves_put(&list, &one, arena) == QLL_OK);
    CHECK(qll_halves_put(&list, &dearer, arena) == QLL_OK);
    CHECK(qll_halves_front(&searching, &list, &front) == QLL_OK && front.count == 1);
    CHECK(qll_front_put(&searching, &front, &surer) == QLL_OK && front.count == 2);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(the_front_costs_what_its_list_costs);
    TEST_RUN(the_front_of_nothing_is_empty);
    TEST_RUN(two_alike_are_one);
    return TEST_END();
}
