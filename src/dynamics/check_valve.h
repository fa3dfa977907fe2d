/* A check valve: water goes one way, at once. */
#ifndef QUELL_DYNAMICS_CHECK_VALVE_H
#define QUELL_DYNAMICS_CHECK_VALVE_H

#include "dynamics/boundary.h"

/** From port 0 to port 1. */
typedef struct qll_check_valve {
    double coefficient; /* m3/s per sqrt(Pa) */
    double opens_pa;    /* pressure difference that opens it, 0 or more */
    double from_s;      /* before that nothing passes; 0 = always */
} qll_check_valve;

extern const qll_boundary_kind qll_check_valve_kind;

#endif
