/* Answers about records for a terminal. */
#ifndef QUELL_REPORT_RECORDS_SHEET_H
#define QUELL_REPORT_RECORDS_SHEET_H

#include "findings/recorded.h"

/** @p is_due: what is due, and how much of it; else all sites. */
void qll_sites_print(qll_writer *writer, const qll_recorded *found, bool is_due);
void qll_site_print(qll_writer *writer, const qll_recorded_site *found);
void qll_trend_print(qll_writer *writer, const qll_recorded_trend *found);
void qll_ranking_print(qll_writer *writer, const qll_recorded_ranking *found);

#endif
