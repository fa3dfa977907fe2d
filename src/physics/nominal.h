/* Nominal sizes as tables print them, and which of them the trade holds for the same. */
#ifndef QUELL_PHYSICS_NOMINAL_H
#define QUELL_PHYSICS_NOMINAL_H

#include "base/text.h"

/**
 * A printed nominal size as a length, m: "1-1/4 in" and "1-1/4" are inches, "DN 50" and "DN50"
 * millimetres, "28 x 1.5" (outside by wall) the outside in millimetres. NaN if it is none of these.
 */
double qll_nominal_read_m(qll_text printed);

/**
 * True if the trade takes both for one size: within 2 %, or an inch size and its DN number
 * ("1/2 in" and "DN 15"; ISO 6708 and ASME B36.10M, from memory).
 */
bool qll_nominal_same(double a_m, double b_m);

/** True unless pipe comes in this size but valves and strainers do not: 5/8 and 3-1/2 in (common
 * practice, no source). */
bool qll_nominal_has_valves(double nominal_m);

#endif
