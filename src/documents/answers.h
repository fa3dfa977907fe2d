/* The machine documents of docs/formats/answers.md, where every member is listed. */
#ifndef QUELL_DOCUMENTS_ANSWERS_H
#define QUELL_DOCUMENTS_ANSWERS_H

#include "base/document.h"
#include "findings/findings.h"
#include "findings/pressure.h"
#include "findings/simulated.h"
#include "handbook/handbook.h"

void qll_demand_write(qll_json *json, const qll_demand_findings *findings);
void qll_design_write(qll_json *json, const qll_design_findings *findings);
void qll_report_write(qll_json *json, const qll_design_findings *findings,
                      const qll_report_facts *facts);
void qll_check_write(qll_json *json, const qll_check_findings *findings);
void qll_fit_write(qll_json *json, const qll_fit_findings *findings);
void qll_listen_write(qll_json *json, const qll_listen_findings *findings);
/** An event in the pipes: simulate/1. */
void qll_simulated_write(qll_json *json, const qll_simulated_findings *findings);
void qll_list_write(qll_json *json, const qll_list_findings *findings);
/** What a log of pressures says: log/1. */
void qll_pressure_write(qll_json *json, const qll_pressure_findings *findings);
/** One calculation; @p problems are the warnings that came with it, @p wording needs units and language only. */
void qll_calc_write(qll_json *json, const qll_calc_answer *answer, const qll_wording *wording,
                    const qll_problems *problems);
/** The list of all calculations with their inputs. */
void qll_calc_list_write(qll_json *json, const qll_wording *wording);
/** The answer to a refused question: its verb and its problems, nothing else. */
void qll_refusal_write(qll_json *json, const char *verb, const qll_wording *wording,
                       const qll_problems *problems);

#endif
