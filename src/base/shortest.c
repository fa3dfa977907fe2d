/* Exact arithmetic on value = m 2^-q: scaled by 10^k it has 17 digits before the point and fits 123 bits, so that rounding to 15
 * digits and the question whether that reads back are comparisons of integers (our own derivation). */
#include "base/shortest.h"

#include <math.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

__extension__ typedef unsigned __int128 wide;

#define QLL_DIGITS_MOST      17
#define QLL_DIGITS_LEAST     15
#define QLL_SEVENTEEN_DIGITS UINT64_C(10000000000000000) /* the least number that has them */

/* value = mantissa / 2^halvings. */
typedef struct parts {
    uint64_t mantissa;
    int halvings;
} parts;

static parts parts_of(double size)
{
    int exponent = 0;
    const double fraction = frexp(size, &exponent);
    return (parts){(uint64_t)ldexp(fraction, 53), 53 - exponent};
}

/* Whether @p tried, in units of which a step of the mantissa is @p step, reads back as @p exact: within half a step, and at the
 * half where the mantissa is even. Below a power of two the steps are half as long. */
static bool reads_back(wide tried, wide exact, wide step, uint64_t mantissa)
{
    const bool is_below = tried < exact;
    const wide off = is_below ? exact - tried : tried - exact;
    const bool is_power = mantissa == UINT64_C(1) << 52;
    const wide twice = (is_below && is_power ? 4 : 2) * off;
    return twice < step || (twice == step && mantissa % 2 == 0);
}

/* The digits of @p number, of which it has @p count, without zeros at their end. How many are left. */
static int put_digits(uint64_t number, int count, char digits[QLL_DIGITS_MOST])
{
    for (int i = count - 1; i >= 0; i--) {
        digits[i] = (char)('0' + number % 10);
        number /= 10;
    }
    while (count > 1 && digits[count - 1] == '0') {
        count--;
    }
    return count;
}

/* As "%g" lays out digits whose first stands for 10^exponent. */
static void lay_out(const char *digits, int count, int exponent, char *text)
{
    char *at = text;
    if (exponent < -4) {
        *at++ = digits[0];
        if (count > 1) {
            *at++ = '.';
            memcpy(at, digits + 1, (size_t)count - 1);
            at += count - 1;
        }
        memcpy(at, "e-0", 3);
        at[3] = (char)('0' - exponent);
        at[4] = '\0';
        return;
    }
    const int whole = exponent < 0 ? 0 : exponent + 1; /* digits before the point */
    if (whole == 0) {
        memcpy(at, "0.0000", 6);
        at += 1 - exponent;
    }
    for (int i = 0; i < count || i < whole; i++) {
        if (i == whole && whole > 0) {
            *at++ = '.';
        }
        *at++ = i < count ? digits[i] : '0';
    }
    *at = '\0';
}

bool qll_shortest(double value, char text[QLL_SHORTEST_ROOM])
{
    const double size = fabs(value);
    if (size != 0 && !(size >= 1e-5 && size < 1e15)) {
        return false;
    }
    if (signbit(value)) {
        *text++ = '-';
    }
    if (size == 0) {
        memcpy(text, "0", 2);
        return true;
    }
    const parts of = parts_of(size);
    int exponent = QLL_DIGITS_LEAST - 1; /* of the first digit */
    wide step = 100;                     /* in the scaled number, of the mantissa */
    while (of.mantissa * step >> of.halvings < QLL_SEVENTEEN_DIGITS) {
        step *= 10;
        exponent--;
    }
    const wide exact = of.mantissa * step;
    const uint64_t floor = (uint64_t)(exact >> of.halvings);
    const wide below = exact - ((wide)floor << of.halvings);
    uint64_t drops = 100;
    for (int count = QLL_DIGITS_LEAST;; count++, drops /= 10) {
        const wide unit = (wide)drops << of.halvings;
        const wide rest = ((wide)(floor % drops) << of.halvings) + below;
        uint64_t rounded = floor / drops;
        rounded += 2 * rest > unit || (2 * rest == unit && rounded % 2 == 1) ? 1 : 0;
        if (count == QLL_DIGITS_MOST || reads_back(rounded * unit, exact, step, of.mantissa)) {
            char digits[QLL_DIGITS_MOST + 1];
            const bool is_longer =
                rounded * drops == 10 * QLL_SEVENTEEN_DIGITS; /* 9.99… went up to 10 */
            const int left = put_digits(is_longer ? rounded / 10 : rounded, count, digits);
            lay_out(digits, left, exponent + (is_longer ? 1 : 0), text);
            return true;
        }
    }
}
