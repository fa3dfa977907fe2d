#include "base/quote.h"

#include "base/character.h"

#include <stdint.h>

typedef struct style {
    bool escapes_quotes;
    size_t most_characters;
} style;

static void write_code_unit(qll_writer *writer, unsigned unit)
{
    qll_write(writer, "\\u");
    for (unsigned shift = 16; shift > 0; shift -= 4) {
        qll_write_byte(writer, "0123456789abcdef"[(unit >> (shift - 4U)) & 0xFU], 1);
    }
}

static void write_escape(qll_writer *writer, uint32_t point)
{
    static const char named[] = "\bb\tt\nn\ff\rr";
    for (size_t i = 0; named[i] != '\0'; i += 2) {
        if (point == (unsigned char)named[i]) {
            qll_write_byte(writer, '\\', 1);
            qll_write_byte(writer, named[i + 1], 1);
            return;
        }
    }
    if (point > 0xFFFF) { /* two surrogates, as JSON writes it (RFC 8259, section 7) */
        write_code_unit(writer, 0xD800U + ((point - 0x10000U) >> 10U));
        point = 0xDC00U + (point & 0x3FFU);
    }
    write_code_unit(writer, point);
}

static void write_shown(qll_writer *writer, qll_text text, style how)
{
    const char *plain_from = text.bytes;
    for (size_t count = 0; text.size > 0 && count < how.most_characters; count++) {
        const char *start = text.bytes;
        const uint32_t point = qll_character_next(&text);
        const size_t size = (size_t)(text.bytes - start);
        const bool is_broken = point == QLL_REPLACEMENT && size == 1;
        const bool is_quote = how.escapes_quotes && (point == '"' || point == '\\');
        const bool is_hidden = qll_character_is_control(point) || qll_character_is_unseen(point);
        if (!is_broken && !is_quote && !is_hidden) {
            continue;
        }
        qll_write_text(writer, (qll_text){plain_from, (size_t)(start - plain_from)});
        plain_from = text.bytes;
        if (is_broken) {
            qll_write(writer, "\xEF\xBF\xBD");
        } else if (is_quote) {
            qll_write_byte(writer, '\\', 1);
            qll_write_byte(writer, (char)point, 1);
        } else {
            write_escape(writer, point);
        }
    }
    qll_write_text(writer, (qll_text){plain_from, (size_t)(text.bytes - plain_from)});
    if (text.size > 0) {
        qll_write(writer, "...");
    }
}

void qll_write_visible(qll_writer *writer, qll_text text)
{
    write_shown(writer, text, (style){.escapes_quotes = false, .most_characters = SIZE_MAX});
}

void qll_write_quoted(qll_writer *writer, qll_text text)
{
    qll_write_byte(writer, '"', 1);
    write_shown(writer, text,
                (style){.escapes_quotes = true, .most_characters = QLL_QUOTE_CHARACTERS});
    qll_write_byte(writer, '"', 1);
}

void qll_write_json_text(qll_writer *writer, qll_text text)
{
    qll_write_byte(writer, '"', 1);
    write_shown(writer, text, (style){.escapes_quotes = true, .most_characters = SIZE_MAX});
    qll_write_byte(writer, '"', 1);
}
