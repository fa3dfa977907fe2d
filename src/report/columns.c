#include "report/columns.h"

#include <assert.h>
#include <string.h>

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
        columns->writer->no_memory = true;
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
    if (columns->cell.no_memory) {
        columns->writer->no_memory = true;
    } else if (make_room(columns)) {
        columns->cells[columns->cell_count] = qll_writer_text(&columns->cell);
        columns->cell_count += 1;
    }
    columns->cell = qll_writer_new(columns->writer->arena);
}

void qll_columns_put(qll_columns *columns, const char *closed)
{
    qll_write(&columns->cell, closed);
    qll_columns_next(columns);
}

static size_t column_width(const qll_columns *columns, size_t column)
{
    size_t widest = 0;
    for (size_t i = column; i < columns->cell_count; i += columns->column_count) {
        size_t width = qll_text_width(columns->cells[i]);
        widest = width > widest ? width : widest;
    }
    return widest;
}

void qll_columns_flush(qll_columns *columns)
{
    qll_writer *writer = columns->writer;
    size_t count = columns->column_count;
    size_t *widths = qll_arena_take(writer->arena, count, sizeof *widths);
    if (widths == NULL) {
        writer->no_memory = true;
        return;
    }
    for (size_t c = 0; c < count; c++) {
        widths[c] = column_width(columns, c);
    }
    for (size_t row = 0; row + count <= columns->cell_count; row += count) {
        size_t last = count;
        while (last > 0 && columns->cells[row + last - 1].size == 0) {
            last -= 1;
        }
        for (size_t c = 0; c < last; c++) {
            qll_text cell = columns->cells[row + c];
            size_t pad = widths[c] - qll_text_width(cell);
            qll_write(writer, "  ");
            qll_write_byte(writer, ' ', columns->align[c] == 'r' ? pad : 0);
            qll_write_text(writer, cell);
            qll_write_byte(writer, ' ', columns->align[c] == 'l' && c + 1 < last ? pad : 0);
        }
        qll_write_byte(writer, '\n', 1);
    }
    columns->cell_count = 0;
}

/* The length of the next word and the blanks before it. */
static qll_text next_word(qll_text text, size_t *blanks)
{
    size_t at = 0;
    while (at < text.size && (text.bytes[at] == ' ' || text.bytes[at] == '\n')) {
        at += 1;
    }
    *blanks = at;
    size_t end = at;
    while (end < text.size && text.bytes[end] != ' ' && text.bytes[end] != '\n') {
        end += 1;
    }
    return (qll_text){text.bytes + at, end - at};
}

void qll_write_wrapped(qll_writer *writer, const char *first, qll_text text)
{
    size_t indent = qll_text_width(qll_text_of(first));
    size_t column = indent;
    qll_write(writer, first);
    bool fresh = true;
    while (text.size > 0) {
        size_t blanks = 0;
        qll_text word = next_word(text, &blanks);
        if (word.size == 0) {
            break;
        }
        size_t width = qll_text_width(word);
        if (!fresh && column + 1 + width > QLL_PLAIN_WIDTH) {
            qll_write_byte(writer, '\n', 1);
            qll_write_byte(writer, ' ', indent);
            column = indent;
            fresh = true;
        }
        if (!fresh) {
            qll_write_byte(writer, ' ', 1);
            column += 1;
        }
        qll_write_text(writer, word);
        column += width;
        fresh = false;
        text = (qll_text){word.bytes + word.size, text.size - blanks - word.size};
    }
    qll_write_byte(writer, '\n', 1);
}
