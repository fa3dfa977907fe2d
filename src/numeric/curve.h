/* Piecewise linear curves through rising points, and their inverses. */
#ifndef QUELL_NUMERIC_CURVE_H
#define QUELL_NUMERIC_CURVE_H

#include <stddef.h>

typedef struct qll_point {
    double x, y;
} qll_point;

/** A curve through @p points, whose x rise strictly; count >= 1. Does not own the points. */
typedef struct qll_curve {
    const qll_point *points;
    size_t count;
} qll_curve;

/** y at @p x by straight lines between points; beyond an end the end's y. NaN in, NaN out. */
double qll_curve_at(qll_curve curve, double x);

/** The least x at which a curve of non-falling y reaches @p y; NaN if it never does. */
double qll_curve_inverse(qll_curve curve, double y);

/** Index of the segment that holds @p x: the last i with points[i].x <= x, from 0 to count - 2. */
size_t qll_curve_segment(qll_curve curve, double x);

#endif
