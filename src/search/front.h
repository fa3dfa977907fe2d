/* The set of stations that no other one beats in everything. */
#ifndef QUELL_SEARCH_FRONT_H
#define QUELL_SEARCH_FRONT_H

#include "search/arrangement.h"

#include <stdint.h>

/** A whole station by value. */
typedef struct qll_arrangement {
    qll_stage_choice stages[QLL_STAGES_MOST];
    size_t stage_count;
} qll_arrangement;

typedef struct qll_front_member {
    qll_arrangement arrangement;
    qll_objectives objectives;
    size_t part_count;
} qll_front_member;

/**
 * True if @p a is nowhere worse than @p b and somewhere better, both beyond the tolerance of
 * docs/theory/search.md section 5. With lower bounds of a sum in @p b, true holds for the sum too.
 */
bool qll_objectives_beat(const qll_objectives *a, const qll_objectives *b);

/** Total order of arrangements by what they are called: stages, branches, ids, set-points. */
int qll_arrangement_compare(const qll_arrangement *a, const qll_arrangement *b);

size_t qll_arrangement_parts(const qll_arrangement *arrangement);

/** A copy of @p arrangement as a station in @p arena; false without memory. */
bool qll_arrangement_station(const qll_arrangement *arrangement, qll_arena *arena,
                             qll_station *station);

/** members[0..count) are the set, in no order that means anything; [count..room) are spare.
 * objectives[i] is a copy of those of members[i], coarse[i] the same rounded down into one word, so
 * that a walk through thousands stays in the cache and compares all four at once. */
typedef struct qll_front {
    qll_front_member **members;
    qll_objectives *objectives;
    uint64_t *coarse;
    size_t count, room;
} qll_front;

/** Makes room for @p more members, so that adding takes no memory while other things do. */
QLL_MUST_USE qll_status qll_front_reserve(qll_front *front, size_t more, qll_arena *arena);

/**
 * True if some member beats @p objectives. Moves that member forward, so that the first ones are
 * those that beat most.
 */
bool qll_front_beats(qll_front *front, const qll_objectives *objectives);

/** The same, but only the first few members are asked: cheap, and false may be wrong. */
bool qll_front_beats_soon(qll_front *front, const qll_objectives *objectives);

/**
 * Adds a copy of @p member unless one of the front beats it, or ties with it and has fewer valves
 * or, with as many, comes first by name. Those it beats leave. One place must be reserved.
 */
void qll_front_add(qll_front *front, const qll_front_member *member);

/** Fewest valves first, then cheapest, then by name. */
void qll_front_sort(qll_front *front);

#endif
