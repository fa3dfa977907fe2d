#include "check.h"
#include "search/halves.h"

#include <math.h>
#include <string.h>

/* Figures without a pattern, the same on every machine. */
static double draw(unsigned *state)
{
    *state = *state * 1103515245U + 12345U;
    return (double)(*state >> 8U) / 16777216.0;
}

static qll_half drawn(unsigned *state)
{
    qll_half one = {.cost = floor(40.0 * draw(state)),
                    .dearest = draw(state),
                    .chance = draw(state),
                    .highest_pa_gauge = draw(state)};
    one.pick.count = draw(state) < 0.2 ? 1 : 2;
    for (size_t k = 0; k < QLL_NODES; k++) {
        one.survival[k] = draw(state);
    }
    return one;
}

static bool bounds(const qll_half *least, const qll_half *one)
{
    bool holds = least->cost <= one->cost && least->dearest <= one->dearest
                 && least->chance <= one->chance && least->highest_pa_gauge <= one->highest_pa_gauge
                 && least->pick.count >= one->pick.count;
    for (size_t k = 0; k < QLL_NODES; k++) {
        holds = holds && least->survival[k] >= one->survival[k];
    }
    return holds;
}

static void check_blocks(const qll_halves *list, const qll_blocks *blocks)
{
    size_t seen = 0;
    for (size_t i = 0; i < blocks->count; i++) {
        const qll_block *block = &blocks->items[i];
        bool holds = block->from < block->to && block->to <= list->count && block->past > i
                     && block->past <= blocks->count;
        for (size_t j = block->from; holds && j < block->to; j++) {
            holds = bounds(&block->least, &list->items[j]);
        }
        if (!CHECK(holds)) {
            return;
        }
        if (block->past == i + 1) {
            CHECK(block->from == seen && block->to - block->from <= 16);
            seen = block->to;
        }
    }
    CHECK(seen == list->count);
}

/* Each stands in one of the few that an outline holds, in their order. */
static void check_outline(const qll_halves *list, const qll_blocks *blocks, qll_arena *arena)
{
    qll_half *outline = qll_arena_take(arena, QLL_OUTLINE_MOST, sizeof *outline);
    if (!CHECK(outline != NULL)) {
        return;
    }
    const size_t count = qll_blocks_outline(blocks, outline);
    CHECK(count >= 1 && count <= QLL_OUTLINE_MOST && (list->count < 17 || count > 1));
    size_t at = 0;
    for (size_t i = 0; i < list->count; i++) {
        while (at < count && !bounds(&outline[at], &list->items[i])) {
            at += 1;
        }
    }
    CHECK(at < count);
}

/* Every length from one block to several levels: all stand in the blocks that hold no others, in order, and each
 * block's least is no more than what is in it. */
TEST(blocks_hold_all_and_bound_all)
{
    const qll_search_options options = qll_search_options_default();
    for (size_t count = 1; count < 300; count++) {
        qll_arena *arena = qll_arena_open((size_t)1 << 24);
        qll_searching searching = {.options = &options, .arena = arena};
        qll_halves list = {0};
        unsigned state = (unsigned)count;
        double sum = 0.0;
        for (size_t i = 0; i < count; i++) {
            const qll_half one = drawn(&state);
            sum += one.dearest;
            CHECK(qll_halves_put(&list, &one, arena) == QLL_OK);
        }
        qll_blocks blocks;
        CHECK(qll_blocks_make(&searching, &list, &blocks) == QLL_OK);
        check_blocks(&list, &blocks);
        for (size_t i = 0; i < count; i++) {
            sum -= list.items[i].dearest;
        }
        CHECK_NEAR(sum, 0.0, 1e-9); /* only moved about */
        check_outline(&list, &blocks, arena);
        qll_arena_close(arena);
    }
}

/* All alike: a cut finds its middle though nothing is less than anything. */
TEST(alike_halves_are_cut_too)
{
    const qll_search_options options = qll_search_options_default();
    qll_arena *arena = qll_arena_open((size_t)1 << 24);
    qll_searching searching = {.options = &options, .arena = arena};
    qll_halves list = {0};
    const qll_half one = {.cost = 1.0, .pick = {.count = 2}};
    for (size_t i = 0; i < 1000; i++) {
        CHECK(qll_halves_put(&list, &one, arena) == QLL_OK);
    }
    qll_blocks blocks;
    CHECK(qll_blocks_make(&searching, &list, &blocks) == QLL_OK);
    check_blocks(&list, &blocks);
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(blocks_hold_all_and_bound_all);
    TEST_RUN(alike_halves_are_cut_too);
    return TEST_END();
}
