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

/* "12.0", "1-1/2", "<20", "(8", a "____" to be filled in: what its unit must not be torn from. */
static bool is_number(qll_text word)
{
    static const char marks[] = {'.', ',', '-', '/', '+', '<', ':', '('};
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

/* A word without the marks that end a sentence or a part of it. */
static qll_text unmarked(qll_text word)
{
    while (word.size > 0 && strchr(",;:.)", word.bytes[word.size - 1]) != NULL) {
        word.size -= 1;
    }
    return word;
}

static bool is_whole(qll_text word)
{
    size_t digits = 0;
    while (digits < word.size && word.bytes[digits] >= '0' && word.bytes[digits] <= '9') {
        digits += 1;
    }
    return digits > 0 && digits == word.size;
}

/* Of "2.3 to 1", "2.3 a 1" and "1 in 25" the size of what follows the number @p word; 0 where there is no such thing. */
static size_t ratio_size(qll_text word, qll_text rest)
{
    size_t blanks = 0;
    const qll_text link = bare_word(rest, &blanks);
    const size_t size = blanks + link.size;
    const qll_text last = bare_word((qll_text){rest.bytes + size, rest.size - size}, &blanks);
    const bool is_ratio = (qll_text_is(link, "to") || qll_text_is(link, "a"))
                          && qll_text_is(unmarked(last), "1") && is_number(word);
    const bool is_chance = qll_text_is(link, "in") && is_whole(unmarked(last)) && is_whole(word);
    return is_ratio || is_chance ? size + blanks + last.size : 0;
}

/* The next word that a line may end behind: "12.0 psi", "99 %", "DN 65" and "2.3 to 1" are one. */
static qll_text next_word(qll_text text)
{
    size_t blanks = 0;
    qll_text word = bare_word(text, &blanks);
    qll_text rest = {word.bytes + word.size, text.size - blanks - word.size};
    qll_text next = bare_word(rest, &blanks);
    bool is_size = qll_text_is(word, "DN") && is_number(next);
    bool has_unit = is_number(word) && next.size > 0 && next.size <= QLL_UNIT_SIZE;
    const size_t ratio = ratio_size(word, rest);
    if (ratio > 0) {
        word.size += ratio;
    } else if (blanks == 1 && (is_size || has_unit)) {
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
