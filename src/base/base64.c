#include "base/base64.h"

#include <string.h>

static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

void qll_base64_write(qll_writer *writer, qll_text bytes)
{
    for (size_t at = 0; at < bytes.size; at += 3) {
        const size_t left = bytes.size - at < 3 ? bytes.size - at : 3;
        unsigned group = 0;
        for (size_t i = 0; i < 3; i++) {
            group = group << 8 | (i < left ? (unsigned char)bytes.bytes[at + i] : 0U);
        }
        for (size_t i = 0; i < 4; i++) {
            qll_write_byte(writer, i <= left ? letters[group >> (18 - 6 * i) & 63U] : '=', 1);
        }
    }
}

/* The value of a letter; 64 of no letter. */
static unsigned value_of(char letter)
{
    const char *found = letter == '\0' ? NULL : strchr(letters, letter);
    return found == NULL ? 64U : (unsigned)(found - letters);
}

bool qll_base64_read(qll_text text, qll_arena *arena, qll_text *bytes)
{
    size_t size = text.size;
    while (size > 0 && text.size - size < 2 && text.bytes[size - 1] == '=') {
        size--;
    }
    char *made = text.size % 4 == 0 ? qll_arena_take(arena, text.size / 4 * 3 + 1, 1) : NULL;
    size_t count = 0;
    unsigned group = 0;
    for (size_t i = 0; made != NULL && i < size; i++) {
        const unsigned value = value_of(text.bytes[i]);
        if (value == 64U) {
            return false;
        }
        group = (group << 6 | value) & 0xffffffU;
        /* Each letter but the first of four ends a byte. */
        if (i % 4 != 0) {
            made[count] = (char)(group >> (6 - 2 * (i % 4)) & 255U);
            count += 1;
        }
    }
    *bytes = (qll_text){made, count};
    /* A single letter is no byte, and what is left over is zero. */
    return made != NULL && size % 4 != 1
           && (size % 4 == 0 || (group & (size % 4 == 2 ? 15U : 3U)) == 0);
}
