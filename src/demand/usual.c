#include "demand/usual.h"

#include "base/files.h"
#include "base/table.h"
#include "base/words.h"

#include <assert.h>
#include <math.h>

const char *const qll_usual_count_words[QLL_USUAL_COUNTS] = {
#define QLL_USUAL_COUNT_WORD(name, word) [QLL_USUAL_##name] = (word),
    QLL_USUAL_COUNT_LIST(QLL_USUAL_COUNT_WORD)
#undef QLL_USUAL_COUNT_WORD
};

static double number_or(const qll_table *table, size_t row, const char *column, double otherwise)
{
    const double value = qll_table_number_in(table, row, column);
    return isnan(value) ? otherwise : value;
}

/* The place of @p word among @p words; the table is ours, so it is there. */
static size_t place_of(qll_text word, const char *const *words, size_t count)
{
    const size_t found = qll_words_place(word, words, count);
    assert(found < count);
    return found;
}

static qll_usual_row read_row(const qll_table *table, size_t row, const qll_fixture_table *fixtures)
{
    const qll_text occupancy = qll_table_cell_in(table, row, "occupancy");
    const qll_text what = qll_table_cell_in(table, row, "what");
    qll_usual_row read = {
        .use =
            (qll_use)place_of(qll_table_cell_in(table, row, "use"), qll_use_words, QLL_USE_COUNT),
        .counts = (qll_usual_count)place_of(qll_table_cell_in(table, row, "counts"),
                                            qll_usual_count_words, QLL_USUAL_COUNTS),
        .each = number_or(table, row, "each", 0.0),
        .of = number_or(table, row, "of", 1.0),
        .least = number_or(table, row, "least", 0.0),
        .from = number_or(table, row, "from", 0.0),
        .to = number_or(table, row, "to", (double)INFINITY),
    };
    if (occupancy.size > 0) {
        read.occupancy =
            (qll_occupancy)(1 + place_of(occupancy, qll_occupancy_words, QLL_OCCUPANCY_COUNT - 1));
    }
    if (!qll_text_is(what, "people")) {
        read.kind = qll_fixture_find(fixtures, what);
        assert(read.kind != NULL);
    }
    return read;
}

qll_status qll_usual_table_read(qll_arena *arena, const qll_fixture_table *fixtures,
                                qll_usual_table *table)
{
    qll_table cells;
    const qll_status status =
        qll_table_read_own(qll_file_usual_fixtures, qll_file_usual_fixtures_size, arena, &cells);
    if (status != QLL_OK) {
        return status;
    }
    qll_usual_row *rows = qll_arena_take(arena, cells.row_count, sizeof *rows);
    if (rows == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t row = 0; row < cells.row_count; row++) {
        rows[row] = read_row(&cells, row, fixtures);
    }
    *table = (qll_usual_table){.rows = rows, .count = cells.row_count};
    return QLL_OK;
}

static bool holds(const qll_usual_row *row, qll_use use, double count)
{
    return row->use == use && count > 0.0 && count >= row->from && count <= row->to;
}

double qll_usual_people(const qll_usual_table *table, qll_use use, const qll_usual_counted *counted)
{
    double people = 0.0;
    for (size_t i = 0; i < table->count; i++) {
        const qll_usual_row *row = &table->rows[i];
        const double count = counted->of[row->counts];
        if (row->kind == NULL && holds(row, use, count)) {
            people += row->each * count / row->of;
        }
    }
    return people;
}

size_t qll_usual_loads(const qll_usual_table *table, qll_use use, const qll_usual_counted *counted,
                       qll_fixture_load *loads)
{
    size_t found = 0;
    for (size_t i = 0; i < table->count; i++) {
        const qll_usual_row *row = &table->rows[i];
        const double count = counted->of[row->counts];
        if (row->kind == NULL || !holds(row, use, count)) {
            continue;
        }
        /* A hair off, so that a quotient that is whole is not rounded up by its last bit. */
        const double number = fmax(ceil(row->each * count / row->of - 1e-9), row->least);
        loads[found] = (qll_fixture_load){.kind = row->kind,
                                          .count = (size_t)number,
                                          .occupancy = row->occupancy,
                                          .flow_m3s = (double)NAN,
                                          .use_probability = (double)NAN};
        found += 1;
    }
    return found;
}
