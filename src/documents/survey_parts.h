/* The parts of a survey's reader. Each fills its share of the survey; NaN or NULL stays where a
 * problem was added, and the reading ends as refused. */
#ifndef QUELL_DOCUMENTS_SURVEY_PARTS_H
#define QUELL_DOCUMENTS_SURVEY_PARTS_H

#include "documents/read_survey.h"
#include "documents/survey_fields.h"

/** What all parts share. */
typedef struct qll_survey_pass {
    qll_reader reader;
    const qll_tables *tables;
    const char *const *family_words; /* of all pipe families, for hints */
    size_t family_count;
    const char *const *fitting_words;
    size_t fitting_count;
    qll_survey *survey;
    qll_object root, supply, downstream; /* for limits that one part sets another */
} qll_survey_pass;

/** The pipe family named by @p key; the default; NULL after a problem. */
const qll_pipe_family *qll_read_family(qll_survey_pass *pass, const qll_object *object,
                                       const char *key);

/** The size that "nominal" of @p object names in @p family; NULL without it or after a problem. */
const qll_pipe_size *qll_read_size(qll_survey_pass *pass, const qll_object *object,
                                   const qll_pipe_family *family);

/** A run of pipe with its fittings; its size is NULL after a problem. */
typedef struct qll_read_run {
    qll_pipe_run run;
    const qll_pipe_size *size;
} qll_read_run;

qll_read_run qll_read_pipe(qll_survey_pass *pass, const qll_object *object);

/** The log of a scenario, options and all; its name is NULL if there is none or after a problem. */
qll_survey_log qll_read_log(qll_survey_pass *pass, const qll_object *scenario);

/** Reads people and homes, or what stands in for people: rooms, beds and the like; what is counted. */
qll_usual_counted qll_read_people(qll_survey_pass *pass, const qll_object *object,
                                  qll_scenario *scenario);

/** What may be counted in place of fixtures: "rooms"; NULL where the use is not known. */
const char *qll_counted_key(qll_use use);

/** Takes the usual fixtures for what is counted, and lists them as assumed; false where nothing is, and
 * no problem says why. */
bool qll_read_usual_fixtures(qll_survey_pass *pass, const qll_object *object,
                             const qll_usual_counted *counted, qll_scenario *scenario);

/** How much is drawn and when, of a scenario whose use, people and day are read. */
void qll_read_habits(const qll_survey_pass *pass, const qll_object *object, qll_scenario *scenario);

void qll_read_supply(qll_survey_pass *pass);
void qll_read_upstream(qll_survey_pass *pass);
void qll_read_downstream(qll_survey_pass *pass);
void qll_read_scenarios(qll_survey_pass *pass);
void qll_read_existing(qll_survey_pass *pass);

#endif
