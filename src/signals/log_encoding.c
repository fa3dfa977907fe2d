#include "signals/log_encoding.h"

#include <string.h>

/* ---- UTF-16 ---- */

typedef struct utf8_block {
    char bytes[4096];
    size_t size;
} utf8_block;

static void put(utf8_block *out, uint32_t code)
{
    char *at = out->bytes + out->size;
    if (code < 0x80) {
        at[0] = (char)code;
        out->size += 1;
    } else if (code < 0x800) {
        at[0] = (char)(0xC0 | code >> 6);
        at[1] = (char)(0x80 | (code & 0x3F));
        out->size += 2;
    } else if (code < 0x10000) {
        at[0] = (char)(0xE0 | code >> 12);
        at[1] = (char)(0x80 | (code >> 6 & 0x3F));
        at[2] = (char)(0x80 | (code & 0x3F));
        out->size += 3;
    } else {
        at[0] = (char)(0xF0 | code >> 18);
        at[1] = (char)(0x80 | (code >> 12 & 0x3F));
        at[2] = (char)(0x80 | (code >> 6 & 0x3F));
        at[3] = (char)(0x80 | (code & 0x3F));
        out->size += 4;
    }
}

/* One half or the whole of a character; a half without its other is a mark of replacement. */
static void take_unit(qll_utf16 *u, uint32_t unit, utf8_block *out)
{
    const uint32_t mark = 0xFFFD;
    const bool is_low = unit >= 0xDC00 && unit < 0xE000;
    if (u->high != 0) {
        put(out, is_low ? 0x10000 + ((u->high - 0xD800) << 10) + (unit - 0xDC00) : mark);
        u->high = 0;
        if (is_low) {
            return;
        }
    }
    if (unit >= 0xD800 && unit < 0xDC00) {
        u->high = unit;
    } else if (unit != 0xFEFF) { /* the mark of the byte order */
        put(out, is_low ? mark : unit);
    }
}

static qll_utf16_mode mode_of(unsigned char first, unsigned char second)
{
    if ((first == 0xFF && second == 0xFE) || (first != 0 && second == 0)) {
        return QLL_UTF16_LITTLE;
    }
    if ((first == 0xFE && second == 0xFF) || (first == 0 && second != 0)) {
        return QLL_UTF16_BIG;
    }
    return QLL_UTF16_NOT;
}

static qll_status feed_pairs(qll_utf16 *u, const char *bytes, size_t size, qll_utf8_sink *sink,
                             void *context)
{
    utf8_block out;
    out.size = 0;
    for (size_t i = 0; i < size; i++) {
        const unsigned char byte = (unsigned char)bytes[i];
        if (!u->has_held) {
            u->held = byte;
            u->has_held = true;
            continue;
        }
        u->has_held = false;
        take_unit(u,
                  u->mode == QLL_UTF16_LITTLE ? (uint32_t)byte << 8 | u->held
                                              : (uint32_t)u->held << 8 | byte,
                  &out);
        if (out.size + 8 > sizeof out.bytes) {
            const qll_status status = sink(context, out.bytes, out.size);
            out.size = 0;
            if (status != QLL_OK) {
                return status;
            }
        }
    }
    return out.size == 0 ? QLL_OK : sink(context, out.bytes, out.size);
}

qll_status qll_utf16_feed(qll_utf16 *u, const char *bytes, size_t size, qll_utf8_sink *sink,
                          void *context)
{
    if (size == 0) {
        return QLL_OK;
    }
    if (u->mode == QLL_UTF16_NOT) {
        return sink(context, bytes, size);
    }
    if (u->mode == QLL_UTF16_OPEN) {
        if (!u->has_held && size == 1) {
            u->held = (unsigned char)bytes[0];
            u->has_held = true;
            return QLL_OK;
        }
        const char held = (char)u->held;
        const bool had = u->has_held;
        const char first = had ? held : bytes[0];
        u->mode = mode_of((unsigned char)first, (unsigned char)bytes[had ? 0 : 1]);
        if (u->mode == QLL_UTF16_NOT) {
            u->has_held = false;
            const qll_status status = had ? sink(context, &held, 1) : QLL_OK;
            return status == QLL_OK ? sink(context, bytes, size) : status;
        }
    }
    return feed_pairs(u, bytes, size, sink, context);
}

qll_status qll_utf16_end(qll_utf16 *u, qll_utf8_sink *sink, void *context)
{
    const char held = (char)u->held;
    const bool is_plain = u->mode == QLL_UTF16_OPEN && u->has_held;
    u->has_held = false;
    return is_plain ? sink(context, &held, 1) : QLL_OK;
}

/* ---- Latin-1 ---- */

/* Bytes of the UTF-8 character at @p at; 0 if it is none. */
static size_t character_size(const unsigned char *at, size_t left)
{
    const size_t size = *at < 0x80                  ? 1
                        : *at >= 0xC2 && *at < 0xE0 ? 2
                        : *at >= 0xE0 && *at < 0xF0 ? 3
                        : *at >= 0xF0 && *at < 0xF5 ? 4
                                                    : 0;
    if (size == 0 || size > left) {
        return 0;
    }
    for (size_t i = 1; i < size; i++) {
        if ((at[i] & 0xC0) != 0x80) {
            return 0;
        }
    }
    return size;
}

static bool is_utf8(qll_text text)
{
    size_t at = 0;
    while (at < text.size) {
        const size_t size = character_size((const unsigned char *)text.bytes + at, text.size - at);
        if (size == 0) {
            return false;
        }
        at += size;
    }
    return true;
}

qll_text qll_text_from_latin1(qll_text text, qll_arena *arena)
{
    if (text.size == 0 || is_utf8(text)) {
        return text;
    }
    char *bytes = qll_arena_take(arena, text.size * 2, 1);
    if (bytes == NULL) {
        return text;
    }
    size_t size = 0;
    for (size_t i = 0; i < text.size; i++) {
        const unsigned char byte = (unsigned char)text.bytes[i];
        if (byte >= 0x80) {
            bytes[size] = (char)(0xC0 | byte >> 6);
            size += 1;
        }
        bytes[size] = (char)(byte < 0x80 ? byte : 0x80 | (byte & 0x3F));
        size += 1;
    }
    return (qll_text){bytes, size};
}
