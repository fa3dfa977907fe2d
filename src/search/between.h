/* Where a drop is shared between stages. */
#ifndef QUELL_SEARCH_BETWEEN_H
#define QUELL_SEARCH_BETWEEN_H

#include "search/searching.h"

/* The step to which set-points between stages are rounded: 5 psi, whatever the units of the survey, so
 * that one building has one answer (our assumption). */
#define QLL_BETWEEN_STEP_PA (5.0 * 6894.757293168361)
/* Steps tried to either side of the pressure of equal sigma. */
#define QLL_BETWEEN_STEPS   2
#define QLL_BETWEEN_MOST    (2 * QLL_BETWEEN_STEPS + 1)

/** The set-point between two stages at which both have the same cavitation index, to the nearest step, whatever the
 * ratio; false where nothing is to be reduced. */
bool qll_between_equal(const qll_yardstick *yardstick, double held_pa_gauge,
                       double *between_pa_gauge);

/** Set-points between two stages of which the second holds @p held_pa_gauge, gauge, the middle one
 * first: those that keep the ratio of both. */
size_t qll_between_pressures(const qll_yardstick *yardstick, double held_pa_gauge,
                             double between_pa_gauge[QLL_BETWEEN_MOST]);

/** Set-points between @p stages stages of equal margins, to the same steps; false if the ratio cannot be
 * kept by so many. */
bool qll_between_many(const qll_searching *searching, size_t stages,
                      double between_pa_gauge[QLL_STAGES_MOST]);

#endif
