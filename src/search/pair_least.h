/* A pair at the points where both its valves are open, at least: docs/theory/search.md, B6. */
#ifndef QUELL_SEARCH_PAIR_LEAST_H
#define QUELL_SEARCH_PAIR_LEAST_H

#include "search/lead.h"

/* What comes to a pair is cut into so many parts, of which the one that does least harm counts, where it is bounded for
 * many first stages. */
enum {
    QLL_LEAST_PARTS = 4
};

/** Room for points behind the ends of all parts. */
typedef struct qll_least_room {
    qll_solver_room solver;
    bool *weighs;                /* [flow_count] classes that are worth a look */
    size_t *classes;             /* those of one look */
    double *inlet_pa, *flow_m3s; /* [(QLL_LEAST_PARTS + 1) * flow_count] */
    qll_stage_point *points;     /* the same */
    qll_hazard_row
        of_flows[QLL_ROWS(QLL_BRANCHES_MOST)]; /* sums of the last pair, less its peaks */
    bool has_flows;
} qll_least_room;

/** QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_least_room_make(const qll_searching *searching, qll_least_room *room);

/** Fills the ends of @p place over all supplies, which has room for them. */
void qll_place_ends(const qll_duty *duty, qll_stage_place *place);

/** Room for the ends of a place. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_ends_make(const qll_duty *duty, qll_arena *arena, qll_inlet_ends *ends);

/** What survives of the design peaks at most of @p pick, one valve or two, in @p place, which has highest inlets,
 * beside what its first valve does elsewhere. */
double qll_peaks_least(const qll_searching *searching, const qll_stage_place *place,
                       const qll_pick *pick, qll_least_room *room);

/**
 * The same of the design peaks and of points of work at which both valves of @p pick are surely open, at every node: what
 * its first valve does surely alone, and hunting, come on top.
 *
 * @param open_from flow classes below are not looked at
 */
void qll_pair_least(const qll_searching *searching, const qll_stage_place *place,
                    const qll_pick *pick, size_t open_from, qll_least_room *room,
                    double survival[QLL_NODES]);

/** The same of a pair that has been made in its place, whose peaks have been summed. */
void qll_pair_least_of(const qll_picked *made, const qll_inlet_ends *ends, size_t open_from,
                       const qll_hazard_sums *peaks, qll_least_room *room,
                       double survival[QLL_NODES]);

/** Whether outlet and drop of all valves of @p pick rise with the inlet. */
bool qll_pick_rises(const qll_searching *searching, const qll_pick *pick);

#endif
