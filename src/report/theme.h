/* The colours of a drawing by class, so that a page can restyle it: docs/formats/answers.md, figures. */
#ifndef QUELL_REPORT_THEME_H
#define QUELL_REPORT_THEME_H

#include "report/canvas.h"

/** Names of colours: ink to paper in steps of a hundredth, then those of curves. */
#define QLL_THEME_NAMES 106

/** Which names fill shapes and letters, and which draw lines; the last: of colours without a name. */
typedef struct qll_theme_used {
    bool fills[QLL_THEME_NAMES + 1], lines[QLL_THEME_NAMES + 1];
} qll_theme_used;

/** The attribute class of a shape: "f-ink s-paper" for its fill and its line. Nothing for colours without a name. */
void qll_theme_write_class(qll_writer *writer, const qll_paint *paint);

/** Adds the names of what is drawn. */
void qll_theme_see(qll_theme_used *used, const qll_item *items, size_t count);

/**
 * A <style> for the classes @p used within the drawing called @p id: each colour is the page's custom property
 * --quell-NAME where the page sets it, else as drawn, in a page of dark colour scheme its dark counterpart.
 */
void qll_theme_write_style(qll_writer *writer, const qll_theme_used *used, const char *id);

/** One rule each for the dark counterparts of @p used in all drawings of a page, for its own style. */
void qll_theme_write_dark(qll_writer *writer, const qll_theme_used *used);

#endif
