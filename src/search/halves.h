/* Stages of stations of two: all that may matter at one set-point between them, and the second ones in blocks. */
#ifndef QUELL_SEARCH_HALVES_H
#define QUELL_SEARCH_HALVES_H

#include "search/searching.h"

/** Pairs that open the same valve first at the same set-points, and what else is known of all of them. */
typedef struct qll_alike {
    qll_second *seconds; /* [second_count] the cheapest first */
    size_t second_count;
    double open_share[QLL_NODES]; /* as in qll_trial */
    size_t open_from;             /* as in a hint */
    double floor;                 /* as in qll_trial */
    double alone[QLL_NODES];      /* survival less that of the peaks */
    size_t look_count;            /* looks that made more known of one of them */
} qll_alike;

/** A stage of a station of two: exact for a first one. For a second all that open the same valve first at the same
 * set-points, by the bounds that they share. */
typedef struct qll_half {
    qll_pick pick;        /* its second valve is the first of these */
    size_t placing;       /* as in qll_marks */
    qll_alike *alike;     /* NULL = one valve, or none of its pairs is asked for */
    double cost, dearest; /* at least */
    double chance;        /* of a callback by it alone, at least */
    /* First: least it holds at the peak, what it gives at rest, and at the first design peak of the lowest supply. */
    double held_pa_gauge, rest_pa_gauge, peak_pa;
    /* At the first design peak of the lowest supply, absolute: what a first stage gives at most, and behind less than what
     * a second one is short; INFINITY and -INFINITY where that is not known. */
    double gives_pa, needs_pa;
    /* Second: its highest set-point, and what its valves are rated for, as far as they are all the same. */
    double highest_pa_gauge, rated_pa_gauge;
    double survival[QLL_NODES];
} qll_half;

typedef struct qll_halves {
    qll_half *items;
    size_t count, room;
} qll_halves;

/**
 * A block of neighbours in a list: the least of every figure of theirs, the most of every survival. What holds for
 * the block against them holds for all of it.
 */
typedef struct qll_block {
    size_t from, to;
    size_t
        past; /* the block after all that lie in this one; the next one where it holds no blocks */
    qll_half least;
} qll_block;

typedef struct qll_blocks {
    const qll_half *halves; /* those that the blocks hold */
    qll_block *items;       /* a block before those that it holds */
    size_t count;
} qll_blocks;

/** QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_halves_put(qll_halves *list, const qll_half *one, qll_arena *arena);

/**
 * Orders @p list into blocks within blocks, cut in the middle by cost and by chance in turn. QLL_OK or
 * QLL_NO_MEMORY; none where @p searching was stopped meanwhile.
 */
QLL_MUST_USE qll_status qll_blocks_make(qll_searching *searching, const qll_halves *list,
                                        qll_blocks *blocks);

/** The least of so few blocks that hold all: at most QLL_OUTLINE_MOST. */
enum {
    QLL_OUTLINE_MOST = 128
};

size_t qll_blocks_outline(const qll_blocks *blocks, qll_half outline[QLL_OUTLINE_MOST]);

#endif
