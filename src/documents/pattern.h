/* Texts as regular expressions, in what ECMA-262 and others have in common. They take whatever the readers take. */
#ifndef QUELL_DOCUMENTS_PATTERN_H
#define QUELL_DOCUMENTS_PATTERN_H

#include "base/kind.h"
#include "base/text.h"

/** Blanks that readers leave off a text's ends. */
#define QLL_PATTERN_BLANKS "[ \\t\\r\\n\\u00a0]*"

/** One of @p words, capitals forgiven where @p any_case; inside brackets that catch nothing. */
void qll_pattern_words(qll_writer *writer, const char *const *words, size_t count, bool any_case);

/** A quantity of @p kind with its unit. */
const char *qll_pattern_quantity(qll_arena *arena, qll_kind kind);

/** "5/8 x 3/4 in". */
const char *qll_pattern_meter_size(qll_arena *arena);

#endif
