/* docs/theory/search.md, 4. */
#include "search/halves.h"

#include <math.h>
#include <string.h>

/* A block of so many is looked through one by one. */
#define QLL_BLOCK_LEAST 16

/* Moving one in a cut takes as long as so many looks. */
#define QLL_LOOKS_PER_CUT 8

/* Halves of a length that a size_t counts are fewer than its bits. */
#define QLL_CUTS_MOST 64

qll_status qll_halves_put(qll_halves *list, const qll_half *one, qll_arena *arena)
{
    if (list->count == list->room) {
        size_t room = list->room == 0 ? 256 : 2 * list->room;
        qll_half *items = qll_arena_take(arena, room, sizeof *items);
        if (items == NULL) {
            return QLL_NO_MEMORY;
        }
        for (size_t i = 0; i < list->count; i++) {
            items[i] = list->items[i];
        }
        list->items = items;
        list->room = room;
    }
    list->items[list->count] = *one;
    list->count += 1;
    return QLL_OK;
}

static int compare_cost(const void *left, const void *right)
{
    const qll_half *a = left;
    const qll_half *b = right;
    if (a->cost != b->cost) {
        return a->cost < b->cost ? -1 : 1;
    }
    return a->chance < b->chance ? -1 : a->chance > b->chance;
}

static int compare_chance(const void *left, const void *right)
{
    const qll_half *a = left;
    const qll_half *b = right;
    if (a->chance != b->chance) {
        return a->chance < b->chance ? -1 : 1;
    }
    return a->cost < b->cost ? -1 : a->cost > b->cost;
}

static void lower(qll_half *least, const qll_half *with)
{
    least->cost = fmin(least->cost, with->cost);
    least->dearest = fmin(least->dearest, with->dearest);
    least->chance = fmin(least->chance, with->chance);
    least->highest_pa_gauge = fmin(least->highest_pa_gauge, with->highest_pa_gauge);
    least->rated_pa_gauge = fmax(least->rated_pa_gauge, with->rated_pa_gauge);
    least->gives_pa = fmax(least->gives_pa, with->gives_pa);
    least->needs_pa = fmin(least->needs_pa, with->needs_pa);
    least->pick.count = with->pick.count > least->pick.count ? with->pick.count : least->pick.count;
    for (size_t k = 0; k < QLL_NODES; k++) {
        least->survival[k] = fmax(least->survival[k], with->survival[k]);
    }
}

/* The least of every figure, the most of every survival, of a list that is not empty. */
static qll_half least_of(const qll_half *items, size_t count)
{
    qll_half least = items[0];
    for (size_t i = 1; i < count; i++) {
        lower(&least, &items[i]);
    }
    return least;
}

/* Blocks that a list of so many comes to at most: the larger part of a cut is rounded up, a cut leaves two. */
static size_t count_blocks(size_t count)
{
    size_t blocks = 1;
    for (size_t width = 1; (count + width - 1) / width > QLL_BLOCK_LEAST; width *= 2) {
        blocks += 2 * width;
    }
    return blocks;
}

typedef struct span {
    size_t from, to, depth;
} span;

static void swap(qll_half *a, qll_half *b)
{
    const qll_half kept = *a;
    *a = *b;
    *b = kept;
}

typedef int compare(const void *left, const void *right);

/* Brings what is less than the one at @p middle, were all in order, before it: Hoare's quickselect, to which alike
 * ones are no trouble. */
static void part_at(qll_half *items, size_t from, size_t to, size_t middle, compare *by)
{
    while (to - from > 1) {
        const qll_half pivot = items[from + (to - from) / 2];
        size_t low = from;
        size_t high = to; /* one more than where it looks */
        while (low < high) {
            while (by(&items[low], &pivot) < 0) {
                low += 1;
            }
            while (by(&items[high - 1], &pivot) > 0) {
                high -= 1;
            }
            if (low < high) {
                swap(&items[low], &items[high - 1]);
                low += 1;
                high -= 1;
            }
        }
        if (middle < high) {
            to = high;
        } else if (middle >= low) {
            from = low;
        } else {
            return;
        }
    }
}

/* A block is cut in the middle; the first half is taken next. */
static bool cut_blocks(qll_searching *searching, const qll_halves *list, qll_blocks *blocks)
{
    span waiting[QLL_CUTS_MOST + 1];
    size_t count = 1;
    waiting[0] = (span){0, list->count, 0};
    while (count > 0) {
        const span now = waiting[--count];
        blocks->items[blocks->count] = (qll_block){.from = now.from, .to = now.to};
        blocks->count += 1;
        const size_t size = now.to - now.from;
        if (size <= QLL_BLOCK_LEAST) {
            continue;
        }
        const size_t middle = now.from + size / 2;
        part_at(list->items, now.from, now.to, middle,
                now.depth % 2 == 0 ? compare_cost : compare_chance);
        waiting[count++] = (span){middle, now.to, now.depth + 1};
        waiting[count++] = (span){now.from, middle, now.depth + 1};
        if (!qll_searching_looks(searching, QLL_LOOKS_PER_CUT * size)) {
            return false;
        }
    }
    return true;
}

/* From the last block to the first: what a block holds stands behind it. */
static void fill_blocks(const qll_halves *list, qll_blocks *blocks)
{
    for (size_t i = blocks->count; i-- > 0;) {
        qll_block *block = &blocks->items[i];
        if (block->to - block->from > QLL_BLOCK_LEAST) {
            const size_t second = blocks->items[i + 1].past;
            block->least = blocks->items[i + 1].least;
            lower(&block->least, &blocks->items[second].least);
            block->past = blocks->items[second].past;
            continue;
        }
        block->past = i + 1;
        block->least = least_of(&list->items[block->from], block->to - block->from);
    }
}

qll_status qll_blocks_make(qll_searching *searching, const qll_halves *list, qll_blocks *blocks)
{
    *blocks = (qll_blocks){.halves = list->items};
    if (list->count == 0) {
        return QLL_OK;
    }
    blocks->items =
        qll_arena_take(searching->arena, count_blocks(list->count), sizeof *blocks->items);
    if (blocks->items == NULL) {
        return QLL_NO_MEMORY;
    }
    if (!cut_blocks(searching, list, blocks)) {
        blocks->count = 0;
        return QLL_OK;
    }
    fill_blocks(list, blocks);
    return QLL_OK;
}

/* Blocks give way to those they hold, a level at a time. */
size_t qll_blocks_outline(const qll_blocks *blocks, qll_half outline[QLL_OUTLINE_MOST])
{
    size_t chosen[QLL_OUTLINE_MOST];
    size_t count = blocks->count > 0 ? 1 : 0;
    chosen[0] = 0;
    for (bool grows = count > 0; grows && 2 * count <= QLL_OUTLINE_MOST;) {
        size_t next[QLL_OUTLINE_MOST];
        size_t made = 0;
        for (size_t i = 0; i < count; i++) {
            const size_t inner = chosen[i] + 1;
            const bool holds_blocks = blocks->items[chosen[i]].past > inner;
            next[made++] = holds_blocks ? inner : chosen[i];
            if (holds_blocks) {
                next[made++] = blocks->items[inner].past;
            }
        }
        grows = made > count;
        count = made;
        memcpy(chosen, next, made * sizeof *chosen);
    }
    for (size_t i = 0; i < count; i++) {
        outline[i] = blocks->items[chosen[i]].least;
    }
    return count;
}
