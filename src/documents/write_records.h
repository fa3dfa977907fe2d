/* Answers about records as JSON, CSV and calendars. */
#ifndef QUELL_DOCUMENTS_WRITE_RECORDS_H
#define QUELL_DOCUMENTS_WRITE_RECORDS_H

#include "base/document.h"
#include "findings/recorded.h"

/** One record as JSON, on one line; with its receipt where @p with_receipt and it has one. */
void qll_record_json(qll_writer *writer, const qll_record *record, bool with_receipt);

void qll_sites_write(qll_json *json, const char *verb, const qll_recorded *found);
void qll_site_write(qll_json *json, const qll_recorded_site *found);
void qll_trend_write(qll_json *json, const qll_recorded_trend *found);

void qll_ranking_write(qll_json *json, const qll_recorded_ranking *found);

/** The sites that have a due day, as a calendar (RFC 5545). */
void qll_calendar_write(qll_writer *writer, const qll_recorded *found, const char *created);

#endif
