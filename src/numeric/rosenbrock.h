/* Steps of a stiff system of ordinary differential equations. */
#ifndef QUELL_NUMERIC_ROSENBROCK_H
#define QUELL_NUMERIC_ROSENBROCK_H

#include "quell/arena.h"
#include "quell/problems.h"

/** dy/dt = f(y); what moves with time is a value of y whose rate is known. */
typedef struct qll_rates {
    size_t count;
    void (*rates)(const void *context, const double *values, double *rates);
    /* Row by row, count squared: change of each rate per change of each value. Handed in as zeros. */
    void (*slopes)(const void *context, const double *values, double *slopes);
    const void *context;
} qll_rates;

/** Room for the steps of one system. Opaque but for the values. */
typedef struct qll_rosenbrock {
    qll_rates system;
    double *values;  /* at the beginning of the step; the caller's to set before the first */
    double *next;    /* at its end, once it is tried */
    double step;     /* that was tried */
    double *slopes;  /* at the beginning */
    double *first;   /* rates there */
    double *stages;  /* six, one after the other */
    double *scratch; /* one value each */
    double *matrix;
    size_t *order;
    const double
        *scale; /* size below which an error of a value does not matter, times the tolerance */
} qll_rosenbrock;

/** @param scale one per value, over 0; must live as long as @p stepper. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_rosenbrock_make(const qll_rates *system, const double *scale,
                                            qll_arena *arena, qll_rosenbrock *stepper);

/** Works out rates and slopes at values, before steps from there are tried. */
void qll_rosenbrock_begin(qll_rosenbrock *stepper);

/**
 * Tries a step of @p step from values: RODAS (Hairer and Wanner), order 4, L-stable.
 *
 * @param tolerance over 0
 * @return the error of a third-order step over tolerance x (scale + value), as a root mean square: at
 *         most 1 is a good step; INFINITY where there is none
 */
double qll_rosenbrock_try(qll_rosenbrock *stepper, double step, double tolerance);

/** Value @p which at @p share (0 to 1) of the step that was tried. */
double qll_rosenbrock_within(const qll_rosenbrock *stepper, size_t which, double share);

/** Takes the step that was tried: next becomes values. */
void qll_rosenbrock_take(qll_rosenbrock *stepper);

/** The step to try after one of that error. */
double qll_rosenbrock_next_step(double step, double error);

#endif
