#include "documents/table_columns.h"

#include "base/count.h"
#include "base/words.h"

#include <stdint.h>
#include <string.h>

static const struct {
    const char *suffix, *unit;
} suffixes[] = {
    {"_psi", "psi"}, {"_bar", "bar"},       {"_kpa", "kPa"},   {"_in", "in"},
    {"_mm", "mm"},   {"_gpm", "gpm"},       {"_lps", "L/s"},   {"_m3h", "m3/h"},
    {"_cv", "Cv"},   {"_degf", "degF"},     {"_degc", "degC"}, {"_lb", "lb"},
    {"_kg", "kg"},   {"_lbf_in", "lbf/in"}, {"_n_mm", "N/mm"}, {"_n_s_m", "N.s/m"},
    {"_s", "s"},
};

/* The unit that the end of a column's name stands for ("_psi": "psi"), or NULL. */
static const char *unit_of(qll_text suffix)
{
    for (size_t i = 0; i < QLL_COUNT(suffixes); i++) {
        if (qll_text_is(suffix, suffixes[i].suffix)) {
            return suffixes[i].unit;
        }
    }
    return NULL;
}

static qll_text without_unit(qll_text name)
{
    for (size_t i = 0; i < QLL_COUNT(suffixes); i++) {
        size_t size = strlen(suffixes[i].suffix);
        if (name.size > size
            && memcmp(name.bytes + name.size - size, suffixes[i].suffix, size) == 0) {
            return (qll_text){name.bytes, name.size - size};
        }
    }
    return name;
}

/* "_eur" or "_EUR": the currency, in capitals; NULL if it is none. */
static const char *currency_of(qll_text suffix, qll_arena *arena)
{
    qll_writer letters = qll_writer_new(arena);
    if (suffix.size != 4 || suffix.bytes[0] != '_') {
        return NULL;
    }
    for (size_t i = 1; i < suffix.size; i++) {
        const char letter = (char)(suffix.bytes[i] & ~0x20);
        if (letter < 'A' || letter > 'Z') {
            return NULL;
        }
        qll_write_byte(&letters, letter, 1);
    }
    return qll_writer_text(&letters).bytes;
}

/* The known column that @p name means, the count if none; its unit, NULL if it names none. */
static size_t find(const qll_table_columns *columns, qll_text name, const char **unit)
{
    *unit = NULL;
    for (size_t i = 0; i < columns->known_count; i++) {
        const qll_known_column *known = &columns->known[i];
        size_t size = strlen(known->base);
        if (name.size < size || memcmp(name.bytes, known->base, size) != 0) {
            continue;
        }
        const qll_text rest = {name.bytes + size, name.size - size};
        if (known->is_money) {
            *unit = currency_of(rest, columns->arena);
        } else if (known->kind != QLL_KIND_NUMBER) {
            *unit = unit_of(rest);
        }
        if (rest.size == 0 || *unit != NULL) {
            return i;
        }
    }
    return columns->known_count;
}

bool qll_table_columns_refuse(const qll_table_columns *columns, qll_code code, qll_place place,
                              const qll_said *says, const qll_said *hint)
{
    return qll_problems_add(
        columns->problems,
        (qll_fault){
            .code = code, .level = QLL_REFUSAL, .place = place, .says = says, .hint = hint});
}

/* At the header's column, or the whole header. */
static bool refuse(const qll_table_columns *columns, size_t at, const qll_said *says,
                   const qll_said *hint)
{
    return qll_table_columns_refuse(
        columns, QLL_CODE_BAD_COLUMN,
        qll_table_place(columns->table, QLL_TABLE_HEADER, at, columns->arena), says, hint);
}

static bool refuse_unknown(const qll_table_columns *columns, size_t at)
{
    const qll_text name = columns->table->columns[at];
    const char **words = qll_arena_take(columns->arena, columns->known_count, sizeof *words);
    for (size_t i = 0; words != NULL && i < columns->known_count; i++) {
        words[i] = columns->known[i].base;
    }
    const char *nearest =
        words == NULL ? NULL : qll_words_nearest(without_unit(name), words, columns->known_count);
    return refuse(columns, at, QLL_SAYS_WITH(COLUMN_UNKNOWN, qll_as_quoted(name)),
                  qll_hint_word(nearest, columns->arena));
}

static bool place(qll_table_columns *columns, size_t at)
{
    const qll_text *names = columns->table->columns;
    const char *unit;
    const size_t known = find(columns, names[at], &unit);
    if (known == columns->known_count) {
        return refuse_unknown(columns, at);
    }
    if (columns->at[known] != SIZE_MAX) {
        return refuse(columns, at,
                      QLL_SAYS_WITH(COLUMN_SAME, qll_as_quoted(names[at]),
                                    qll_as_quoted(names[columns->at[known]])),
                      NULL);
    }
    columns->at[known] = at;
    columns->unit[known] = unit;
    return true;
}

bool qll_table_columns_find(qll_table_columns *columns)
{
    const size_t count = columns->known_count;
    columns->at = qll_arena_take(columns->arena, count, sizeof *columns->at);
    columns->unit = qll_arena_take(columns->arena, count, sizeof *columns->unit);
    if (columns->at == NULL || columns->unit == NULL) {
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        columns->at[i] = SIZE_MAX;
    }
    bool is_sound = true;
    for (size_t at = 0; at < columns->table->column_count; at++) {
        is_sound = place(columns, at) && is_sound;
    }
    /* A misspelt column is one problem, not a second one for the column that it was meant to be. */
    const bool is_clean = is_sound;
    for (size_t i = 0; is_clean && i < count; i++) {
        const qll_known_column *known = &columns->known[i];
        if (known->obligatory && columns->at[i] == SIZE_MAX) {
            const bool has_kind = known->kind != QLL_KIND_NUMBER;
            const qll_said says = {has_kind ? QLL_TEXT_COLUMN_MISSING : QLL_TEXT_COLUMN_MISSING_IT,
                                   {qll_as_is(known->base), qll_as_kind(known->kind)}};
            is_sound = refuse(columns, SIZE_MAX, &says, NULL);
        }
    }
    return is_sound;
}

/* Does the cell end in its number, so that the column's unit is meant? */
static bool lacks_unit(qll_text cell)
{
    return cell.size > 0
           && (qll_is_digit(cell.bytes[cell.size - 1]) || cell.bytes[cell.size - 1] == '.');
}

qll_text qll_table_columns_cell(const qll_table_columns *columns, size_t row, size_t known)
{
    const size_t at = columns->at[known];
    if (at == SIZE_MAX) {
        return (qll_text){"", 0};
    }
    const qll_text cell = qll_text_trimmed(qll_table_cell(columns->table, row, at));
    if (columns->known[known].kind == QLL_KIND_NUMBER || columns->unit[known] == NULL
        || !lacks_unit(cell)) {
        return cell;
    }
    qll_writer text = qll_writer_new(columns->arena);
    qll_write_text(&text, cell);
    qll_write(&text, " ");
    qll_write(&text, columns->unit[known]);
    return qll_writer_text(&text);
}
