#include "documents/pattern.h"

#include "base/units_table.h"

#include <string.h>

#define QLL_W QLL_PATTERN_BLANKS

/* What base/units_amount.h reads: a vulgar fraction, "3/4", "1-1/2", "1 1/2", "12.5", "1e3". */
#define QLL_SIGN     "[-+\\u2212]?"
#define QLL_VULGAR   "[\\u00bc-\\u00be\\u2153\\u2154\\u215b-\\u215e]"
#define QLL_FRACTION "(?:" QLL_VULGAR "|[0-9]+[/\\u2044][0-9]+)"
#define QLL_NUMBER   "(?:[0-9]+(?:\\.[0-9]*)?|\\.[0-9]+)(?:[eE][-+]?[0-9]+)?"
#define QLL_AMOUNT \
    QLL_SIGN "(?:[0-9]+" QLL_W "-?" QLL_W QLL_FRACTION "|" QLL_FRACTION "|" QLL_NUMBER ")"
/* Brackets, superscripts and signs of other alphabets stand for plain ones in more ways than are worth
 * spelling out: a unit with one of them is left to the readers. */
#define QLL_ODD_UNIT ".*[()*^\\t\\u007f-\\uffff].*"

static bool is_letter(char byte)
{
    return (byte >= 'A' && byte <= 'Z') || (byte >= 'a' && byte <= 'z');
}

static void write_letter(qll_writer *writer, char byte, bool any_case)
{
    const char other = (char)(byte ^ 0x20);
    if (!any_case || !is_letter(byte)) {
        qll_write_byte(writer, byte, 1);
        return;
    }
    qll_write_format(writer, "[%c%c]", byte < other ? byte : other, byte < other ? other : byte);
}

static void write_escaped(qll_writer *writer, char byte, bool any_case)
{
    if (byte != '\0' && strchr(".*+?^${}()|[]\\/", byte) != NULL) {
        qll_write_byte(writer, '\\', 1);
    }
    write_letter(writer, byte, any_case);
}

void qll_pattern_words(qll_writer *writer, const char *const *words, size_t count, bool any_case)
{
    qll_write(writer, "(?:");
    for (size_t i = 0; i < count; i++) {
        qll_write(writer, i == 0 ? "" : "|");
        for (const char *at = words[i]; *at != '\0'; at++) {
            write_escaped(writer, *at, any_case);
        }
    }
    qll_write(writer, ")");
}

/* ---- units ---- */

/* Blanks may be left out or doubled, and stand beside strokes and dots; capitals are forgiven, but for a first
 * letter that tells milli from mega. */
static void write_spelling(qll_writer *writer, const char *spelling, bool case_matters)
{
    for (const char *at = spelling; *at != '\0'; at++) {
        if (*at == ' ') {
            qll_write(writer, " *");
        } else if (*at == '/' || *at == '.') {
            qll_write_format(writer, " *\\%c *", *at);
        } else {
            write_escaped(writer, *at, !(case_matters && at == spelling));
        }
    }
}

static bool is_plain(const char *spelling)
{
    for (const char *at = spelling; *at != '\0'; at++) {
        if (*at < ' ' || *at > '~' || *at == '^') {
            return false;
        }
    }
    return true;
}

static void write_unit(qll_writer *writer, const qll_unit *unit, bool is_first)
{
    qll_write(writer, is_first ? "" : "|");
    write_spelling(writer, unit->name, unit->case_matters);
    for (size_t i = 0; i < QLL_UNIT_SPELLINGS && unit->spellings[i] != NULL; i++) {
        if (is_plain(unit->spellings[i])) {
            qll_write(writer, "|");
            write_spelling(writer, unit->spellings[i], unit->case_matters);
        }
    }
}

/* The spellings of the row @p name of @p kind, of all its rows where it is NULL. */
static void write_units(qll_writer *writer, qll_kind kind, const char *name)
{
    bool is_first = true;
    qll_write(writer, "(?:(?:");
    for (size_t i = 0; i < qll_units_table_count; i++) {
        const qll_unit *unit = &qll_units_table[i];
        if ((unit->kinds & qll_unit_kind_bit(kind)) != 0
            && (name == NULL || strcmp(unit->name, name) == 0)) {
            write_unit(writer, unit, is_first);
            is_first = false;
        }
    }
    qll_write(writer, ") *\\.?|" QLL_ODD_UNIT ")");
}

/* "DN 50", "NPS 2", "Kv 18", "Cv 21": the word in front is unit enough. */
static const char *prefixes_of(qll_kind kind)
{
    if (kind == QLL_KIND_LENGTH) {
        return "(?:[Dd][Nn]|[Nn][Pp][Ss])";
    }
    return kind == QLL_KIND_FLOW_COEFFICIENT ? "[CKck][Vv]" : NULL;
}

const char *qll_pattern_quantity(qll_arena *arena, qll_kind kind)
{
    qll_writer writer = qll_writer_new(arena);
    const char *prefixes = prefixes_of(kind);
    qll_write(&writer, "^" QLL_W "(?:" QLL_AMOUNT QLL_W);
    write_units(&writer, kind, NULL);
    if (prefixes != NULL) {
        qll_write_format(&writer, "|%s" QLL_W QLL_AMOUNT QLL_W, prefixes);
        write_units(&writer, kind, NULL);
        qll_write(&writer, "?");
    }
    if (kind == QLL_KIND_LENGTH) { /* 6'-4" */
        qll_write(&writer, "|" QLL_AMOUNT QLL_W);
        write_units(&writer, kind, "ft");
        qll_write(&writer, QLL_W "-?" QLL_W QLL_AMOUNT QLL_W);
        write_units(&writer, kind, "in");
    }
    qll_write(&writer, ")" QLL_W "$");
    return qll_writer_text(&writer).bytes;
}

const char *qll_pattern_meter_size(qll_arena *arena)
{
    qll_writer writer = qll_writer_new(arena);
    qll_write(&writer, "^" QLL_W QLL_AMOUNT QLL_W "(?:");
    write_units(&writer, QLL_KIND_LENGTH, NULL);
    qll_write(&writer, QLL_W "x" QLL_W QLL_AMOUNT ".*|x" QLL_W QLL_AMOUNT QLL_W);
    write_units(&writer, QLL_KIND_LENGTH, NULL);
    qll_write(&writer, QLL_W ")$");
    return qll_writer_text(&writer).bytes;
}
