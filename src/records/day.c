#include "records/day.h"

#include <stddef.h>

#define QLL_DAY_MS ((long long)86400 * 1000)

/* Digits, exactly @p count; moves on behind them. */
static bool take_digits(const char **at, int count, int *value)
{
    *value = 0;
    for (int i = 0; i < count; i++) {
        if (**at < '0' || **at > '9') {
            return false;
        }
        *value = *value * 10 + (**at - '0');
        *at += 1;
    }
    return true;
}

static bool take(const char **at, char byte)
{
    if (**at != byte) {
        return false;
    }
    *at += 1;
    return true;
}

static bool is_leap(int year)
{
    return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
}

static int days_in(int year, int month)
{
    static const int days[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return days[month - 1] + (month == 2 && is_leap(year) ? 1 : 0);
}

/* Leap days lie at the end of years that begin in March: 365 and a quarter, less the centuries that have none. */
static int day_of(int year, int month, int day)
{
    const int years = month > 2 ? year : year - 1;
    const int months = month > 2 ? month - 3 : month + 9;
    const int in_year = (153 * months + 2) / 5 + day - 1;
    return years * 365 + years / 4 - years / 100 + years / 400 + in_year - 719468;
}

static void parts_of(int day, int *year, int *month, int *of_month)
{
    int guess = 1970 + day / 366;
    while (day_of(guess + 1, 1, 1) <= day) {
        guess++;
    }
    int rest = day - day_of(guess, 1, 1);
    int in = 1;
    while (rest >= days_in(guess, in)) {
        rest -= days_in(guess, in);
        in++;
    }
    *year = guess;
    *month = in;
    *of_month = rest + 1;
}

static bool take_day(const char **at, int *day)
{
    int year = 0;
    int month = 0;
    int of_month = 0;
    if (!take_digits(at, 4, &year) || !take(at, '-') || !take_digits(at, 2, &month)
        || !take(at, '-') || !take_digits(at, 2, &of_month) || year < 1970 || year > 2199
        || month < 1 || month > 12 || of_month < 1 || of_month > days_in(year, month)) {
        return false;
    }
    *day = day_of(year, month, of_month);
    return true;
}

bool qll_day_read(const char *text, int *day)
{
    int found = 0;
    if (!take_day(&text, &found) || *text != '\0') {
        return false;
    }
    *day = found;
    return true;
}

void qll_day_write(int day, char text[QLL_DAY_SIZE])
{
    int year = 0;
    int month = 0;
    int of_month = 0;
    parts_of(day, &year, &month, &of_month);
    const int parts[] = {year / 100, year % 100, month, of_month};
    static const size_t places[] = {0, 2, 5, 8};
    for (size_t i = 0; i < 4; i++) {
        text[places[i]] = (char)('0' + parts[i] / 10 % 10);
        text[places[i] + 1] = (char)('0' + parts[i] % 10);
    }
    text[4] = '-';
    text[7] = '-';
    text[10] = '\0';
}

int qll_day_after_months(int day, int months)
{
    int year = 0;
    int month = 0;
    int of_month = 0;
    parts_of(day, &year, &month, &of_month);
    const int all = year * 12 + month - 1 + months;
    const int last = days_in(all / 12, all % 12 + 1);
    return day_of(all / 12, all % 12 + 1, of_month < last ? of_month : last);
}

/* ".25" of a second; any number of digits, of which three count. */
static bool take_fraction(const char **at, int *ms)
{
    *ms = 0;
    if (!take(at, '.')) {
        return true;
    }
    int digits = 0;
    int value = 0;
    while (**at >= '0' && **at <= '9') {
        value = digits < 3 ? value * 10 + (**at - '0') : value;
        digits++;
        *at += 1;
    }
    for (int i = digits; i < 3; i++) {
        value *= 10;
    }
    *ms = value;
    return digits > 0;
}

/* "Z", "-07:00": minutes east of UTC. */
static bool take_offset(const char **at, int *minutes)
{
    *minutes = 0;
    if (take(at, 'Z')) {
        return true;
    }
    const bool is_west = **at == '-';
    int hours = 0;
    int rest = 0;
    if (!(is_west ? take(at, '-') : take(at, '+')) || !take_digits(at, 2, &hours) || !take(at, ':')
        || !take_digits(at, 2, &rest) || hours > 23 || rest > 59) {
        return false;
    }
    *minutes = (is_west ? -1 : 1) * (hours * 60 + rest);
    return true;
}

bool qll_moment_read(const char *text, long long *ms, int *day)
{
    int there = 0;
    int hour = 0;
    int minute = 0;
    int second = 0;
    int fraction = 0;
    int offset = 0;
    if (!take_day(&text, &there) || !take(&text, 'T') || !take_digits(&text, 2, &hour)
        || !take(&text, ':') || !take_digits(&text, 2, &minute) || !take(&text, ':')
        || !take_digits(&text, 2, &second) || !take_fraction(&text, &fraction)
        || !take_offset(&text, &offset) || *text != '\0' || hour > 23 || minute > 59
        || second > 59) {
        return false;
    }
    *day = there;
    *ms = there * QLL_DAY_MS + (((long long)hour * 60 + minute - offset) * 60 + second) * 1000
          + fraction;
    return true;
}
