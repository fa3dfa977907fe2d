/* The criterion of a swing once more, by what pipe ends give back instead of lumps: docs/theory/valve_motion.md, 16 to 18. */
#ifndef QUELL_TESTS_PIPE_ENDS_H
#define QUELL_TESTS_PIPE_ENDS_H

#include "dynamics/linear.h"

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
QLL_MUST_USE qll_status test_end_linear(const qll_end_case *given, qll_linear *linear,
                                        unsigned *growing);

#endif
