/* The colours of a drawing by class, so that a page can restyle it: docs/formats/answers.md, figures. */
#ifndef QUELL_REPORT_THEME_H
#define QUELL_REPORT_THEME_H

#include "report/canvas.h"

/** The attribute class of a shape: "f-ink s-paper" for its fill and its line. Nothing for colours without a name. */
void qll_theme_write_class(qll_writer *writer, const qll_paint *paint);

/**
 * A <style> for the classes of @p items within the drawing called @p id: each colour is the page's custom property
 * --quell-NAME where the page sets it, else as drawn, in a page of dark colour scheme its dark counterpart.
 */
void qll_theme_write_style(qll_writer *writer, const qll_item *items, size_t count, const char *id);

#endif
