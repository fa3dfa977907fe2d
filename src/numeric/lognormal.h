/* A lognormal amount laid on a grid so that its mean is kept. */
#ifndef QUELL_NUMERIC_LOGNORMAL_H
#define QUELL_NUMERIC_LOGNORMAL_H

#include <stddef.h>

/** mean over 0; ln_sigma 0 = constant. */
typedef struct qll_lognormal {
    double mean, ln_sigma;
} qll_lognormal;

/** Mean of the square: mean^2 exp(ln_sigma^2). */
double qll_lognormal_square(qll_lognormal amount);

/** Mean of the lesser of the amount and @p limit; the mean from qll_lognormal_top() on. */
double qll_lognormal_limited(qll_lognormal amount, double limit);

/** Where the amount is cut: 6 deviations of the logarithm above the median, 1e-9 of all. */
double qll_lognormal_top(qll_lognormal amount);

/** Grid points that qll_lognormal_lay() may touch: 0 to this - 1. Top over @p step must fit a size_t. */
size_t qll_lognormal_count(qll_lognormal amount, double step);

/**
 * Adds the amount with weight @p share to @p p on the grid 0, step, 2 step, ...
 *
 * Exactly the mean is kept: a constant is shared between its two neighbours; of a lognormal amount
 * each grid point gets the mean of the triangle over it, a second difference of limited means; what
 * lies beyond the cut is drawn to the last point. The variance of one amount grows by at most a
 * quarter of the square of the step.
 */
void qll_lognormal_lay(qll_lognormal amount, double share, double step, double *p);

#endif
