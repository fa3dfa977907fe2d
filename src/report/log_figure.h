/* The readings that a finding of a log rests on, drawn. */
#ifndef QUELL_REPORT_LOG_FIGURE_H
#define QUELL_REPORT_LOG_FIGURE_H

#include "findings/pressure.h"
#include "report/sheet.h"

/** A figure of @p values, of @p kind, one for each point of @p stretch. @p title is kept, not copied; @p number makes its id
 * unique. canvas NULL without memory. */
qll_figure_block qll_log_figure(const qll_wording *wording, qll_arena *arena,
                                const qll_pressure_stretch *stretch, const double *values,
                                qll_kind kind, const char *title, size_t number);

#endif
