/* The single values of JSON: texts and numbers, and how sentences quote a token. Used by
 * document_syntax.c only. */
#ifndef QUELL_BASE_DOCUMENT_SCALAR_H
#define QUELL_BASE_DOCUMENT_SCALAR_H

#include "base/source.h"

/** True for the bytes that words and numbers are made of. */
bool qll_scalar_is_word(char byte);

/** The word, number or single character at byte @p at, as a sentence quotes it. */
qll_text qll_scalar_token(const qll_scan *scan, size_t at);

/**
 * Moves behind the text in quotes at scan->at (RFC 8259, section 7).
 *
 * @param escaped_size grows by the bytes between the quotes if they hold an escape
 * @return false after a refusal: SYNTAX or ENCODING
 */
bool qll_scalar_text(qll_scan *scan, size_t *escaped_size);

/** Moves behind the number at scan->at (RFC 8259, section 6); false after a refusal: SYNTAX. */
bool qll_scalar_number(qll_scan *scan);

#endif
