/* What stands outside brackets, in a language that brackets every text. */
#ifndef QUELL_TESTS_PSEUDO_BRACKETS_H
#define QUELL_TESTS_PSEUDO_BRACKETS_H

#include "base/units_table.h"
#include "check.h"
#include "demand/demand.h"
#include "documents/catalogue_fields.h"
#include "documents/survey_fields.h"

#include <ctype.h>
#include <string.h>

static const char bracket_opens[] = "\xE2\x80\xB9";
static const char bracket_closes[] = "\xE2\x80\xBA";

/* Words that are the same in every language: symbols, standards, files, names of valves' letters. */
static const char *const same[] = {
    "IPC",
    "UPC",
    "DIN",
    "EN",
    "BS",
    "ASTM",
    "dB",
    "Hz",
    /* files of the documentation */
    "docs",
    "formats",
    "survey",
    "catalogue",
    "catalog",
    "md",
    "json",
    /* the program's own name */
    "quell",
    /* the name of a scenario that has none, of the catalogue that is built in, and places of the trade's
     * time zones */
    "scenario",
    "generic",
    "America",
    "Denver",
    /* the name of a standard: "ASTM B88 type L" */
    "type",
    /* a size by ISO 6708, places in a table, and words of `close_call.why` */
    "DN",
    "row",
    "header",
    "demand",
    "halved",
    "within",
};

static bool has_word(const char *text, qll_text word)
{
    for (const char *at = text; at != NULL && *at != '\0'; at += 1) {
        bool is_start = at == text || !isalpha((unsigned char)at[-1]);
        if (is_start && strncmp(at, word.bytes, word.size) == 0
            && !isalpha((unsigned char)at[word.size])) {
            return true;
        }
    }
    return false;
}

static bool is_unit(qll_text word)
{
    bool found = false;
    for (size_t i = 0; i < qll_units_table_count && !found; i++) {
        const qll_unit *unit = &qll_units_table[i];
        found = has_word(unit->name, word);
        for (size_t s = 0; s < QLL_UNIT_SPELLINGS && unit->spellings[s] != NULL && !found; s++) {
            found = has_word(unit->spellings[s], word);
        }
    }
    return found;
}

static bool is_of_fields(const qll_field_group *const *groups, size_t count, qll_text word)
{
    for (size_t g = 0; g < count; g++) {
        for (size_t f = 0; f < groups[g]->count; f++) {
            const qll_field *field = &groups[g]->fields[f];
            bool found = has_word(field->key, word)
                         || (field->fallback != NULL && has_word(field->fallback, word));
            for (size_t w = 0; w < field->word_count && !found; w++) {
                found = has_word(field->words[w], word);
            }
            if (found) {
                return true;
            }
        }
    }
    return false;
}

/* What the drawing calls a test cock: "TA". */
static inline bool is_cock(qll_text word)
{
    return word.size == 2 && word.bytes[0] == 'T' && isupper((unsigned char)word.bytes[1]);
}

static bool is_allowed(qll_text word, const char *source)
{
    if (word.size < 2 || is_cock(word) || is_unit(word) || has_word(source, word)) {
        return true;
    }
    for (size_t i = 0; i < sizeof same / sizeof same[0]; i++) {
        if (qll_text_is(word, same[i])) {
            return true;
        }
    }
    for (size_t i = 0; i < QLL_PEAK_METHOD_COUNT; i++) {
        if (has_word(qll_peak_method_words[i], word)) {
            return true;
        }
    }
    size_t count = 0;
    const qll_field_group *const *groups = qll_survey_groups(&count);
    if (is_of_fields(groups, count, word)) {
        return true;
    }
    groups = qll_catalogue_groups(&count);
    return is_of_fields(groups, count, word);
}

/* Letters among the digits of a file's SHA-256: "fcea" in 9332810fcea6. */
static inline bool is_of_digest(qll_text word, const char *text)
{
    for (size_t i = 0; i < word.size; i++) {
        if (word.bytes[i] < 'a' || word.bytes[i] > 'f') {
            return false;
        }
    }
    return qll_is_digit(word.bytes[word.size])
           || (word.bytes > text && qll_is_digit(word.bytes[-1]));
}

/* Every word of @p text outside brackets. */
static inline void check_outside(const char *where, const char *text, const char *source)
{
    size_t depth = 0;
    for (const char *at = text; *at != '\0';) {
        if (strncmp(at, bracket_opens, 3) == 0) {
            depth += 1;
            at += 3;
        } else if (strncmp(at, bracket_closes, 3) == 0) {
            depth -= depth > 0 ? 1 : 0;
            at += 3;
        } else if (isalpha((unsigned char)*at)) {
            qll_text word = {at, 0};
            while (isalpha((unsigned char)*at)) {
                at += 1;
                word.size += 1;
            }
            if (depth == 0 && !is_of_digest(word, text) && !CHECK(is_allowed(word, source))) {
                size_t before = word.bytes - text > 30 ? 30 : (size_t)(word.bytes - text);
                printf("    %s: \"%.*s\" in \"%.*s...\"\n", where, (int)word.size, word.bytes,
                       (int)(before + word.size + 20 > strlen(word.bytes - before)
                                 ? strlen(word.bytes - before)
                                 : before + word.size + 20),
                       word.bytes - before);
            }
        } else {
            at += 1;
        }
    }
}

#endif
