#include "base/wrap.h"

#include <string.h>

/* A longer word behind a number is no unit. */
#define QLL_UNIT_SIZE 8

static qll_text bare_word(qll_text text, size_t *blanks)
{
    size_t at = 0;
    while (at < text.size && text.bytes[at] == ' ') {
        at += 1;
    }
    *blanks = at;
    size_t end = at;
    while (end < text.size && text.bytes[end] != ' ') {
        end += 1;
    }
    return (qll_text){text.bytes + at, end - at};
}

/* "12.0", "1-1/2", "<20", a "____" to be filled in: what its unit must not be torn from. */
static bool is_number(qll_text word)
{
    static const char marks[] = {'.', ',', '-', '/', '+', '<', ':'};
    bool has_digit = false;
    for (size_t i = 0; i < word.size; i++) {
        char byte = word.bytes[i];
        bool is_digit = (byte >= '0' && byte <= '9') || byte == '_';
        if (!is_digit && memchr(marks, byte, sizeof marks) == NULL) {
            return false;
        }
        has_digit = has_digit || is_digit;
    }
    return has_digit;
}

/* The next word that a line may end behind: "12.0 psi", "99 %" and "DN 65" are one. */
static qll_text next_word(qll_text text)
{
    size_t blanks = 0;
    qll_text word = bare_word(text, &blanks);
    qll_text rest = {word.bytes + word.size, text.size - blanks - word.size};
    qll_text next = bare_word(rest, &blanks);
    bool is_size = qll_text_is(word, "DN") && is_number(next);
    bool has_unit = is_number(word) && next.size > 0 && next.size <= QLL_UNIT_SIZE;
    if (blanks == 1 && (is_size || has_unit)) {
        word.size += 1 + next.size;
    }
    return word;
}

/* As much of @p text as @p width columns hold, by whole characters. */
static qll_text cut_to(qll_text text, size_t width)
{
    size_t end = 0;
    size_t taken = 0;
    while (end < text.size) {
        size_t next = end + 1;
        while (next < text.size && ((unsigned char)text.bytes[next] & 0xC0U) == 0x80U) {
            next += 1;
        }
        if (taken == width) {
            break;
        }
        taken += 1;
        end = next;
    }
    return (qll_text){text.bytes, end};
}

/* The first word of @p text; no more of it than fills a line of @p width, unless that is 0. */
static qll_text first_word(qll_text text, size_t width)
{
    qll_text word = next_word(text);
    if (width == 0 || qll_text_width(word) <= width) {
        return word;
    }
    size_t blanks = 0;
    return cut_to(bare_word(text, &blanks), width);
}

qll_text qll_line_taken(qll_text *rest, size_t width)
{
    qll_text line = first_word(*rest, width);
    qll_text word = line;
    for (;;) {
        const char *end = rest->bytes + rest->size;
        line.size = (size_t)(word.bytes + word.size - line.bytes);
        qll_text behind = {word.bytes + word.size, (size_t)(end - word.bytes) - word.size};
        word = next_word(behind);
        qll_text longer = {line.bytes, (size_t)(word.bytes - line.bytes) + word.size};
        if (word.size == 0 || qll_text_width(longer) > width) {
            *rest = word.size == 0 ? (qll_text){end, 0} : behind;
            return line;
        }
    }
}

void qll_write_wrapped(qll_writer *writer, const char *first, qll_text text)
{
    size_t indent = qll_text_width(qll_text_of(first));
    size_t room = indent < QLL_PLAIN_WIDTH ? QLL_PLAIN_WIDTH - indent : 0;
    qll_write(writer, first);
    qll_write_text(writer, qll_line_taken(&text, room));
    while (text.size > 0) {
        qll_write_byte(writer, '\n', 1);
        qll_write_byte(writer, ' ', indent);
        qll_write_text(writer, qll_line_taken(&text, room));
    }
    qll_write_byte(writer, '\n', 1);
}
