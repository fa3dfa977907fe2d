/* A survey's JSON to the structs of the floors below. */
#ifndef QUELL_DOCUMENTS_READ_SURVEY_H
#define QUELL_DOCUMENTS_READ_SURVEY_H

#include "base/assumed.h"
#include "base/document.h"
#include "base/units.h"
#include "demand/scenario.h"
#include "demand/usual.h"
#include "search/design.h"
#include "signals/flow_log.h"
#include "station/site.h"

/** A valve of the existing station as the survey names it; the catalogue resolves the name. */
typedef struct qll_existing_branch {
    const char *valve_id; /* or size and kind, "3 in direct" */
    qll_place place;      /* of the name, for a problem when the catalogue does not know it */
    double set_pa_gauge;
} qll_existing_branch;

typedef struct qll_existing_stage {
    const qll_existing_branch *branches;
    size_t branch_count;
} qll_existing_stage;

/** The greatest set pressure of a stage, the next one's inlet; NaN if it has none. */
double qll_existing_highest_set_pa_gauge(const qll_existing_stage *stage);

/** The meter's log of a scenario, as the survey names and describes it. */
typedef struct qll_survey_log {
    const char *name; /* of the file; NULL = there is none */
    qll_place place;  /* of the name, for a problem with the file */
    qll_flow_log_options options;
} qll_survey_log;

typedef struct qll_survey {
    const char *name;
    qll_unit_system units;
    qll_site site;
    const qll_pipe_family *station_family;
    const qll_pipe_size
        *service_size; /* last pipe before the station, or NULL: "the pipe's size" */
    const qll_pipe_size *station_size; /* of the pipe it is built in; NULL = not given */
    const qll_costs *costs; /* as it gives them itself: NaN and no sizes where it gives none; NULL =
                             * none. What holds is site.costs. */
    const qll_scenario *scenarios; /* what their logs say is not in them yet */
    const qll_survey_log *logs;    /* [scenario] */
    size_t scenario_count;
    const qll_existing_stage *existing;
    size_t existing_count; /* stages; 0 if there is none */
} qll_survey;

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
