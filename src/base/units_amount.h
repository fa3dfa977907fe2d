/* The number in front of a unit: decimals, fractions and mixed fractions. */
#ifndef QUELL_BASE_UNITS_AMOUNT_H
#define QUELL_BASE_UNITS_AMOUNT_H

#include "base/text.h"

typedef enum qll_amount_state {
    QLL_AMOUNT_READ,
    QLL_AMOUNT_NONE,      /* no number at the start */
    QLL_AMOUNT_TOO_LARGE, /* too large for a double */
    QLL_AMOUNT_FRACTION,  /* a fraction with 0 below, or 1 or more beside a whole number */
    QLL_AMOUNT_COMMA,     /* digits, a comma, digits */
} qll_amount_state;

/**
 * Reads "95", "-0.35", "1/2", "1-1/2", "1 1/2" and vulgar fraction characters at the start.
 *
 * @param value set if the amount was read
 * @param rest  what follows, without blanks at its ends; set if the amount was read
 */
qll_amount_state qll_amount_read(qll_text text, double *value, qll_text *rest);

/** True if @p text starts with a digit, a point and a digit, or a vulgar fraction. */
bool qll_amount_starts(qll_text text);

/**
 * True if @p text starts with whole numbers on both sides of a stroke that are two readings rather than a
 * fraction: 1 or more, or both of two digits or more ("120/60", "45/60"; our assumption).
 */
bool qll_amount_is_two(qll_text text);

#endif
