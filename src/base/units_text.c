/* Quantities inside texts that are kept until somebody reads them, in whichever units he wants: as
 * somebody wrote them, "{a length: 1000 ft}", or as they were worked out, "{a length = 304.8 m}". */
#include "base/units.h"
#include "base/units_table.h"

#include <math.h>
#include <string.h>

/* What no text of ours holds is no quantity of ours: it is shown as it stands. */
#define QLL_SHOWN_MOST 1e12

static const char *si_name(qll_kind kind)
{
    for (size_t i = 0; i < qll_units_table_count; i++) {
        const qll_unit *unit = &qll_units_table[i];
        if ((unit->kinds & qll_unit_kind_bit(kind)) != 0 && unit->factor == unit->per
            && unit->shift == 0.0 && !unit->absolute) {
            return unit->name;
        }
    }
    return "";
}

static const char as_written[] = ": ";
static const char as_figured[] = " = ";

static void write_open(qll_writer *writer, qll_kind kind, const char *mark)
{
    qll_write(writer, "{");
    qll_write(writer, qll_units_kind_phrase(kind));
    qll_write(writer, mark);
}

void qll_units_keep(qll_writer *writer, double si, qll_kind kind)
{
    if (kind == QLL_KIND_NUMBER) {
        qll_units_write(writer, si, kind, QLL_UNITS_SI);
        return;
    }
    write_open(writer, kind, as_figured);
    qll_write_number(writer, si);
    qll_write(writer, " ");
    qll_write(writer, si_name(kind));
    qll_write(writer, "}");
}

void qll_units_keep_text(qll_writer *writer, qll_text text, qll_kind kind)
{
    if (kind == QLL_KIND_NUMBER) {
        qll_write_text(writer, text);
        return;
    }
    write_open(writer, kind, as_written);
    qll_write_text(writer, text);
    qll_write(writer, "}");
}

/* Takes @p word off the front of @p text, if it is there. */
static bool take(qll_text *text, const char *word)
{
    size_t size = strlen(word);
    if (text->size < size || memcmp(text->bytes, word, size) != 0) {
        return false;
    }
    *text = (qll_text){text->bytes + size, text->size - size};
    return true;
}

/* Takes "a length: " or "a length = " off @p inside; QLL_KIND_COUNT if it begins with neither. */
static qll_kind take_kind(qll_text *inside, bool *is_written)
{
    for (int kind = 0; kind < QLL_KIND_COUNT; kind++) {
        qll_text rest = *inside;
        if (!take(&rest, qll_units_kind_phrase((qll_kind)kind))) {
            continue;
        }
        *is_written = take(&rest, as_written);
        if (*is_written || take(&rest, as_figured)) {
            *inside = rest;
            return (qll_kind)kind;
        }
    }
    return QLL_KIND_COUNT;
}

static bool is_customary(qll_text text, qll_kind kind, qll_unit_system system)
{
    const char *blank = memchr(text.bytes, ' ', text.size);
    if (blank == NULL) {
        return false;
    }
    size_t start = (size_t)(blank - text.bytes) + 1;
    return qll_units_is_customary((qll_text){text.bytes + start, text.size - start}, kind, system);
}

/* Writes what stands between braces in @p system; false if it is no quantity. */
static bool write_inside(qll_writer *writer, qll_text inside, qll_unit_system system)
{
    bool is_written = false;
    const qll_kind kind = take_kind(&inside, &is_written);
    qll_quantity quantity;
    qll_units_refusal refusal;
    if (kind == QLL_KIND_COUNT || !qll_units_read(inside, kind, writer->arena, &quantity, &refusal)
        || !(fabs(quantity.si) <= QLL_SHOWN_MOST)) {
        return false;
    }
    if (is_written && is_customary(inside, kind, system)) {
        qll_write_text(writer, inside);
    } else if (kind == QLL_KIND_PRESSURE && quantity.base == QLL_PRESSURE_ABSOLUTE) {
        qll_units_write_bare(writer, quantity.si, kind, system);
        qll_write(writer, system == QLL_UNITS_US ? " psia" : " bara");
    } else {
        qll_units_write(writer, quantity.si, kind, system);
    }
    return true;
}

void qll_units_write_kept(qll_writer *writer, const char *kept, qll_unit_system system)
{
    qll_text rest = qll_text_of(kept);
    while (rest.size > 0) {
        const char *open = memchr(rest.bytes, '{', rest.size);
        const char *close =
            open == NULL ? NULL : memchr(open, '}', rest.size - (size_t)(open - rest.bytes));
        const size_t before = close == NULL ? rest.size : (size_t)(open - rest.bytes);
        qll_write_text(writer, (qll_text){rest.bytes, before});
        if (close == NULL) {
            return;
        }
        const qll_text inside = {open + 1, (size_t)(close - open) - 1};
        size_t used = before + inside.size + 2;
        if (!write_inside(writer, inside, system)) {
            qll_write(writer, "{");
            used = before + 1;
        }
        rest = (qll_text){rest.bytes + used, rest.size - used};
    }
}
