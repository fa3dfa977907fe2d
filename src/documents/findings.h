/* What the questions have found: read by the JSON writers and by the plain-text sheets alike. */
#ifndef QUELL_DOCUMENTS_FINDINGS_H
#define QUELL_DOCUMENTS_FINDINGS_H

#include "base/assumed.h"
#include "documents/drawn.h"
#include "documents/parts.h"
#include "documents/read_capacity.h"
#include "documents/read_survey.h"
#include "handbook/handbook.h"
#include "search/cures.h"
#include "search/design.h"
#include "station/map.h"
#include "station/service.h"
#include "wording/wording.h"

typedef struct qll_demand_findings {
    const qll_survey *survey;
    qll_language language;      /* of what people read; machine documents are in English */
    const qll_demand *demands;  /* [scenario] */
    const qll_service *service; /* what it carries; looked at where a station is asked for */
    const qll_flow_log_result *const *logs; /* [scenario] NULL where there is none */
    const qll_assumed *assumed;
    const qll_problems *problems;
    const char *const *sources;
    size_t source_count;
    unsigned left_out; /* parts that were not asked for: what stands for them here means nothing */
    const qll_drawn_figure *figures; /* in the answer for machines; NULL = none was asked for */
    size_t figure_count;
} qll_demand_findings;

/** The whole way of the water through a station, and where its valves are in trouble. */
typedef struct qll_way {
    const qll_ladder *ladders;
    size_t ladder_count;
    const qll_map *maps;
    size_t map_count;
} qll_way;

typedef struct qll_design_findings {
    qll_demand_findings demand;
    const qll_catalogue *catalogue;
    const qll_duty *duty;
    const qll_design *design;
    const qll_operating_point *points; /* of the recommended station at the middle supply: no flow
                                        * first, then rising flow up to the design peak */
    size_t point_count;
    qll_way way; /* of the recommended station */
} qll_design_findings;

typedef struct qll_check_findings {
    qll_demand_findings demand;
    const qll_catalogue *catalogue;
    const qll_duty *duty;
    const qll_station *station;
    const qll_assessment *assessment;
    const qll_operating_point *points; /* flow never falling; the first is no flow */
    const double *outlet_rising_pa, *outlet_falling_pa; /* [point], absolute: which way the flow
                                                         * came from, by hysteresis */
    const char *const *point_supplies; /* [point] which supply: "low", "middle", "high", "given" */
    size_t point_count;
    qll_way way;
    const qll_noise_cause *causes;
    size_t cause_count;
    const qll_cures *cures;
} qll_check_findings;

/** The file that a report went into. */
typedef struct qll_report_file {
    const char *path;
    const char *format; /* "pdf", "html", "svg" */
    size_t size;
    size_t page_count; /* 0 = it has no pages */
} qll_report_file;

/** What was made of a design for people. */
typedef struct qll_report_facts {
    const char *paper;           /* "Letter", "A4"; NULL for a figure alone */
    const char *plot;            /* of a figure alone: "map-2"; else NULL */
    const char *const *sections; /* words, in their order */
    size_t section_count;
    const qll_report_file *file; /* NULL = none was written */
} qll_report_facts;

/** A valve fitted to its published capacity points. */
typedef struct qll_fit_findings {
    const qll_capacity_sheet *sheet;
    const qll_valve_fit *fit;
    qll_valve valve;
    qll_catalogue catalogue; /* of that valve alone */
    bool is_straight;        /* the entry has the band; else the points */
    qll_unit_system units;
    qll_language language; /* of what people read */
    const qll_assumed *assumed;
    const qll_problems *problems;
} qll_fit_findings;

/** The valves of a catalogue, to be looked through. */
typedef struct qll_list_findings {
    const qll_catalogue *catalogue;
    qll_unit_system units;
    qll_language language; /* of what people read */
    const qll_assumed *assumed;
    const qll_problems *problems;
} qll_list_findings;

/* The machine documents of docs/formats/answers.md (write_demand.c, write_design.c, write_report.c,
 * write_check.c, write_calc.c, write_common.c). Every member is listed in docs/formats/answers.md. */
void qll_demand_write(qll_json *json, const qll_demand_findings *findings);
void qll_design_write(qll_json *json, const qll_design_findings *findings);
void qll_report_write(qll_json *json, const qll_design_findings *findings,
                      const qll_report_facts *facts);
void qll_check_write(qll_json *json, const qll_check_findings *findings);
void qll_fit_write(qll_json *json, const qll_fit_findings *findings);
void qll_list_write(qll_json *json, const qll_list_findings *findings);
/** One calculation; @p problems are the warnings that came with it. */
void qll_calc_write(qll_json *json, const qll_calc_answer *answer, const qll_problems *problems);
/** The list of all calculations with their inputs. */
void qll_calc_list_write(qll_json *json);
/** The answer to a refused question: its verb and its problems, nothing else. */
void qll_refusal_write(qll_json *json, const char *verb, const qll_problems *problems);

#endif
