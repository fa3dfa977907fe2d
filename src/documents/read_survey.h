/* A survey's JSON to the structs of the floors below. */
#ifndef QUELL_DOCUMENTS_READ_SURVEY_H
#define QUELL_DOCUMENTS_READ_SURVEY_H

#include "base/assumed.h"
#include "base/document.h"
#include "demand/usual.h"
#include "findings/survey.h"
#include "search/design.h"

/** The greatest set pressure of a stage, the next one's inlet; NaN if it has none. */
double qll_existing_highest_set_pa_gauge(const qll_existing_stage *stage);

/** Tables that readers look things up in; read once per question. */
typedef struct qll_tables {
    qll_pipe_table pipes;
    qll_meter_table meters;
    qll_fixture_table fixtures;
    qll_usual_table usual;
    qll_costs costs; /* the default ones */
} qll_tables;

QLL_MUST_USE qll_status qll_tables_read(qll_arena *arena, qll_tables *tables);

/**
 * Reads a survey (docs/formats/survey.md). All strings and arrays live in @p arena; defaults go to @p assumed.
 * @return QLL_OK, QLL_REFUSED with problems, or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_survey_read(const qll_document *document, const qll_tables *tables,
                                        qll_arena *arena, qll_survey *survey, qll_assumed *assumed,
                                        qll_problems *problems);

/**
 * Puts into survey->site.costs what holds: the survey's own costs, else the catalogue's, else
 * @p defaults. Defaults that hold and valves whose price is estimated go to @p assumed.
 */
QLL_MUST_USE qll_status qll_costs_merge(const qll_costs *defaults, const qll_catalogue *catalogue,
                                        qll_arena *arena, qll_survey *survey, qll_assumed *assumed);

/**
 * Makes the existing station from the catalogue. A valve is named by its id, or by size and kind
 * ("3 in direct", "3 in"): then it is the catalogue's of that size and kind whose range holds the set
 * pressure, of several the middle one by Kv, which goes to @p assumed. A name that is neither is a
 * problem at its place.
 */
QLL_MUST_USE qll_status qll_survey_existing(const qll_survey *survey,
                                            const qll_catalogue *catalogue, qll_arena *arena,
                                            qll_station *station, qll_assumed *assumed,
                                            qll_problems *problems);

#endif
