/* What fills the holes of sentences: texts in a writer's arena. Each is "" where memory is out, which the arena
 * counts. */
#ifndef QUELL_WORDING_TEXTS_H
#define QUELL_WORDING_TEXTS_H

#include "wording/wording.h"

/** A line of a gauge in bar that a hand can set to (our assumption). */
#define QLL_GAUGE_SI_PA 5e3

/** A pipe size: "1-1/4 in", "DN 32". */
const char *qll_text_size(qll_writer *writer, double nominal_m, qll_unit_system units);

/** A change of a gauge's reading, as a hand can read it: a tenth of a psi, 0.05 bar (our assumption). */
const char *qll_text_reading(qll_arena *arena, double change_pa, qll_unit_system units);

/** A quantity, rounded by the rule of its kind. */
const char *qll_text_quantity(qll_writer *writer, double si, qll_kind kind, qll_unit_system units);

/** A difference of pressures, no finer than 0.1 psi or 0.01 bar (our choice): what is less is "<0.1 psi" in a table,
 * "less than 0.1 psi" in a sentence; what is wanting is never none. */
const char *qll_text_bare_difference(qll_writer *writer, double pa, qll_unit_system units);
const char *qll_text_difference(qll_writer *writer, qll_language language, double pa,
                                qll_unit_system units);

/** @p text with a capital first, where that is a letter from a to z. */
const char *qll_text_capital(qll_arena *arena, const char *text);

/** How far from the pipe sound levels are told: IEC 60534-8-4 takes 1 m. */
const char *qll_text_near(qll_unit_system units);

/** A whole number. */
const char *qll_text_whole(qll_writer *writer, double whole);

/** A message with its tokens filled in. */
const char *qll_text_said(qll_writer *writer, qll_language language, qll_message message,
                          const qll_filling *fillings, size_t count);

/** The same beside what it is held against: qll_units_write_beside(). */
const char *qll_text_beside(qll_writer *writer, double si, double other_si, qll_kind kind,
                            qll_unit_system units);

/** A share in whole percent, with a digit more what is not quite all; what is not quite nothing is "<1 %" in a
 * table, "under 1 %" in a sentence. */
const char *qll_text_bare_share(qll_writer *writer, double share);
const char *qll_text_share(qll_writer *writer, qll_language language, double share);

/** A plain figure with so many decimals, more where it takes them to tell it from @p other. */
const char *qll_text_decimals(qll_writer *writer, double value, double other, int decimals);

#endif
