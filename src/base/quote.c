#include "base/quote.h"

#include <stdint.h>
#include <string.h>

typedef struct style {
    bool escapes_quotes;
    size_t most_characters;
} style;

/* Size in bytes of the character at the start of well-formed @p text if it must not be shown as it
 * is, with its code point (all lie below U+10000); 0 if it may. */
static size_t hidden_size(qll_text text, unsigned *code)
{
    const unsigned char *bytes = (const unsigned char *)text.bytes;
    *code = bytes[0];
    if (bytes[0] < 0x20 || bytes[0] == 0x7F) {
        return 1;
    }
    if (bytes[0] == 0xC2 && bytes[1] < 0xA0) { /* U+0080 to U+009F: control characters */
        *code = bytes[1];
        return 2;
    }
    if (bytes[0] == 0xD8
        && bytes[1] == 0x9C) { /* U+061C: the Arabic letter mark, a direction mark */
        *code = 0x061C;
        return 2;
    }
    if (bytes[0] != 0xE2 || (bytes[1] != 0x80 && bytes[1] != 0x81)) {
        return 0;
    }
    *code = 0x2000U + ((bytes[1] & 0x3FU) << 6U) + (bytes[2] & 0x3FU);
    bool is_separator = *code == 0x2028 || *code == 0x2029;
    bool is_direction = (*code >= 0x202A && *code <= 0x202E) || (*code >= 0x2066 && *code <= 0x2069)
                        || *code == 0x200E || *code == 0x200F;
    return is_separator || is_direction ? 3 : 0;
}

static void write_escape(qll_writer *writer, unsigned code)
{
    static const char named[] = "\bb\tt\nn\ff\rr";
    for (size_t i = 0; named[i] != '\0'; i += 2) {
        if (code == (unsigned char)named[i]) {
            qll_write_byte(writer, '\\', 1);
            qll_write_byte(writer, named[i + 1], 1);
            return;
        }
    }
    qll_write(writer, "\\u");
    for (unsigned shift = 16; shift > 0; shift -= 4) {
        qll_write_byte(writer, "0123456789abcdef"[(code >> (shift - 4U)) & 0xFU], 1);
    }
}

static size_t character_size(unsigned char first)
{
    return first < 0x80 ? 1 : first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
}

/* Writes well-formed @p text until *count reaches the most; returns how many bytes that took. */
static size_t write_well_formed(qll_writer *writer, qll_text text, style how, size_t *count)
{
    size_t plain_from = 0;
    size_t at = 0;
    while (at < text.size && *count < how.most_characters) {
        qll_text rest = {text.bytes + at, text.size - at};
        unsigned code = 0;
        size_t size = hidden_size(rest, &code);
        bool is_quote = how.escapes_quotes && (rest.bytes[0] == '"' || rest.bytes[0] == '\\');
        *count += 1;
        if (size == 0 && !is_quote) {
            at += character_size((unsigned char)rest.bytes[0]);
            continue;
        }
        qll_write_text(writer, (qll_text){text.bytes + plain_from, at - plain_from});
        if (is_quote) {
            qll_write_byte(writer, '\\', 1);
            qll_write_byte(writer, rest.bytes[0], 1);
            size = 1;
        } else {
            write_escape(writer, code);
        }
        at += size;
        plain_from = at;
    }
    qll_write_text(writer, (qll_text){text.bytes + plain_from, at - plain_from});
    return at;
}

static void write_shown(qll_writer *writer, qll_text text, style how)
{
    size_t count = 0;
    while (text.size > 0 && count < how.most_characters) {
        size_t well_formed = qll_text_utf8_end(text);
        size_t written =
            write_well_formed(writer, (qll_text){text.bytes, well_formed}, how, &count);
        text.bytes += written;
        text.size -= written;
        if (written == well_formed && text.size > 0 && count < how.most_characters) {
            qll_write(writer, "\xEF\xBF\xBD");
            count += 1;
            text.bytes += 1;
            text.size -= 1;
        }
    }
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
