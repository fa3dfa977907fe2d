#include "documents/valve_table.h"

/* Decimal marks in a cell: between digits, or a point or comma in front of one. */
typedef struct marks {
    size_t commas, points;
    bool is_decimal; /* one of its commas cannot part thousands */
} marks;

static marks marks_of(qll_text cell)
{
    marks found = {0};
    size_t digits_before = 0;
    bool leads_with_zero = false;
    for (size_t i = 0; i < cell.size; i++) {
        char byte = cell.bytes[i];
        if (qll_is_digit(byte)) {
            leads_with_zero = digits_before == 0 ? byte == '0' : leads_with_zero;
            digits_before += 1;
            continue;
        }
        size_t behind = 0;
        while (i + 1 + behind < cell.size && qll_is_digit(cell.bytes[i + 1 + behind])) {
            behind += 1;
        }
        if (byte == ',' && behind > 0) {
            found.commas += 1;
            /* Three digits behind it could be thousands, unless a zero stands in front. */
            found.is_decimal = found.is_decimal || behind != 3 || leads_with_zero
                               || digits_before == 0 || digits_before > 3;
        } else if (byte == '.' && behind > 0) {
            found.points += 1;
        }
        digits_before = 0;
    }
    return found;
}

static bool is_of_words(const qll_table *table, size_t column)
{
    return qll_text_is(table->columns[column], "id")
           || qll_text_is(table->columns[column], "acting");
}

static void refuse(const qll_table *table, size_t cell, bool has_points, qll_arena *arena,
                   qll_problems *problems)
{
    (void)qll_problems_add(
        problems, (qll_fault){.code = QLL_CODE_CONTRADICTION,
                              .level = QLL_REFUSAL,
                              .place = qll_table_place(table, cell / table->column_count,
                                                       cell % table->column_count, arena),
                              .says = has_points ? QLL_SAYS(MARKS_MIXED) : QLL_SAYS(MARKS_UNKNOWN),
                              .hint = QLL_SAYS(HINT_DECIMAL_POINTS)});
}

/* The cells with points for commas. */
static bool use_points(qll_table *table, qll_arena *arena)
{
    size_t count = table->row_count * table->column_count;
    qll_text *cells = qll_arena_take(arena, count, sizeof *cells);
    for (size_t i = 0; cells != NULL && i < count; i++) {
        cells[i] = table->cells[i];
        if (is_of_words(table, i % table->column_count) || marks_of(cells[i]).commas == 0) {
            continue;
        }
        qll_writer point = qll_writer_new(arena);
        for (size_t k = 0; k < cells[i].size; k++) {
            char byte = cells[i].bytes[k];
            qll_write_byte(&point, byte == ',' ? '.' : byte, 1);
        }
        cells[i] = qll_writer_text(&point);
    }
    table->cells = cells;
    return cells != NULL;
}

qll_status qll_valve_table_read(qll_text source, const char *name, qll_arena *arena,
                                qll_table *table, qll_problems *problems)
{
    qll_status status = qll_table_read_parted(source, name, arena, table, problems);
    if (status != QLL_OK) {
        return status;
    }
    size_t count = table->row_count * table->column_count;
    size_t first_comma = count;
    bool has_points = false;
    bool is_decimal = false;
    bool is_twice = false;
    for (size_t i = 0; i < count; i++) {
        if (is_of_words(table, i % table->column_count)) {
            continue;
        }
        marks found = marks_of(table->cells[i]);
        first_comma = found.commas > 0 && first_comma == count ? i : first_comma;
        has_points = has_points || found.points > 0;
        is_decimal = is_decimal || found.is_decimal;
        is_twice = is_twice || found.commas > 1;
    }
    if (first_comma == count) {
        return QLL_OK;
    }
    if (has_points || !is_decimal || is_twice) {
        refuse(table, first_comma, has_points, arena, problems);
        return qll_problems_status(problems);
    }
    return use_points(table, arena) ? QLL_OK : QLL_NO_MEMORY;
}
