/* The answers as plain text that lines up and reads in a minute. */
#ifndef QUELL_REPORT_PLAIN_H
#define QUELL_REPORT_PLAIN_H

#include "documents/findings.h"
#include "handbook/handbook.h"

void qll_demand_print(qll_writer *writer, const qll_demand_findings *findings);
void qll_design_print(qll_writer *writer, const qll_design_findings *findings);
void qll_check_print(qll_writer *writer, const qll_check_findings *findings);
void qll_fit_print(qll_writer *writer, const qll_fit_findings *findings);
void qll_list_print(qll_writer *writer, const qll_list_findings *findings);
/** @p wording needs units and language only. */
void qll_calc_print(qll_writer *writer, const qll_calc_answer *answer, const qll_wording *wording);

#endif
