/* Statistics that single wrong values do not move: medians, slopes, trends, steps. */
#ifndef QUELL_NUMERIC_ROBUST_H
#define QUELL_NUMERIC_ROBUST_H

#include <stdbool.h>
#include <stddef.h>

/* Of a normal law, sigma over the median of absolute deviations: 1 / Phi^-1(3/4). */
#define QLL_MAD_TO_SIGMA 1.4826

/** The median of @p count values, which it reorders; the mean of the two in the middle of an even count. NaN of
 * none. */
double qll_median(double *values, size_t count);

/**
 * The value with a share of @p share below it, straight between the two nearest (R's type 7, Hyndman and Fan 1996).
 *
 * @param values reordered
 * @param share  0 to 1
 * @return NaN of no values
 */
double qll_quantile(double *values, size_t count, double share);

/**
 * 1.4826 times the median of absolute deviations from the median: sigma, if the values were normal.
 *
 * @param scratch room for @p count
 */
double qll_mad_sigma(const double *values, size_t count, double *scratch);

/** How many pairs of @p count points there are. */
static inline size_t qll_pair_count(size_t count)
{
    return count < 2 ? 0 : count * (count - 1) / 2;
}

/**
 * Theil-Sen slope: the median of the slopes of all pairs of points whose x differ by more than @p least_apart
 * (Sen 1968). Nearly a third of the points may be wrong without moving it far.
 *
 * @param scratch room for qll_pair_count(count)
 * @return NaN where no pair is far enough apart
 */
double qll_theil_sen(const double *x, const double *y, size_t count, double least_apart,
                     double *scratch);

/** A trend in values of rising order, Mann 1945 and Kendall 1975: pairs that rise less pairs that fall, and that as
 * a normal deviate, corrected for continuity and for ties. */
typedef struct qll_trend {
    double s, z;
} qll_trend;

/** @param scratch room for @p count */
qll_trend qll_mann_kendall(const double *values, size_t count, double *scratch);

/**
 * Hampel's filter: a value further than @p times scaled MAD from the median of the 2 @p half + 1 values around it, and
 * further than @p least, becomes that median. The first and last @p half are left as they are.
 *
 * @param cleaned room for @p count, apart from @p values
 * @param scratch room for count + 2 (2 half + 1)
 * @return how many were replaced
 */
size_t qll_hampel(const double *values, size_t count, size_t half, double times, double least,
                  double *cleaned, double *scratch);

/**
 * True if it is plain from few looks that qll_hampel() replaces nothing; false leaves it open.
 *
 * @param lowest,highest of the values, none of which is NaN
 */
bool qll_hampel_is_idle(const double *values, size_t count, size_t half, double least,
                        double lowest, double highest);

/**
 * Cuts values into stretches around medians of their own, by halving: the cut that takes most off the sum of absolute
 * deviations is made if that is more than @p penalty.
 *
 * @param penalty 3 sigma ln(count), with sigma = 1.4826 MAD(differences) / sqrt 2, keeps noise in one piece
 * @param scratch room for 3 @p count
 * @param cuts    first index of each further stretch, rising; room for @p most
 * @return how many cuts
 */
size_t qll_segments(const double *values, size_t count, double penalty, double *scratch,
                    size_t *cuts, size_t most);

/** 3 sigma ln(count), the penalty named above; 0 of fewer than three values. @p scratch: room for 2 @p count. */
double qll_segment_penalty(const double *values, size_t count, double *scratch);

#endif
