#include "report/lettering.h"

#include "base/character.h"
#include "base/count.h"
#include "base/units.h"
#include "report/lettering_widths.h"

#include <math.h>
#include <string.h>

/* U+FFFE, U+FFFF and their like on other planes, and U+FDD0 to U+FDEF (Unicode, noncharacters). */
static bool is_no_character(uint32_t point)
{
    return (point & 0xFFFEU) == 0xFFFE || (point >= 0xFDD0 && point <= 0xFDEF);
}

qll_text qll_text_clean(qll_text text, qll_arena *arena)
{
    qll_writer writer = qll_writer_new(arena);
    while (text.size > 0) {
        const char *start = text.bytes;
        uint32_t point = qll_character_next(&text);
        if (qll_character_is_control(point)) {
            qll_write_byte(&writer, ' ', 1);
        } else if (point == QLL_REPLACEMENT || is_no_character(point)) {
            qll_write(&writer, "\xEF\xBF\xBD");
        } else if (!qll_character_is_unseen(point)) {
            qll_write_text(&writer, (qll_text){start, (size_t)(text.bytes - start)});
        }
    }
    return qll_writer_text(&writer);
}

static double width_em(uint32_t point, qll_weight weight)
{
    for (size_t i = 0; i < qll_width_range_count && point >= qll_width_ranges[i].first; i++) {
        const qll_width_range *range = &qll_width_ranges[i];
        if (point <= range->last) {
            return qll_widths[weight][range->start + (point - range->first)] / 1000.0;
        }
    }
    return QLL_WIDTH_OTHER / 1000.0;
}

double qll_text_width_mm(qll_text text, double size_mm, qll_weight weight)
{
    double sum_em = 0;
    while (text.size > 0) {
        uint32_t point = qll_character_next(&text);
        sum_em += qll_character_is_unseen(point)
                      ? 0
                      : width_em(qll_character_is_control(point) ? ' ' : point, weight);
    }
    return sum_em * size_mm;
}

static bool is_blank(uint32_t point)
{
    return point == ' ' || point == '\t' || point == '\r' || point == '\n';
}

/* Of any alphabet: a byte of two or more is taken for a letter's. */
static bool is_letter(char byte)
{
    return (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z')
           || (unsigned char)byte >= 0x80;
}

static void skip_blanks(qll_text *rest)
{
    while (rest->size > 0 && rest->bytes[0] != '\n' && is_blank((unsigned char)rest->bytes[0])) {
        rest->bytes += 1;
        rest->size -= 1;
    }
}

/* Is the hyphen at @p at of @p text inside a word, as in "wide-open"? Not in "-3", "1-1/2" or the name "G-D20". */
static bool breaks_at_hyphen(qll_text text, size_t at)
{
    return at > 1 && at + 2 < text.size && is_letter(text.bytes[at - 1])
           && is_letter(text.bytes[at - 2]) && is_letter(text.bytes[at + 1])
           && is_letter(text.bytes[at + 2]);
}

/* A unit as sheets write it behind a number. */
static bool is_unit(qll_text word)
{
    static const char *const others[] = {"%", "dB(A)", "mL/min", "min", "h", "ft", "m", "in"};
    for (size_t i = 0; i < QLL_COUNT(others); i++) {
        if (qll_text_is(word, others[i])) {
            return true;
        }
    }
    for (int kind = 0; kind < QLL_KIND_COUNT; kind++) {
        if (qll_text_is(word, qll_units_name((qll_kind)kind, QLL_UNITS_US))
            || qll_text_is(word, qll_units_name((qll_kind)kind, QLL_UNITS_SI))) {
            return true;
        }
    }
    return false;
}

/* "DN 50": here the unit stands before its number. */
static bool is_nominal_diameter(qll_text before, qll_text behind)
{
    return before.size >= 2 && memcmp(before.bytes + before.size - 2, "DN", 2) == 0
           && (before.size == 2 || !is_letter(before.bytes[before.size - 3])) && behind.size > 0
           && behind.bytes[0] >= '0' && behind.bytes[0] <= '9';
}

static bool is_digit(char byte)
{
    return byte >= '0' && byte <= '9';
}

/* Does @p text begin with @p word, which ends there? */
static bool begins_with(qll_text text, const char *word)
{
    const size_t size = strlen(word);
    return text.size >= size && memcmp(text.bytes, word, size) == 0
           && (text.size == size || strchr(" ,;:.)\n", text.bytes[size]) != NULL);
}

/* Does @p text end with a number and @p word? */
static bool ends_with(qll_text text, const char *word)
{
    return qll_text_ends_in(text, word) && is_digit(text.bytes[text.size - strlen(word) - 1]);
}

/* At a blank of "2.3 to 1", of its Spanish "2.3 a 1" or of "1 in 25". */
static bool is_ratio(qll_text before, qll_text behind)
{
    const bool begins = begins_with(behind, "to 1") || begins_with(behind, "a 1");
    const bool ends = ends_with(before, " to") || ends_with(before, " a");
    const bool is_chance = ends_with(before, " in") && behind.size > 0 && is_digit(behind.bytes[0]);
    return is_chance || (ends && begins_with(behind, "1")) || (ends_with(before, "") && begins);
}

/* At a blank of "4 x 3 in" or of "DN 80 x 65". */
static bool is_pair_of_sizes(qll_text before, qll_text behind)
{
    const bool is_behind = ends_with(before, " x") && behind.size > 0 && is_digit(behind.bytes[0]);
    return is_behind || (ends_with(before, "") && begins_with(behind, "x"));
}

bool qll_text_is_number_and_unit(qll_text before, qll_text behind)
{
    if (is_nominal_diameter(before, behind) || is_ratio(before, behind)
        || is_pair_of_sizes(before, behind)) {
        return true;
    }
    if (before.size == 0 || before.bytes[before.size - 1] < '0'
        || before.bytes[before.size - 1] > '9') {
        return false;
    }
    size_t size = 0;
    while (size < behind.size && strchr(" ,;:\n", behind.bytes[size]) == NULL) {
        size += 1;
    }
    qll_text word = {behind.bytes, size};
    if (is_unit(word)) {
        return true;
    }
    /* "2 psi." and "(80 %)" */
    bool is_closed = size > 1 && strchr(".)", behind.bytes[size - 1]) != NULL;
    word.size -= is_closed ? 1 : 0;
    return is_closed && is_unit(word);
}

double qll_text_widest_word_mm(qll_text text, double size_mm, qll_weight weight)
{
    double widest = 0;
    size_t start = 0;
    for (size_t i = 0; i <= text.size; i++) {
        bool ends = i == text.size || is_blank((unsigned char)text.bytes[i]);
        if (!ends) {
            continue;
        }
        qll_text word = {text.bytes + start, i - start};
        if (i < text.size) {
            qll_text behind = {text.bytes + i + 1, text.size - i - 1};
            if (qll_text_is_number_and_unit(word, behind)) {
                continue;
            }
        }
        widest = fmax(widest, qll_text_width_mm(word, size_mm, weight));
        start = i + 1;
    }
    return widest;
}

/* The last place up to which a line may go. */
typedef struct line_break {
    size_t size;    /* of the line */
    qll_text after; /* what follows it */
    bool is_there;
} line_break;

/* A word longer than the line is broken before the character @p before, but not before the first. */
static line_break within_word(const char *start, qll_text before, qll_text behind)
{
    qll_text after = before.bytes == start ? behind : before;
    return (line_break){(size_t)(after.bytes - start), after, true};
}

/* Behind a hyphen within a word that still fits. */
static bool may_break_behind(uint32_t point, const char *start, qll_text before, qll_text at)
{
    const qll_text text = {start, (size_t)(at.bytes - start) + at.size};
    return point == '-' && breaks_at_hyphen(text, (size_t)(before.bytes - start));
}

qll_text qll_text_line(qll_text *rest, double width_mm, double size_mm, qll_weight weight)
{
    const char *start = rest->bytes;
    qll_text at = *rest;
    line_break best = {0, *rest, false};
    line_break poor = best; /* between a number and its unit: only where there is no other */
    bool in_blanks = false;
    size_t blanks_from = 0;
    double taken_mm = 0;
    /* What adds up to a width exactly may come out larger by the last bits. */
    double room_mm = width_mm * (1 + 1e-9);
    while (at.size > 0) {
        qll_text before = at;
        uint32_t point = qll_character_next(&at);
        if (is_blank(point)) {
            /* A run of blanks is no part of the line it ends. */
            blanks_from = in_blanks ? blanks_from : (size_t)(before.bytes - start);
            bool is_held = qll_text_is_number_and_unit((qll_text){start, blanks_from}, at);
            *(is_held ? &poor : &best) = (line_break){blanks_from, at, true};
            if (point == '\n') {
                *rest = at;
                return (qll_text){start, blanks_from};
            }
        }
        in_blanks = is_blank(point);
        taken_mm += qll_text_width_mm((qll_text){before.bytes, (size_t)(at.bytes - before.bytes)},
                                      size_mm, weight);
        if (taken_mm <= room_mm || is_blank(point)) {
            if (may_break_behind(point, start, before, at)) {
                best = (line_break){(size_t)(at.bytes - start), at, true};
            }
            continue;
        }
        best = best.is_there ? best : poor;
        if (!best.is_there) {
            best = within_word(start, before, at);
        }
        skip_blanks(&best.after);
        *rest = best.after;
        return (qll_text){start, best.size};
    }
    *rest = at;
    return (qll_text){start, in_blanks ? blanks_from : (size_t)(at.bytes - start)};
}

size_t qll_text_line_count(qll_text text, double width_mm, double size_mm, qll_weight weight)
{
    size_t count = 0;
    while (text.size > 0) {
        (void)qll_text_line(&text, width_mm, size_mm, weight);
        count += 1;
    }
    return count;
}
