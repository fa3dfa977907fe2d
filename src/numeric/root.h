/* Bracketed root of a monotone function. */
#ifndef QUELL_NUMERIC_ROOT_H
#define QUELL_NUMERIC_ROOT_H

#include <stdbool.h>

typedef struct qll_root {
    double value;
    double residual; /* f(value) */
    int iterations;
    bool converged;
} qll_root;

typedef double qll_function(double x, void *context);

/**
 * The x in [low, high] at which the continuous f changes sign, by a bracketing method that never
 * leaves the bracket (at most 200 evaluations).
 *
 * @param tolerance greatest width of the final bracket, > 0
 * @return converged false and value NaN if f(low) and f(high) have the same sign or are NaN
 */
qll_root qll_root_find(double low, double high, double tolerance, qll_function *f, void *context);

#endif
