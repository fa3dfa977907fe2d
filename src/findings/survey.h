/* A survey as it was read. */
#ifndef QUELL_FINDINGS_SURVEY_H
#define QUELL_FINDINGS_SURVEY_H

#include "base/problems.h"
#include "base/units.h"
#include "demand/scenario.h"
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

/** The meter's log of a scenario, as the survey names and describes it. */
typedef struct qll_survey_log {
    const char *name; /* of the file; NULL = there is none */
    qll_place place;  /* of the name, for a problem with the file */
    qll_flow_log_options options;
} qll_survey_log;

/** What stands at the head of the sheets; NULL = a line to write on. */
typedef struct qll_project {
    const char *name, *customer, *address;
    const char *prepared_by, *license; /* whoever answers for the sheets, and under which number */
    const char *revision;
} qll_project;

typedef struct qll_survey {
    const char *name;
    qll_project project;
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

#endif
