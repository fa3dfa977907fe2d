/* A stage in the corners where the hard rules bite, kept so that stages can be put together. */
#ifndef QUELL_SEARCH_CORNER_H
#define QUELL_SEARCH_CORNER_H

#include "search/arrangement.h"
#include "station/hard_rule.h"

/** One stage in all corners. */
typedef struct qll_stage_corners {
    double *inlet_pa; /* [scenario + 1], absolute: design peaks at the lowest supply, no flow at the
                          highest */
    double *outlet_pa; /* [scenario + 1]; NaN where it cannot pass the peak */
    qll_branch_state (*states)[QLL_BRANCHES_MOST]; /* [scenario + 1] */
} qll_stage_corners;

/** What the operating point of a corner points at. */
typedef struct qll_corner_view {
    double inlet_pa[QLL_STAGES_MOST], outlet_pa[QLL_STAGES_MOST];
    qll_branch_state *branches[QLL_STAGES_MOST];
} qll_corner_view;

/** The corners as operating points, filled anew for every station. */
typedef struct qll_corner_room {
    const qll_site *site;
    const qll_duty *duty;
    qll_operating_point *points; /* [scenario + 1] */
    qll_corner_view *views;      /* [scenario + 1] */
} qll_corner_room;

QLL_MUST_USE qll_status qll_corner_room_make(const qll_site *site, const qll_duty *duty,
                                             qll_arena *arena, qll_corner_room *room);

QLL_MUST_USE qll_status qll_stage_corners_make(const qll_duty *duty, qll_arena *arena,
                                               qll_stage_corners *corners);

/** Inlet pressures of a first stage. */
void qll_stage_corners_begin(const qll_corner_room *room, qll_stage_corners *corners);

/** Inlet pressures of a stage behind another one. */
void qll_stage_corners_follow(const qll_duty *duty, const qll_stage_corners *before,
                              qll_stage_corners *corners);

/** Solves the stage in all corners, from the inlets that stand there. */
void qll_stage_corners_solve(const qll_duty *duty, const qll_stage_solver *solver,
                             size_t branch_count, qll_stage_corners *corners);

/** The hard rules of one stage by itself, and those of the whole station of up to two stages. */
qll_rule qll_corner_broken_by_stage(const qll_corner_room *room, const qll_stage *stage,
                                    const qll_stage_corners *corners);
qll_rule qll_corner_broken(const qll_corner_room *room, const qll_station *station,
                           const qll_stage_corners *const *corners);

#endif
