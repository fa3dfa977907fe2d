/* What is off by a little either way: the distribution function of a symmetric Beta(2, 2), which is a
 * normal one to the eye and ends at 2.24 deviations; a gauge is not off by more. */
#ifndef QUELL_STATION_SPREAD_H
#define QUELL_STATION_SPREAD_H

/** Chance that something of deviation @p sigma (> 0) and mean 0 lies below @p value. */
static inline double qll_spread_below(double value, double sigma)
{
    const double half_widths = 2.23606797749979; /* of Beta(2, 2), in deviations: sqrt(5) */
    double t = 0.5 + 0.5 * value / (half_widths * sigma);
    t = t > 0.0 ? t : 0.0;
    t = t < 1.0 ? t : 1.0;
    return t * t * (3.0 - 2.0 * t);
}

#endif
