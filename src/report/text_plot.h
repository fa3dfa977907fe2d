/* Readings over time in plain letters, for any pen. */
#ifndef QUELL_REPORT_TEXT_PLOT_H
#define QUELL_REPORT_TEXT_PLOT_H

#include "base/text.h"
#include "base/units.h"

/** A line of it; NaN where there is none. */
typedef struct qll_text_series {
    const double *values;
    char mark;
} qll_text_series;

/**
 * Writes a frame of a few lines, the values as @p kind in @p system on its left, @p left and @p right under its ends.
 *
 * @param count values of each series, at most QLL_STRETCH_POINTS are told apart
 */
void qll_text_plot(qll_writer *writer, const qll_text_series *series, size_t series_count,
                   size_t count, qll_kind kind, qll_unit_system system, const char *left,
                   const char *right);

#endif
