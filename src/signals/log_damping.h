/* Does a meter settle slowly? Then every stop decays by the same factor from row to row. */
#ifndef QUELL_SIGNALS_LOG_DAMPING_H
#define QUELL_SIGNALS_LOG_DAMPING_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Rows of a fall that are looked at, falls that are kept, and rows of a log. */
#define QLL_FALL_ROWS       256
#define QLL_FALLS           512
#define QLL_DAMPING_ROWS    200000
#define QLL_DAMPING_FINE_MS 5000

typedef struct qll_damping {
    bool wanted;
    int64_t interval_ms, before_ms;
    long long rows;
    double fall[QLL_FALL_ROWS]; /* flows of the fall that is going on, in the log's unit */
    size_t fall_size;
    /* falls to a fraction: where they began, and the time constant of those that decay evenly (else NaN) */
    double from[QLL_FALLS], time_s[QLL_FALLS];
    size_t stops;
    double greatest;
} qll_damping;

/** Starts; flows at QLL_DAMPING_FINE_MS or finer are worth it. */
void qll_damping_begin(qll_damping *d, int64_t interval_ms);

/** Looks at rows in order, the first QLL_DAMPING_ROWS of a log. */
void qll_damping_look(qll_damping *d, const int64_t *at_ms, const double *values, size_t count);

/** The time constant, s; NaN if @p d is NULL or if most stops are none of a damped meter's. */
double qll_damping_time_s(const qll_damping *d);

#endif
