/* How ink stands out from paper: relative luminance and contrast ratio (WCAG 2.1). */
#ifndef QUELL_TESTS_CONTRAST_H
#define QUELL_TESTS_CONTRAST_H

#include "report/canvas.h"

#include <math.h>

static inline double contrast_channel(double value)
{
    return value <= 0.03928 ? value / 12.92 : pow((value + 0.055) / 1.055, 2.4);
}

static inline double contrast_luminance(qll_colour colour)
{
    return 0.2126 * contrast_channel(colour.red) + 0.7152 * contrast_channel(colour.green)
           + 0.0722 * contrast_channel(colour.blue);
}

static inline double contrast_of(qll_colour ink, qll_colour paper)
{
    double a = contrast_luminance(ink) + 0.05;
    double b = contrast_luminance(paper) + 0.05;
    return a > b ? a / b : b / a;
}

#endif
