#include "report/columns.h"

#include <assert.h>
#include <string.h>

/* A longer word behind a number is no unit. */
#define QLL_UNIT_SIZE 8

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

/* ---- words and lines ---- */

static qll_text bare_word(qll_text text, size_t *blanks)
{
    size_t at = 0;
    while (at < text.size && text.bytes[at] == ' ') {
        at += 1;
    }
    *blanks = at;
    size_t end = at;
    while (end < text.size && text.bytes[end] != ' ') {
        end += 1;
    }
    return (qll_text){text.bytes + at, end - at};
}

/* "12.0", "1-1/2", "<20", "(8", a "____" to be filled in: what its unit must not be torn from. */
static bool is_number(qll_text word)
{
    static const char marks[] = {'.', ',', '-', '/', '+', '<', ':', '('};
    bool has_digit = false;
    for (size_t i = 0; i < word.size; i++) {
        char byte = word.bytes[i];
        bool is_digit = (byte >= '0' && byte <= '9') || byte == '_';
        if (!is_digit && memchr(marks, byte, sizeof marks) == NULL) {
            return false;
        }
        has_digit = has_digit || is_digit;
    }
    return has_digit;
}

/* A word without the marks that end a sentence or a part of it. */
static qll_text unmarked(qll_text word)
{
    while (word.size > 0 && strchr(",;:.)", word.bytes[word.size - 1]) != NULL) {
        word.size -= 1;
    }
    return word;
}

static bool is_whole(qll_text word)
{
    size_t digits = 0;
    while (digits < word.size && word.bytes[digits] >= '0' && word.bytes[digits] <= '9') {
        digits += 1;
    }
    return digits > 0 && digits == word.size;
}

/* Of "2.3 to 1", "2.3 a 1" and "1 in 25" the size of what follows the number @p word; 0 where there is no such thing. */
static size_t ratio_size(qll_text word, qll_text rest)
{
    size_t blanks = 0;
    const qll_text link = bare_word(rest, &blanks);
    const size_t size = blanks + link.size;
    const qll_text last = bare_word((qll_text){rest.bytes + size, rest.size - size}, &blanks);
    const bool is_ratio = (qll_text_is(link, "to") || qll_text_is(link, "a"))
                          && qll_text_is(unmarked(last), "1") && is_number(word);
    const bool is_chance = qll_text_is(link, "in") && is_whole(unmarked(last)) && is_whole(word);
    return is_ratio || is_chance ? size + blanks + last.size : 0;
}

/* The next word that a line may end behind: "12.0 psi", "99 %", "DN 65" and "2.3 to 1" are one. */
static qll_text next_word(qll_text text)
{
    size_t blanks = 0;
    qll_text word = bare_word(text, &blanks);
    qll_text rest = {word.bytes + word.size, text.size - blanks - word.size};
    qll_text next = bare_word(rest, &blanks);
    bool is_size = qll_text_is(word, "DN") && is_number(next);
    bool has_unit = is_number(word) && next.size > 0 && next.size <= QLL_UNIT_SIZE;
    const size_t ratio = ratio_size(word, rest);
    if (ratio > 0) {
        word.size += ratio;
    } else if (blanks == 1 && (is_size || has_unit)) {
        word.size += 1 + next.size;
    }
    return word;
}

/* As much of @p text as @p width columns hold, by whole characters. */
static qll_text cut_to(qll_text text, size_t width)
{
    size_t end = 0;
    size_t taken = 0;
    while (end < text.size) {
        size_t next = end + 1;
        while (next < text.size && ((unsigned char)text.bytes[next] & 0xC0U) == 0x80U) {
            next += 1;
        }
        if (taken == width) {
            break;
        }
        taken += 1;
        end = next;
    }
    return (qll_text){text.bytes, end};
}

/* The first word of @p text; no more of it than fills a line of @p width, unless that is 0. */
static qll_text first_word(qll_text text, size_t width)
{
    qll_text word = next_word(text);
    if (width == 0 || qll_text_width(word) <= width) {
        return word;
    }
    size_t blanks = 0;
    return cut_to(bare_word(text, &blanks), width);
}

/* Takes from @p rest as many words as @p width holds; of a word that is wider, what it holds. Width 0
 * takes one word. */
static qll_text take_line(qll_text *rest, size_t width)
{
    qll_text line = first_word(*rest, width);
    qll_text word = line;
    for (;;) {
        const char *end = rest->bytes + rest->size;
        line.size = (size_t)(word.bytes + word.size - line.bytes);
        qll_text behind = {word.bytes + word.size, (size_t)(end - word.bytes) - word.size};
        word = next_word(behind);
        qll_text longer = {line.bytes, (size_t)(word.bytes - line.bytes) + word.size};
        if (word.size == 0 || qll_text_width(longer) > width) {
            *rest = word.size == 0 ? (qll_text){end, 0} : behind;
            return line;
        }
    }
}

/* Of the lines that @p text becomes in @p width; of its words if that is 0. */
static size_t widest_line(qll_text text, size_t width)
{
    size_t widest = 0;
    while (text.size > 0) {
        size_t here = qll_text_width(take_line(&text, width));
        widest = here > widest ? here : widest;
    }
    return widest;
}

void qll_write_wrapped(qll_writer *writer, const char *first, qll_text text)
{
    size_t indent = qll_text_width(qll_text_of(first));
    size_t room = indent < QLL_PLAIN_WIDTH ? QLL_PLAIN_WIDTH - indent : 0;
    qll_write(writer, first);
    qll_write_text(writer, take_line(&text, room));
    while (text.size > 0) {
        qll_write_byte(writer, '\n', 1);
        qll_write_byte(writer, ' ', indent);
        qll_write_text(writer, take_line(&text, room));
    }
    qll_write_byte(writer, '\n', 1);
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
        row->lines[c] = take_line(&row->rests[c], row->widths[c]);
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
