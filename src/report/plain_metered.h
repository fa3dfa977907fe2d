/* The parts of the demand's sheet that tell of a meter's log and of several scenarios. */
#ifndef QUELL_REPORT_PLAIN_METERED_H
#define QUELL_REPORT_PLAIN_METERED_H

#include "findings/findings.h"

/** What was read of a log, and what was mended. */
void qll_section_log(qll_writer *writer, const qll_wording *wording, const char *name,
                     const qll_flow_log_result *log);

/** Mean flows of the log's hours, weekdays beside weekends. */
void qll_section_week(qll_writer *writer, const qll_wording *wording, const qll_metered *log);

/** All scenarios side by side; nothing if there is only one. */
void qll_section_changes(qll_writer *writer, const qll_wording *wording,
                         const qll_demand_findings *findings);

#endif
