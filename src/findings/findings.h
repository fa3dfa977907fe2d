/* What the questions have found, every figure of it: whoever writes or draws only says it. */
#ifndef QUELL_FINDINGS_FINDINGS_H
#define QUELL_FINDINGS_FINDINGS_H

#include "base/assumed.h"
#include "findings/beside.h"
#include "findings/capacity_sheet.h"
#include "findings/drawn.h"
#include "findings/job.h"
#include "findings/moving.h"
#include "findings/parts.h"
#include "findings/scenario_figures.h"
#include "findings/station_curves.h"
#include "findings/station_figures.h"
#include "findings/survey.h"
#include "search/cures.h"
#include "search/design.h"
#include "signals/sound.h"
#include "station/ladder.h"
#include "station/map.h"
#include "station/seat_tone.h"
#include "station/service.h"
#include "wording/wording.h"

/** By what the sheets name the survey they were made from, and when. */
typedef struct qll_provenance {
    const char *survey_file;   /* its name without folders */
    const char *survey_digest; /* the first of its SHA-256, in hexadecimal */
    const char *date;          /* ISO 8601; NULL = not given */
} qll_provenance;

typedef struct qll_demand_findings {
    qll_provenance provenance;
    const qll_survey *survey;
    qll_language language;               /* of what people read, in machine documents too */
    const qll_demand *demands;           /* [scenario] */
    const qll_scenario_figures *figures; /* [scenario] */
    double low_flow_m3s;                 /* the flow that their changes are given at */
    const double *upstream_drop_pa; /* [element before the station] at the greatest design peak;
                                     * NULL where no station is asked for */
    const qll_service *service;     /* what it carries; looked at where a station is asked for */
    const qll_flow_log_result *const *logs; /* [scenario] NULL where there is none */
    const qll_assumed *assumed;
    const qll_problems *problems;
    const qll_said *sources;
    size_t source_count;
    unsigned left_out; /* parts that were not asked for: what stands for them here means nothing */
    const qll_drawn_figure *drawn; /* in the answer for machines; NULL = none was asked for */
    size_t drawn_count;
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
    const qll_station_figures *figures; /* [station of those shown] */
    const qll_operating_point *points;  /* of the recommended station at the middle supply: no flow
                                        * first, then rising flow up to the design peak */
    size_t point_count;
    qll_way way;                            /* of the recommended station */
    const qll_commissioning *commissioning; /* of the same; NULL where there is none */
    const qll_job *job;                     /* likewise */
    const qll_station_curves *curves;       /* of the same; NULL where none is drawn */
    const qll_moving *moving;               /* of the same; NULL where none was asked for */
} qll_design_findings;

typedef struct qll_check_findings {
    qll_demand_findings demand;
    const qll_catalogue *catalogue;
    const qll_duty *duty;
    const qll_station *station;
    const qll_assessment *assessment;
    qll_station_figures figures;
    qll_spectrum loudest, typical;     /* of the assessment's points of these names */
    const qll_operating_point *points; /* flow never falling; the first is no flow */
    const double *outlet_rising_pa, *outlet_falling_pa; /* [point], absolute: which way the flow
                                                         * came from, by hysteresis */
    const char *const *point_supplies; /* [point] which supply: "low", "middle", "high", "given" */
    size_t point_count;
    qll_way way;
    const qll_station_curves *curves; /* NULL where none is drawn */
    const qll_noise_cause *causes;
    size_t cause_count;
    const qll_cures *cures;
    const qll_cure_parts *cure_parts; /* [cure] */
    const qll_moving *moving;         /* NULL where none was asked for */
    bool is_nominal; /* judged at the middle of what is not known, for no chance is asked for */
} qll_check_findings;

/** The file that a report went into. */
typedef struct qll_report_file {
    const char *path;
    const char *format; /* "pdf", "html", "svg" */
    size_t size;
    size_t page_count; /* 0 = it has no pages */
} qll_report_file;

/** What was made of an answer for people. */
typedef struct qll_report_facts {
    const char *of;                  /* "demand", "design", "check" */
    const qll_check_findings *check; /* NULL but of a check */
    const char *paper;               /* "Letter", "A4"; NULL for a figure alone */
    const char *plot;                /* of a figure alone: "map-2"; else NULL */
    const char *const *sections;     /* words, in their order */
    size_t section_count;
    const qll_report_file *file; /* NULL = none was written */
    qll_sheets_told page;        /* for who asked for no file */
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

/** What a recording holds. */
typedef struct qll_listen_findings {
    const char *name; /* of the recording */
    const qll_sound_result *result;
    const double (
        *gram_db)[QLL_SOUND_BANDS]; /* [row of the result's gram] against full scale, to 0.1 dB */
    const double *level_db,
        *quiet_level_db; /* [band] of the medians; the latter NULL without a recording with everything shut */
    const qll_seat_tone *seat_tone;    /* NULL without a station */
    double tone_hz;                    /* of the squeal; NaN = none */
    const qll_beside_findings *beside; /* NULL without a log */
    qll_unit_system units;
    qll_language language; /* of what people read */
    const qll_assumed *assumed;
    const qll_problems *problems;
    const qll_said *sources;
    size_t source_count;
    unsigned left_out; /* parts that were not asked for */
    qll_sheets_told page;
} qll_listen_findings;

#endif
