/* What the sheets to fill in have in common. */
#ifndef QUELL_REPORT_FORMS_H
#define QUELL_REPORT_FORMS_H

#include "report/report_parts.h"

/** A cell for a reading of a gauge, with its unit. */
void qll_form_reading(qll_report *report);

/** A cell to write in, at least so wide. */
void qll_form_box(qll_report *report, double least_mm);

/** The gauge before stage @p joint, or behind the last, as the drawing names it. */
const char *qll_form_gauge(const qll_report *report, size_t joint);

/** "P0, P1 and P2": the gauges from joint @p joint to the last. */
const char *qll_form_gauges_from(const qll_report *report, size_t joint);

#endif
