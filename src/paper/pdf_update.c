#include "paper/pdf_update.h"

#include "base/character.h"

#include <string.h>

/* One line of the cross-reference table: 10 digits, 5 digits, kind, two bytes of line end. */
#define QLL_XREF_LINE 20

/* How an object that is to be changed begins; what is added goes behind it. */
static const char catalog_start[] = "<< /Type /Catalog\n";
static const char figure_start[] = "<< /Type /StructElem\n   /S /Figure\n";

/* A changed object in the update. */
typedef struct change {
    size_t object, offset;
} change;

typedef struct update {
    qll_text pdf;
    const qll_canvas *canvas;
    const char *language;
    const char *lines;   /* of the cross-reference table */
    size_t object_count; /* entries of the table, object 0 included */
    size_t table_offset;
    change *changes;
    size_t change_count;
    size_t figures; /* changed so far */
    size_t item;    /* of the canvas, to be looked at next for a figure */
    qll_writer writer;
} update;

static qll_text from(qll_text text, size_t offset)
{
    return (qll_text){text.bytes + offset, text.size - offset};
}

static bool starts(qll_text text, const char *with)
{
    size_t size = strlen(with);
    return text.bytes != NULL && text.size >= size && memcmp(text.bytes, with, size) == 0;
}

/* Where @p what stands last in @p text, or its size. */
static size_t find_last(qll_text text, const char *what)
{
    for (size_t at = text.size; at > 0; at--) {
        if (starts(from(text, at - 1), what)) {
            return at - 1;
        }
    }
    return text.size;
}

/* The whole number at the start of @p text, which moves on; false if there is none of at most 10 digits. */
static bool take_number(qll_text *text, size_t *value)
{
    size_t digits = 0;
    *value = 0;
    while (digits < text->size && digits < 10 && text->bytes[digits] >= '0'
           && text->bytes[digits] <= '9') {
        *value = *value * 10 + (size_t)(text->bytes[digits] - '0');
        digits += 1;
    }
    *text = from(*text, digits);
    return digits > 0;
}

static bool take_word(qll_text *text, const char *word)
{
    bool is = starts(*text, word);
    *text = from(*text, is ? strlen(word) : 0);
    return is;
}

/* Finds the cross-reference table: one section from object 0, as a file written at one go has. */
static bool find_table(update *made)
{
    qll_text at = from(made->pdf, find_last(made->pdf, "startxref\n"));
    if (!take_word(&at, "startxref\n") || !take_number(&at, &made->table_offset)
        || made->table_offset >= made->pdf.size) {
        return false;
    }
    at = from(made->pdf, made->table_offset);
    if (!take_word(&at, "xref\n0 ") || !take_number(&at, &made->object_count)
        || !take_word(&at, "\n") || made->object_count > at.size / QLL_XREF_LINE) {
        return false;
    }
    made->lines = at.bytes;
    return true;
}

/* The body of object @p number, from behind "n 0 obj\n" to before "endobj"; {NULL, 0} if it is not so. */
static qll_text object_body(const update *made, size_t number)
{
    qll_text line = {made->lines + number * QLL_XREF_LINE, QLL_XREF_LINE};
    size_t offset = 0;
    size_t named = 0;
    if (!take_number(&line, &offset) || line.bytes[7] != 'n' || offset >= made->table_offset) {
        return (qll_text){NULL, 0};
    }
    qll_text at = from(made->pdf, offset);
    if (!take_number(&at, &named) || named != number || !take_word(&at, " 0 obj\n")) {
        return (qll_text){NULL, 0};
    }
    for (size_t i = 0; i < at.size; i++) {
        if (at.bytes[i] == '\n' && starts(from(at, i), "\nendobj")) {
            return (qll_text){at.bytes, i};
        }
    }
    return (qll_text){NULL, 0};
}

static void write_digits(qll_writer *writer, size_t value, size_t width)
{
    size_t power = 1;
    for (size_t i = 1; i < width; i++) {
        power *= 10;
    }
    for (; power > 0; power /= 10) {
        qll_write_byte(writer, (char)('0' + (int)(value / power % 10)), 1);
    }
}

static void write_hex(qll_writer *writer, uint32_t unit)
{
    for (unsigned shift = 16; shift > 0; shift -= 4) {
        qll_write_byte(writer, "0123456789ABCDEF"[(unit >> (shift - 4)) & 15U], 1);
    }
}

/* A text string: UTF-16, big end first, in hexadecimal (ISO 32000-1, 7.9.2.2). */
static void write_text_string(qll_writer *writer, qll_text text)
{
    qll_write(writer, "<FEFF");
    while (text.size > 0) {
        uint32_t point = qll_character_next(&text);
        if (point < 0x10000) {
            write_hex(writer, point);
        } else {
            write_hex(writer, 0xD800 + ((point - 0x10000) >> 10));
            write_hex(writer, 0xDC00 + ((point - 0x10000) & 0x3FFU));
        }
    }
    qll_write(writer, ">");
}

/* The text of the next figure of the canvas. */
static qll_text next_figure(update *made)
{
    while (made->item < made->canvas->count) {
        const qll_item *item = &made->canvas->items[made->item];
        made->item += 1;
        if (item->kind == QLL_ITEM_BEGIN && item->mark.kind == QLL_MARK_FIGURE) {
            made->figures += 1;
            return qll_text_of(item->mark.text);
        }
    }
    return (qll_text){NULL, 0};
}

static void begin_object(update *made, size_t number, const char *start)
{
    made->changes[made->change_count] = (change){number, made->writer.size};
    made->change_count += 1;
    qll_write_format(&made->writer, "%zu 0 obj\n%s", number, start);
}

static void change_objects(update *made)
{
    for (size_t number = 1; number < made->object_count; number++) {
        qll_text body = object_body(made, number);
        const char *start = NULL;
        if (starts(body, catalog_start)) {
            start = catalog_start;
            begin_object(made, number, start);
            qll_write(&made->writer, "   /Lang ");
            write_text_string(&made->writer, qll_text_of(made->language));
            qll_write(&made->writer, "\n   /ViewerPreferences << /DisplayDocTitle true >>\n");
        } else if (starts(body, figure_start)) {
            start = figure_start;
            begin_object(made, number, start);
            qll_write(&made->writer, "   /Alt ");
            write_text_string(&made->writer, next_figure(made));
            qll_write(&made->writer, "\n");
        }
        if (start != NULL) {
            qll_write_text(&made->writer, from(body, strlen(start)));
            qll_write(&made->writer, "\nendobj\n");
        }
    }
}

/* The new cross-reference lines and a trailer that points at the old ones. */
static bool write_table(update *made)
{
    qll_text trailer = from(made->pdf, find_last(made->pdf, "trailer\n"));
    size_t closes = find_last(trailer, "\n>>\nstartxref");
    if (trailer.size == 0 || closes == trailer.size) {
        return false;
    }
    size_t offset = made->writer.size;
    qll_write(&made->writer, "xref\n");
    for (size_t i = 0; i < made->change_count; i++) {
        qll_write_format(&made->writer, "%zu 1\n", made->changes[i].object);
        write_digits(&made->writer, made->changes[i].offset, 10);
        qll_write(&made->writer, " 00000 n \n");
    }
    qll_write_text(&made->writer, (qll_text){trailer.bytes, closes});
    qll_write_format(&made->writer, "\n   /Prev %zu\n>>\nstartxref\n%zu\n%%%%EOF\n",
                     made->table_offset, offset);
    return true;
}

qll_text qll_pdf_update(qll_text pdf, const qll_canvas *canvas, const char *language,
                        qll_arena *arena)
{
    update made = {.pdf = pdf, .canvas = canvas, .language = language};
    if (!find_table(&made)) {
        return pdf;
    }
    made.changes = qll_arena_take(arena, made.object_count, sizeof *made.changes);
    made.writer = qll_writer_new(arena);
    if (made.changes == NULL) {
        return (qll_text){"", 0};
    }
    qll_write_text(&made.writer, pdf);
    change_objects(&made);
    size_t figures = made.figures;
    bool is_whole = next_figure(&made).bytes == NULL && made.figures == figures;
    if (!write_table(&made) || !is_whole || made.change_count == 0) {
        return pdf;
    }
    return qll_writer_text(&made.writer);
}
