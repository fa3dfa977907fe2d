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

/* "Table 3. Parts" */
static const char *numbered(const qll_sheet *sheet, qll_message message, const char *number,
                            const char *what)
{
    const qll_filling fillings[] = {{"number", number}, {"what", what}};
    qll_writer writer = qll_writer_new(sheet->arena);
    qll_say_with(&writer, sheet->language, message, fillings, 2);
    return qll_writer_text(&writer).bytes;
}

static const char *counted(const qll_sheet *sheet, qll_message message, size_t number,
                           const char *what)
{
    qll_writer writer = qll_writer_new(sheet->arena);
    qll_write_format(&writer, "%zu", number);
    return numbered(sheet, message, qll_writer_text(&writer).bytes, what);
}

/* The first section of a chapter begins it and takes its number. */
static void number_section(qll_sheet *sheet, qll_section_sheet *section)
{
    const size_t index = sheet->section_count - 1;
    const bool goes_on = section->chapter != QLL_CHAPTER_NONE && index > 0
                         && sheet->sections[index - 1].chapter == section->chapter;
    section->level = goes_on ? 3 : 2;
    if (section->chapter == QLL_CHAPTER_NONE || goes_on) {
        return;
    }
    if (!qll_is_appendix(section)) {
        sheet->chapter_count += 1;
        section->heading =
            counted(sheet, QLL_SAYS_HEADING_NUMBERED, sheet->chapter_count, section->heading);
        return;
    }
    const char letter[] = {(char)('A' + (char)sheet->appendix_count), '\0'};
    sheet->appendix_count += 1;
    section->heading = numbered(sheet, QLL_SAYS_HEADING_APPENDIX, letter, section->heading);
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
    } else {
        number_section(sheet, section);
    }
    sheet->blocks = NULL;
    sheet->block_count = 0;
    sheet->block_room = 0;
}

void qll_sheet_section(qll_sheet *sheet, qll_section_kind kind, const char *heading)
{
    qll_sheet_numbered(sheet, kind, QLL_CHAPTER_NONE, heading);
}

void qll_sheet_numbered(qll_sheet *sheet, qll_section_kind kind, qll_chapter chapter,
                        const char *heading)
{
    close_section(sheet);
    assert(sheet->section_count < QLL_SECTION_COUNT);
    sheet->sections[sheet->section_count] =
        (qll_section_sheet){.kind = kind, .chapter = chapter, .heading = heading};
    sheet->section_count += 1;
}

void qll_sheet_end(qll_sheet *sheet)
{
    close_section(sheet);
}

static bool is_numbered(const qll_sheet *sheet)
{
    return sheet->section_count > 0
           && sheet->sections[sheet->section_count - 1].chapter != QLL_CHAPTER_NONE;
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
        if (is_numbered(sheet) && caption[0] != '\0') {
            sheet->table_count += 1;
            caption = counted(sheet, QLL_SAYS_CAPTION_TABLE, sheet->table_count, caption);
        }
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

void qll_sheet_name_by_heads(qll_sheet *sheet, const char *caption)
{
    qll_table_block *made = qll_sheet_last_table(sheet);
    if (made != NULL) {
        made->names_itself = true;
        made->caption = caption;
        sheet->table_count -= is_numbered(sheet) ? 1 : 0;
    }
}

qll_table_block *qll_sheet_last_table(qll_sheet *sheet)
{
    qll_block *last = sheet->block_count > 0 ? &sheet->blocks[sheet->block_count - 1] : NULL;
    return last == NULL || last->kind != QLL_BLOCK_TABLE ? NULL : &last->table;
}

void qll_sheet_figure(qll_sheet *sheet, const qll_figure_block *figure)
{
    qll_block block = {.kind = QLL_BLOCK_FIGURE, .figure = *figure};
    if (is_numbered(sheet)) {
        sheet->figure_count += 1;
        block.figure.title =
            counted(sheet, QLL_SAYS_CAPTION_FIGURE, sheet->figure_count, figure->title);
    }
    add_block(sheet, block);
}

bool qll_are_beside(const qll_block *blocks, size_t count)
{
    return count >= 2 && blocks[0].kind == QLL_BLOCK_FIGURE && blocks[1].kind == QLL_BLOCK_FIGURE
           && blocks[0].figure.half != NULL && blocks[1].figure.half != NULL;
}
