/* The nearest valid word, for hints. */
#ifndef QUELL_BASE_WORDS_H
#define QUELL_BASE_WORDS_H

#include "base/text.h"

/**
 * The entry of @p words nearest to @p given, ignoring case, or NULL if none is near enough.
 *
 * Distance: restricted Damerau-Levenshtein on bytes; near enough = at most a third of the longer
 * word, and at least one allowed, but never so many that nothing is left in common. Ties go to the
 * earlier word. Words over 64 bytes are not tried.
 */
const char *qll_words_nearest(qll_text given, const char *const *words, size_t count);

#endif
