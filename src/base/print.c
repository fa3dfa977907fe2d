#include "base/print.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

/* printf puts the locale's own mark there, which may have more than one byte. */
static size_t with_point(char *number, size_t size)
{
    const size_t mark = strspn(number, "+-0123456789einaf");
    if (mark == size) {
        return size;
    }
    const size_t rest = mark + strcspn(number + mark, "0123456789");
    number[mark] = '.';
    memmove(number + mark + 1, number + rest, size - rest + 1);
    return mark + 1 + (size - rest);
}

size_t qll_number_print(char *to, size_t room, char letter, int decimals, double value)
{
    const int size = letter == 'f'   ? snprintf(to, room, "%.*f", decimals, value)
                     : letter == 'e' ? snprintf(to, room, "%.*e", decimals, value)
                                     : snprintf(to, room, "%.*g", decimals, value);
    assert(size > 0 && (size_t)size < room);
    return with_point(to, (size_t)size);
}
