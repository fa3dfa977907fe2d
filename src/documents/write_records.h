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

/** The day @p day since 1970 as "2026-11-20"; null where it is NaN. */
void qll_json_put_day(qll_json *json, const char *key, double day);

/** So many sentences at most about one course. */
#define QLL_COURSE_SENTENCES 3

/** What there is to say of @p course; how many sentences: none where nothing was read. */
size_t qll_course_says(const qll_wording *wording, qll_arena *arena, qll_followed followed,
                       const qll_course *course, qll_said sentences[QLL_COURSE_SENTENCES]);

/** So many sentences at most about how earlier chances did. */
#define QLL_CALIBRATION_SENTENCES 2

/** Chances against what happened; how many sentences: none where nobody was watched. */
size_t qll_calibration_says(qll_arena *arena, const qll_calibration *calibration,
                            qll_said sentences[QLL_CALIBRATION_SENTENCES]);

/** What a callback from @p site would come from above all, as a sentence about the station ends; NULL where nobody knows. */
const char *qll_ranked_because(const qll_wording *wording, const qll_ranked_site *site);

void qll_ranking_write(qll_json *json, const qll_recorded_ranking *found);

/** The sites that have a due day, as a calendar (RFC 5545). */
void qll_calendar_write(qll_writer *writer, const qll_recorded *found, const char *created);

#endif
