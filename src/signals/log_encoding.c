#include "signals/log_encoding.h"

#include <string.h>

/* ---- UTF-16 ---- */

typedef struct utf8_block {
    char bytes[4096];
    size_t size;
} utf8_block;

static void put(utf8_block *out, uint32_t code)
{
    out->size += qll_utf8_put(code, out->bytes + out->size);
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

qll_text qll_text_from_latin1(qll_text text, qll_arena *arena)
{
    if (qll_text_utf8_end(text) == text.size) {
        return text;
    }
    char *bytes = qll_arena_take(arena, text.size * 2, 1);
    if (bytes == NULL) {
        return text;
    }
    size_t size = 0;
    for (size_t i = 0; i < text.size; i++) {
        size += qll_utf8_put((unsigned char)text.bytes[i], bytes + size);
    }
    return (qll_text){bytes, size};
}
