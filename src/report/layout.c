#include "report/layout.h"

#include "report/layout_page.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* Paper and margins, mm. Letter is 8.5 by 11 in (ANSI Y14.1), A4 ISO 216. */
#define QLL_LETTER_WIDTH_MM  215.9
#define QLL_LETTER_HEIGHT_MM 279.4
#define QLL_A4_WIDTH_MM      210.0
#define QLL_A4_HEIGHT_MM     297.0
#define QLL_LEFT_MM          18.0 /* room for the holes of a binder, ISO 838 */
#define QLL_MARGIN_MM        14.0
#define QLL_FOOT_MM          17.0

#define QLL_TITLE_MM         (17.0 * QLL_POINT_MM)
#define QLL_SUBJECT_MM       (12.0 * QLL_POINT_MM)
#define QLL_SECTION_MM       (13.0 * QLL_POINT_MM)
#define QLL_HEADING_MM       (11.0 * QLL_POINT_MM)
#define QLL_LEAD_MM          (12.0 * QLL_POINT_MM)
#define QLL_BELOW_HEADING_MM 0.8

/* What must stand under a heading on the same page, of the @p count blocks at @p block. */
static double start_height_mm(const qll_page *page, const qll_block *block, size_t count)
{
    if (qll_are_beside(block, count)) {
        return qll_page_two_figures_mm(page, &block[0].figure, &block[1].figure);
    }
    switch (block->kind) {
    case QLL_BLOCK_TABLE: return qll_page_table_start_mm(page, &block->table);
    case QLL_BLOCK_FIGURE: return qll_page_figure_mm(page, &block->figure);
    case QLL_BLOCK_CAUTIONS: return qll_page_cautions_mm(page, block);
    case QLL_BLOCK_HEADING:
    case QLL_BLOCK_PARAGRAPH:
    case QLL_BLOCK_LEAD:
    case QLL_BLOCK_LIST:
    case QLL_BLOCK_STEPS:
    case QLL_BLOCK_VERBATIM: break;
    }
    return 3 * qll_page_line_mm(QLL_BODY_MM);
}

/* The height of a block that may lead up to a form, or of a form; 0 of any other. */
static double step_height_mm(const qll_page *page, const qll_block *block)
{
    switch (block->kind) {
    case QLL_BLOCK_PARAGRAPH:
        return (double)qll_text_line_count(qll_text_of(block->text), page->width_mm, QLL_BODY_MM,
                                           QLL_WEIGHT_REGULAR)
               * qll_page_line_mm(QLL_BODY_MM);
    case QLL_BLOCK_LIST:
    case QLL_BLOCK_STEPS: return qll_page_items_mm(page, block);
    case QLL_BLOCK_TABLE: return qll_page_form_mm(page, &block->table);
    case QLL_BLOCK_HEADING:
    case QLL_BLOCK_LEAD:
    case QLL_BLOCK_CAUTIONS:
    case QLL_BLOCK_FIGURE:
    case QLL_BLOCK_VERBATIM: break;
    }
    return 0;
}

/* The height of the blocks under a heading up to the end of the first form they lead to: what is done and where
 * it is written down stay together. 0 where there is none, or more than a page. */
static double group_height_mm(const qll_page *page, const qll_block *blocks, size_t count)
{
    double height_mm = 0;
    for (size_t i = 0; i < count; i++) {
        double step_mm = step_height_mm(page, &blocks[i]);
        if (!(step_mm > 0)) {
            break;
        }
        height_mm += step_mm;
        if (blocks[i].kind == QLL_BLOCK_TABLE) {
            return height_mm < page->bottom_mm - page->top_mm ? height_mm : 0;
        }
        height_mm += page->gap_mm;
    }
    return 0;
}

/* A heading over the @p count blocks at @p under. */
static void write_heading(qll_page *page, const char *text, int level, const qll_block *under,
                          size_t count)
{
    double size_mm = level == 2 ? QLL_SECTION_MM : QLL_HEADING_MM;
    const qll_page_text how = {
        .mark = QLL_MARK_HEADING, .level = level, .size_mm = size_mm, .weight = QLL_WEIGHT_BOLD};
    double above_mm = page->is_fresh ? 0 : level == 2 ? 2.5 : 1.0;
    double lines =
        (double)qll_text_line_count(qll_text_of(text), page->width_mm, size_mm, QLL_WEIGHT_BOLD);
    double own_mm = above_mm + lines * qll_page_line_mm(size_mm) + QLL_BELOW_HEADING_MM;
    /* What follows asks for room from where it will begin. */
    page->y_mm += own_mm;
    double follows_mm = count == 0 ? 0 : start_height_mm(page, under, count);
    page->y_mm -= own_mm;
    if (level > 2 && !page->sheet->runs_on && !qll_page_is_half_empty(page)) {
        follows_mm = fmax(follows_mm, group_height_mm(page, under, count));
    }
    qll_page_need(page, own_mm + follows_mm);
    page->y_mm += page->is_fresh ? 0 : above_mm;
    qll_page_paragraph(page, text, &how);
    page->y_mm += QLL_BELOW_HEADING_MM;
}

/* The first of the @p count blocks at @p block. */
static void write_block(qll_page *page, const qll_block *block, size_t count)
{
    qll_page_text how = {
        .mark = QLL_MARK_PARAGRAPH, .size_mm = QLL_BODY_MM, .weight = QLL_WEIGHT_REGULAR};
    switch (block->kind) {
    case QLL_BLOCK_HEADING: write_heading(page, block->text, 3, block + 1, count - 1); return;
    case QLL_BLOCK_LEAD:
        how.size_mm = QLL_LEAD_MM;
        how.weight = QLL_WEIGHT_BOLD;
        qll_page_paragraph(page, block->text, &how);
        break;
    case QLL_BLOCK_PARAGRAPH: qll_page_paragraph(page, block->text, &how); break;
    case QLL_BLOCK_LIST:
    case QLL_BLOCK_STEPS: qll_page_items(page, block); break;
    case QLL_BLOCK_CAUTIONS: qll_page_cautions(page, block); break;
    case QLL_BLOCK_TABLE: qll_page_table(page, &block->table); break;
    case QLL_BLOCK_FIGURE: qll_page_figure(page, &block->figure); break;
    case QLL_BLOCK_VERBATIM: qll_page_verbatim(page, block->text, &how); break;
    }
    page->y_mm += page->gap_mm;
}

/* Sheets that are handed to somebody by themselves begin a page, and so does the appendix. */
static bool begins_page(const qll_sheet *sheet, size_t section)
{
    const qll_section_sheet *this = &sheet->sections[section];
    bool is_appendix = qll_is_appendix(this);
    return !sheet->runs_on
           && (qll_is_carried(this->kind)
               || (section > 0 && is_appendix != qll_is_appendix(this - 1)));
}

/* Two narrow ones side by side; false where the first of the @p count blocks takes the width for itself. */
static bool write_beside(qll_page *page, const qll_block *blocks, size_t count)
{
    if (qll_are_beside(blocks, count)) {
        qll_page_two_figures(page, &blocks[0].figure, &blocks[1].figure);
        return true;
    }
    return count >= 2 && blocks[0].kind == QLL_BLOCK_TABLE && blocks[1].kind == QLL_BLOCK_TABLE
           && qll_page_two_tables(page, &blocks[0].table, &blocks[1].table);
}

/* A form of one row: its head, and what is written in. */
static bool is_line_form(const qll_page *page, const qll_block *block)
{
    return block->kind == QLL_BLOCK_TABLE && block->table.row_count == 2
           && qll_page_form_mm(page, &block->table) > 0;
}

/* Two of one row stay together: no signature begins a page alone. */
static void keep_line_forms(qll_page *page, const qll_block *blocks, size_t count)
{
    if (count >= 2 && is_line_form(page, &blocks[0]) && is_line_form(page, &blocks[1])) {
        qll_page_need(page, qll_page_form_mm(page, &blocks[0].table) + page->gap_mm
                                + qll_page_form_mm(page, &blocks[1].table));
    }
}

static void write_section(qll_page *page, size_t index)
{
    const qll_section_sheet *section = &page->sheet->sections[index];
    if (begins_page(page->sheet, index) && !qll_page_is_half_empty(page)) {
        qll_page_turn(page);
    }
    write_heading(page, section->heading, section->level, section->blocks, section->block_count);
    page->starts->page[index] = page->canvas->page_count;
    const qll_block *blocks = section->blocks;
    for (size_t i = 0; i < section->block_count; i++) {
        keep_line_forms(page, &blocks[i], section->block_count - i);
        if (write_beside(page, &blocks[i], section->block_count - i)) {
            page->y_mm += page->gap_mm;
            i += 1;
        } else {
            write_block(page, &blocks[i], section->block_count - i);
        }
    }
}

static void write_title(qll_page *page)
{
    const qll_page_text title = {
        .mark = QLL_MARK_HEADING, .level = 1, .size_mm = QLL_TITLE_MM, .weight = QLL_WEIGHT_BOLD};
    const qll_page_text subject = {
        .mark = QLL_MARK_PARAGRAPH, .size_mm = QLL_SUBJECT_MM, .weight = QLL_WEIGHT_REGULAR};
    qll_page_paragraph(page, page->sheet->title, &title);
    page->y_mm += 1.0;
    qll_page_paragraph(page, page->sheet->subject, &subject);
    page->y_mm += 2.0;
    qll_page_title_block(page);
    if (page->known_starts != NULL) {
        page->y_mm += 2.0;
        qll_page_contents(page);
    }
}

/* Between blocks; and on tight sheets. */
#define QLL_GAP_MM       1.8
#define QLL_TIGHT_GAP_MM 1.2

/* How a sheet is laid on pages. */
typedef struct page_plan {
    size_t total;     /* pages in all, as the foot says; 0 while they are being counted */
    size_t fill_rows; /* as of qll_page */
    bool is_tight;
    const qll_starts *known_starts;
} page_plan;

/* Pages of the sheet; @p starts gets the page that each section begins on. */
static qll_canvas lay(const qll_sheet *sheet, qll_arena *arena, const page_plan *plan,
                      qll_starts *starts)
{
    bool is_si = sheet->units == QLL_UNITS_SI;
    qll_canvas canvas = qll_canvas_new(is_si ? QLL_A4_WIDTH_MM : QLL_LETTER_WIDTH_MM,
                                       is_si ? QLL_A4_HEIGHT_MM : QLL_LETTER_HEIGHT_MM, arena);
    qll_page page = {
        .canvas = &canvas,
        .sheet = sheet,
        .left_mm = QLL_LEFT_MM,
        .width_mm = canvas.width_mm - QLL_LEFT_MM - QLL_MARGIN_MM,
        .top_mm = QLL_MARGIN_MM,
        .bottom_mm = canvas.height_mm - QLL_FOOT_MM,
        .y_mm = QLL_MARGIN_MM,
        .total = plan->total,
        .fill_rows = plan->fill_rows,
        .is_fresh = true,
        .is_tight = plan->is_tight,
        .gap_mm = plan->is_tight ? QLL_TIGHT_GAP_MM : QLL_GAP_MM,
        .known_starts = plan->known_starts,
        .starts = starts,
    };
    write_title(&page);
    for (size_t i = 0; i < sheet->section_count; i++) {
        write_section(&page, i);
    }
    qll_page_foot(&page);
    return canvas;
}

/* Beyond so many pages there are contents (our choice). */
#define QLL_PAGES_WITHOUT_CONTENTS 6

static size_t count_pages(const qll_sheet *sheet, qll_arena *arena, const page_plan *plan,
                          qll_starts *starts)
{
    qll_arena_mark before = qll_arena_now(arena);
    size_t count = lay(sheet, arena, plan, starts).page_count;
    qll_arena_reset(arena, before);
    return count;
}

/* The pages that @p plan comes to, and where sections begin. It gets @p contents where it takes them: they take room
 * themselves, so all is laid once more. */
static size_t pages_by(const qll_sheet *sheet, qll_arena *arena, page_plan *plan,
                       qll_starts *contents)
{
    qll_starts starts = {{0}};
    plan->known_starts = NULL;
    size_t count = count_pages(sheet, arena, plan, contents);
    if (count > QLL_PAGES_WITHOUT_CONTENTS && sheet->title_block.field_count > 0) {
        plan->known_starts = contents;
        count = count_pages(sheet, arena, plan, &starts);
        *contents = starts;
    }
    return count;
}

/* Where every page counts, a log takes the room that the last page leaves: as many rows as make no page more. */
static size_t rows_to_fill(const qll_sheet *sheet, qll_arena *arena, const page_plan *plan)
{
    qll_starts starts = {{0}};
    page_plan tried = *plan;
    size_t rows = 0;
    size_t too_many = 64; /* more than a page has */
    while (rows + 1 < too_many) {
        tried.fill_rows = rows + (too_many - rows) / 2;
        if (count_pages(sheet, arena, &tried, &starts) == plan->total) {
            rows = tried.fill_rows;
        } else {
            too_many = tried.fill_rows;
        }
    }
    return rows;
}

/* A log of fewer rows is soon full: sheets stand closer for it (our choice). */
#define QLL_LOG_ROWS_FEW 9U

void qll_layout_pages(const qll_sheet *sheet, qll_arena *arena, qll_canvas *pages)
{
    qll_starts contents = {{0}};
    qll_starts tight_contents = {{0}};
    qll_starts last = {{0}};
    page_plan plan = {.fill_rows = sheet->runs_on ? 0 : SIZE_MAX};
    page_plan tight = {.fill_rows = plan.fill_rows, .is_tight = true};
    plan.total = pages_by(sheet, arena, &plan, &contents);
    tight.total = pages_by(sheet, arena, &tight, &tight_contents);
    if (tight.total < plan.total) {
        plan = tight;
    }
    if (sheet->runs_on) {
        plan.fill_rows = rows_to_fill(sheet, arena, &plan);
        if (plan.fill_rows < QLL_LOG_ROWS_FEW && tight.total == plan.total) {
            plan = tight;
            plan.fill_rows = rows_to_fill(sheet, arena, &plan);
        }
    }
    *pages = lay(sheet, arena, &plan, &last);
}
