/* Finding the row of the unit table that a spelling means. */
#include "base/count.h"
#include "base/units_amount.h"
#include "base/units_table.h"
#include "base/words.h"

#include <string.h>

/* Longer than every spelling of the table; a unit that does not fit is none of them. */
#define QLL_SPELLING_SIZE 64

typedef struct plain_form {
    const char *typed;
    const char *plain;
} plain_form;

/* What word processors and telephones put in the place of keyboard characters. */
static const plain_form plain_forms[] = {
    {"\u00B2", "2"},  {"\u00B3", "3"},  {"\u2082", "2"},  {"^2", "2"},       {"^3", "3"},
    {"\u00B7", "."},  {"\u22C5", "."},  {"*", "."},       {"\u00B0", "deg"}, {"\u00BA", "deg"},
    {"\u2033", "\""}, {"\u201C", "\""}, {"\u201D", "\""}, {"\u2032", "'"},   {"\u2018", "'"},
    {"\u2019", "'"},  {"\u00B5", "u"},  {"\u03BC", "u"},  {"\u00A0", " "},   {"\u2009", " "},
    {"\u202F", " "},  {"\t", " "},      {"(", ""},        {")", ""},
};

typedef struct spelling {
    char bytes[QLL_SPELLING_SIZE];
    size_t size;
    bool too_long;
} spelling;

static bool joins(char byte)
{
    return byte == '/' || byte == '.' || byte == ' ';
}

/* Appends without blanks at the start, doubled, or beside a stroke or dot. */
static void append(spelling *plain, char byte)
{
    char last = plain->size == 0 ? ' ' : plain->bytes[plain->size - 1];
    if (byte == ' ' && joins(last)) {
        return;
    }
    if (last == ' ' && joins(byte) && plain->size > 0) {
        plain->size -= 1;
    }
    if (plain->size == QLL_SPELLING_SIZE) {
        plain->too_long = true;
        return;
    }
    plain->bytes[plain->size] = byte;
    plain->size += 1;
}

/* Appends what the text starts with, in plain form; returns how many bytes that was. */
static size_t append_plain(spelling *plain, qll_text text)
{
    for (size_t i = 0; i < QLL_COUNT(plain_forms); i++) {
        size_t size = strlen(plain_forms[i].typed);
        if (size <= text.size && memcmp(text.bytes, plain_forms[i].typed, size) == 0) {
            for (const char *byte = plain_forms[i].plain; *byte != '\0'; byte++) {
                append(plain, *byte);
            }
            return size;
        }
    }
    append(plain, text.bytes[0]);
    return 1;
}

static spelling plain_spelling(qll_text text)
{
    spelling plain = {.size = 0};
    while (text.size > 0 && !plain.too_long) {
        size_t used = append_plain(&plain, text);
        text.bytes += used;
        text.size -= used;
    }
    /* "in." and "gal." are abbreviations with their full stop. */
    if (plain.size > 1 && plain.bytes[plain.size - 1] == '.') {
        plain.size -= 1;
    }
    while (plain.size > 0 && plain.bytes[plain.size - 1] == ' ') {
        plain.size -= 1;
    }
    return plain;
}

static char lower(char byte)
{
    return byte >= 'A' && byte <= 'Z' ? (char)(byte - 'A' + 'a') : byte;
}

static bool is_spelled(const spelling *plain, const char *known, bool case_matters)
{
    if (case_matters && plain->size > 0 && plain->bytes[0] != known[0]) {
        return false;
    }
    size_t at = 0;
    for (; *known != '\0'; known++) {
        bool same = at < plain->size && lower(plain->bytes[at]) == lower(*known);
        if (same) {
            at += 1;
        } else if (*known != ' ') {
            return false;
        }
    }
    return at == plain->size;
}

static bool is_unit(const spelling *plain, const qll_unit *unit)
{
    if (is_spelled(plain, unit->name, unit->case_matters)) {
        return true;
    }
    for (size_t i = 0; i < QLL_UNIT_SPELLINGS && unit->spellings[i] != NULL; i++) {
        if (is_spelled(plain, unit->spellings[i], unit->case_matters)) {
            return true;
        }
    }
    return false;
}

static bool measures(const qll_unit *unit, qll_kind kind)
{
    return kind == QLL_KIND_COUNT || (unit->kinds & qll_unit_kind_bit(kind)) != 0;
}

const qll_unit *qll_units_find(const char *name, qll_kind kind)
{
    for (size_t i = 0; i < qll_units_table_count; i++) {
        const qll_unit *unit = &qll_units_table[i];
        if (measures(unit, kind) && strcmp(unit->name, name) == 0) {
            return unit;
        }
    }
    return NULL;
}

const qll_unit *qll_units_match(qll_text given, qll_kind kind)
{
    spelling plain = plain_spelling(given);
    if (plain.too_long || plain.size == 0) {
        return NULL;
    }
    for (size_t i = 0; i < qll_units_table_count; i++) {
        const qll_unit *unit = &qll_units_table[i];
        if (measures(unit, kind) && is_unit(&plain, unit)) {
            return unit;
        }
    }
    return NULL;
}

const char *qll_units_nearest(qll_text given, qll_kind kind)
{
    spelling plain = plain_spelling(given);
    if (plain.too_long) {
        return NULL;
    }
    qll_text looked_for = {.bytes = plain.bytes, .size = plain.size};
    const char *best = NULL;
    for (size_t i = 0; i < qll_units_table_count; i++) {
        const qll_unit *unit = &qll_units_table[i];
        if (!measures(unit, kind)) {
            continue;
        }
        /* The best so far meets the names of this row; ties stay with the earlier one. */
        const char *round[QLL_UNIT_SPELLINGS + 2];
        size_t count = 0;
        if (best != NULL) {
            round[count++] = best;
        }
        round[count++] = unit->name;
        for (size_t j = 0; j < QLL_UNIT_SPELLINGS && unit->spellings[j] != NULL; j++) {
            round[count++] = unit->spellings[j];
        }
        best = qll_words_nearest(looked_for, round, count);
    }
    return best;
}

bool qll_units_system_of(qll_text quantity, qll_unit_system *system)
{
    /* How the names of the rows begin that are used with feet and pounds. */
    static const char *const us[] = {"psi",  "ksi", "gp", "MGD",  "ft",   "in", "yd", "gal",
                                     "kgal", "CCF", "lb", "degF", "degR", "Cv", "NPS"};
    double value = 0;
    qll_text rest;
    if (qll_amount_read(quantity, &value, &rest) != QLL_AMOUNT_READ || rest.size == 0) {
        return false;
    }
    const qll_unit *unit = qll_units_match(rest, QLL_KIND_COUNT);
    /* An imperial gallon is of neither; minutes are of both. */
    if (unit == NULL || strncmp(unit->name, "imp", 3) == 0
        || (unit->kinds & qll_unit_kind_bit(QLL_KIND_TIME)) != 0) {
        return false;
    }
    *system = QLL_UNITS_SI;
    for (size_t i = 0; i < sizeof us / sizeof us[0]; i++) {
        if (strncmp(unit->name, us[i], strlen(us[i])) == 0) {
            *system = QLL_UNITS_US;
        }
    }
    return true;
}
