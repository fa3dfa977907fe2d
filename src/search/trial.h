/* A stage of any valves in its place, tried in full. docs/theory/search.md, 3. */
#ifndef QUELL_SEARCH_TRIAL_H
#define QUELL_SEARCH_TRIAL_H

#include "search/pair_least.h"

/** Room for trials, used again and again. */
typedef struct qll_trial_room {
    double *outlet_pa;       /* [supply * flow_count + flow] */
    double *peak_pa;         /* [scenario * QLL_SUPPLY_LEVELS + supply] */
    qll_stage_point *points; /* [flow_count] */
    qll_solver_room solver;
    qll_least_room least;
    const qll_pair_hint *hint; /* of the next trial, a pair; NULL = nothing is known */
    bool is_early;             /* a pair whose sums are known is tried no further than its peaks */
} qll_trial_room;

QLL_MUST_USE qll_status qll_trial_room_make(const qll_searching *searching, qll_trial_room *room);

/**
 * Tries @p pick in @p place: the hard rules of a stage by itself, then what survives.
 *
 * @param rest   what else there is of the station, so that a trial that cannot come below the search's
 *               limit may be given up half way; NULL = never
 * @param lead   its first valve alone, at the same set-point and place, or NULL
 * @return the first rule it breaks; QLL_PRACTICE_COUNT if it keeps all. Then @p trial is filled, or its
 *         is_dear says that it was given up; its outlets point into @p room
 */
qll_practice qll_trial_make(qll_searching *searching, const qll_stage_place *place,
                            const qll_pick *pick, const qll_rest_of_station *rest,
                            const qll_lead *lead, qll_trial_room *room, qll_trial *trial);

/** Fills what a trial needs besides survival and outlets: the cost of its parts. */
void qll_trial_begin(const qll_searching *searching, const qll_pick *pick, qll_trial *trial);

#endif
