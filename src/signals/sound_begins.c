#include "signals/log_time.h"
#include "signals/sound_beside.h"

#include <stdio.h>

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

bool qll_begins_read(qll_text text, qll_begins *begins)
{
    *begins = (qll_begins){0};
    qll_stamp stamp;
    if (qll_stamp_read(text, QLL_LOG_ORDER_YEAR_FIRST, &stamp) && stamp.has_clock) {
        begins->local_ms = stamp.local_ms;
        begins->has_offset = stamp.has_offset;
        begins->offset_s = stamp.offset_s;
        return true;
    }
    const size_t digits = qll_plain_number(text, &begins->elapsed_s);
    begins->is_elapsed = digits > 0 && digits + 2 == text.size && text.bytes[digits] == ' '
                         && text.bytes[digits + 1] == 's' && begins->elapsed_s >= 0.0;
    return begins->is_elapsed;
}

/* @p count digits from @p at on; moves it behind them and one mark that may follow. -1 if there are none. */
static int take_digits(qll_text name, size_t *at, size_t count)
{
    int value = 0;
    for (size_t i = 0; i < count; i++) {
        if (*at + i >= name.size || !is_digit(name.bytes[*at + i])) {
            return -1;
        }
        value = 10 * value + (name.bytes[*at + i] - '0');
    }
    *at += count;
    const bool has_mark =
        *at + 1 < name.size && !is_digit(name.bytes[*at]) && is_digit(name.bytes[*at + 1]);
    *at += has_mark ? 1 : 0;
    return value;
}

bool qll_begins_in(qll_text name, qll_begins *begins)
{
    for (size_t from = 0; from + 12 <= name.size; from++) {
        size_t at = from;
        if (from > 0 && is_digit(name.bytes[from - 1])) {
            continue;
        }
        const int year = take_digits(name, &at, 4), month = take_digits(name, &at, 2);
        const int day = take_digits(name, &at, 2), hour = take_digits(name, &at, 2);
        const int minute = take_digits(name, &at, 2), second = take_digits(name, &at, 2);
        char stamp[48];
        if (year >= 1990 && month > 0 && day > 0 && hour >= 0 && minute >= 0) {
            const int size = snprintf(stamp, sizeof stamp, "%04d-%02d-%02dT%02d:%02d:%02d", year,
                                      month, day, hour, minute, second < 0 ? 0 : second);
            if (qll_begins_read((qll_text){stamp, (size_t)size}, begins)) {
                return true;
            }
        }
    }
    return false;
}
