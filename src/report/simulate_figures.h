/* Drawings of an event: pressures and lifts over time, and the pressures along the way. */
#ifndef QUELL_REPORT_SIMULATE_FIGURES_H
#define QUELL_REPORT_SIMULATE_FIGURES_H

#include "findings/simulated.h"
#include "report/sheet.h"

/** Puts the drawings into @p sheet. */
void qll_simulate_figures(qll_sheet *sheet, const qll_simulated_findings *findings);

#endif
