#include "report/columns.h"

#include <assert.h>
#include <string.h>

/* As narrow as a column gets when its words must break; QLL_COLUMNS_MOST of them make a row. */
#define QLL_COLUMN_LEAST ((size_t)4)

qll_columns qll_columns_new(qll_writer *writer, const char *align)
{
    return (qll_columns){.writer = writer,
                         .align = align,
                         .column_count = strlen(align),
                         .cell = qll_writer_new(writer->arena)};
}

static bool make_room(qll_columns *columns)
{
    if (columns->cell_count < columns->cell_room) {
        return true;
    }
    size_t room = columns->cell_room == 0 ? 64 : columns->cell_room * 2;
    qll_text *cells = qll_arena_take(columns->writer->arena, room, sizeof *cells);
    if (cells == NULL) {
        return false;
    }
    if (columns->cell_count > 0) {
        memcpy(cells, columns->cells, columns->cell_count * sizeof *cells);
    }
    columns->cells = cells;
    columns->cell_room = room;
    return true;
}

void qll_columns_next(qll_columns *columns)
{
    if (make_room(columns)) {
        columns->cells[columns->cell_count] = qll_writer_text(&columns->cell);
        columns->cell_count += 1;
    }
    columns->cell = qll_writer_new(columns->writer->arena);
}

/* Of the lines that @p text becomes in @p width; of its words if that is 0. */
static size_t widest_line(qll_text text, size_t width)
{
    size_t widest = 0;
    while (text.size > 0) {
        size_t here = qll_text_width(qll_line_taken(&text, width));
        widest = here > widest ? here : widest;
    }
    return widest;
}

/* ---- tables ---- */

/* A row on its way out: how wide its columns are, and what of its cells is not written yet. */
typedef struct row_out {
    size_t *widths, *least;
    qll_text *rests, *lines;
    const char *gap; /* before every column but the first */
} row_out;

static bool make_row(const qll_columns *columns, row_out *row)
{
    qll_arena *arena = columns->writer->arena;
    size_t count = columns->column_count;
    *row = (row_out){qll_arena_take(arena, count, sizeof *row->widths),
                     qll_arena_take(arena, count, sizeof *row->least),
                     qll_arena_take(arena, count, sizeof *row->rests),
                     qll_arena_take(arena, count, sizeof *row->lines), "  "};
    return row->widths != NULL && row->least != NULL && row->rests != NULL && row->lines != NULL;
}

/* The widest column aligned as @p align that can give way; the count of columns if there is none. */
static size_t widest_giving(const qll_columns *columns, const row_out *row, char align)
{
    size_t widest = columns->column_count;
    for (size_t c = 0; c < columns->column_count; c++) {
        bool gives = columns->align[c] == align && row->widths[c] > row->least[c];
        bool is_wider = widest == columns->column_count || row->widths[c] > row->widths[widest];
        widest = gives && is_wider ? c : widest;
    }
    return widest;
}

/* Takes from the columns until the row fits, as far as row->least lets them; those aligned as @p first
 * give way first. Returns how wide the row is left. */
static size_t narrow(const qll_columns *columns, const row_out *row, size_t whole, char first)
{
    char second = first == 'r' ? 'l' : 'r';
    while (whole > QLL_PLAIN_WIDTH) {
        size_t widest = widest_giving(columns, row, first);
        if (widest == columns->column_count) {
            widest = widest_giving(columns, row, second);
        }
        if (widest == columns->column_count) {
            break;
        }
        row->widths[widest] -= 1;
        whole -= 1;
    }
    return whole;
}

/* Columns of figures go first: there only the heads wrap. Before words break columns move together, and then texts
 * break first. */
static void narrow_to_plain(const qll_columns *columns, row_out *row, size_t whole)
{
    whole = narrow(columns, row, whole, 'r');
    if (whole > QLL_PLAIN_WIDTH) {
        row->gap = " ";
        whole -= columns->column_count - 1;
    }
    for (size_t c = 0; c < columns->column_count; c++) {
        row->least[c] = row->least[c] < QLL_COLUMN_LEAST ? row->least[c] : QLL_COLUMN_LEAST;
    }
    (void)narrow(columns, row, whole, 'l');
    memset(row->least, 0, columns->column_count * sizeof *row->least);
}

/* Widths as the cells want them; where they pass the plain width, of the lines that are left. */
static void fit_widths(const qll_columns *columns, row_out *row)
{
    size_t count = columns->column_count;
    size_t whole = 2 * count;
    for (size_t i = 0; i < columns->cell_count; i++) {
        size_t *width = &row->widths[i % count];
        size_t here = qll_text_width(columns->cells[i]);
        *width = here > *width ? here : *width;
    }
    for (size_t c = 0; c < count; c++) {
        whole += row->widths[c];
    }
    if (whole <= QLL_PLAIN_WIDTH) {
        return;
    }
    for (size_t i = 0; i < columns->cell_count; i++) {
        size_t *least = &row->least[i % count];
        size_t here = widest_line(columns->cells[i], 0);
        *least = here > *least ? here : *least;
    }
    narrow_to_plain(columns, row, whole);
    for (size_t i = 0; i < columns->cell_count; i++) {
        size_t *least = &row->least[i % count];
        size_t here = widest_line(columns->cells[i], row->widths[i % count]);
        *least = here > *least ? here : *least;
    }
    memcpy(row->widths, row->least, count * sizeof *row->widths);
}

/* One line of the row; false if that was the last. */
static bool write_line(const qll_columns *columns, const row_out *row)
{
    qll_writer *writer = columns->writer;
    size_t last = 0;
    bool more = false;
    for (size_t c = 0; c < columns->column_count; c++) {
        row->lines[c] = qll_line_taken(&row->rests[c], row->widths[c]);
        last = row->lines[c].size > 0 ? c + 1 : last;
        more = more || row->rests[c].size > 0;
    }
    for (size_t c = 0; c < last; c++) {
        size_t width = qll_text_width(row->lines[c]);
        size_t pad = row->widths[c] > width ? row->widths[c] - width : 0;
        qll_write(writer, c == 0 ? "  " : row->gap);
        qll_write_byte(writer, ' ', columns->align[c] == 'r' ? pad : 0);
        qll_write_text(writer, row->lines[c]);
        qll_write_byte(writer, ' ', columns->align[c] == 'l' && c + 1 < last ? pad : 0);
    }
    qll_write_byte(writer, '\n', 1);
    return more;
}

void qll_columns_flush(qll_columns *columns)
{
    size_t count = columns->column_count;
    row_out row;
    if (!make_row(columns, &row)) {
        return;
    }
    fit_widths(columns, &row);
    for (size_t at = 0; at + count <= columns->cell_count; at += count) {
        memcpy(row.rests, columns->cells + at, count * sizeof *row.rests);
        while (write_line(columns, &row)) {
        }
    }
    columns->cell_count = 0;
}
