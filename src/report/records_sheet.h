/* Answers about records for a terminal; trends also as a page. */
#ifndef QUELL_REPORT_RECORDS_SHEET_H
#define QUELL_REPORT_RECORDS_SHEET_H

#include "findings/recorded.h"
#include "report/sheet.h"

/** @p is_due: what is due, and how much of it; else all sites. */
void qll_sites_print(qll_writer *writer, const qll_recorded *found, bool is_due);
void qll_site_print(qll_writer *writer, const qll_recorded_site *found);
void qll_trend_print(qll_writer *writer, const qll_recorded_trend *found);

/** The same with its drawings, for any pen, in @p arena. */
void qll_trend_sheet(const qll_recorded_trend *found, qll_arena *arena, qll_sheet *sheet);

void qll_ranking_print(qll_writer *writer, const qll_recorded_ranking *found);

#endif
