/* The members that several answers share, written once. */
#ifndef QUELL_DOCUMENTS_WRITE_COMMON_H
#define QUELL_DOCUMENTS_WRITE_COMMON_H

#include "documents/answers.h"

/** A figure, or null where it is unknown (NaN) or without bound (infinite). */
void qll_json_figure(qll_json *json, double value);

/** The list @p key of such figures. */
void qll_json_put_values(qll_json *json, const char *key, const double *values, size_t count);

/** The figure of @p key, or null where it is unknown (NaN) or without bound (infinite). */
void qll_json_put_figure(qll_json *json, const char *key, double value);

/** A place in a list; null where it is none (SIZE_MAX). */
void qll_json_put_index(qll_json *json, const char *key, size_t index);

/** An absolute pressure as gauge; null if NaN, or below none: what would need it cannot be. */
void qll_json_put_gauge(qll_json *json, const char *key, double absolute_pa, double barometric_pa);

/** A problem, as an entry of "problems". */
void qll_json_problem(qll_json *json, const qll_problem *problem);

/** The members "quell" and "problems". */
void qll_json_put_head(qll_json *json, const char *verb, const qll_wording *wording,
                       const qll_problems *problems);

/** The members "assumed", "sources" and "cautions". */
void qll_json_put_parents(qll_json *json, const qll_wording *wording, const qll_assumed *assumed,
                          const qll_said *sources, size_t source_count);

/** What was stored as a value, said; @p key NULL in a list. */
void qll_json_put_said(qll_json *json, const char *key, const qll_wording *wording,
                       const qll_said *said);

/** The list "says": what was stored as values, said one after the other. */
void qll_json_put_sentences(qll_json *json, const qll_wording *wording, const qll_said *sentences,
                            size_t count);

/** Head and parents of an answer about a survey, and the member "survey" with its name. */
void qll_json_put_common(qll_json *json, const char *verb, const qll_demand_findings *findings);

/** The word of docs/formats/answers.md for a method: both code tables are "fixture-units". */
const char *qll_method_word(qll_peak_method method);

/** What a station is judged over: scenario @p index with its design peak and the basis of it. @p duty
 * NULL: no station was asked for, and what the service carries was not looked at. */
void qll_json_put_scenario_head(qll_json *json, const qll_wording *wording,
                                const qll_demand *demand, const qll_duty *duty, size_t index);

/** The member "scenarios" of design/1 and check/1: their heads. */
void qll_json_put_scenario_heads(qll_json *json, const qll_demand_findings *findings,
                                 const qll_duty *duty);

/** The member "scenarios" of demand/1 (@p duty NULL) and report/1: all that is known of each. */
void qll_json_put_scenarios(qll_json *json, const qll_demand_findings *findings,
                            const qll_duty *duty);

/** The members of a design behind its scenarios: stations, which one and why, what it does. */
void qll_json_put_design(qll_json *json, const qll_design_findings *findings);

/** The members of a check behind its scenarios: what is there, what it does, what would cure it. */
void qll_json_put_check(qll_json *json, const qll_check_findings *findings);

/** The members "verdicts", "sensitivity" and "time_shares". */
void qll_json_put_verdicts(qll_json *json, const qll_wording *wording, const qll_station *station,
                           const qll_assessment *assessment);

/**
 * Opens an object and writes the members of an operating point; the caller closes it and may add
 * members.
 */
void qll_json_open_point(qll_json *json, const qll_wording *wording, const qll_station *station,
                         const qll_operating_point *point);

/** The member "level_note". */
void qll_json_put_level_note(qll_json *json, const qll_wording *wording, qll_text_id note);

/** The member @p key: a station by what it is made of. */
void qll_json_put_station_name(qll_json *json, const char *key, const qll_wording *wording,
                               const qll_station *station);

/** The member "stages" with the valves alone, of a station that was not looked at closer. */
void qll_json_put_layout(qll_json *json, const qll_station *station);

/** The member "stages", what the station is made of, and those of its closed system. */
void qll_json_put_stages(qll_json *json, const qll_wording *wording, const qll_station *station,
                         const qll_assessment *assessment, const qll_station_figures *figures);

/** The list "parts"; empty where @p pieces is NULL. */
void qll_json_put_pieces(qll_json *json, const qll_pieces *pieces);

/** The members "parts" and "installing"; both empty without a job. */
void qll_json_put_job(qll_json *json, const qll_job *job);

/** One verdict of an event, its sentence where it has one. */
void qll_json_put_event_verdict(qll_json *json, const qll_wording *wording,
                                const qll_event_verdict *verdict);

/** The member "motion": the events that were run; none where NULL. */
void qll_json_put_moving(qll_json *json, const qll_wording *wording, const qll_moving *moving);

/** The members "ladder" and "maps", without those in the set @p left_out. */
void qll_json_put_way(qll_json *json, const qll_wording *wording, const qll_way *way,
                      unsigned left_out);

/** The member "figures"; nothing where none was asked for. */
void qll_json_put_figures(qll_json *json, const qll_drawn_figure *drawn, size_t count);

/** The members "html" and "figures" of sheets; nothing where none were asked for. */
void qll_json_put_sheets(qll_json *json, const qll_sheets_told *page);

/** The members "log", null without one, and "hours"; "comparison" of all scenarios with the first. */
void qll_json_put_log(qll_json *json, const qll_wording *wording, const qll_demand *demand,
                      const qll_flow_log_result *log);
void qll_json_put_hours(qll_json *json, const qll_demand *demand);
void qll_json_put_comparison(qll_json *json, const qll_wording *wording,
                             const qll_demand_findings *findings);

/** The member "cost"; @p currency NULL = not said. */
void qll_json_put_cost(qll_json *json, const qll_cost *cost, const char *currency);

/** The members "fit" and "breaks": the hard rules a station breaks, none of one that is fit. */
void qll_json_put_breaches(qll_json *json, const qll_fitness *fitness);

/** The member "beside": a log put beside a recording; null without one. */
void qll_beside_write(qll_json *json, const qll_wording *wording,
                      const qll_beside_findings *beside);

/** The member @p key with the text that was written to @p says; "" if there was no memory. */
void qll_json_put_written(qll_json *json, const char *key, qll_writer *says);

/** What was made of an answer for people: files, language, paper, title block, sections. */
void qll_json_put_made(qll_json *json, const qll_report_facts *facts,
                       const qll_demand_findings *demand);

#endif
