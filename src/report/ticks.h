/* Round numbers along an axis. */
#ifndef QUELL_REPORT_TICKS_H
#define QUELL_REPORT_TICKS_H

#include "base/text.h"

/** first, first + step, ...: count of them, written with so many decimals. */
typedef struct qll_ticks {
    double first, step;
    size_t count;
    int decimals;
} qll_ticks;

/**
 * Ticks at 1, 2 or 5 times a power of ten, the first at or below @p low and the last at or above @p high,
 * as many as there can be without more than @p most_steps steps between them.
 *
 * @param low, high finite, in either order; equal ones are widened
 * @param most_steps at least 2
 */
qll_ticks qll_ticks_cover(double low, double high, size_t most_steps);

/**
 * The same on a logarithmic axis: 1, 2 and 5 (or 1 alone, over many decades) times powers of ten.
 *
 * @param low, high over 0
 * @param values  gets at most @p room of them, rising; the first at or below low
 * @return how many
 */
size_t qll_ticks_cover_log(double low, double high, double *values, size_t room);

double qll_tick_value(const qll_ticks *ticks, size_t index);

/** A tick's number with @p decimals, "0" without a sign. */
void qll_tick_write(qll_writer *writer, double value, int decimals);

/** Decimals that show @p value in full, from 0 to 9: what a logarithmic tick needs. */
int qll_tick_decimals(double value);

#endif
