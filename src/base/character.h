/* Characters one by one, and which of them must not reach a reader as they are. */
#ifndef QUELL_BASE_CHARACTER_H
#define QUELL_BASE_CHARACTER_H

#include "base/text.h"

#include <stdint.h>

/* Stands for what cannot be shown (Unicode, the replacement character). */
#define QLL_REPLACEMENT 0xFFFDU

/**
 * The code point at the start of @p rest, which moves on behind it. One byte that is no UTF-8 counts as
 * U+FFFD. @p rest must not be empty.
 */
uint32_t qll_character_next(qll_text *rest);

/** Marks that are not seen but change how their neighbours are shown, and soft hyphens. */
bool qll_character_is_unseen(uint32_t point);

/** Control characters and separators of lines. */
bool qll_character_is_control(uint32_t point);

#endif
