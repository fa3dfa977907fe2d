/* Stations of two stages with one set-point between them: what comes to the second stage, and what may stand there.
 * docs/theory/search.md, 4. */
#ifndef QUELL_SEARCH_SPLIT_H
#define QUELL_SEARCH_SPLIT_H

#include "search/kept.h"
#include "search/pair_least.h"
#include "search/walk.h"

/** Pressures between the stages at every point of work, at least and at most; absolute, NaN = not known. */
typedef struct qll_between_range {
    double *low_pa, *high_pa;           /* [supply * flow_count + flow] */
    double *low_peak_pa, *high_peak_pa; /* [scenario * QLL_SUPPLY_LEVELS + supply] */
    double rest_low_pa;                 /* no flow, highest supply */
    qll_inlets highest;                 /* the same as inlets; filled with a place */
} qll_between_range;

typedef struct qll_split {
    qll_searching *searching;
    double between_pa_gauge;
    qll_stage_place first, second;
    qll_between_range range;
    qll_marks firsts_left, seconds_left; /* stages of those lists that are not out yet */
    double
        *lead_pa; /* as low_pa and low_peak_pa, one behind the other: least that leads alone give */
    qll_kept_list kept; /* first stages that were tried no further than their peaks */
    qll_halves firsts, seconds;
    size_t branches_most; /* 1 or 2, in either stage */
    double least;         /* no station of these stages costs less; INFINITY = there is none */
} qll_split;

/** Room of all splits of a search. */
typedef struct qll_split_room {
    qll_walk_room walk;
    qll_trial_room first, second;
    qll_inlet_ends behind; /* behind one first stage */
    qll_least_room least;
    size_t *by_kv; /* [part] in the pool, by rising full Kv */
    /* [scenario][part by Kv] most that any up to it passes at the least that a first stage must hold */
    double *hard_m3s;
    /* Where lists of any split are begun, as long as the longest that was given back. */
    qll_halves firsts, seconds;
} qll_split_room;

/** Points of the range on the grid and at the peaks. */
static inline size_t qll_split_grid(const qll_split *split)
{
    const qll_duty *duty = split->searching->yardstick->duty;
    return duty->supply_count * duty->flow_count;
}

static inline size_t qll_split_peaks(const qll_split *split)
{
    return split->searching->yardstick->duty->scenario_count * QLL_SUPPLY_LEVELS;
}

/** Puts second stages behind the range as it stands. */
void qll_split_place_second(qll_split *split);

QLL_MUST_USE qll_status qll_split_room_make(const qll_searching *searching, qll_split_room *room);

/** Opens a split; no stages are known yet. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_split_open(qll_searching *searching, double between_pa_gauge,
                                       size_t branches_most, qll_split *split);

/** Whether outlets only rise with the inlet, and by no more than it does, whatever the valves: B5. */
bool qll_split_rises(const qll_split *split);

/**
 * Fills the range with what any first stage that keeps the rules can give, before any pair of them is solved:
 * search.md, 4, step 1.
 */
void qll_split_foresee(qll_split *split, qll_split_room *room);

/** Lists the first stages by lead and narrows the range to what they give alone. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_split_list_leads(qll_split *split, const qll_rest_of_station *rest,
                                             qll_split_room *room);

/** Keeps the first stages that are left after their peaks and narrows the range to what they may give. QLL_OK or
 * QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_split_keep_firsts(qll_split *split, const qll_rest_of_station *rest,
                                              qll_split_room *room);

/** Lists those kept that are left when they are solved, and fills the range with what they give, and nothing else. QLL_OK
 * or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_split_list_firsts(qll_split *split, const qll_rest_of_station *rest,
                                              qll_split_room *room);

/** Lists the second stages that may stand behind the range, by the bounds that those of one lead share: those of @p left,
 * NULL = all. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_split_list_seconds(qll_split *split, const qll_rest_of_station *rest,
                                               const qll_marks *left, qll_split_room *room);

/** The same with each of their pairs. */
QLL_MUST_USE qll_status qll_split_list_pairs(qll_split *split, const qll_rest_of_station *rest,
                                             const qll_marks *left, qll_split_room *room);

/** Puts a split away until it is tried: its second stages are kept in no more memory than they take, and the room of both
 * lists is given back for other splits. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_split_shelve(qll_split *split, qll_split_room *room);

#endif
