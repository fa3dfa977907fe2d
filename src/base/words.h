/* Words of a list: where one stands, and the nearest valid one, for hints. */
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

/** The place of @p word, to the letter, among @p words; @p count if it is not there. */
size_t qll_words_place(qll_text word, const char *const *words, size_t count);

/** Whether @p word is one of the words that @p list holds with @p parting between them. */
bool qll_words_hold(const char *list, char parting, qll_text word);

/** What else something is called. */
typedef struct qll_other_word {
    const char *said, *word;
} qll_other_word;

#endif
