#include "report/sheet.h"

#include <assert.h>
#include <string.h>

const char *const qll_section_words[QLL_SECTION_COUNT] = {
#define QLL_SECTION_WORD(name, word) [QLL_SECTION_##name] = (word),
    QLL_SECTION_LIST(QLL_SECTION_WORD)
#undef QLL_SECTION_WORD
};

qll_sheet qll_sheet_new(qll_arena *arena, qll_language language, qll_unit_system units)
{
    return (qll_sheet){
        .arena = arena, .language = language, .units = units, .title = "", .subject = ""};
}

/* A list of @p count elements with room for one more; NULL without memory. */
static void *grown(qll_sheet *sheet, void *list, size_t count, size_t *room, size_t size)
{
    if (count < *room) {
        return list;
    }
    size_t more = *room == 0 ? 32 : *room * 2;
    void *made = qll_arena_take(sheet->arena, more, size);
    if (made == NULL) {
        return NULL;
    }
    if (count > 0) {
        memcpy(made, list, count * size);
    }
    *room = more;
    return made;
}

static void close_section(qll_sheet *sheet)
{
    if (sheet->section_count == 0) {
        return;
    }
    qll_section_sheet *section = &sheet->sections[sheet->section_count - 1];
    section->blocks = sheet->blocks;
    section->block_count = sheet->block_count;
    if (sheet->block_count == 0) {
        sheet->section_count -= 1;
    }
    sheet->blocks = NULL;
    sheet->block_count = 0;
    sheet->block_room = 0;
}

void qll_sheet_section(qll_sheet *sheet, qll_section_kind kind, const char *heading)
{
    close_section(sheet);
    assert(sheet->section_count < QLL_SECTION_COUNT);
    sheet->sections[sheet->section_count] = (qll_section_sheet){.kind = kind, .heading = heading};
    sheet->section_count += 1;
}

void qll_sheet_end(qll_sheet *sheet)
{
    close_section(sheet);
}

static void add_block(qll_sheet *sheet, qll_block block)
{
    assert(sheet->section_count > 0);
    qll_block *blocks =
        grown(sheet, sheet->blocks, sheet->block_count, &sheet->block_room, sizeof *sheet->blocks);
    if (blocks != NULL) {
        sheet->blocks = blocks;
        blocks[sheet->block_count] = block;
        sheet->block_count += 1;
    }
}

void qll_sheet_text(qll_sheet *sheet, qll_block_kind kind, const char *text)
{
    add_block(sheet, (qll_block){.kind = kind, .text = text});
}

void qll_sheet_item(qll_sheet *sheet, const char *text)
{
    const char **items =
        grown(sheet, sheet->items, sheet->item_count, &sheet->item_room, sizeof *sheet->items);
    if (items != NULL) {
        sheet->items = items;
        items[sheet->item_count] = text;
        sheet->item_count += 1;
    }
}

void qll_sheet_list(qll_sheet *sheet, qll_block_kind kind)
{
    if (sheet->item_count > 0) {
        add_block(sheet, (qll_block){
                             .kind = kind, .items = sheet->items, .item_count = sheet->item_count});
    }
    sheet->items = NULL;
    sheet->item_count = 0;
    sheet->item_room = 0;
}

static void add_cell(qll_sheet *sheet, qll_cell cell)
{
    qll_cell *cells =
        grown(sheet, sheet->cells, sheet->cell_count, &sheet->cell_room, sizeof *sheet->cells);
    if (cells != NULL) {
        sheet->cells = cells;
        cells[sheet->cell_count] = cell;
        sheet->cell_count += 1;
    }
}

void qll_sheet_cell(qll_sheet *sheet, const char *text)
{
    add_cell(sheet, (qll_cell){.text = text});
}

void qll_sheet_cell_tone(qll_sheet *sheet, const char *text, qll_tone tone)
{
    add_cell(sheet, (qll_cell){.text = text, .tone = tone});
}

void qll_sheet_cell_box(qll_sheet *sheet, const char *unit, double least_mm)
{
    add_cell(sheet, (qll_cell){.text = unit, .is_box = true, .box_mm = least_mm});
}

void qll_sheet_table(qll_sheet *sheet, const char *caption, const char *align, bool has_row_heads)
{
    size_t columns = strlen(align);
    /* A cell that found no room leaves a row too short, which is left out. */
    assert(qll_arena_refused(sheet->arena) > 0 || sheet->cell_count % columns == 0);
    size_t rows = sheet->cell_count / columns;
    if (rows > 1) {
        const qll_table_block table = {.caption = caption,
                                       .align = align,
                                       .cells = sheet->cells,
                                       .column_count = columns,
                                       .row_count = rows,
                                       .has_row_heads = has_row_heads};
        add_block(sheet, (qll_block){.kind = QLL_BLOCK_TABLE, .table = table});
    }
    sheet->cells = NULL;
    sheet->cell_count = 0;
    sheet->cell_room = 0;
}

qll_table_block *qll_sheet_last_table(qll_sheet *sheet)
{
    qll_block *last = sheet->block_count > 0 ? &sheet->blocks[sheet->block_count - 1] : NULL;
    return last == NULL || last->kind != QLL_BLOCK_TABLE ? NULL : &last->table;
}

void qll_sheet_figure(qll_sheet *sheet, const qll_figure_block *figure)
{
    add_block(sheet, (qll_block){.kind = QLL_BLOCK_FIGURE, .figure = *figure});
}
