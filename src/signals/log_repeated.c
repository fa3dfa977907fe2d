/* Rows of one time and different values are parts of several flows: which column tells them apart? */
#include "signals/log_repeated.h"

#include <stdlib.h>

/* So many, and this share of the first rows (our choice). */
#define QLL_REPEATED_LEAST 3
#define QLL_REPEATED_SHARE 0.05

typedef struct early_row {
    int64_t at_ms;
    double value;
    size_t line;
} early_row;

static int by_time(const void *a, const void *b)
{
    const early_row *first = a;
    const early_row *second = b;
    if (first->at_ms != second->at_ms) {
        return first->at_ms < second->at_ms ? -1 : 1;
    }
    return first->line < second->line ? -1 : first->line > second->line;
}

static size_t read_rows(const qll_log_look *look, qll_log_lane *lane, early_row *rows)
{
    const qll_log_shape *shape = lane->shape;
    qll_text cells[QLL_LOG_COLUMNS];
    size_t count = 0;
    for (size_t i = look->title_count; i < look->line_count; i++) {
        const size_t cell_count = qll_log_look_cells(look, shape, i, cells);
        early_row *row = &rows[count];
        const size_t meter = shape->role[QLL_ROLE_METER];
        if (cell_count == shape->column_count
            && (meter >= cell_count || shape->meter.size == 0
                || qll_text_equal(cells[meter], shape->meter))
            && qll_log_value(shape, cells[shape->value], &row->value)
            && qll_log_row_time(lane, cells, 0, true, &row->at_ms)) {
            row->line = i;
            count += 1;
        }
    }
    return count;
}

static bool is_part(const early_row *rows, size_t i)
{
    return rows[i].at_ms == rows[i - 1].at_ms && rows[i].value != rows[i - 1].value;
}

/* Is column @p column different in the two rows of every time? */
static bool tells_apart(const qll_log_look *look, const qll_log_shape *shape, size_t column,
                        const early_row *rows, size_t count)
{
    qll_text first[QLL_LOG_COLUMNS];
    qll_text second[QLL_LOG_COLUMNS];
    if (column == shape->value || column == shape->role[QLL_ROLE_TIME]
        || column == shape->role[QLL_ROLE_DATE] || column == shape->role[QLL_ROLE_CLOCK]) {
        return false;
    }
    for (size_t i = 1; i < count; i++) {
        if (is_part(rows, i)) {
            (void)qll_log_look_cells(look, shape, rows[i - 1].line, first);
            (void)qll_log_look_cells(look, shape, rows[i].line, second);
            if (qll_text_equal(first[column], second[column])) {
                return false;
            }
        }
    }
    return true;
}

/* Hours from 1 to 12 only, and rows of one time far apart in the log: the clock went round. */
static bool is_half_clock(const early_row *rows, size_t count, const qll_zone *zone)
{
    size_t apart = 0;
    for (size_t i = 0; i < count; i++) {
        const int64_t local_ms =
            rows[i].at_ms + (int64_t)qll_zone_offset_s(zone, rows[i].at_ms) * 1000;
        const int64_t hour = local_ms / 3600000 % 24;
        if (hour < 1 || hour > 12) {
            return false;
        }
        apart += i > 0 && is_part(rows, i) && rows[i].line > rows[i - 1].line + 2 ? 1U : 0U;
    }
    return apart >= QLL_REPEATED_LEAST;
}

static bool refuse(const qll_log_look *look, const qll_log_shape *shape, const early_row *rows,
                   size_t count, size_t first, const qll_zone *zone)
{
    qll_text cells[QLL_LOG_COLUMNS];
    const long long line = (long long)rows[first].line + 1;
    size_t column = 0;
    if (is_half_clock(rows, count, zone)) {
        return qll_log_refuse_half_clock(look, line);
    }
    while (column < shape->column_count && !tells_apart(look, shape, column, rows, count)) {
        column += 1;
    }
    if (column == shape->column_count) {
        return qll_log_refuse(look, QLL_CODE_CONTRADICTION, line, QLL_SAYS(LOG_SAME_TIME),
                              QLL_SAYS(ASK_REPEATED));
    }
    (void)qll_log_look_cells(look, shape, rows[first].line, cells);
    const qll_argument name = qll_as_quoted(shape->columns[column].name);
    return qll_log_refuse(look, QLL_CODE_CONTRADICTION, line,
                          QLL_SAYS_WITH(LOG_SAME_TIME_COLUMN, name),
                          QLL_SAYS_WITH(ASK_METER_COLUMN, name, qll_as_quoted(cells[column])));
}

bool qll_log_repeated_check(qll_log_look *look, qll_log_lane *lane)
{
    if (look->options->repeated != QLL_LOG_REPEATED_UNKNOWN
        || lane->shape->kind == QLL_LOG_KIND_EVENTS || lane->shape->keyed) {
        return true;
    }
    early_row *rows = qll_arena_take(look->arena, look->line_count + 1, sizeof *rows);
    if (rows == NULL) {
        return false;
    }
    /* An hour that comes twice is told by the rows before: the lane starts anew behind this. */
    const qll_log_lane begun = *lane;
    const size_t count = read_rows(look, lane, rows);
    *lane = begun;
    size_t parts = 0;
    size_t first = 0;
    qsort(rows, count, sizeof *rows, by_time);
    for (size_t i = 1; i < count; i++) {
        if (is_part(rows, i)) {
            first = parts == 0 ? i : first;
            parts += 1;
        }
    }
    return parts < QLL_REPEATED_LEAST || (double)parts <= QLL_REPEATED_SHARE * (double)count
           || refuse(look, lane->shape, rows, count, first, &lane->zone);
}
