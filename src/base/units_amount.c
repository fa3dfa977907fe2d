#include "base/units_amount.h"

#include "base/count.h"

#include <math.h>
#include <string.h>

typedef struct vulgar {
    const char *character;
    double value;
} vulgar;

static const vulgar vulgars[] = {
    {"\u00BC", 1.0 / 4.0}, {"\u00BD", 1.0 / 2.0}, {"\u00BE", 3.0 / 4.0},
    {"\u215B", 1.0 / 8.0}, {"\u215C", 3.0 / 8.0}, {"\u215D", 5.0 / 8.0},
    {"\u215E", 7.0 / 8.0}, {"\u2153", 1.0 / 3.0}, {"\u2154", 2.0 / 3.0},
};

static qll_text without(qll_text text, size_t size)
{
    return (qll_text){.bytes = text.bytes + size, .size = text.size - size};
}

static bool starts_with(qll_text text, const char *closed)
{
    size_t size = strlen(closed);
    return size <= text.size && memcmp(text.bytes, closed, size) == 0;
}

static size_t digit_count(qll_text text)
{
    size_t count = 0;
    while (count < text.size && text.bytes[count] >= '0' && text.bytes[count] <= '9') {
        count += 1;
    }
    return count;
}

/* Size of the vulgar fraction at the start, or 0. */
static size_t read_vulgar(qll_text text, double *value)
{
    for (size_t i = 0; i < QLL_COUNT(vulgars); i++) {
        if (starts_with(text, vulgars[i].character)) {
            *value = vulgars[i].value;
            return strlen(vulgars[i].character);
        }
    }
    return 0;
}

/* Size of "3/4" at the start, or 0; the value is NaN if it cannot be one of a fraction. */
static size_t read_stroke(qll_text text, double *value)
{
    size_t above_size = digit_count(text);
    qll_text rest = without(text, above_size);
    size_t stroke_size = starts_with(rest, "/") ? 1 : starts_with(rest, "\u2044") ? 3 : 0;
    if (above_size == 0 || stroke_size == 0) {
        return 0;
    }
    rest = without(rest, stroke_size);
    size_t below_size = digit_count(rest);
    if (below_size == 0) {
        return 0;
    }
    double above = (double)NAN;
    double below = (double)NAN;
    qll_text above_text = {.bytes = text.bytes, .size = above_size};
    qll_text below_text = {.bytes = rest.bytes, .size = below_size};
    bool fits = qll_text_number(above_text, &above) > 0 && qll_text_number(below_text, &below) > 0;
    *value = fits && below > 0.0 ? above / below : (double)NAN;
    return above_size + stroke_size + below_size;
}

static size_t read_fraction(qll_text text, double *value)
{
    size_t size = read_vulgar(text, value);
    return size > 0 ? size : read_stroke(text, value);
}

bool qll_amount_starts(qll_text text)
{
    double value = 0.0;
    bool has_point = starts_with(text, ".");
    return digit_count(has_point ? without(text, 1) : text) > 0 || read_vulgar(text, &value) > 0;
}

bool qll_amount_is_two(qll_text text)
{
    text = qll_text_trimmed(text);
    text = without(text, starts_with(text, "-") || starts_with(text, "+") ? 1 : 0);
    double value = 0.0;
    bool is_stroke = read_stroke(text, &value) > 0;
    return is_stroke && (value >= 1.0 || digit_count(text) >= 2);
}

/* The fraction after a whole number of @p whole_size digits: "-1/2", " 1/2" or a vulgar one. */
static size_t read_joined_fraction(qll_text after_whole, double *value)
{
    qll_text rest = qll_text_trimmed(after_whole);
    bool joined = rest.bytes != after_whole.bytes;
    if (starts_with(rest, "-")) {
        rest = qll_text_trimmed(without(rest, 1));
        joined = true;
    }
    size_t size = joined ? read_fraction(rest, value) : read_vulgar(rest, value);
    return size == 0 ? 0 : (size_t)(rest.bytes - after_whole.bytes) + size;
}

static qll_amount_state read_unsigned(qll_text text, double *value, qll_text *rest)
{
    size_t size = read_fraction(text, value);
    if (size > 0) {
        *rest = without(text, size);
        return isfinite(*value) ? QLL_AMOUNT_READ : QLL_AMOUNT_FRACTION;
    }
    size = qll_text_number(text, value);
    if (size == 0) {
        return QLL_AMOUNT_TOO_LARGE;
    }
    *rest = without(text, size);
    if (starts_with(*rest, ",") && digit_count(without(*rest, 1)) > 0) {
        return QLL_AMOUNT_COMMA;
    }
    double fraction = 0.0;
    size_t fraction_size = digit_count(text) == size ? read_joined_fraction(*rest, &fraction) : 0;
    if (fraction_size > 0) {
        *rest = without(*rest, fraction_size);
        *value += fraction;
        return fraction < 1.0 ? QLL_AMOUNT_READ : QLL_AMOUNT_FRACTION;
    }
    return QLL_AMOUNT_READ;
}

qll_amount_state qll_amount_read(qll_text text, double *value, qll_text *rest)
{
    bool is_negative = false;
    text = qll_text_trimmed(text);
    if (starts_with(text, "-") || starts_with(text, "+")) {
        is_negative = text.bytes[0] == '-';
        text = without(text, 1);
    } else if (starts_with(text, "\u2212")) {
        is_negative = true;
        text = without(text, strlen("\u2212"));
    }
    if (!qll_amount_starts(text)) {
        return QLL_AMOUNT_NONE;
    }
    double read = 0.0;
    qll_text after = text;
    qll_amount_state state = read_unsigned(text, &read, &after);
    if (state == QLL_AMOUNT_READ) {
        *value = is_negative ? -read : read;
        *rest = qll_text_trimmed(after);
    }
    return state;
}
