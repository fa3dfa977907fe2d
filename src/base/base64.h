/* Bytes as text of 64 characters (RFC 4648, 4). */
#ifndef QUELL_BASE_BASE_SIXTY_FOUR_H
#define QUELL_BASE_BASE_SIXTY_FOUR_H

#include "base/text.h"

void qll_base64_write(qll_writer *writer, qll_text bytes);

/** @param bytes in @p arena. @return false where @p text is no base64, padded and without breaks, or without memory */
bool qll_base64_read(qll_text text, qll_arena *arena, qll_text *bytes);

#endif
