/* What the language leaves to its library: a quotient that has the same bits wherever it is worked out. */
#ifndef QUELL_NUMERIC_COMPLEX_H
#define QUELL_NUMERIC_COMPLEX_H

#include <complex.h>
#include <math.h>
#include <string.h>

/** The macro of C11 for it is not in every C library and compiler together; the layout is (C17, 6.2.5). */
static inline double complex qll_complex_of(double real, double imaginary)
{
    const double parts[2] = {real, imaginary};
    double complex made;
    memcpy(&made, parts, sizeof made);
    return made;
}

/** @p above over @p below, by the larger part of what is below, so that no square of it overflows (Smith, Algorithm 116,
 * Communications of the ACM 5, 1962, from memory). Over 0 it is not finite. */
static inline double complex qll_complex_over(double complex above, double complex below)
{
    const double a = creal(above), b = cimag(above), c = creal(below), d = cimag(below);
    if (!(fabs(c) > 0) && !(fabs(d) > 0)) {
        return qll_complex_of(INFINITY, 0);
    }
    if (fabs(c) >= fabs(d)) {
        const double share = d / c, size = c + d * share;
        return qll_complex_of((a + b * share) / size, (b - a * share) / size);
    }
    const double share = c / d, size = c * share + d;
    return qll_complex_of((a * share + b) / size, (b * share - a) / size);
}

#endif
