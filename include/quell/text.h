/* A text as it is handed over. */
#ifndef QUELL_TEXT_H
#define QUELL_TEXT_H

#include <stddef.h>

/** Some bytes of somebody else's text, UTF-8; not closed by a zero byte unless it is said. */
typedef struct qll_text {
    const char *bytes;
    size_t size;
} qll_text;

#endif
