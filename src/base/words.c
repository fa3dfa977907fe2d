#include "base/words.h"

#include <string.h>

#define QLL_LONGEST_WORD 64

static char lower(char byte)
{
    return byte >= 'A' && byte <= 'Z' ? (char)(byte - 'A' + 'a') : byte;
}

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

/* Restricted Damerau-Levenshtein distance: insert, delete, replace, or swap two neighbours, no
 * stretch edited twice. Rows of the usual table; only the last three are needed. */
static size_t distance(qll_text a, qll_text b)
{
    size_t rows[3][QLL_LONGEST_WORD + 1];
    size_t *before_last = rows[0];
    size_t *last = rows[1];
    size_t *row = rows[2];
    for (size_t j = 0; j <= b.size; j++) {
        before_last[j] = j;
        last[j] = j;
    }
    for (size_t i = 1; i <= a.size; i++) {
        row[0] = i;
        for (size_t j = 1; j <= b.size; j++) {
            char x = lower(a.bytes[i - 1]);
            char y = lower(b.bytes[j - 1]);
            row[j] = least(least(last[j], row[j - 1]) + 1, last[j - 1] + (x == y ? 0 : 1));
            if (i > 1 && j > 1 && x == lower(b.bytes[j - 2]) && y == lower(a.bytes[i - 2])) {
                row[j] = least(row[j], before_last[j - 2] + 1);
            }
        }
        size_t *spare = before_last;
        before_last = last;
        last = row;
        row = spare;
    }
    return last[b.size];
}

const char *qll_words_nearest(qll_text given, const char *const *words, size_t count)
{
    const char *nearest = NULL;
    size_t nearest_distance = 0;
    if (given.size > QLL_LONGEST_WORD) {
        return NULL;
    }
    for (size_t i = 0; i < count; i++) {
        qll_text word = qll_text_of(words[i]);
        if (word.size > QLL_LONGEST_WORD) {
            continue;
        }
        size_t longer = word.size > given.size ? word.size : given.size;
        size_t allowed = longer < 3 ? 1 : longer / 3;
        size_t found = distance(given, word);
        /* As many edits as letters means that the two share nothing. */
        bool near_enough = found <= allowed && found < longer;
        if (near_enough && (nearest == NULL || found < nearest_distance)) {
            nearest = words[i];
            nearest_distance = found;
        }
    }
    return nearest;
}

size_t qll_words_place(qll_text word, const char *const *words, size_t count)
{
    size_t place = 0;
    while (place < count && !qll_text_is(word, words[place])) {
        place += 1;
    }
    return place;
}

bool qll_words_hold(const char *list, char parting, qll_text word)
{
    while (*list != '\0') {
        const char *stop = strchr(list, parting);
        const size_t size = stop == NULL ? strlen(list) : (size_t)(stop - list);
        if (qll_text_equal((qll_text){list, size}, word)) {
            return true;
        }
        list += size + (stop == NULL ? 0 : 1);
    }
    return false;
}
