/* Least, greatest and sum of values side by side. */
#ifndef QUELL_SIGNALS_PRESSURE_SPAN_H
#define QUELL_SIGNALS_PRESSURE_SPAN_H

#include <math.h>
#include <stddef.h>

/** Least and most are of the values that are known, least > most where none is. */
typedef struct qll_span {
    double least, most;
    double sum; /* NaN where one is unknown */
} qll_span;

static inline double qll_lower(double value, double least)
{
    return value < least ? value : least; /* least, where the value is unknown */
}

static inline double qll_higher(double value, double most)
{
    return value > most ? value : most;
}

/** Where some may be unknown. */
static inline qll_span qll_span_of_some(const double *values, size_t count)
{
    qll_span span = {(double)INFINITY, -(double)INFINITY, 0.0};
    for (size_t i = 0; i < count; i++) {
        span.least = qll_lower(values[i], span.least);
        span.most = qll_higher(values[i], span.most);
        span.sum += values[i];
    }
    return span;
}

/** In two chains, so that no value waits for the one before; what is unknown shows in the sum only. */
static inline qll_span qll_span_of(const double *values, size_t count)
{
    double low[2] = {(double)INFINITY, (double)INFINITY};
    double high[2] = {-(double)INFINITY, -(double)INFINITY};
    double sum[2] = {0.0, 0.0};
    size_t i = 0;
    for (; i + 2 <= count; i += 2) {
        low[0] = low[0] < values[i] ? low[0] : values[i];
        low[1] = low[1] < values[i + 1] ? low[1] : values[i + 1];
        high[0] = high[0] > values[i] ? high[0] : values[i];
        high[1] = high[1] > values[i + 1] ? high[1] : values[i + 1];
        sum[0] += values[i];
        sum[1] += values[i + 1];
    }
    if (i < count) {
        low[0] = low[0] < values[i] ? low[0] : values[i];
        high[0] = high[0] > values[i] ? high[0] : values[i];
        sum[0] += values[i];
    }
    const qll_span span = {qll_lower(low[0], low[1]), qll_higher(high[0], high[1]),
                           sum[0] + sum[1]};
    return isnan(span.sum) ? qll_span_of_some(values, count) : span;
}

/** The span of both. */
static inline qll_span qll_span_joined(qll_span one, qll_span other)
{
    return (qll_span){.least = qll_lower(one.least, other.least),
                      .most = qll_higher(one.most, other.most),
                      .sum = one.sum + other.sum};
}

#endif
