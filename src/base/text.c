#include "base/text.h"

#include "base/print.h"
#include "base/shortest.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* No decision between two neighbouring doubles needs more than 767 significant digits (from memory:
 * the longest exact decimal of a binary64 midpoint). What lies beyond only matters as "more than
 * zero", which one further digit says. */
#define QLL_DIGITS_KEPT 800

/* An exponent this far out is zero or too large whatever the digits are. */
#define QLL_EXPONENT_LIMIT 99999

qll_text qll_text_of(const char *closed)
{
    return (qll_text){.bytes = closed, .size = strlen(closed)};
}

bool qll_text_equal(qll_text a, qll_text b)
{
    return a.size == b.size && (a.size == 0 || memcmp(a.bytes, b.bytes, a.size) == 0);
}

bool qll_text_is(qll_text text, const char *closed)
{
    return qll_text_equal(text, qll_text_of(closed));
}

static bool is_blank(char byte)
{
    return byte == ' ' || byte == '\t' || byte == '\r' || byte == '\n';
}

static size_t blank_at_start(qll_text text)
{
    if (text.size >= 1 && is_blank(text.bytes[0])) {
        return 1;
    }
    return text.size >= 2 && memcmp(text.bytes, "\xC2\xA0", 2) == 0 ? 2 : 0;
}

static size_t blank_at_end(qll_text text)
{
    if (text.size >= 1 && is_blank(text.bytes[text.size - 1])) {
        return 1;
    }
    return text.size >= 2 && memcmp(text.bytes + text.size - 2, "\xC2\xA0", 2) == 0 ? 2 : 0;
}

const char *qll_text_file_name(const char *path)
{
    const char *slash = path == NULL ? NULL : strrchr(path, '/');
    return path == NULL ? "" : slash == NULL ? path : slash + 1;
}

qll_text qll_text_trimmed(qll_text text)
{
    for (size_t blank = blank_at_start(text); blank > 0; blank = blank_at_start(text)) {
        text.bytes += blank;
        text.size -= blank;
    }
    for (size_t blank = blank_at_end(text); blank > 0; blank = blank_at_end(text)) {
        text.size -= blank;
    }
    return text;
}

bool qll_text_ends_in(qll_text text, const char *ending)
{
    const size_t size = strlen(ending);
    return text.size > size && memcmp(text.bytes + text.size - size, ending, size) == 0;
}

bool qll_text_take_item(qll_text *rest, qll_text *item)
{
    if (rest->bytes == NULL) {
        return false;
    }
    const char *comma = rest->size == 0 ? NULL : memchr(rest->bytes, ',', rest->size);
    const size_t size = comma == NULL ? rest->size : (size_t)(comma - rest->bytes);
    *item = qll_text_trimmed((qll_text){rest->bytes, size});
    *rest = comma == NULL ? (qll_text){NULL, 0} : (qll_text){comma + 1, rest->size - size - 1};
    return true;
}

const char *qll_text_closed(qll_text text, qll_arena *arena)
{
    return qll_arena_copy(arena, text.bytes, text.size);
}

static bool is_digit_at(qll_text text, size_t at)
{
    return at < text.size && qll_is_digit(text.bytes[at]);
}

/* A decimal number as digits times a power of ten, without a decimal point, so that the C library's
 * reader never meets one and no locale can change what it reads. */
typedef struct decimal {
    char digits[QLL_DIGITS_KEPT + 1]; /* no leading zero; the last one is the "more than zero" */
    size_t count;
    long long exponent;
} decimal;

static void add_digit(decimal *number, char digit, bool in_fraction)
{
    if (in_fraction) {
        number->exponent -= 1;
    }
    if (number->count == 0 && digit == '0') {
        return;
    }
    if (number->count < QLL_DIGITS_KEPT) {
        number->digits[number->count] = digit;
        number->count += 1;
        return;
    }
    /* Dropping a digit multiplies the rest's weight by ten. */
    number->exponent += 1;
    if (number->count == QLL_DIGITS_KEPT && digit != '0') {
        number->digits[number->count] = '1';
        number->count += 1;
        number->exponent -= 1;
    }
}

/* Reads "e-12" at @p at into the exponent; returns where it ends, or @p at if there is none. */
static size_t scan_exponent(qll_text text, size_t at, long long *exponent)
{
    size_t end = at;
    if (end >= text.size || (text.bytes[end] != 'e' && text.bytes[end] != 'E')) {
        return at;
    }
    end += 1;
    bool negative = end < text.size && text.bytes[end] == '-';
    if (negative || (end < text.size && text.bytes[end] == '+')) {
        end += 1;
    }
    if (!is_digit_at(text, end)) {
        return at;
    }
    const long long most = INT64_MAX / 4;
    long long read = 0;
    for (; is_digit_at(text, end); end++) {
        read = read > most / 10 - 1 ? most : read * 10 + (text.bytes[end] - '0');
    }
    *exponent = negative ? -read : read;
    return end;
}

static double decimal_value(decimal *number)
{
    if (number->count == 0) {
        return 0.0;
    }
    long long exponent = number->exponent;
    if (exponent > QLL_EXPONENT_LIMIT) {
        exponent = QLL_EXPONENT_LIMIT;
    }
    if (exponent < -QLL_EXPONENT_LIMIT) {
        exponent = -QLL_EXPONENT_LIMIT;
    }
    char normal[sizeof number->digits + 16];
    int written =
        snprintf(normal, sizeof normal, "%.*se%lld", (int)number->count, number->digits, exponent);
    assert(written > 0 && (size_t)written < sizeof normal);
    (void)written;
    return strtod(normal, NULL);
}

size_t qll_text_number(qll_text text, double *value)
{
    decimal number = {.count = 0};
    size_t at = 0;
    bool negative = text.size > 0 && text.bytes[0] == '-';
    if (negative || (text.size > 0 && text.bytes[0] == '+')) {
        at += 1;
    }
    size_t digits_start = at;
    for (; is_digit_at(text, at); at++) {
        add_digit(&number, text.bytes[at], false);
    }
    if (at < text.size && text.bytes[at] == '.' && is_digit_at(text, at + 1)) {
        for (at += 1; is_digit_at(text, at); at++) {
            add_digit(&number, text.bytes[at], true);
        }
    }
    if (at == digits_start) {
        return 0;
    }
    long long exponent = 0;
    at = scan_exponent(text, at, &exponent);
    number.exponent += exponent;
    double read = decimal_value(&number);
    if (!isfinite(read)) {
        return 0;
    }
    *value = negative ? -read : read;
    return at;
}

static bool is_continuation(char byte)
{
    return ((unsigned char)byte & 0xC0U) == 0x80U;
}

void qll_text_position(qll_text text, size_t offset, int *line, int *column)
{
    *line = 1;
    *column = 1;
    for (size_t i = 0; i < offset && i < text.size; i++) {
        if (text.bytes[i] == '\n') {
            *line += 1;
            *column = 1;
        } else if (!is_continuation(text.bytes[i])) {
            *column += 1;
        }
    }
    /* An offset inside a character is that character's column. */
    if (offset < text.size && is_continuation(text.bytes[offset]) && *column > 1) {
        *column -= 1;
    }
}

/* Length of the well-formed UTF-8 character at @p at, or 0 (RFC 3629, section 4). */
static size_t character_size(qll_text text, size_t at)
{
    unsigned char first = (unsigned char)text.bytes[at];
    if (first < 0x80) {
        return 1;
    }
    if (first < 0xC2 || first > 0xF4) {
        return 0;
    }
    size_t size = first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
    if (size > text.size - at) {
        return 0;
    }
    /* The second byte rules out overlong forms, surrogates and what lies beyond U+10FFFF. */
    unsigned char second = (unsigned char)text.bytes[at + 1];
    unsigned char low = first == 0xE0 ? 0xA0 : first == 0xF0 ? 0x90 : 0x80;
    unsigned char high = first == 0xED ? 0x9F : first == 0xF4 ? 0x8F : 0xBF;
    if (second < low || second > high) {
        return 0;
    }
    for (size_t i = 2; i < size; i++) {
        if (!is_continuation(text.bytes[at + i])) {
            return 0;
        }
    }
    return size;
}

size_t qll_text_utf8_end(qll_text text)
{
    size_t at = 0;
    while (at < text.size) {
        size_t size = character_size(text, at);
        if (size == 0) {
            break;
        }
        at += size;
    }
    return at;
}

size_t qll_utf8_put(unsigned code, char *to)
{
    char *const start = to;
    if (code < 0x80) {
        *to = (char)code;
        return 1;
    }
    if (code < 0x800) {
        *to++ = (char)(0xC0U | (code >> 6U));
    } else if (code < 0x10000) {
        *to++ = (char)(0xE0U | (code >> 12U));
        *to++ = (char)(0x80U | ((code >> 6U) & 0x3FU));
    } else {
        *to++ = (char)(0xF0U | (code >> 18U));
        *to++ = (char)(0x80U | ((code >> 12U) & 0x3FU));
        *to++ = (char)(0x80U | ((code >> 6U) & 0x3FU));
    }
    *to++ = (char)(0x80U | (code & 0x3FU));
    return (size_t)(to - start);
}

qll_writer qll_writer_new(qll_arena *arena)
{
    return (qll_writer){.arena = arena};
}

/* Makes room for @p more bytes and the closing zero. */
static bool make_room(qll_writer *writer, size_t more)
{
    if (writer->no_memory) {
        return false;
    }
    if (more < writer->room - writer->size) {
        return true;
    }
    size_t wanted = SIZE_MAX; /* which the arena refuses, and counts */
    if (more < SIZE_MAX / 2 - writer->size - 1) {
        wanted = writer->size + more + 1;
        size_t doubled = writer->room > SIZE_MAX / 2 ? wanted : writer->room * 2;
        wanted = wanted > doubled ? wanted : doubled;
        wanted = wanted > 256 ? wanted : 256;
    }
    char *grown = qll_arena_take(writer->arena, wanted, 1);
    if (grown == NULL) {
        writer->no_memory = true;
        return false;
    }
    if (writer->size > 0) {
        memcpy(grown, writer->bytes, writer->size);
    }
    writer->bytes = grown;
    writer->room = wanted;
    return true;
}

void qll_write(qll_writer *writer, const char *closed)
{
    qll_write_text(writer, qll_text_of(closed));
}

void qll_write_text(qll_writer *writer, qll_text text)
{
    if (text.size > 0 && make_room(writer, text.size)) {
        memcpy(writer->bytes + writer->size, text.bytes, text.size);
        writer->size += text.size;
    }
}

void qll_write_byte(qll_writer *writer, char byte, size_t times)
{
    if (times > 0 && make_room(writer, times)) {
        memset(writer->bytes + writer->size, byte, times);
        writer->size += times;
    }
}

void qll_write_number(qll_writer *writer, double value)
{
    assert(isfinite(value));
    char shortest[QLL_SHORTEST_ROOM];
    if (qll_shortest(value, shortest)) {
        qll_write(writer, shortest);
        return;
    }
    for (int digits = 15; digits <= 17; digits++) {
        (void)qll_number_print(shortest, sizeof shortest, 'g', digits, value);
        double back = 0.0;
        qll_text written = qll_text_of(shortest);
        if (qll_text_number(written, &back) == written.size && back == value) {
            break;
        }
    }
    qll_write(writer, shortest);
}

qll_text qll_writer_text(qll_writer *writer)
{
    if (!make_room(writer, 0)) {
        return (qll_text){.bytes = "", .size = 0};
    }
    writer->bytes[writer->size] = '\0';
    return (qll_text){.bytes = writer->bytes, .size = writer->size};
}

size_t qll_text_width(qll_text text)
{
    size_t width = 0;
    for (size_t i = 0; i < text.size; i++) {
        width += is_continuation(text.bytes[i]) ? 0 : 1;
    }
    return width;
}
