/* How libFuzzer changes what comes in rows: logs, tables, command lines. Rows and cells are left out, doubled, exchanged,
 * emptied, and their numbers turned into others, so that most of the rest is still read. Now and then bytes are changed as
 * libFuzzer does. */
#include "base/count.h"
#include "base/random.h"
#include "libfuzzer.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct span {
    size_t from, to; /* without the row's end or the cell's comma */
} span;

static size_t below(qll_random *random, size_t count)
{
    return (size_t)(qll_random_bits(random) % count);
}

/* Around a place: to the separators before and behind it, or to the ends. */
static span around(const uint8_t *data, size_t size, size_t at, const char *separators)
{
    span found = {at, at};
    while (found.from > 0 && strchr(separators, (char)data[found.from - 1]) == NULL) {
        found.from -= 1;
    }
    while (found.to < size && strchr(separators, (char)data[found.to]) == NULL) {
        found.to += 1;
    }
    return found;
}

static span any(const uint8_t *data, size_t size, qll_random *random)
{
    /* A zero byte ends every strchr(): it separates too. */
    return around(data, size, below(random, size), below(random, 3) == 0 ? "\n" : "\n,;\t=");
}

/* @p with in the place of @p what; 0 if it does not fit. */
static size_t replace(uint8_t *data, size_t size, size_t most, span what, const uint8_t *with,
                      size_t count)
{
    size_t made = size - (what.to - what.from) + count;
    if (made > most) {
        return 0;
    }
    memmove(data + what.from + count, data + what.to, size - what.to);
    memcpy(data + what.from, with, count);
    return made;
}

static size_t another_number(uint8_t *data, size_t size, size_t most, span what, qll_random *random)
{
    static const double factors[] = {0.0, -1.0, 0.1, 10.0, 0.5,   2.0,
                                     1e3, 1e-3, 1e9, 1.01, 1e300, 1e-300};
    static const char *const odd[] = {"",      "NaN",         "-",     "1,5",
                                      "1e400", "99999",       "0x1p3", "2026-02-30 25:61",
                                      "-999",  "\xEF\xBB\xBF"};
    char text[64] = "";
    char *rest = text;
    size_t length = what.to - what.from < sizeof text - 1 ? what.to - what.from : sizeof text - 1;
    memcpy(text, data + what.from, length);
    double value = strtod(text, &rest);
    char made[512];
    const char *put = odd[below(random, QLL_COUNT(odd))];
    if (rest != text && below(random, 4) > 0) {
        (void)snprintf(made, sizeof made, "%g%s",
                       value * factors[below(random, QLL_COUNT(factors))], rest);
        put = made;
    }
    return replace(data, size, most, what, (const uint8_t *)put, strlen(put));
}

size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t max_size, unsigned int seed)
{
    qll_random random = qll_random_seeded(seed);
    if (size == 0 || below(&random, 12) == 0) {
        return LLVMFuzzerMutate(data, size, max_size);
    }
    span one = any(data, size, &random);
    span other = any(data, size, &random);
    size_t made = 0;
    uint8_t *copy = malloc(size);
    if (copy != NULL) {
        memcpy(copy, data, size);
        switch (below(&random, 5)) {
        case 0: { /* left out, with what ends it */
            span with_end = {one.from, one.to < size ? one.to + 1 : one.to};
            made = replace(data, size, max_size, with_end, copy, 0);
            break;
        }
        case 1: { /* doubled */
            span here = {one.from, one.from};
            size_t to = one.to < size ? one.to + 1 : one.to;
            made = replace(data, size, max_size, here, copy + one.from, to - one.from);
            break;
        }
        case 2: /* as another one */
            made = replace(data, size, max_size, one, copy + other.from, other.to - other.from);
            break;
        default: made = another_number(data, size, max_size, one, &random); break;
        }
    }
    free(copy);
    return made > 0 ? made : LLVMFuzzerMutate(data, size, max_size);
}
