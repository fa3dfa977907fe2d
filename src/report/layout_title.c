/* The head of official sheets: whose they are and what they were made from, with a box for the stamp; and on
 * which page what begins. */
#include "report/layout_page.h"

#include <math.h>

#define QLL_STAMP_MM     46.0 /* wide: a seal of 1-5/8 in, as license boards ask for, has room */
#define QLL_PAD_MM       1.0
#define QLL_FIELD_MM     6.2 /* high enough to write in by hand */
#define QLL_STAMP_PAD_MM 1.5

/* Room for the widest label. */
static double label_mm(const qll_title_block *block)
{
    double widest_mm = 0;
    for (size_t i = 0; i < block->field_count; i++) {
        widest_mm = fmax(widest_mm, qll_text_width_mm(qll_text_of(block->fields[i].label),
                                                      QLL_SMALL_MM, QLL_WEIGHT_REGULAR));
    }
    return widest_mm + 3 * QLL_PAD_MM;
}

static double value_width_mm(const qll_title_block *block, size_t field, double fields_mm)
{
    double cell_mm = block->fields[field].is_wide ? fields_mm : fields_mm / 2;
    return cell_mm - label_mm(block) - QLL_PAD_MM;
}

static double field_height_mm(const qll_title_block *block, size_t field, double fields_mm)
{
    size_t lines = qll_text_line_count(qll_text_of(block->fields[field].value),
                                       value_width_mm(block, field, fields_mm), QLL_SMALL_MM,
                                       QLL_WEIGHT_REGULAR);
    return fmax(QLL_FIELD_MM, (double)lines * qll_page_line_mm(QLL_SMALL_MM) + 2 * QLL_PAD_MM);
}

/* Fields from @p first on that share a row: two narrow ones. */
static size_t row_end(const qll_title_block *block, size_t first)
{
    bool is_pair = !block->fields[first].is_wide && first + 1 < block->field_count
                   && !block->fields[first + 1].is_wide;
    return first + (is_pair ? 2 : 1);
}

static double row_height_mm(const qll_title_block *block, size_t first, double fields_mm)
{
    double height_mm = 0;
    for (size_t i = first; i < row_end(block, first); i++) {
        height_mm = fmax(height_mm, field_height_mm(block, i, fields_mm));
    }
    return height_mm;
}

static void write_field(qll_page *page, const qll_title_block *block, size_t field, qll_box box)
{
    qll_letters letters = qll_page_letters(QLL_SMALL_MM, QLL_WEIGHT_REGULAR);
    double base_mm = box.y_mm + QLL_PAD_MM + QLL_SMALL_MM * QLL_ASCENT_EM + 0.3;
    letters.colour = QLL_GREY(0.7);
    qll_page_begin(page, QLL_MARK_HEAD_CELL, 0, NULL);
    qll_canvas_text(page->canvas, (qll_xy){box.x_mm + QLL_PAD_MM, base_mm},
                    qll_text_of(block->fields[field].label), &letters);
    qll_page_end(page);
    letters.colour = QLL_BLACK;
    qll_page_begin(page, QLL_MARK_CELL, 0, NULL);
    qll_text rest = qll_text_clean(qll_text_of(block->fields[field].value), page->canvas->arena);
    const double indent_mm = label_mm(block);
    double width_mm = box.width_mm - indent_mm - QLL_PAD_MM;
    while (rest.size > 0) {
        qll_text line = qll_text_line(&rest, width_mm, QLL_SMALL_MM, QLL_WEIGHT_REGULAR);
        qll_canvas_text(page->canvas, (qll_xy){box.x_mm + indent_mm, base_mm}, line, &letters);
        base_mm += qll_page_line_mm(QLL_SMALL_MM);
    }
    qll_page_end(page);
}

/* A rule that is no part of what is read. */
static void draw_line(qll_page *page, qll_xy from, qll_xy to)
{
    const qll_pen pen = {.width_mm = 0.2, .colour = QLL_GREY(0.55)};
    qll_page_begin(page, QLL_MARK_DECORATION, 0, NULL);
    qll_canvas_line(page->canvas, from, to, &pen);
    qll_page_end(page);
}

static void draw_box(qll_page *page, qll_box box)
{
    const qll_paint paint = {.pen = {.width_mm = 0.35, .colour = QLL_BLACK}};
    qll_page_begin(page, QLL_MARK_DECORATION, 0, NULL);
    qll_canvas_rectangle(page->canvas, box, &paint);
    qll_page_end(page);
}

static void write_stamp(qll_page *page, const char *label, qll_box box)
{
    qll_letters letters = qll_page_letters(QLL_SMALL_MM, QLL_WEIGHT_REGULAR);
    letters.colour = QLL_GREY(0.7);
    draw_box(page, box);
    qll_page_begin(page, QLL_MARK_PARAGRAPH, 0, NULL);
    qll_canvas_text(page->canvas,
                    (qll_xy){box.x_mm + QLL_STAMP_PAD_MM,
                             box.y_mm + QLL_STAMP_PAD_MM + QLL_SMALL_MM * QLL_ASCENT_EM},
                    qll_text_of(label), &letters);
    qll_page_end(page);
}

void qll_page_title_block(qll_page *page)
{
    const qll_title_block *block = &page->sheet->title_block;
    if (block->field_count == 0) {
        return;
    }
    const double fields_mm = page->width_mm - QLL_STAMP_MM;
    const double top_mm = page->y_mm;
    qll_page_begin(page, QLL_MARK_TABLE, 0, NULL);
    for (size_t first = 0; first < block->field_count; first = row_end(block, first)) {
        double height_mm = row_height_mm(block, first, fields_mm);
        double width_mm = row_end(block, first) - first > 1 ? fields_mm / 2 : fields_mm;
        if (first > 0) {
            draw_line(page, (qll_xy){page->left_mm, page->y_mm},
                      (qll_xy){page->left_mm + fields_mm, page->y_mm});
        }
        qll_page_begin(page, QLL_MARK_ROW, 0, NULL);
        for (size_t i = first; i < row_end(block, first); i++) {
            double x_mm = page->left_mm + (i == first ? 0 : width_mm);
            write_field(page, block, i, (qll_box){x_mm, page->y_mm, width_mm, height_mm});
        }
        qll_page_end(page);
        page->y_mm += height_mm;
    }
    qll_page_end(page);
    double height_mm = page->y_mm - top_mm;
    draw_box(page, (qll_box){page->left_mm, top_mm, fields_mm, height_mm});
    write_stamp(page, block->stamp,
                (qll_box){page->left_mm + fields_mm, top_mm, QLL_STAMP_MM, height_mm});
    page->y_mm += 1.0;
    page->is_fresh = false;
}

/* ---- contents ---- */

/* Between the columns, and from a heading to its page. */
#define QLL_COLUMN_GAP_MM 6.0
#define QLL_NUMBER_MM     8.0

static void write_entry(qll_page *page, const char *heading, size_t on_page, qll_box box)
{
    qll_letters letters = qll_page_letters(QLL_SMALL_MM, QLL_WEIGHT_REGULAR);
    double base_mm = box.y_mm + QLL_SMALL_MM * QLL_ASCENT_EM;
    qll_writer number = qll_writer_new(page->canvas->arena);
    qll_write_format(&number, "%zu", on_page);
    qll_page_begin(page, QLL_MARK_LIST_ITEM, 0, NULL);
    (void)qll_canvas_text_fit(page->canvas, (qll_xy){box.x_mm, base_mm}, qll_text_of(heading),
                              box.width_mm - QLL_NUMBER_MM + 1.0, &letters);
    letters.anchor = QLL_ANCHOR_END;
    qll_canvas_text(page->canvas, (qll_xy){box.x_mm + box.width_mm, base_mm},
                    qll_writer_text(&number), &letters);
    qll_page_end(page);
    double dots_mm = box.y_mm + box.height_mm - 0.4;
    draw_line(page, (qll_xy){box.x_mm, dots_mm}, (qll_xy){box.x_mm + box.width_mm, dots_mm});
}

/* The first column is as wide as its headings ask for, so that the second has the rest. */
static double first_column_mm(const qll_sheet *sheet, size_t rows)
{
    double widest_mm = 0;
    size_t at = 0;
    for (size_t i = 0; i < sheet->section_count && at < rows; i++) {
        if (sheet->sections[i].level == 2) {
            widest_mm = fmax(widest_mm, qll_text_width_mm(qll_text_of(sheet->sections[i].heading),
                                                          QLL_SMALL_MM, QLL_WEIGHT_REGULAR));
            at += 1;
        }
    }
    return widest_mm + QLL_NUMBER_MM;
}

void qll_page_contents(qll_page *page)
{
    const qll_sheet *sheet = page->sheet;
    const size_t rows = (sheet->chapter_count + sheet->appendix_count + 1) / 2;
    const double line_mm = qll_page_line_mm(QLL_SMALL_MM) + 0.8;
    const double first_mm = first_column_mm(sheet, rows);
    size_t at = 0;
    qll_page_begin(page, QLL_MARK_LIST, 0, NULL);
    for (size_t i = 0; i < sheet->section_count; i++) {
        if (sheet->sections[i].level != 2) {
            continue;
        }
        bool is_second = at >= rows;
        double x_mm = is_second ? first_mm + QLL_COLUMN_GAP_MM : 0;
        const qll_box box = {page->left_mm + x_mm,
                             page->y_mm + (double)(is_second ? at - rows : at) * line_mm,
                             is_second ? page->width_mm - x_mm : first_mm, line_mm};
        write_entry(page, sheet->sections[i].heading, page->known_starts->page[i], box);
        at += 1;
    }
    qll_page_end(page);
    page->y_mm += (double)rows * line_mm + 1.0;
}
