/* Plain stamps and numbers, read without a look at what else they might be. */
#ifndef QUELL_SIGNALS_LOG_FAST_H
#define QUELL_SIGNALS_LOG_FAST_H

#include "signals/log_row.h"

#include <string.h>

/* Decimals of seconds, with their point. */
#define QLL_FRACTION_SIZE 10

/** Reads the stamp at @p at the general way and keeps its minute (log_row.c); false if it is not plain. */
bool qll_fast_learn(qll_log_lane *lane, const char *at, char close);

#if defined(__BYTE_ORDER__) && __BYTE_ORDER__ == __ORDER_LITTLE_ENDIAN__

/* What the bytes are past the digit 0: 0 to 9 if they are digits. */
static inline uint64_t qll_past_zero(uint64_t bytes)
{
    return bytes ^ UINT64_C(0x3030303030303030);
}

/* Of bytes past 0 the highest bit of each that is no digit, among other bits. Up to the first one it is exact, behind a mark
 * of decimals too; behind anything else a digit may seem none, but none seems a digit. */
static inline uint64_t qll_no_digits(uint64_t past)
{
    return (past + UINT64_C(0x7676767676767676)) | past;
}

/* How many of the eight bytes from the lowest on are digits. */
static inline unsigned qll_digit_count(uint64_t bytes)
{
    const uint64_t others = qll_no_digits(qll_past_zero(bytes)) & UINT64_C(0x8080808080808080);
    return others == 0 ? 8 : (unsigned)__builtin_ctzll(others) / 8;
}

/* The number of the lowest bytes, past 0, that @p shift moves to the highest: pairs, then fours, then all. */
static inline uint64_t qll_shifted_value(uint64_t past, unsigned shift)
{
    past <<= shift;
    past = past * 10 + (past >> 8);
    past = ((past & UINT64_C(0x00FF00FF00FF00FF)) * (1 + (UINT64_C(100) << 16))) >> 16;
    return ((past & UINT64_C(0x0000FFFF0000FFFF)) * (1 + (UINT64_C(10000) << 32))) >> 32;
}

/* The number of the lowest @p count bytes, digits, 1 to 8 of them. */
static inline uint64_t qll_digits_value(uint64_t bytes, unsigned count)
{
    return qll_shifted_value(qll_past_zero(bytes), 64 - 8 * count);
}

/* As qll_plain_number(), for up to 7 digits on either side of the point: no branch depends on how
 * many there are. At least 16 bytes follow. */
static inline size_t qll_fast_number(const char *at, double *value)
{
    static const double powers[8] = {1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7};
    static const uint64_t whole[8] = {1, 10, 100, 1000, 10000, 100000, 1000000, 10000000};
    uint64_t bytes = 0;
    memcpy(&bytes, at, sizeof bytes);
    unsigned count = qll_digit_count(bytes);
    if (count == 0 || count == 8 || at[count] != '.') {
        return 0;
    }
    uint64_t behind = 0;
    memcpy(&behind, at + count + 1, sizeof behind);
    unsigned decimals = qll_digit_count(behind);
    char next = at[count + 1 + decimals];
    if (decimals == 0 || decimals == 8 || next == 'e' || next == 'E') {
        return 0;
    }
    uint64_t digits =
        qll_digits_value(bytes, count) * whole[decimals] + qll_digits_value(behind, decimals);
    *value = (double)digits / powers[decimals];
    return count + 1 + decimals;
}

/* Where the first line break of the 16 bytes at @p at stands; 16 if there is none. The next line's
 * start comes from here and not from the number's length, so that the machine can begin the next line
 * while this one's digits are still in work. */
static inline size_t qll_near_line_end(const char *at)
{
    const uint64_t ones = UINT64_C(0x0101010101010101);
    uint64_t found[2];
    memcpy(found, at, sizeof found);
    for (int i = 0; i < 2; i++) {
        uint64_t other = found[i] ^ (ones * '\n');
        found[i] = (other - ones) & ~other & (ones * 0x80);
    }
    if (found[0] != 0) {
        return (size_t)__builtin_ctzll(found[0]) / 8;
    }
    return found[1] == 0 ? 16 : 8 + (size_t)__builtin_ctzll(found[1]) / 8;
}

#else

static inline size_t qll_near_line_end(const char *at)
{
    (void)at;
    return 16;
}

static inline size_t qll_fast_number(const char *at, double *value)
{
    (void)at;
    (void)value;
    return 0;
}

#endif

/** Behind the stamp at @p at, which may have decimals of seconds and stand in quotes; NULL if it is not plain. At least
 * 64 bytes follow. */
static inline const char *qll_fast_stamp_parts(qll_log_lane *lane, const char *at, int64_t *at_ms)
{
    const bool quoted = *at == '"';
    const char close = quoted ? '"' : lane->shape->delimiter;
    at += quoted ? 1 : 0;
    if ((!lane->has_prefix || memcmp(at, lane->prefix, QLL_PREFIX_SIZE) != 0)
        && !qll_fast_learn(lane, at, close)) {
        return NULL;
    }
    const unsigned tens = (unsigned)(at[17] - '0');
    const unsigned ones = (unsigned)(at[18] - '0');
    if (at[16] != ':' || tens > 5 || ones > 9) {
        return NULL;
    }
    int64_t ms = lane->prefix_ms + (int64_t)(tens * 10 + ones) * 1000;
    at += QLL_STAMP_SIZE;
    if (*at == '.') {
        const char *stop = at + QLL_FRACTION_SIZE;
        int place = 100;
        for (at += 1; at < stop && qll_is_digit(*at); at++) {
            ms += (int64_t)(*at - '0') * place;
            place /= 10;
        }
    }
    uint64_t behind = 0;
    memcpy(&behind, at, sizeof behind);
    if ((behind & lane->suffix_mask) != lane->suffix || at[lane->suffix_size] != close) {
        lane->has_prefix = false;
        return NULL;
    }
    at += lane->suffix_size + (quoted ? 1 : 0);
    *at_ms = ms;
    return *at == lane->shape->delimiter ? at + 1 : NULL;
}

/* The start of the next line, where the last cell that is needed ends at @p at; NULL if the general way must look at it.
 * At least 2 bytes follow. */
static inline const char *qll_fast_next_line(const char *at, const char *end, char delimiter)
{
    if (*at == '\n') {
        return at + 1;
    }
    if (*at == '\r') {
        return at[1] == '\n' ? at + 2 : NULL;
    }
    const char *stop = *at == delimiter ? memchr(at, '\n', (size_t)(end - at)) : NULL;
    return stop == NULL ? NULL : stop + 1;
}

#endif
