/* What the questions share: what is being asked, and a survey made ready for an answer. */
#ifndef QUELL_ENGINE_ENGINE_H
#define QUELL_ENGINE_ENGINE_H

#include "quell/quell.h"

#include "documents/answers.h"
#include "documents/read_catalogue.h"
#include "documents/read_survey.h"
#include "report/sheet.h"
#include "search/design.h"
#include "station/service.h"

/** A figure that is asked for: of report/pictures.h, and of which scenario or valve, from 0; SIZE_MAX = each. */
typedef struct qll_asked_figure {
    size_t kind, number;
} qll_asked_figure;

struct qll_kept;
typedef struct qll_kept_scenario qll_kept_scenario; /* engine/keep.h */

/** One question on its way to an answer. */
typedef struct qll_asked {
    const qll_question *question;
    qll_arena *arena;
    const qll_document *survey; /* where it is a part of the document; NULL = the document is it */
    qll_language language;      /* of what people read of the answer, in JSON too */
    qll_unit_system units;      /* of refusals and warnings: the question's, else the survey's */
    uint64_t seed;              /* of random draws */
    qll_problems problems;
    qll_assumed assumed;
    unsigned of;           /* report: a qll_report_of of report/report.h */
    unsigned sections;     /* report: bits of report/report.h */
    unsigned length;       /* report: a qll_report_length of report/report.h */
    qll_asked_figure plot; /* report as SVG */
    unsigned left_out;     /* parts that are not in the answer */
    unsigned skipped; /* parts that are not worked out: of the former all that no figure needs */
    qll_asked_figure *figures; /* in the answer; NULL = none */
    size_t figure_count;
    double phase_from, phase_to;  /* of the phase under way, as shares of the whole */
    double told;                  /* greatest share reported */
    bool is_stopped;              /* progress said stop */
    struct qll_kept *kept;        /* what did not change since other questions; NULL = nothing */
    qll_asking *asking;           /* diagnose: what is asked next, in place of an answer; NULL */
    struct qll_made_report *made; /* report: a front end makes the file of it; else NULL */
    qll_writer writer;            /* the answer grows here */
} qll_asked;

/** Whether anything is drawn of the answer. */
static inline bool qll_asked_draws(const qll_asked *asked)
{
    return asked->question->verb == QLL_VERB_REPORT || asked->figures != NULL;
}

/* One function per verb; each writes its answer in the form asked for. */
QLL_MUST_USE qll_status qll_ask_demand(qll_asked *asked);
QLL_MUST_USE qll_status qll_ask_design(qll_asked *asked);
QLL_MUST_USE qll_status qll_ask_check(qll_asked *asked);
QLL_MUST_USE qll_status qll_ask_calc(qll_asked *asked);
QLL_MUST_USE qll_status qll_ask_import(qll_asked *asked);
QLL_MUST_USE qll_status qll_ask_fit(qll_asked *asked);
QLL_MUST_USE qll_status qll_ask_list(qll_asked *asked);
QLL_MUST_USE qll_status qll_ask_listen(qll_asked *asked);
QLL_MUST_USE qll_status qll_ask_report(qll_asked *asked);
QLL_MUST_USE qll_status qll_ask_diagnose(qll_asked *asked);
QLL_MUST_USE qll_status qll_ask_learn(qll_asked *asked);
QLL_MUST_USE qll_status qll_ask_log(qll_asked *asked);
QLL_MUST_USE qll_status qll_ask_simulate(qll_asked *asked);
QLL_MUST_USE qll_status qll_ask_describe(qll_asked *asked);

/** Adds a refusal about the question itself; @p source names the option or argument. */
void qll_asked_refuse(qll_asked *asked, qll_code code, const char *source, const qll_said *says,
                      const qll_said *hint);

/** Gives the front end that makes a file what it makes it of: the pages of @p sheet, or the text that the answer holds
 * by now, where the file is no PDF. */
QLL_MUST_USE qll_status qll_asked_hand_over(qll_asked *asked, const qll_sheet *sheet);

/** Writes @p sheet as HTML, unless the front end makes a PDF, and hands it over where there is one. */
QLL_MUST_USE qll_status qll_asked_write_sheet(qll_asked *asked, const qll_sheet *sheet);

/** Writes @p sheet as one page that stands inside an answer. False without memory. */
bool qll_asked_tell_sheet(qll_asked *asked, const qll_sheet *sheet, qll_sheets_told *page);

/** QLL_OK, or why the answer cannot be handed over. */
QLL_MUST_USE qll_status qll_asked_finish(const qll_asked *asked);

/** A survey read, with the demand of every scenario. */
typedef struct qll_prepared {
    qll_document document;
    qll_tables tables;
    qll_survey survey;
    const qll_flow_log_result **logs;    /* [scenario] NULL where there is none */
    qll_demand *demands;                 /* [scenario] */
    qll_kept_scenario **kept;            /* [scenario] NULL where it is not kept */
    const qll_scenario_figures *figures; /* [scenario] */
    qll_service service;                 /* once qll_prepare_header() has looked */
    qll_said *sources;
    size_t source_count, source_room;
} qll_prepared;

/** Reads the survey of the question and works out its demands. Problems are collected. */
QLL_MUST_USE qll_status qll_prepare_survey(qll_asked *asked, qll_prepared *prepared);

/** Reads the logs that the survey names into its scenarios (metered.c). Problems are collected. */
QLL_MUST_USE qll_status qll_prepare_logs(qll_asked *asked, qll_prepared *prepared);

/** Reads the log @p of; what is wrong with the file itself goes to @p found, with the question's arena as theirs. QLL_OK,
 * QLL_REFUSED, QLL_IO, QLL_STOPPED or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_read_scenario_log(qll_asked *asked, const qll_survey_log *of,
                                              qll_problems *found,
                                              const qll_flow_log_result **result);

/** What the demand takes of the log called @p name; NULL without memory. */
const qll_metered *qll_metered_of(qll_asked *asked, const char *name,
                                  const qll_flow_log_result *log);

/** Reads the question's catalogue, or the generic one if none is given, and nothing else. */
QLL_MUST_USE qll_status qll_read_catalogue(qll_asked *asked, qll_catalogue *catalogue);

/** Reads the question's catalogue; its costs and the survey's become the site's. */
QLL_MUST_USE qll_status qll_prepare_catalogue(qll_asked *asked, qll_prepared *prepared,
                                              qll_catalogue *catalogue);

/** What the service carries, the pipe the station is built into and the size no valve may exceed, from
 * the survey or its demands; noted as assumed. */
void qll_prepare_header(qll_asked *asked, qll_prepared *prepared);

/** The flows and supplies of the survey, from its demands. */
QLL_MUST_USE qll_status qll_prepare_duty(qll_asked *asked, const qll_prepared *prepared,
                                         qll_duty *duty);

/** By what sheets name the document of the question, and its date. */
qll_provenance qll_provenance_of(const qll_asked *asked);

/** The part of the findings that all questions about a survey share. */
qll_demand_findings qll_prepared_findings(const qll_asked *asked, const qll_prepared *prepared);

/** Adds a source to those of the answer, once. */
void qll_prepared_source(qll_asked *asked, qll_prepared *prepared, qll_said source);

/** A station found for the survey and catalogue of the question. Its parts point at one another. */
typedef struct qll_designed {
    qll_prepared prepared;
    qll_catalogue catalogue;
    qll_duty duty;
    qll_design design;
    qll_design_findings findings;
} qll_designed;

/** Survey, catalog and duty of a design; problems are collected. */
QLL_MUST_USE qll_status qll_design_prepare(qll_asked *asked, qll_designed *designed);

/** The station for what was prepared, and what its choice hangs on where that is asked for: @p designed has its design. */
QLL_MUST_USE qll_status qll_design_choose(qll_asked *asked, qll_designed *designed);

/** Reads, searches, and works out what the recommended station does. */
QLL_MUST_USE qll_status qll_find_design(qll_asked *asked, qll_designed *designed);

/** The station that is there, followed over its flows. Its parts point at one another. */
typedef struct qll_checked {
    qll_prepared prepared;
    qll_catalogue catalogue;
    qll_station station;
    qll_duty duty;
    qll_assessment assessment;
    qll_check_findings findings;
} qll_checked;

/** Reads survey, catalogue and the station that is there, and nothing else: for qll_find_check() and what compares with it. */
QLL_MUST_USE qll_status qll_prepare_existing(qll_asked *asked, qll_prepared *prepared,
                                             qll_catalogue *catalogue, qll_station *station);

/** Reads survey, catalogue and the station that is there, and works out what it does and what would cure it. */
QLL_MUST_USE qll_status qll_find_check(qll_asked *asked, qll_checked *checked);

/** Reads the survey and works out its demands; @p findings point into @p prepared. */
QLL_MUST_USE qll_status qll_find_demand(qll_asked *asked, qll_prepared *prepared,
                                        qll_demand_findings *findings);

#endif
