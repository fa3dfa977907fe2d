/* Reads tests/reference/<method>.csv: the one way every runner gets at published figures. */
#ifndef QUELL_TESTS_TRUTH_H
#define QUELL_TESTS_TRUTH_H

#include "base/table.h"
#include "check.h"
#include "said.h"

#include <stdio.h>

#define QLL_TRUTH_SIZE_MOST ((size_t)4 << 20)

/* The table at @p path below the repository; the test fails and gets an empty table without it. */
static inline qll_table truth_read(const char *path, qll_arena *arena)
{
    qll_table table = {.name = path};
    char name[512];
    snprintf(name, sizeof name, "%s/%s", QUELL_ROOT, path);
    FILE *file = fopen(name, "rb");
    char *bytes = qll_arena_take(arena, QLL_TRUTH_SIZE_MOST, 1);
    if (!CHECK(file != NULL && bytes != NULL)) {
        printf("    cannot read %s\n", name);
        if (file != NULL) {
            fclose(file);
        }
        return table;
    }
    size_t size = fread(bytes, 1, QLL_TRUTH_SIZE_MOST, file);
    fclose(file);
    qll_problems problems = qll_problems_none(arena);
    if (!CHECK(qll_table_read((qll_text){bytes, size}, path, arena, &table, &problems) == QLL_OK)) {
        printf("    %s line %d: %s\n", path, problems.kept[0].place.line,
               said_problem(&problems, 0).text);
        return (qll_table){.name = path};
    }
    return table;
}

/* The number in @p column of @p row; a missing column or number fails the test. */
static inline double truth_number(const qll_table *table, size_t row, const char *column)
{
    double value = qll_table_number(table, row, qll_table_column(table, column));
    if (!CHECK(!isnan(value))) {
        printf("    %s row %zu has no %s\n", table->name, row + 1, column);
    }
    return value;
}

/* The numbers of a cell, with blanks between, @p most at most. */
static inline size_t truth_numbers(const qll_table *rows, size_t row, const char *column,
                                   double *values, size_t most)
{
    qll_text cell = qll_table_cell(rows, row, qll_table_column(rows, column));
    size_t count = 0;
    while (cell.size > 0 && count < most) {
        const size_t taken = qll_text_number(cell, &values[count]);
        if (!CHECK(taken > 0)) {
            break;
        }
        count += 1;
        const size_t step = taken + 1 < cell.size ? taken + 1 : cell.size;
        cell = (qll_text){cell.bytes + step, cell.size - step};
    }
    return count;
}

static inline bool truth_is(const qll_table *table, size_t row, const char *column,
                            const char *word)
{
    return qll_text_is(qll_table_cell(table, row, qll_table_column(table, column)), word);
}

#endif
