/* What calms valves that hunt or chatter, and how much of it: docs/theory/valve_motion.md, 24 and 25. */
#ifndef QUELL_DYNAMICS_CALM_H
#define QUELL_DYNAMICS_CALM_H

#include "dynamics/motion_state.h"

typedef enum qll_calm_by {
    QLL_CALM_BY_OFFSET,  /* Pa: each valve set so much lower than the one before it */
    QLL_CALM_BY_DAMPING, /* N s/m, added to every direct-acting valve */
    QLL_CALM_BY_AIR,     /* m3 at the outlet's pressure at rest */
    QLL_CALM_BY_COUNT
} qll_calm_by;

/** Valves side by side, and the flows at which they shall be calm. */
typedef struct qll_calm_case {
    const qll_regulator *valves;
    size_t valve_count;
    const qll_around *around; /* as it is, air too */
    const double *flows_m3s;
    size_t flow_count;
    double swing_pa; /* half swing of the outlet that is felt */
} qll_calm_case;

typedef struct qll_calm {
    bool is_needed; /* as they are a swing keeps up at one of the flows */
    bool is_found;  /* at @p amount and at all that were tried above it none does */
    double amount;  /* 0 where none is needed */
    /* Runs at the amount, a tap closing from 1.3 of each flow in 40 ms. */
    bool is_felt;
    double swing; /* half of the greatest at the outlet, over the highest set-point */
} qll_calm;

/**
 * The least amount up to @p most, within 2 %, at which no swing as large as swing_pa keeps up at any of the flows (22,
 * 23), and what runs then show. Flows that the valves cannot pass are left out.
 *
 * @param arena scratch, given back
 * @return QLL_REFUSED for a case without valves, flows or swing, or whose runs make no sense; QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_calm_find(const qll_calm_case *given, qll_calm_by by, double most,
                                      qll_arena *arena, qll_calm *calm);

#endif
