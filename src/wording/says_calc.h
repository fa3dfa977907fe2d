/* What people read of a handbook calculation: its names, and its figures in their units. */
#ifndef QUELL_WORDING_SAYS_CALC_H
#define QUELL_WORDING_SAYS_CALC_H

#include "handbook/handbook.h"
#include "wording/messages.h"

const char *qll_say_calc_title(qll_language language, const qll_calc *calc);
const char *qll_say_calc_validity(qll_language language, const qll_calc *calc);
const char *qll_say_calc_source(qll_language language, const qll_calc *calc);

/** What a result or field of it called @p key is: "velocity"; the key itself where it has no name. */
const char *qll_say_calc_figure(qll_language language, const char *key);

/** A step's formula, and where it comes from. */
const char *qll_say_calc_step(qll_language language, qll_calc_step_id step);
const char *qll_say_calc_from(qll_language language, qll_calc_step_id step);

/** A figure of what @p key names, with its unit in @p units: "5.8 ft/s", "43 dB(A)", "12 %". */
void qll_wording_calc_figure(qll_writer *writer, const char *key, double si, qll_kind kind,
                             qll_unit_system units);

/** The same without its unit, for a column whose head has it. */
void qll_wording_calc_bare(qll_writer *writer, const char *key, double si);

/** The value @p index of a result: a figure, a word, or yes or no. */
void qll_wording_calc_value(qll_writer *writer, qll_language language, qll_unit_system units,
                            const qll_calc_result *result, size_t index);

/** What a step finds: "velocity 5.8 ft/s; Reynolds number 45 200". */
void qll_wording_calc_found(qll_writer *writer, qll_language language, qll_unit_system units,
                            const qll_calc_step *step);

/** Its formula and what goes into it: "v = Q / (pi d^2 / 4), with Q = 12 gpm, d = 1 in". */
void qll_wording_calc_formula(qll_writer *writer, qll_language language, qll_unit_system units,
                              const qll_calc_step *step);

#endif
