/* Stations of two stages, put together point by point from what is known of their parts. */
#ifndef QUELL_SEARCH_PAIR_H
#define QUELL_SEARCH_PAIR_H

#include "search/split.h"

/** A second stage under way, and what is known of it behind first stages; terms not yet found are
 * zero. A row holds one term for each point. */
typedef struct qll_second_stage {
    const qll_stage_choice *choice;
    qll_tally_stage *of;
    double price;
    qll_tally_term *lead_terms; /* [row][point], of its first branch alone; NULL if not held */
    qll_tally_term *own_terms;  /* [row][point], behind first branches alone */
} qll_second_stage;

/** One station. */
typedef struct qll_pair {
    const qll_split *split;
    const qll_first_stage *first;
    const qll_second_stage *second;
    /* [group], bounds of the second stage behind the first, for a weight of one; NULL = none known */
    const qll_bound *least;
} qll_pair;

/** Room for the station under way, used anew by every one. */
typedef struct qll_pair_room {
    size_t *open;    /* [point] that must be solved, the heaviest first */
    qll_bound *rest; /* [point + 1], bounds of the station over those from there on */
    size_t open_count;
    qll_stage_corners behind;
} qll_pair_room;

QLL_MUST_USE qll_status qll_pair_room_make(const qll_searching *searching, qll_pair_room *room);

/** Makes @p second in the arena; its rows are left alone. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_second_stage_make(const qll_searching *searching,
                                              const qll_stage_choice *choice,
                                              qll_second_stage *second);

/** The rule that a second stage breaks by itself behind every first stage; QLL_RULE_COUNT if none. */
qll_rule qll_second_stage_broken(const qll_searching *searching, const qll_second_stage *second,
                                 qll_split *split);

/**
 * Holds the station against the front, then against the rules, solves what is not known of it, adds
 * it to the front if it deserves that, and counts it. One place of the front must be reserved.
 */
void qll_pair_try(qll_searching *searching, const qll_pair *pair, qll_pair_room *room);

#endif
