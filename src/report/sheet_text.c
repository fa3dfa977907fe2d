#include "report/sheet_text.h"

#include "report/columns.h"
#include "report/lettering.h"

#include <string.h>

/* What is left for a pencil. */
#define QLL_BOX_WITH_UNIT "____ "
#define QLL_BOX           "________"

static qll_text clean(const qll_writer *writer, const char *closed)
{
    return qll_text_trimmed(qll_text_clean(qll_text_of(closed), writer->arena));
}

/* A line or more; nothing of a text that is empty. */
static void write_line(qll_writer *writer, const char *first, const char *closed)
{
    qll_text text = clean(writer, closed);
    if (text.size > 0) {
        qll_write_wrapped(writer, first, text);
    }
}

/* The capital of a letter of ASCII, or of the second byte of U+00E0 to U+00FE, which are C3 A0 to C3 BE:
 * all that English and Spanish have. U+00F7 is the division sign. */
static char capital(char before, char byte)
{
    if (byte >= 'a' && byte <= 'z') {
        return (char)(byte - 'a' + 'A');
    }
    unsigned char code = (unsigned char)byte;
    bool is_small = (unsigned char)before == 0xC3 && code >= 0xA0 && code <= 0xBE && code != 0xB7;
    return is_small ? (char)(code - 0x20) : byte;
}

static void write_heading(qll_writer *writer, const char *closed)
{
    qll_text text = clean(writer, closed);
    qll_writer capitals = qll_writer_new(writer->arena);
    for (size_t i = 0; i < text.size; i++) {
        qll_write_byte(&capitals, capital(i > 0 ? text.bytes[i - 1] : ' ', text.bytes[i]), 1);
    }
    if (text.size > 0) {
        qll_write_wrapped(writer, "", qll_writer_text(&capitals));
    }
}

static void write_items(qll_writer *writer, const qll_block *block, const char *mark)
{
    for (size_t i = 0; i < block->item_count; i++) {
        write_line(writer, mark, block->items[i]);
    }
}

static void write_steps(qll_writer *writer, const qll_block *block)
{
    for (size_t i = 0; i < block->item_count; i++) {
        qll_writer number = qll_writer_new(writer->arena);
        qll_write_format(&number, i < 9 ? "  %zu. " : " %zu. ", i + 1);
        write_line(writer, qll_writer_text(&number).bytes, block->items[i]);
    }
}

/* What stands in a cell; with a box, what is left to be filled in. */
static void write_cell(qll_writer *writer, const qll_cell *cell)
{
    qll_text text = clean(writer, cell->text);
    if (cell->is_box) {
        qll_write(writer, text.size > 0 ? QLL_BOX_WITH_UNIT : QLL_BOX);
    }
    qll_write_text(writer, text);
}

static void write_columns(qll_writer *writer, const qll_table_block *table)
{
    qll_columns columns = qll_columns_new(writer, table->align);
    for (size_t i = 0; i < table->row_count * table->column_count; i++) {
        write_cell(&columns.cell, &table->cells[i]);
        qll_columns_next(&columns);
    }
    qll_columns_flush(&columns);
}

/* A table with more columns than a line has room for, row by row: "flow: 12 gpm". */
static void write_records(qll_writer *writer, const qll_table_block *table)
{
    for (size_t i = table->column_count; i < table->row_count * table->column_count; i++) {
        size_t column = i % table->column_count;
        qll_writer line = qll_writer_new(writer->arena);
        qll_text head = clean(&line, table->cells[column].text);
        qll_write_text(&line, head);
        qll_write(&line, head.size > 0 ? ": " : "");
        write_cell(&line, &table->cells[i]);
        qll_write_wrapped(writer, column == 0 ? "  - " : "    ", qll_writer_text(&line));
    }
}

static void write_table(qll_writer *writer, const qll_table_block *table)
{
    if (table->row_count < 2 || table->column_count == 0) {
        return; /* heads of nothing */
    }
    write_line(writer, "  ", table->caption);
    if (table->column_count > QLL_COLUMNS_MOST) {
        write_records(writer, table);
    } else {
        write_columns(writer, table);
    }
}

/* True if a blank line sets it off from what stands before it. */
static bool stands_apart(const qll_block *block)
{
    bool is_captioned = block->kind == QLL_BLOCK_TABLE && block->table.row_count > 1
                        && block->table.caption[0] != '\0';
    return block->kind == QLL_BLOCK_HEADING || is_captioned;
}

/* As it stands, but for bytes that a terminal would act upon. */
static void write_verbatim(qll_writer *writer, const char *lines)
{
    while (*lines != '\0') {
        size_t size = strcspn(lines, "\n");
        qll_write_text(writer, qll_text_clean((qll_text){lines, size}, writer->arena));
        qll_write(writer, "\n");
        lines += size + (lines[size] == '\n' ? 1 : 0);
    }
}

static void write_block(qll_writer *writer, const qll_block *block)
{
    switch (block->kind) {
    case QLL_BLOCK_HEADING:
    case QLL_BLOCK_LEAD: write_line(writer, "", block->text); break;
    case QLL_BLOCK_PARAGRAPH: write_line(writer, "  ", block->text); break;
    case QLL_BLOCK_LIST: write_items(writer, block, "  - "); break;
    case QLL_BLOCK_STEPS: write_steps(writer, block); break;
    case QLL_BLOCK_CAUTIONS: write_items(writer, block, "  ! "); break;
    case QLL_BLOCK_TABLE: write_table(writer, &block->table); break;
    case QLL_BLOCK_FIGURE: break;
    case QLL_BLOCK_VERBATIM: write_verbatim(writer, block->text); break;
    }
}

static void write_title(qll_writer *writer, const qll_sheet *sheet)
{
    qll_writer title = qll_writer_new(writer->arena);
    qll_write(&title, sheet->title);
    qll_write(&title, ": ");
    qll_write(&title, sheet->subject);
    write_line(writer, "", qll_writer_text(&title).bytes);
}

void qll_sheet_print(qll_writer *writer, const qll_sheet *sheet)
{
    if (sheet->title[0] != '\0') {
        write_title(writer, sheet);
    }
    for (size_t s = 0; s < sheet->section_count; s++) {
        const qll_section_sheet *section = &sheet->sections[s];
        qll_write(writer, "\n");
        write_heading(writer, section->heading);
        for (size_t i = 0; i < section->block_count; i++) {
            bool follows_heading = i > 0 && section->blocks[i - 1].kind == QLL_BLOCK_HEADING;
            if (i > 0 && !follows_heading && stands_apart(&section->blocks[i])) {
                qll_write(writer, "\n");
            }
            write_block(writer, &section->blocks[i]);
        }
    }
}
