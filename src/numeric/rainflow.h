/* Cycles in a load that goes up and down: rainflow counting. */
#ifndef QUELL_NUMERIC_RAINFLOW_H
#define QUELL_NUMERIC_RAINFLOW_H

#include <stdbool.h>
#include <stddef.h>

/* Turning points that wait for their cycle to close. The waiting ranges shrink, or grow and then shrink, so that even
 * a long record leaves few; where more wait, the oldest is counted as half a cycle. */
#define QLL_RAINFLOW_ROOM ((size_t)256)

/** Takes one cycle: its range, and 1 or 1/2 of it. */
typedef void qll_rainflow_sink(void *context, double range, double cycles);

/** Counts as values come: ASTM E1049-85, 5.4.4. */
typedef struct qll_rainflow {
    double turns[QLL_RAINFLOW_ROOM];
    size_t count;
    double last; /* value before, not yet known to be a turning point */
    bool started, has_last, rises;
    qll_rainflow_sink *sink;
    void *context;
} qll_rainflow;

void qll_rainflow_begin(qll_rainflow *r, qll_rainflow_sink *sink, void *context);

/** Takes the next value; finite. */
void qll_rainflow_add(qll_rainflow *r, double value);

/** Counts what is left as half cycles. */
void qll_rainflow_end(qll_rainflow *r);

#endif
