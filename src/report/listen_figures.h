/* Drawings of a recording: its spectrum, and its bands over time. */
#ifndef QUELL_REPORT_LISTEN_FIGURES_H
#define QUELL_REPORT_LISTEN_FIGURES_H

#include "findings/findings.h"
#include "report/sheet.h"

/** Puts the drawings of the parts that were asked for into @p sheet. */
void qll_listen_figures(qll_sheet *sheet, const qll_listen_findings *findings);

/** Puts the recording's level over time and, under it, the pressures of the log into @p sheet. */
void qll_listen_beside_figure(qll_sheet *sheet, const qll_listen_findings *findings);

#endif
