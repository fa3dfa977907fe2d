#include "signals/log_zone.h"

#include "base/words.h"

#include <string.h>

#define QLL_DAY_S  86400
#define QLL_HOUR_S 3600

typedef struct zone_name {
    const char *name, *rule;
} zone_name;

/* Rules in force since 2007 (North America) and 1996 (European Union, directive 2000/84/EC); from
 * the public-domain time zone data, release 2024a, from memory. */
static const zone_name names[] = {
    {"America/New_York", "EST5EDT,M3.2.0,M11.1.0"},
    {"America/Detroit", "EST5EDT,M3.2.0,M11.1.0"},
    {"America/Toronto", "EST5EDT,M3.2.0,M11.1.0"},
    {"America/Chicago", "CST6CDT,M3.2.0,M11.1.0"},
    {"America/Winnipeg", "CST6CDT,M3.2.0,M11.1.0"},
    {"America/Denver", "MST7MDT,M3.2.0,M11.1.0"},
    {"America/Boise", "MST7MDT,M3.2.0,M11.1.0"},
    {"America/Edmonton", "MST7MDT,M3.2.0,M11.1.0"},
    {"America/Phoenix", "MST7"},
    {"America/Los_Angeles", "PST8PDT,M3.2.0,M11.1.0"},
    {"America/Vancouver", "PST8PDT,M3.2.0,M11.1.0"},
    {"America/Anchorage", "AKST9AKDT,M3.2.0,M11.1.0"},
    {"America/Halifax", "AST4ADT,M3.2.0,M11.1.0"},
    {"America/Mexico_City", "CST6"},
    {"America/Sao_Paulo", "<-03>3"},
    {"Pacific/Honolulu", "HST10"},
    {"Europe/London", "GMT0BST,M3.5.0/1,M10.5.0"},
    {"Europe/Dublin", "GMT0IST,M3.5.0/1,M10.5.0"},
    {"Europe/Lisbon", "WET0WEST,M3.5.0/1,M10.5.0"},
    {"Europe/Madrid", "CET-1CEST,M3.5.0,M10.5.0/3"},
    {"Europe/Paris", "CET-1CEST,M3.5.0,M10.5.0/3"},
    {"Europe/Brussels", "CET-1CEST,M3.5.0,M10.5.0/3"},
    {"Europe/Amsterdam", "CET-1CEST,M3.5.0,M10.5.0/3"},
    {"Europe/Berlin", "CET-1CEST,M3.5.0,M10.5.0/3"},
    {"Europe/Zurich", "CET-1CEST,M3.5.0,M10.5.0/3"},
    {"Europe/Vienna", "CET-1CEST,M3.5.0,M10.5.0/3"},
    {"Europe/Rome", "CET-1CEST,M3.5.0,M10.5.0/3"},
    {"Europe/Prague", "CET-1CEST,M3.5.0,M10.5.0/3"},
    {"Europe/Warsaw", "CET-1CEST,M3.5.0,M10.5.0/3"},
    {"Europe/Copenhagen", "CET-1CEST,M3.5.0,M10.5.0/3"},
    {"Europe/Stockholm", "CET-1CEST,M3.5.0,M10.5.0/3"},
    {"Europe/Oslo", "CET-1CEST,M3.5.0,M10.5.0/3"},
    {"Europe/Helsinki", "EET-2EEST,M3.5.0/3,M10.5.0/4"},
    {"Europe/Athens", "EET-2EEST,M3.5.0/3,M10.5.0/4"},
    {"Europe/Istanbul", "<+03>-3"},
    {"Asia/Kolkata", "IST-5:30"},
    {"Asia/Singapore", "<+08>-8"},
    {"Asia/Shanghai", "CST-8"},
    {"Asia/Tokyo", "JST-9"},
    {"Australia/Brisbane", "AEST-10"},
    {"Australia/Sydney", "AEST-10AEDT,M10.1.0,M4.1.0/3"},
    {"Australia/Melbourne", "AEST-10AEDT,M10.1.0,M4.1.0/3"},
    {"Pacific/Auckland", "NZST-12NZDT,M9.5.0,M4.1.0/3"},
    {"Etc/UTC", "UTC0"},
};

#define QLL_NAME_COUNT (sizeof names / sizeof *names)

/* Days from 0000-03-01 in eras of 400 years: H. E. Fliegel and T. C. Van Flandern, "A machine
 * algorithm for processing calendar dates", CACM 11 (1968), in the form with March first. */
int64_t qll_calendar_days(int year, int month, int day)
{
    int64_t y = month <= 2 ? (int64_t)year - 1 : year;
    int64_t era = (y >= 0 ? y : y - 399) / 400;
    int64_t of_era = y - era * 400;
    int64_t of_year = (153 * (month > 2 ? month - 3 : month + 9) + 2) / 5 + day - 1;
    return era * 146097 + of_era * 365 + of_era / 4 - of_era / 100 + of_year - 719468;
}

void qll_calendar_date(int64_t days, int *year, int *month, int *day)
{
    days += 719468;
    int64_t era = (days >= 0 ? days : days - 146096) / 146097;
    int64_t of_era = days - era * 146097;
    int64_t y = (of_era - of_era / 1460 + of_era / 36524 - of_era / 146096) / 365;
    int64_t of_year = of_era - (365 * y + y / 4 - y / 100);
    int64_t m = (5 * of_year + 2) / 153;
    *day = (int)(of_year - (153 * m + 2) / 5 + 1);
    *month = (int)(m < 10 ? m + 3 : m - 9);
    *year = (int)(y + era * 400 + (*month <= 2 ? 1 : 0));
}

/* ---- reading ---- */

typedef struct scan {
    const char *at, *end;
} scan;

static bool take(scan *s, char byte)
{
    if (s->at < s->end && *s->at == byte) {
        s->at += 1;
        return true;
    }
    return false;
}

static bool take_number(scan *s, int most, int *value)
{
    const char *start = s->at;
    int read = 0;
    for (; s->at < s->end && *s->at >= '0' && *s->at <= '9' && read <= most; s->at++) {
        read = read * 10 + (*s->at - '0');
    }
    *value = read;
    return s->at > start && read <= most;
}

/* "[+-]h[h][:mm[:ss]]"; TZ allows 24 hours, a change up to 167. */
static bool take_time(scan *s, int most_hours, int32_t *seconds)
{
    bool minus = take(s, '-');
    if (!minus) {
        (void)take(s, '+');
    }
    int hours = 0;
    int minutes = 0;
    int rest = 0;
    bool good = take_number(s, most_hours, &hours);
    if (good && take(s, ':')) {
        good = take_number(s, 59, &minutes);
        if (good && take(s, ':')) {
            good = take_number(s, 59, &rest);
        }
    }
    *seconds = (int32_t)(hours * QLL_HOUR_S + minutes * 60 + rest);
    *seconds = minus ? -*seconds : *seconds;
    return good;
}

static bool is_letter(char byte)
{
    return (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z');
}

static bool take_name(scan *s)
{
    const char *start = s->at;
    if (take(s, '<')) {
        while (s->at < s->end && *s->at != '>') {
            s->at += 1;
        }
        return take(s, '>') && s->at - start >= 5;
    }
    while (s->at < s->end && is_letter(*s->at)) {
        s->at += 1;
    }
    return s->at - start >= 3;
}

static bool take_change(scan *s, qll_zone_change *change)
{
    bool good = true;
    *change = (qll_zone_change){.form = 'n', .time_s = 2 * QLL_HOUR_S};
    if (take(s, 'M')) {
        change->form = 'M';
        good = take_number(s, 12, &change->month) && take(s, '.')
               && take_number(s, 5, &change->week) && take(s, '.')
               && take_number(s, 6, &change->day) && change->month >= 1 && change->week >= 1;
    } else if (take(s, 'J')) {
        change->form = 'J';
        good = take_number(s, 365, &change->day) && change->day >= 1;
    } else {
        good = take_number(s, 365, &change->day);
    }
    return good && (!take(s, '/') || take_time(s, 167, &change->time_s));
}

static bool read_rule(qll_text text, qll_zone *zone)
{
    scan s = {text.bytes, text.bytes + text.size};
    *zone = (qll_zone){0};
    int32_t west_s = 0;
    if (!take_name(&s) || !take_time(&s, 24, &west_s)) {
        return false;
    }
    zone->standard_s = -west_s;
    if (s.at == s.end) {
        return true;
    }
    if (!take_name(&s)) {
        return false;
    }
    zone->has_summer = true;
    zone->summer_s = zone->standard_s + QLL_HOUR_S;
    if (s.at < s.end && *s.at != ',') {
        if (!take_time(&s, 24, &west_s)) {
            return false;
        }
        zone->summer_s = -west_s;
    }
    return take(&s, ',') && take_change(&s, &zone->start) && take(&s, ',')
           && take_change(&s, &zone->end) && s.at == s.end;
}

/* "+01:00", "-0700", "+2". */
static bool read_offset(qll_text text, qll_zone *zone)
{
    scan s = {text.bytes, text.bytes + text.size};
    bool minus = take(&s, '-');
    if (!minus && !take(&s, '+')) {
        return false;
    }
    int hours = 0;
    int minutes = 0;
    if (text.size == 5 && take_number(&s, 1459, &hours)) {
        minutes = hours % 100;
        hours /= 100;
    } else if (!take_number(&s, 14, &hours) || (take(&s, ':') && !take_number(&s, 59, &minutes))) {
        return false;
    }
    if (s.at != s.end || minutes > 59) {
        return false;
    }
    int32_t offset_s = (int32_t)(hours * QLL_HOUR_S + minutes * 60);
    *zone = (qll_zone){.standard_s = minus ? -offset_s : offset_s};
    return true;
}

bool qll_zone_read(qll_text text, qll_zone *zone)
{
    text = qll_text_trimmed(text);
    if (qll_text_is(text, "UTC") || qll_text_is(text, "GMT") || qll_text_is(text, "Z")) {
        *zone = (qll_zone){0};
        return true;
    }
    for (size_t i = 0; i < QLL_NAME_COUNT; i++) {
        if (qll_text_is(text, names[i].name)) {
            return read_rule(qll_text_of(names[i].rule), zone);
        }
    }
    return read_offset(text, zone) || read_rule(text, zone);
}

const char *qll_zone_nearest(qll_text given)
{
    const char *words[QLL_NAME_COUNT];
    for (size_t i = 0; i < QLL_NAME_COUNT; i++) {
        words[i] = names[i].name;
    }
    return qll_words_nearest(given, words, QLL_NAME_COUNT);
}

/* ---- using ---- */

static bool is_leap(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

/* Local seconds from 1970 at which the change stands on the clock that shows before it. */
static int64_t change_s(const qll_zone_change *change, int year)
{
    int64_t first = qll_calendar_days(year, 1, 1);
    int64_t days = first + change->day;
    if (change->form == 'J') {
        days = first + change->day - 1 + (is_leap(year) && change->day >= 60 ? 1 : 0);
    } else if (change->form == 'M') {
        int64_t month = qll_calendar_days(year, change->month, 1);
        int64_t next = change->month == 12 ? qll_calendar_days(year + 1, 1, 1)
                                           : qll_calendar_days(year, change->month + 1, 1);
        int weekday = (int)(((month + 4) % 7 + 7) % 7); /* 1970-01-01 was a Thursday */
        days = month + (change->day - weekday + 7) % 7 + 7 * (int64_t)(change->week - 1);
        days -= days >= next ? 7 : 0;
    }
    return days * QLL_DAY_S + change->time_s;
}

static int64_t floor_div(int64_t a, int64_t b)
{
    return a / b - (a % b < 0 ? 1 : 0);
}

static bool is_summer(const qll_zone *zone, int64_t utc_s)
{
    int year = 0;
    int month = 0;
    int day = 0;
    qll_calendar_date(floor_div(utc_s + zone->standard_s, QLL_DAY_S), &year, &month, &day);
    int64_t start = change_s(&zone->start, year) - zone->standard_s;
    int64_t end = change_s(&zone->end, year) - zone->summer_s;
    if (start <= end) {
        return utc_s >= start && utc_s < end;
    }
    return utc_s >= start || utc_s < end; /* south of the equator */
}

int32_t qll_zone_offset_s(const qll_zone *zone, int64_t utc_ms)
{
    if (!zone->has_summer || !is_summer(zone, floor_div(utc_ms, 1000))) {
        return zone->standard_s;
    }
    return zone->summer_s;
}

int64_t qll_zone_utc_ms(const qll_zone *zone, int64_t local_ms, bool summer,
                        qll_zone_oddity *oddity)
{
    int64_t standard_ms = local_ms - (int64_t)zone->standard_s * 1000;
    *oddity = QLL_ZONE_PLAIN;
    if (!zone->has_summer) {
        return standard_ms;
    }
    int64_t summer_ms = local_ms - (int64_t)zone->summer_s * 1000;
    bool can_be_standard = !is_summer(zone, floor_div(standard_ms, 1000));
    bool can_be_summer = is_summer(zone, floor_div(summer_ms, 1000));
    if (can_be_standard && can_be_summer) {
        *oddity = QLL_ZONE_TWICE;
        return summer ? summer_ms : standard_ms;
    }
    if (!can_be_standard && !can_be_summer) {
        *oddity = QLL_ZONE_NEVER; /* a clock that was not put forward shows standard time */
    }
    return can_be_summer ? summer_ms : standard_ms;
}
