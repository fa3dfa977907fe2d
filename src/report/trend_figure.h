/* What is followed of a site, over the years: its readings, the line through them and where that leads. */
#ifndef QUELL_REPORT_TREND_FIGURE_H
#define QUELL_REPORT_TREND_FIGURE_H

#include "findings/recorded.h"
#include "report/sheet.h"

/**
 * Draws @p course, called @p title; its canvas, and all but the texts handed in, in @p arena.
 *
 * @param description in words what is to be seen
 * @return without a canvas where there is nothing to draw: fewer than two days with readings
 */
qll_figure_block qll_trend_figure(const qll_wording *wording, qll_arena *arena,
                                  qll_followed followed, const qll_course *course,
                                  const char *title, const char *description);

#endif
