#include "numeric/curve.h"

#include <assert.h>
#include <math.h>

size_t qll_curve_segment(qll_curve curve, double x)
{
    assert(curve.count >= 1);
    if (curve.count < 3) {
        return 0;
    }
    size_t low = 0;
    size_t high = curve.count - 1; /* points[low].x <= x < points[high].x, or x lies outside */
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (curve.points[middle].x <= x) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return low;
}

double qll_curve_at(qll_curve curve, double x)
{
    assert(curve.count >= 1);
    if (isnan(x)) {
        return NAN;
    }
    const qll_point *last = &curve.points[curve.count - 1];
    if (x <= curve.points[0].x) {
        return curve.points[0].y;
    }
    if (x >= last->x) {
        return last->y;
    }
    const qll_point *a = &curve.points[qll_curve_segment(curve, x)];
    const qll_point *b = a + 1;
    double share = (x - a->x) / (b->x - a->x);
    /* Weights of both ends, so that the value at b is b's to the last bit. */
    return a->y * (1 - share) + b->y * share;
}

double qll_curve_inverse(qll_curve curve, double y)
{
    assert(curve.count >= 1);
    if (isnan(y) || curve.points[curve.count - 1].y < y) {
        return NAN;
    }
    /* The least index whose y is at least the wanted one; y never falls. */
    size_t low = 0;
    size_t high = curve.count - 1;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (curve.points[middle].y < y) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    const qll_point *b = &curve.points[low];
    if (low == 0 || b->y == y) {
        return b->x;
    }
    const qll_point *a = b - 1;
    double share = (y - a->y) / (b->y - a->y);
    return a->x * (1 - share) + b->x * share;
}
