/* A report as one HTML file that needs nothing else: styles and drawings are inside, no scripts. */
#ifndef QUELL_REPORT_HTML_H
#define QUELL_REPORT_HTML_H

#include "findings/drawn.h"
#include "report/sheet.h"

/** Writes @p sheet as HTML 5. Same sheet, same bytes. Texts from outside are shown, never obeyed. */
void qll_html_write(qll_writer *writer, const qll_sheet *sheet);

/** The drawings of the same, with what a page needs to read them; each stands in it as "NAME-svg". False without memory. */
bool qll_html_drawn(const qll_sheet *sheet, qll_arena *arena, const qll_drawn_figure **drawn,
                    size_t *count);

/** Colours of the words that stand out, as ink on paper: both renderers use them, and a test works out
 * their contrast (WCAG 2.1, 1.4.3). */
typedef struct qll_ink {
    qll_colour ink, paper;
} qll_ink;

qll_ink qll_tone_ink(qll_tone tone);
qll_ink qll_tone_ink_in_the_dark(qll_tone tone); /* of a page on a screen */

#endif
