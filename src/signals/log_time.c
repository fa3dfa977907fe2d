#include "signals/log_time.h"

#include "signals/log_zone.h"

#include <math.h>
#include <string.h>

#define QLL_DAY_MS ((int64_t)86400 * 1000)

typedef struct scan {
    const char *at, *end;
} scan;

static char peek(const scan *s)
{
    return s->at < s->end ? *s->at : '\0';
}

static bool take(scan *s, char byte)
{
    if (peek(s) == byte && s->at < s->end) {
        s->at += 1;
        return true;
    }
    return false;
}

/* Digits, at most @p most of them; returns how many. */
static int take_digits(scan *s, int most, int *value)
{
    int count = 0;
    *value = 0;
    while (qll_is_digit(peek(s)) && count < most) {
        *value = *value * 10 + (*s->at - '0');
        s->at += 1;
        count += 1;
    }
    return qll_is_digit(peek(s)) ? 0 : count;
}

static bool is_date(int year, int month, int day)
{
    static const int days[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (year < 1990 || year > 2099 || month < 1 || month > 12 || day < 1) {
        return false;
    }
    bool leap = year % 4 == 0; /* 2000 was one; 2100 lies behind the end */
    return day <= days[month - 1] + (leap && month == 2 ? 1 : 0);
}

/* Three groups of digits in the given order; a year has two or four of them. */
static bool date_of(const int part[3], const int digits[3], qll_log_order order, int64_t *days)
{
    static const int places[QLL_LOG_ORDER_COUNT][3] = {/* of year, month, day */
                                                       {0, 1, 2},
                                                       {0, 1, 2},
                                                       {2, 1, 0},
                                                       {2, 0, 1}};
    const int *place = places[order];
    int year = part[place[0]];
    if (digits[place[0]] == 2) {
        year += year < 90 ? 2000 : 1900;
    } else if (digits[place[0]] != 4) {
        return false;
    }
    int month = part[place[1]];
    int day = part[place[2]];
    if (digits[place[1]] > 2 || digits[place[2]] > 2 || !is_date(year, month, day)) {
        return false;
    }
    *days = qll_calendar_days(year, month, day);
    return true;
}

static bool is_letter(char byte)
{
    return (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z')
           || (unsigned char)byte >= 0x80;
}

/* A month by its name or the beginning of it; 0 if it is none. */
static int take_month(scan *s)
{
    static const char *const names[12][4] = {{"jan", "ene", "janv"},
                                             {"feb", "fev", "fév"},
                                             {"mar", "mrz", "mär", "märz"},
                                             {"apr", "abr", "avr"},
                                             {"may", "mai"},
                                             {"jun", "juin"},
                                             {"jul", "juil"},
                                             {"aug", "ago", "aou", "aoû"},
                                             {"sep"},
                                             {"oct", "okt"},
                                             {"nov"},
                                             {"dec", "dez", "dic", "déc"}};
    const char *end = s->at;
    while (end < s->end && is_letter(*end)) {
        end += 1;
    }
    for (int month = 0; month < 12; month++) {
        for (int i = 0; i < 4 && names[month][i] != NULL; i++) {
            const char *name = names[month][i];
            size_t at = 0;
            while (name[at] != '\0' && s->at + at < end
                   && (name[at] == s->at[at] || name[at] == (char)(s->at[at] | 0x20))) {
                at += 1;
            }
            if (name[at] == '\0') {
                s->at = end;
                (void)take(s, '.');
                return month + 1;
            }
        }
    }
    return 0;
}

static void take_gap(scan *s)
{
    while (peek(s) == ' ' || peek(s) == '-' || peek(s) == '/' || peek(s) == ',') {
        s->at += 1;
    }
}

/* "08-Jul-2024", "8 July 2024", "Jul 8, 2024", "2024-Jul-08". */
static bool take_named_date(scan *s, int64_t *days)
{
    scan t = *s;
    int part[2] = {0, 0};
    int digits[2] = {0, 0};
    int month = 0;
    size_t numbers = 0;
    for (int i = 0; i < 3; i++) {
        if (month == 0 && is_letter(peek(&t))) {
            month = take_month(&t);
            if (month == 0) {
                return false;
            }
        } else if (numbers < 2) {
            digits[numbers] = take_digits(&t, 4, &part[numbers]);
            if (digits[numbers] == 0) {
                return false;
            }
            numbers += 1;
        } else {
            return false;
        }
        if (i < 2) {
            take_gap(&t);
        }
    }
    const bool year_first = digits[0] == 4;
    const int all[3] = {part[year_first ? 0 : 1], month, part[year_first ? 1 : 0]};
    const int sizes[3] = {digits[year_first ? 0 : 1], 2, digits[year_first ? 1 : 0]};
    if (month == 0 || !date_of(all, sizes, QLL_LOG_ORDER_YEAR_FIRST, days)) {
        return false;
    }
    (void)take(&t, ',');
    *s = t;
    return true;
}

/* "2017-06-28", "20170628", "28.06.2017", "28-Jun-2017". */
static bool take_date(scan *s, qll_log_order order, int64_t *days, bool *named)
{
    int part[3];
    int digits[3];
    const char *start = s->at;
    if (s->end - start >= 8) {
        int all = 0;
        scan compact = {start, start + 8};
        if (take_digits(&compact, 8, &all) == 8) {
            s->at += 8;
            const int split[3] = {all / 10000, all / 100 % 100, all % 100};
            const int sizes[3] = {4, 2, 2};
            return order == QLL_LOG_ORDER_YEAR_FIRST && date_of(split, sizes, order, days);
        }
    }
    if (take_named_date(s, days)) {
        *named = true;
        return true;
    }
    digits[0] = take_digits(s, 4, &part[0]);
    char separator = peek(s);
    if (digits[0] == 0 || (separator != '-' && separator != '/' && separator != '.')) {
        return false;
    }
    for (int i = 1; i < 3; i++) {
        if (!take(s, separator)) {
            return false;
        }
        digits[i] = take_digits(s, 4, &part[i]);
        if (digits[i] == 0) {
            return false;
        }
    }
    /* Dotted dates with the year behind are written with the day first (common practice). */
    if (separator == '.' && order == QLL_LOG_ORDER_MONTH_FIRST) {
        return false;
    }
    return date_of(part, digits, order, days);
}

static bool take_fraction(scan *s, int *ms)
{
    *ms = 0;
    if (!take(s, '.') && !take(s, ',')) {
        return true;
    }
    int place = 100;
    const char *start = s->at;
    for (; qll_is_digit(peek(s)); s->at++) {
        *ms += (*s->at - '0') * place;
        place /= 10;
    }
    return s->at > start;
}

/* "AM", "pm", "p.m."; hours 12 and 1 to 11. */
static bool take_half(scan *s, int *hour)
{
    scan t = *s;
    (void)take(&t, ' ');
    char half = (char)(peek(&t) | 0x20);
    if (half != 'a' && half != 'p') {
        return true;
    }
    t.at += 1;
    (void)take(&t, '.');
    if ((peek(&t) | 0x20) != 'm') {
        return false;
    }
    t.at += 1;
    (void)take(&t, '.');
    *s = t;
    if (*hour < 1 || *hour > 12) {
        return false;
    }
    *hour = *hour % 12 + (half == 'p' ? 12 : 0);
    return true;
}

/* Without colons "5" is 00:05 and "130" is 01:30; a clock behind a compact date has 4 or 6 digits. */
static bool take_clock(scan *s, int64_t *ms)
{
    int hour = 0;
    int minute = 0;
    int second = 0;
    int fraction = 0;
    const char *start = s->at;
    int digits = take_digits(s, 6, &hour);
    if (digits == 0) {
        return false;
    }
    if (take(s, ':')) {
        if (digits > 2 || take_digits(s, 2, &minute) == 0) {
            return false;
        }
        if (take(s, ':') && (take_digits(s, 2, &second) == 0 || !take_fraction(s, &fraction))) {
            return false;
        }
    } else if (digits <= 4) {
        minute = hour % 100;
        hour /= 100;
    } else {
        second = hour % 100;
        minute = hour / 100 % 100;
        hour /= 10000;
    }
    if (s->at == start || !take_half(s, &hour)) {
        return false;
    }
    *ms = (((int64_t)hour * 60 + minute) * 60 + second) * 1000 + fraction;
    return minute < 60 && second < 61 && *ms <= QLL_DAY_MS;
}

/* "EST", "CEST": which clock it is the zone must say; "UTC" and "GMT" say it themselves. */
static void take_zone_letters(scan *s, qll_stamp *stamp)
{
    size_t size = 0;
    while (s->at + size < s->end && s->at[size] >= 'A' && s->at[size] <= 'Z') {
        size += 1;
    }
    const char *last = s->at + size - 1;
    const bool is_universal =
        size == 3 && (memcmp(s->at, "UTC", 3) == 0 || memcmp(s->at, "GMT", 3) == 0);
    if (s->at + size == s->end && (is_universal || ((size == 3 || size == 4) && *last == 'T'))) {
        stamp->has_offset = stamp->has_offset || is_universal;
        s->at = s->end;
    }
}

static bool take_offset(scan *s, qll_stamp *stamp)
{
    if (take(s, 'Z') || take(s, 'z')) {
        stamp->has_offset = true;
        return true;
    }
    char sign = peek(s);
    if (sign != '+' && sign != '-') {
        return true;
    }
    s->at += 1;
    int hours = 0;
    int minutes = 0;
    int digits = take_digits(s, 4, &hours);
    if (digits == 4) {
        minutes = hours % 100;
        hours /= 100;
    } else if (digits != 2 || (take(s, ':') && take_digits(s, 2, &minutes) != 2)) {
        return false;
    }
    stamp->has_offset = true;
    stamp->offset_s = (int32_t)(hours * 3600 + minutes * 60) * (sign == '-' ? -1 : 1);
    return hours <= 14 && minutes < 60;
}

bool qll_stamp_read(qll_text text, qll_log_order order, qll_stamp *stamp)
{
    scan s = {text.bytes, text.bytes + text.size};
    int64_t days = 0;
    *stamp = (qll_stamp){0};
    if (!take_date(&s, order, &days, &stamp->has_name)) {
        return false;
    }
    int64_t ms = 0;
    bool parted = take(&s, 'T') || take(&s, ' ');
    while (parted && take(&s, ' ')) {
    }
    if (s.at < s.end) {
        /* "2017062818" is no compact date: an hour alone needs a blank in front. */
        bool bare = !parted && s.end - s.at < 4;
        if (bare || !take_clock(&s, &ms)) {
            return false;
        }
        stamp->has_clock = true;
        (void)take(&s, ' ');
        take_zone_letters(&s, stamp);
        if (!take_offset(&s, stamp) || s.at != s.end) {
            return false;
        }
    }
    stamp->local_ms = days * QLL_DAY_MS + ms;
    return true;
}

unsigned qll_stamp_orders(qll_text text)
{
    unsigned orders = 0;
    qll_stamp stamp;
    for (int order = QLL_LOG_ORDER_YEAR_FIRST; order < QLL_LOG_ORDER_COUNT; order++) {
        orders |= qll_stamp_read(text, (qll_log_order)order, &stamp) ? 1U << order : 0U;
    }
    return orders;
}

bool qll_stamp_clock(qll_text text, int64_t *ms)
{
    scan s = {text.bytes, text.bytes + text.size};
    return take_clock(&s, ms) && s.at == s.end;
}

size_t qll_plain_number(qll_text text, double *value)
{
    static const double powers[] = {1e0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                    1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
    const char *at = text.bytes;
    const char *end = text.bytes + text.size;
    bool negative = at < end && *at == '-';
    at += negative ? 1 : 0;
    const char *start = at;
    int64_t digits = 0;
    for (; at < end && qll_is_digit(*at) && at - start < 16; at++) {
        digits = digits * 10 + (*at - '0');
    }
    ptrdiff_t count = at - start;
    ptrdiff_t decimals = 0;
    if (count > 0 && end - at >= 2 && at[0] == '.' && qll_is_digit(at[1])) {
        at += 1;
        const char *point = at;
        for (; at < end && qll_is_digit(*at) && count + (at - point) < 16; at++) {
            digits = digits * 10 + (*at - '0');
        }
        decimals = at - point;
        count += decimals;
    }
    if (count == 0 || count > 15 || (at < end && (*at == 'e' || *at == 'E'))) {
        return 0;
    }
    double read = (double)digits / powers[decimals];
    *value = negative ? -read : read;
    return (size_t)(at - text.bytes);
}

/* Day 0 of spreadsheets, in days from 1970. */
#define QLL_SERIAL_1970 25569.0

bool qll_stamp_serial(qll_text text, int64_t *local_ms)
{
    double value = 0.0;
    if (text.size < 5 || qll_plain_number(text, &value) != text.size) {
        return false;
    }
    const double ms = floor((value - QLL_SERIAL_1970) * 86400.0 + 0.5) * 1000.0;
    if (!(ms >= (double)QLL_STAMP_LEAST_MS && ms < (double)QLL_STAMP_END_MS)) {
        return false;
    }
    *local_ms = (int64_t)ms;
    return true;
}

bool qll_stamp_unix(qll_text text, int64_t *utc_ms)
{
    double value = 0.0;
    size_t size = qll_plain_number(text, &value);
    if (size == 0) {
        size = qll_text_number(text, &value);
    }
    if (size == 0 || size != text.size) {
        return false;
    }
    /* Seconds have 9 or 10 digits, milliseconds 12 or 13: their ranges are far apart. */
    double ms = value < 1e11 ? value * 1000.0 : value;
    if (!(ms >= (double)QLL_STAMP_LEAST_MS && ms < (double)QLL_STAMP_END_MS)) {
        return false;
    }
    *utc_ms = (int64_t)(ms + 0.5);
    return true;
}
