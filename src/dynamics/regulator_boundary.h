/* A reducing valve between two joints of pipes: docs/theory/valve_motion.md, 19 to 21. */
#ifndef QUELL_DYNAMICS_REGULATOR_BOUNDARY_H
#define QUELL_DYNAMICS_REGULATOR_BOUNDARY_H

#include "dynamics/boundary.h"
#include "dynamics/regulator.h"

/** A valve on its way. */
typedef struct qll_regulator_boundary {
    const qll_regulator *regulator;
    double barometric_pa;
    double lift_m, second; /* as qll_regulator_place has it */
    double force_n;  /* direct acting: on the plug at the end of the last step, but for friction */
    double blow_m_s; /* fastest meeting of its seat since whoever watches set it to 0 */
    double through_m3s; /* past the seat at the end of the last step */
} qll_regulator_boundary;

/** One that has not moved yet: the first step is at rest. */
qll_regulator_boundary qll_regulator_boundary_of(const qll_regulator *regulator,
                                                 double barometric_pa);

/** Port 0 at its inlet, port 1 at its outlet; the state is a qll_regulator_boundary. */
extern const qll_boundary_kind qll_regulator_boundary_kind;

#endif
