/* Is there a sinusoid in values at uneven times? */
#ifndef QUELL_NUMERIC_LOMB_SCARGLE_H
#define QUELL_NUMERIC_LOMB_SCARGLE_H

#include <stddef.h>

/**
 * The share of the variance that one sinusoid of @p frequency_hz explains, 0 to 1: the normalized periodogram of Lomb
 * (1976) and Scargle (1982), the mean taken off first.
 *
 * @param time_s   in any order, from any zero
 * @return NaN of fewer than three values, or where they do not vary
 */
double qll_lomb_scargle(const double *time_s, const double *values, size_t count,
                        double frequency_hz);

/** How likely noise alone gives a share as great at the best of @p tried independent frequencies: 1 - (1 - (1 -
 * share)^((count - 3) / 2))^tried (Scargle 1982, Cumming et al. 1999 for this normalization; from memory). */
double qll_lomb_scargle_false_alarm(double share, size_t count, double tried);

#endif
