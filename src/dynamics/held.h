/* Whether friction holds a swing that would grow if it were small: docs/theory/valve_motion.md, 22 and 23. */
#ifndef QUELL_DYNAMICS_HELD_H
#define QUELL_DYNAMICS_HELD_H

#include "dynamics/linear.h"

typedef struct qll_held {
    qll_linear smallest; /* of the smallest swing, friction left out */
    bool keeps_up; /* a swing as large as was asked for would go on growing, friction and all */
    double frequency_hz; /* of the fastest growing swing; 0 = it runs off without swinging */
} qll_held;

/**
 * The criterion at a swing of the outlet by @p swing_pa either way: of direct-acting valves friction and the
 * passage's loss stand as the damping that takes as much out of it (describing functions); the dead band of a pilot is
 * left out. It says what a swing does once something has started it, not whether something does.
 *
 * @param values of qll_lumped_rest(), with its modes
 * @param arena  scratch, given back
 * @return QLL_REFUSED where slopes are no numbers, or without a swing; QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_lumped_held(const qll_lumped *lumped, const double *values,
                                        double swing_pa, qll_arena *arena, qll_held *held);

/** The swing that is felt, over the set-point (stability.md's measure of chatter). */
#define QLL_FELT_SWING 0.05

#endif
