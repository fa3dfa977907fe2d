/* Readings over time in plain letters, for any pen. */
#ifndef QUELL_REPORT_TEXT_PLOT_H
#define QUELL_REPORT_TEXT_PLOT_H

#include "base/text.h"
#include "base/units.h"

/**
 * Writes a frame of a few lines, the values as @p kind in @p system on its left, @p ends under its left and right end.
 *
 * @param values NaN where none is known
 */
void qll_text_plot(qll_writer *writer, const double *values, size_t count, qll_kind kind,
                   qll_unit_system system, const char *const ends[2]);

#endif
