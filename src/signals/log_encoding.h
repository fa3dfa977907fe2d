/* Logs that are not UTF-8: UTF-16 on the way in, Latin-1 in names and units. */
#ifndef QUELL_SIGNALS_LOG_ENCODING_H
#define QUELL_SIGNALS_LOG_ENCODING_H

#include "quell/problems.h"

#include "base/text.h"

#include <stdint.h>

typedef enum qll_utf16_mode {
    QLL_UTF16_OPEN, /* the first two bytes are not there yet */
    QLL_UTF16_NOT,  /* plain bytes */
    QLL_UTF16_LITTLE,
    QLL_UTF16_BIG
} qll_utf16_mode;

typedef struct qll_utf16 {
    qll_utf16_mode mode;
    unsigned char held; /* a byte that waits for the next */
    bool has_held;
    uint32_t high; /* the first half of a character beyond 16 bits; 0 = none */
} qll_utf16;

/** Takes bytes in UTF-8. */
typedef qll_status qll_utf8_sink(void *context, const char *bytes, size_t size);

/** Hands the next bytes on as UTF-8: as they are, unless the first two show UTF-16. */
QLL_MUST_USE qll_status qll_utf16_feed(qll_utf16 *u, const char *bytes, size_t size,
                                       qll_utf8_sink *sink, void *context);

/** Hands on what is still held at the end. */
QLL_MUST_USE qll_status qll_utf16_end(qll_utf16 *u, qll_utf8_sink *sink, void *context);

/** A text that is no UTF-8 read as Latin-1, in @p arena; else the text itself. Without memory too. */
qll_text qll_text_from_latin1(qll_text text, qll_arena *arena);

#endif
