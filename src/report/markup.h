/* Text and colours as HTML and SVG write them. */
#ifndef QUELL_REPORT_MARKUP_H
#define QUELL_REPORT_MARKUP_H

#include "report/canvas.h"

/** Clean text (qll_text_clean) between tags or in an attribute: nothing in it means anything there. */
void qll_markup_write_clean(qll_writer *writer, qll_text text);

/** The same of text from anywhere, cleaned first; NULL is no text. */
void qll_markup_write(qll_writer *writer, const char *closed);

/** "#1a2b3c". */
void qll_markup_write_colour(qll_writer *writer, qll_colour colour);

#endif
