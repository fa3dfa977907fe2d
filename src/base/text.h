/* Slices, a growing writer, and numbers to text and back without a locale. */
#ifndef QUELL_BASE_TEXT_H
#define QUELL_BASE_TEXT_H

#include "quell/arena.h"
#include "quell/text.h"

#include <stdbool.h>

/** The whole of @p closed, up to its zero byte. */
qll_text qll_text_of(const char *closed);

bool qll_text_equal(qll_text a, qll_text b);

static inline bool qll_is_digit(char byte)
{
    return byte >= '0' && byte <= '9';
}

/** True if @p text is exactly the word @p closed. */
bool qll_text_is(qll_text text, const char *closed);

/** What stands behind the last slash of @p path; "" of NULL. */
const char *qll_text_file_name(const char *path);

/** The text without blanks (space, tab, CR, LF, no-break space U+00A0) at either end. */
qll_text qll_text_trimmed(qll_text text);

/** Whether @p text ends in @p ending and has something before it. */
bool qll_text_ends_in(qll_text text, const char *ending);

/** Takes the next of a list parted by commas off @p rest, without the blanks around it; false after the last. */
bool qll_text_take_item(qll_text *rest, qll_text *item);

/** A copy closed by a zero byte, owned by @p arena; NULL without memory. */
const char *qll_text_closed(qll_text text, qll_arena *arena);

/**
 * Reads the number at the start of @p text: digits with an optional sign, decimal point, exponent.
 *
 * Never depends on a locale; hexadecimal, "inf" and "nan" are not numbers; the result is the
 * nearest double.
 *
 * @param value set only on success; always finite
 * @return how many bytes the number takes; 0 if there is none or it is too large for a double
 */
size_t qll_text_number(qll_text text, double *value);

/** Column (from 1, in characters not bytes) and line of byte @p offset in UTF-8 @p text. */
void qll_text_position(qll_text text, size_t offset, int *line, int *column);

/** First byte that is not part of well-formed UTF-8, or text.size if all is well. */
size_t qll_text_utf8_end(qll_text text);

/** Writes the character @p code, up to U+10FFFF, as UTF-8; how many bytes it takes, at most 4. */
size_t qll_utf8_put(unsigned code, char *to);

/** A text that grows in an arena. After the first failure all writing is ignored; whoever hands the text over
 * asks the arena whether it has refused (qll_arena_refused()), and nobody between needs to. */
typedef struct qll_writer {
    qll_arena *arena;
    char *bytes;
    size_t size, room;
    bool no_memory; /* the writer's own: it writes no more */
} qll_writer;

qll_writer qll_writer_new(qll_arena *arena);
void qll_write(qll_writer *writer, const char *closed);
void qll_write_text(qll_writer *writer, qll_text text);
void qll_write_byte(qll_writer *writer, char byte, size_t times);

/** printf in the C locale, whatever locale the process has chosen: %s %c %d %u %zu, also with l and ll, %f %e %g; 0, +, a width before
 * numbers and a precision, which may be a star; nothing else. */
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
void qll_write_format(qll_writer *writer, const char *format, ...);

/** The fewest digits, from 15 up, that read back as the same double, without trailing zeros: "0.1",
 * "1e-07", "60". Finite only. */
void qll_write_number(qll_writer *writer, double value);

/** What was written, closed by a zero byte that does not count; "" after a failure, never NULL. */
qll_text qll_writer_text(qll_writer *writer);

/** How many columns the UTF-8 @p text takes on a terminal, counting one per character. */
size_t qll_text_width(qll_text text);

#endif
