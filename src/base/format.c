/* Formats as printf writes them in the C locale, whatever locale the process has chosen. */
#include "base/print.h"
#include "base/text.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* A double has 309 digits before its point at most; behind it stand no more decimals than QLL_DECIMALS_MOST. */
#define QLL_NUMBER_ROOM   512
#define QLL_DECIMALS_MOST 150

/* What stands between a % and its letter. */
typedef struct conversion {
    bool fills, signs; /* 0 and + */
    int width;
    int decimals; /* -1: none given */
    int longs;    /* of "l" */
    bool is_size, has_star;
} conversion;

static const char *take_whole(const char *at, int *whole)
{
    for (*whole = 0; *at >= '0' && *at <= '9'; at++) {
        *whole = 10 * *whole + (*at - '0');
    }
    return at;
}

/* Writes a number, whose sign if any stands first, in the room that the conversion gives it. */
static void put_wide(qll_writer *writer, const conversion *as, const char *number, size_t size)
{
    const bool is_negative = number[0] == '-';
    const char *digits = number + (is_negative ? 1 : 0);
    const size_t digit_count = size - (is_negative ? 1 : 0);
    const char *sign = is_negative ? "-" : as->signs ? "+" : "";
    const size_t taken = digit_count + strlen(sign);
    const size_t lacks = (size_t)as->width > taken ? (size_t)as->width - taken : 0;
    const bool fills =
        as->fills && digits[0] >= '0' && digits[0] <= '9'; /* no zeros before "inf" */
    qll_write_byte(writer, ' ', fills ? 0 : lacks);
    qll_write(writer, sign);
    qll_write_byte(writer, '0', fills ? lacks : 0);
    qll_write_text(writer, (qll_text){digits, digit_count});
}

static void put_double(qll_writer *writer, const conversion *as, char letter, double value)
{
    char number[QLL_NUMBER_ROOM];
    const int decimals = as->decimals < 0 ? 6 : as->decimals;
    assert((letter == 'f' || letter == 'e' || letter == 'g') && decimals <= QLL_DECIMALS_MOST);
    put_wide(writer, as, number, qll_number_print(number, sizeof number, letter, decimals, value));
}

static void put_signed(qll_writer *writer, const conversion *as, long long value)
{
    char number[32];
    const int size = snprintf(number, sizeof number, "%lld", value);
    put_wide(writer, as, number, (size_t)size);
}

static void put_unsigned(qll_writer *writer, const conversion *as, unsigned long long value)
{
    char number[32];
    const int size = snprintf(number, sizeof number, "%llu", value);
    const conversion unsigned_as = {.fills = as->fills, .width = as->width};
    put_wide(writer, &unsigned_as, number, (size_t)size);
}

static void put_text(qll_writer *writer, const conversion *as, const char *text)
{
    size_t size = 0;
    while ((as->decimals < 0 || size < (size_t)as->decimals) && text[size] != '\0') {
        size += 1;
    }
    qll_write_text(writer, (qll_text){text, size});
}

/* What stands from behind a % up to its letter, which is returned. */
static const char *read_conversion(const char *at, conversion *as)
{
    *as = (conversion){.decimals = -1};
    for (; *at == '0' || *at == '+'; at++) {
        as->fills = as->fills || *at == '0';
        as->signs = as->signs || *at == '+';
    }
    at = take_whole(at, &as->width);
    if (*at == '.') {
        as->has_star = at[1] == '*';
        at = as->has_star ? at + 2 : take_whole(at + 1, &as->decimals);
    }
    for (; *at == 'l' || *at == 'z'; at++) {
        as->longs += *at == 'l' ? 1 : 0;
        as->is_size = *at == 'z';
    }
    return at;
}

void qll_write_format(qll_writer *writer, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    for (const char *at = strchr(format, '%'); at != NULL; at = strchr(format, '%')) {
        qll_write_text(writer, (qll_text){format, (size_t)(at - format)});
        conversion as;
        at = read_conversion(at + 1, &as);
        as.decimals = as.has_star ? va_arg(arguments, int) : as.decimals;
        switch (*at) {
        case '%': qll_write_byte(writer, '%', 1); break;
        case 'c': qll_write_byte(writer, (char)va_arg(arguments, int), 1); break;
        case 's': put_text(writer, &as, va_arg(arguments, const char *)); break;
        case 'd':
            put_signed(writer, &as,
                       as.longs == 2   ? va_arg(arguments, long long)
                       : as.longs == 1 ? va_arg(arguments, long)
                                       : va_arg(arguments, int));
            break;
        case 'u':
            put_unsigned(writer, &as,
                         as.is_size      ? va_arg(arguments, size_t)
                         : as.longs == 2 ? va_arg(arguments, unsigned long long)
                         : as.longs == 1 ? va_arg(arguments, unsigned long)
                                         : va_arg(arguments, unsigned));
            break;
        default: put_double(writer, &as, *at, va_arg(arguments, double)); break;
        }
        format = at + 1;
    }
    va_end(arguments);
    qll_write(writer, format);
}
