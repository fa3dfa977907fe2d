/* A text that grows, for logs longer than a line of C. */
#ifndef QUELL_TESTS_GROWING_H
#define QUELL_TESTS_GROWING_H

#include <stdlib.h>
#include <string.h>

typedef struct growing {
    char *bytes;
    size_t size, room;
} growing;

static inline void grow(growing *text, const char *more)
{
    size_t size = strlen(more);
    if (text->room - text->size <= size) {
        text->room = text->room * 2 + size + 4096;
        char *grown = realloc(text->bytes, text->room);
        if (grown == NULL) {
            abort();
        }
        text->bytes = grown;
    }
    memcpy(text->bytes + text->size, more, size);
    text->size += size;
}

#endif
