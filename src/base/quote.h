/* Somebody else's text made safe to show: in sentences, in paths, on a terminal, in JSON. */
#ifndef QUELL_BASE_QUOTE_H
#define QUELL_BASE_QUOTE_H

#include "base/text.h"

/* A sentence quotes this many characters of what was found; the rest is cut with "...". */
#define QLL_QUOTE_CHARACTERS 60

/**
 * Writes @p text so that nothing in it can act on a terminal, reorder a line or hide: control characters,
 * line separators, direction marks and what takes no room become escapes (\n, \u001b, \u202e), bytes that
 * are not UTF-8 become U+FFFD.
 */
void qll_write_visible(qll_writer *writer, qll_text text);

/** The same between double quotes, with \" and \\, cut after QLL_QUOTE_CHARACTERS. */
void qll_write_quoted(qll_writer *writer, qll_text text);

/** The same between double quotes in full: a JSON string (RFC 8259, section 7). */
void qll_write_json_text(qll_writer *writer, qll_text text);

#endif
