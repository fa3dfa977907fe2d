/* What a log of the same minutes says beside a recording. */
#ifndef QUELL_REPORT_LISTEN_BESIDE_H
#define QUELL_REPORT_LISTEN_BESIDE_H

#include "findings/findings.h"
#include "report/report_parts.h"

/** Sentences, times and, on sheets, the drawing; findings->beside must be there. */
void qll_listen_write_beside(qll_report *report, const qll_listen_findings *findings);

#endif
