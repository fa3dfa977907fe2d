/* Sentences that wrap at words: plain text for a terminal or a pencil. */
#ifndef QUELL_BASE_WRAP_H
#define QUELL_BASE_WRAP_H

#include "base/text.h"

/* What a terminal and a printed page have. */
#define QLL_PLAIN_WIDTH 80

/** Takes from @p rest as many words as @p width holds, a number with its unit; of a word that is wider, what it holds. Width 0 takes
 * one word. */
qll_text qll_line_taken(qll_text *rest, size_t width);

/** Writes @p text wrapped to the plain width, a number with its unit, a word that is wider than a line
 * broken; @p first before the first line, blanks of the same width before the others. */
void qll_write_wrapped(qll_writer *writer, const char *first, qll_text text);

#endif
