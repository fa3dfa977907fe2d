/* A search under way: what its parts share, and the parts themselves. */
#ifndef QUELL_SEARCH_SEARCHING_H
#define QUELL_SEARCH_SEARCHING_H

#include "search/corner.h"
#include "search/recommend.h"
#include "search/tally.h"

typedef struct qll_searching {
    const qll_site *site;
    const qll_duty *duty;
    const qll_search_options *options;
    qll_arena *arena;
    qll_pool pool;
    qll_duty_points points;
    qll_corner_room corners;
    double inlet_low_pa_gauge, inlet_middle_pa_gauge, inlet_high_pa_gauge; /* of the station */
    qll_front front;
    qll_front_member *singles; /* room for the whole pool */
    size_t single_count;
    struct qll_split *splits; /* set-points between two stages, with all first stages; split.h */
    size_t split_count;
    qll_search_counts counts;
    double share_from, share_to; /* of the whole search, for the part under way */
    size_t quiet_count;          /* candidates since progress was last told */
    bool stopped;
} qll_searching;

/** The search without the choosing: fills front (sorted), singles and counts. */
QLL_MUST_USE qll_status qll_search_all(const qll_site *site, const qll_duty *duty,
                                       const qll_catalogue *catalogue,
                                       const qll_search_options *options, qll_arena *arena,
                                       qll_searching *searching);

/** Tells progress now and then; @p share is of the part under way. False if it said stop. */
bool qll_searching_goes_on(qll_searching *searching, size_t candidates, double share);

/** Every arrangement of one stage. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_search_one_stage(qll_searching *searching);

/** Every arrangement of two stages. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_search_two_stages(qll_searching *searching);

/** The two-stage members of the front at all their offsets. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_search_offsets(qll_searching *searching);

/** True if neither one stage nor any split of two keeps the ratio rule. */
bool qll_needs_three_stages(const qll_searching *searching);

/** Arrangements of three stages, where they are needed. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_search_three_stages(qll_searching *searching);

#endif
