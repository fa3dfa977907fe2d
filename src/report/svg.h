/* One page of a canvas as SVG 1.1 with real text. */
#ifndef QUELL_REPORT_SVG_H
#define QUELL_REPORT_SVG_H

#include "report/canvas.h"

/** Coordinates are written in CSS pixels, 96 to the inch: browsers that enforce a least font size compare
 * it with the size before scaling. */
#define QLL_PIXELS_PER_MM (96.0 / 25.4)

typedef struct qll_svg_about {
    const char *id;          /* unique among the drawings of one page; letters, digits and "-" */
    const char *title;       /* one line: what it is */
    const char *description; /* what it shows, for those who do not see it; "" if none */
    bool is_part;            /* of an HTML page: without the XML declaration */
    bool is_styled;          /* by the page's own style, without one of its own */
} qll_svg_about;

/**
 * Writes page @p page (from 0) of @p canvas. Same input, same bytes; nothing is fetched from anywhere.
 *
 * Every id begins with that of the drawing. Colours stand on the elements and, by class, in a style that follows
 * the page round it: theme.h.
 *
 * Marks are left out: a drawing is one picture with a title and a description.
 */
void qll_svg_write(qll_writer *writer, const qll_canvas *canvas, size_t page,
                   const qll_svg_about *about);

#endif
