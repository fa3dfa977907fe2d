/* A drawing of one or more pages; quell/pages.h says what they are. */
#ifndef QUELL_REPORT_CANVAS_H
#define QUELL_REPORT_CANVAS_H

#include "quell/pages.h"

#include "report/lettering.h"

#define QLL_BLACK      ((qll_colour){0.0, 0.0, 0.0})
#define QLL_WHITE      ((qll_colour){1.0, 1.0, 1.0})
#define QLL_GREY(dark) ((qll_colour){1.0 - (dark), 1.0 - (dark), 1.0 - (dark)})

/** An empty canvas with one page. */
qll_canvas qll_canvas_new(double width_mm, double height_mm, qll_arena *arena);

/** Goes on to another page. Marks may be open: a table can run on. */
void qll_canvas_page(qll_canvas *canvas);

/**
 * Joins @p count points (copied). A shape that holds a number which is not finite, or lies further than
 * 100 m out, is not drawn.
 */
void qll_canvas_path(qll_canvas *canvas, const qll_xy *points, size_t count, bool is_closed,
                     const qll_paint *paint);
void qll_canvas_line(qll_canvas *canvas, qll_xy from, qll_xy to, const qll_pen *pen);
void qll_canvas_rectangle(qll_canvas *canvas, qll_box box, const qll_paint *paint);
void qll_canvas_circle(qll_canvas *canvas, qll_xy centre, double radius_mm, const qll_paint *paint);

/**
 * One line of text from, about or up to @p at (the anchor) on the base line. Any bytes will do; they are
 * cleaned. Nothing limits its width: text from outside goes through the two below.
 */
void qll_canvas_text(qll_canvas *canvas, qll_xy at, qll_text text, const qll_letters *letters);

/** The same in letters so much smaller that it takes at most @p width_mm, but no smaller than
 * QLL_LETTERS_LEAST_MM: what is still too long then ends in an ellipsis. False if it does. */
bool qll_canvas_text_fit(qll_canvas *canvas, qll_xy at, qll_text text, double width_mm,
                         const qll_letters *letters);

/**
 * Text in lines within @p box, from its top, to its left, middle or right as the anchor says; not turned.
 * Letters are made smaller where needed as above. False if the text ends in an ellipsis.
 */
bool qll_canvas_text_box(qll_canvas *canvas, qll_box box, qll_text text,
                         const qll_letters *letters);

/** What is drawn up to the matching end is @p mark. Its text is copied. */
void qll_canvas_begin(qll_canvas *canvas, const qll_mark *mark);
void qll_canvas_end(qll_canvas *canvas);

/** Where links to "#name" lead. */
void qll_canvas_place(qll_canvas *canvas, qll_xy at, const char *name);

#endif
