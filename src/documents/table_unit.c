#include "documents/table_unit.h"

#include "base/count.h"

#include <string.h>

static const struct {
    const char *suffix, *unit;
} suffixes[] = {
    {"_psi", "psi"}, {"_bar", "bar"},   {"_kpa", "kPa"},   {"_in", "in"},
    {"_mm", "mm"},   {"_gpm", "gpm"},   {"_lps", "L/s"},   {"_m3h", "m3/h"},
    {"_cv", "Cv"},   {"_degf", "degF"}, {"_degc", "degC"},
};

#define QLL_SUFFIX_COUNT QLL_COUNT(suffixes)

const char *qll_column_unit(qll_text suffix)
{
    for (size_t i = 0; i < QLL_SUFFIX_COUNT; i++) {
        if (qll_text_is(suffix, suffixes[i].suffix)) {
            return suffixes[i].unit;
        }
    }
    return NULL;
}

qll_text qll_column_without_unit(qll_text name)
{
    for (size_t i = 0; i < QLL_SUFFIX_COUNT; i++) {
        size_t size = strlen(suffixes[i].suffix);
        if (name.size > size
            && memcmp(name.bytes + name.size - size, suffixes[i].suffix, size) == 0) {
            return (qll_text){name.bytes, name.size - size};
        }
    }
    return name;
}

bool qll_cell_lacks_unit(qll_text cell)
{
    char end = cell.bytes[cell.size - 1];
    return (end >= '0' && end <= '9') || end == '.';
}

qll_text qll_cell_with_unit(qll_text cell, const char *unit, qll_arena *arena)
{
    if (unit == NULL || cell.size == 0 || !qll_cell_lacks_unit(cell)) {
        return cell;
    }
    qll_writer text = qll_writer_new(arena);
    qll_write_text(&text, cell);
    qll_write(&text, " ");
    qll_write(&text, unit);
    return qll_writer_text(&text);
}
