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

/** What hangs at one side of a valve, for (16): a pipe, and what gives at its ends. */
typedef struct qll_pipe_end {
    double impedance_pa_s_m3; /* rho a / S; 0 = the node holds its pressure */
    double travel_s;          /* 2 L / a: of a wave, there and back */
    double loss;        /* of it, over 0 to below 1: a wave that never dies has no turn to count */
    double here_m3_pa;  /* what gives at the valve */
    double far_m3_pa;   /* what gives at the taps; the outlet's side only */
    double taps_m3s_pa; /* flow of the taps per pressure; likewise */
} qll_pipe_end;

/** One direct-acting valve at rest between two pipe ends. */
typedef struct qll_end_case {
    const qll_regulator *valve;
    double inlet_pa, outlet_pa;
    qll_pipe_end inlet, outlet;
} qll_end_case;

/**
 * The criterion at pipe ends (16 to 18). growth and frequency are those of the fastest growing root, or
 * of the least damped that Newton's method found.
 *
 * @param growing how many roots grow, by the turn of the argument, two for a swing; may be NULL
 * @return QLL_REFUSED for a pilot valve, one that is shut or a pipe that makes no sense
 */
QLL_MUST_USE qll_status qll_end_linear(const qll_end_case *given, qll_linear *linear,
                                       unsigned *growing);

#endif
