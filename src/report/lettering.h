/* Letters on paper: how wide they are, how a text breaks into lines, which bytes may be shown. */
#ifndef QUELL_REPORT_LETTERING_H
#define QUELL_REPORT_LETTERING_H

#include "quell/pages.h"

#include "base/text.h"

/* Text is never made smaller than 9 point to fit (our assumption of what is read in a mechanical room). */
#define QLL_LETTERS_LEAST_MM (9 * QLL_POINT_MM)

/* From one base line to the next, and from the top of a line to its base line, in em. */
#define QLL_LINE_EM     1.3
#define QLL_ASCENT_EM   0.97
#define QLL_CAPITALS_EM 0.727 /* height of capitals and digits */

/**
 * The text as it may be shown: control characters, line ends and tabs become blanks; marks that turn the
 * direction of writing, and the byte order mark, are left out; what is no UTF-8 or no character becomes
 * U+FFFD. The result is well-formed UTF-8 without bytes below 0x20.
 *
 * @return a text in @p arena; "" without memory
 */
qll_text qll_text_clean(qll_text text, qll_arena *arena);

/**
 * Width of one line, mm, set in Inter with figures of equal width and no joined letters.
 *
 * The sum of the characters' own widths, from Inter 4.0; pairs of letters that stand closer are not
 * counted, so that the real width is this or less, in rare pairs up to 1 % more. A character outside the
 * table (lettering_widths.h) counts as one em.
 */
double qll_text_width_mm(qll_text text, double size_mm, qll_weight weight);

/**
 * The first line of @p rest that takes at most @p width_mm; @p rest moves on to the next line. Lines break
 * at blanks, line ends and hyphens between letters; between a number and its unit, and within a word, only
 * where there is no other place. A line has at least one character unless it ends at once. Call while
 * rest->size > 0.
 */
qll_text qll_text_line(qll_text *rest, double width_mm, double size_mm, qll_weight weight);

/** True if the blank between @p before and @p behind parts a number from its unit, as in "63.7 psi" or "DN 50". */
bool qll_text_is_number_and_unit(qll_text before, qll_text behind);

/** Width of the widest piece that a line should not be broken in. */
double qll_text_widest_word_mm(qll_text text, double size_mm, qll_weight weight);

/** How many lines of @p width_mm the text takes. */
size_t qll_text_line_count(qll_text text, double width_mm, double size_mm, qll_weight weight);

#endif
