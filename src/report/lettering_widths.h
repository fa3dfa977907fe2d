/* Widths of characters of Inter, for layout without a font at hand. */
#ifndef QUELL_REPORT_LETTERING_WIDTHS_H
#define QUELL_REPORT_LETTERING_WIDTHS_H

#include "report/lettering.h"

#include <stdint.h>

/* Code points from first to last have their widths from start on. Ranges rise. */
typedef struct qll_width_range {
    uint32_t first, last;
    size_t start;
} qll_width_range;

#define QLL_WIDTH_COUNT 559

/* What is in no range, or missing in the font, counts as one em. */
#define QLL_WIDTH_OTHER 1000

extern const qll_width_range qll_width_ranges[];
extern const size_t qll_width_range_count;

/* Thousandths of an em, rounded up: Inter 4.0 (SIL Open Font License), Regular and Bold, with figures of
 * equal width; tests/paper/test_lettering_font.c compares them with the font. */
extern const uint16_t qll_widths[QLL_WEIGHT_COUNT][QLL_WIDTH_COUNT];

#endif
