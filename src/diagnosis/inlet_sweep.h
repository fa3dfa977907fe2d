/* An inlet sweep among the gauge readings of a visit. */
#ifndef QUELL_DIAGNOSIS_INLET_SWEEP_H
#define QUELL_DIAGNOSIS_INLET_SWEEP_H

#include "diagnosis/case.h"

/**
 * The share of a move of the inlet that the outlet follows by: Theil-Sen slope over readings as found at one flow, an inlet and
 * an outlet at the same time for each step.
 *
 * @param share 0 and up; NaN where there are no three steps, or the inlet came down by less than 69 kPa (10 psi)
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_inlet_sweep(const qll_case *of, qll_arena *arena, double *share);

#endif
