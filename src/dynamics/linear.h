/* Whether the smallest swing of a reducing valve grows: docs/theory/valve_motion.md, 13 to 18. */
#ifndef QUELL_DYNAMICS_LINEAR_H
#define QUELL_DYNAMICS_LINEAR_H

#include "dynamics/lumped.h"

typedef struct qll_linear {
    double margin; /* damping ratio of the least damped motion: below 0 swings grow; at most 1 */
    double growth_per_s;   /* of the fastest growing, or slowest dying, motion */
    double frequency_hz;   /* of that; 0 = it creeps without swinging */
    double grows_within_s; /* 1/|lambda|, least of all growing motions; INFINITY without one */
} qll_linear;

/**
 * The criterion of valves at rest with the water around them in lumps, friction left out (13).
 *
 * @param values of qll_lumped_rest(), with its modes
 * @param arena  scratch, given back
 * @return QLL_REFUSED where slopes are no numbers; QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_lumped_linear(const qll_lumped *lumped, const double *values,
                                          qll_arena *arena, qll_linear *linear);

#endif
