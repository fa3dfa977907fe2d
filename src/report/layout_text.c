/* Texts on pages: paragraphs, lists, cautions, lines as they stand. */
#include "report/layout_page.h"

#include <math.h>
#include <string.h>

#define QLL_INDENT_MM 6.0

/* True if the page should be turned before a line when @p left lines remain and @p written stand
 * already: no room, or the last line would stand alone on the next page. */
static bool turns_before(const qll_page *page, double line_mm, size_t written, size_t left)
{
    double room = floor((page->bottom_mm - page->y_mm) / line_mm + 1e-6);
    if (room < 1) {
        return true;
    }
    bool first_alone = written == 0 && left > 1 && room < 2;
    bool last_alone = left == 2 && room < 2;
    return first_alone || last_alone;
}

/* No mark may be open where a page ends: a list goes on as another one. */
static void turn_within(qll_page *page, qll_mark_kind mark)
{
    if (mark == QLL_MARK_LIST_ITEM) {
        qll_page_end(page);
    }
    qll_page_turn(page);
    if (mark == QLL_MARK_LIST_ITEM) {
        qll_page_begin(page, QLL_MARK_LIST, 0, NULL);
    }
}

void qll_page_paragraph(qll_page *page, const char *text, const qll_page_text *how)
{
    const qll_letters letters = qll_page_letters(how->size_mm, how->weight);
    double line_mm = qll_page_line_mm(how->size_mm);
    double width_mm = page->width_mm - how->indent_mm;
    qll_text rest = qll_text_clean(qll_text_of(text), page->canvas->arena);
    size_t left = qll_text_line_count(rest, width_mm, how->size_mm, how->weight);
    size_t written = 0;
    if (rest.size > 0 && !page->is_fresh && turns_before(page, line_mm, 0, left)) {
        turn_within(page, how->mark);
    }
    qll_page_begin(page, how->mark, how->level, how->mark == QLL_MARK_HEADING ? text : NULL);
    while (rest.size > 0) {
        if (written > 0 && turns_before(page, line_mm, written, left)) {
            qll_page_end(page);
            turn_within(page, how->mark);
            qll_page_begin(page, how->mark == QLL_MARK_HEADING ? QLL_MARK_PARAGRAPH : how->mark, 0,
                           NULL);
        }
        double base_mm = page->y_mm + how->size_mm * QLL_ASCENT_EM;
        if (written == 0 && how->bullet.size > 0) {
            qll_canvas_text(page->canvas, (qll_xy){page->left_mm + 0.5, base_mm}, how->bullet,
                            &letters);
        }
        qll_text line = qll_text_line(&rest, width_mm, how->size_mm, how->weight);
        qll_canvas_text(page->canvas, (qll_xy){page->left_mm + how->indent_mm, base_mm}, line,
                        &letters);
        page->y_mm += line_mm;
        page->is_fresh = false;
        written += 1;
        left -= left > 0 ? 1 : 0;
    }
    qll_page_end(page);
}

/* Two items that are longer are not kept together. */
#define QLL_TOGETHER_MM 30.0

static double item_mm(const qll_page *page, const char *item)
{
    const size_t lines = qll_text_line_count(qll_text_of(item), page->width_mm - QLL_INDENT_MM,
                                             QLL_BODY_MM, QLL_WEIGHT_REGULAR);
    return (double)lines * qll_page_line_mm(QLL_BODY_MM) + 0.5;
}

/* The last two items go together: no page begins with a single one, unless they are long. */
static bool last_two_turn(const qll_page *page, const qll_block *block, size_t item)
{
    if (item == 0 || item + 2 != block->item_count) {
        return false;
    }
    const double both_mm =
        item_mm(page, block->items[item]) + item_mm(page, block->items[item + 1]);
    return both_mm < QLL_TOGETHER_MM && page->y_mm + both_mm > page->bottom_mm;
}

void qll_page_items(qll_page *page, const qll_block *block)
{
    qll_page_text how = {.mark = QLL_MARK_LIST_ITEM,
                         .size_mm = QLL_BODY_MM,
                         .weight = QLL_WEIGHT_REGULAR,
                         .indent_mm = QLL_INDENT_MM};
    qll_page_need(page,
                  2 * qll_page_line_mm(QLL_BODY_MM)); /* no empty list before the page's end */
    qll_page_begin(page, QLL_MARK_LIST, 0, NULL);
    for (size_t i = 0; i < block->item_count; i++) {
        qll_writer bullet = qll_writer_new(page->canvas->arena);
        if (block->kind == QLL_BLOCK_STEPS) {
            qll_write_format(&bullet, "%zu.", i + 1);
        } else {
            qll_write(&bullet, "\xE2\x80\xA2");
        }
        how.bullet = qll_writer_text(&bullet);
        if (last_two_turn(page, block, i)) {
            qll_page_end(page);
            qll_page_turn(page);
            qll_page_begin(page, QLL_MARK_LIST, 0, NULL);
        }
        qll_page_paragraph(page, block->items[i], &how);
        page->y_mm += 0.5;
    }
    qll_page_end(page);
}

double qll_page_items_mm(const qll_page *page, const qll_block *block)
{
    double height_mm = 0;
    for (size_t i = 0; i < block->item_count; i++) {
        height_mm += item_mm(page, block->items[i]);
    }
    return height_mm;
}

#define QLL_EDGE_MM 2.0 /* of the frame around cautions */

/* Cautions run on in one paragraph: they stand on several sheets, and leave room for what they are about. */
static const char *cautions_text(const qll_page *page, const qll_block *block)
{
    qll_writer all = qll_writer_new(page->canvas->arena);
    for (size_t i = 0; i < block->item_count; i++) {
        qll_write(&all, i == 0 ? "" : " \xE2\x80\xA2 ");
        qll_write(&all, block->items[i]);
    }
    return qll_writer_text(&all).bytes;
}

static double cautions_text_mm(const qll_page *page, const char *text)
{
    return (double)qll_text_line_count(qll_text_of(text), page->width_mm - 2 * QLL_EDGE_MM,
                                       QLL_BODY_MM, QLL_WEIGHT_REGULAR)
               * qll_page_line_mm(QLL_BODY_MM)
           + 2 * QLL_EDGE_MM;
}

double qll_page_cautions_mm(const qll_page *page, const qll_block *block)
{
    return cautions_text_mm(page, cautions_text(page, block));
}

void qll_page_cautions(qll_page *page, const qll_block *block)
{
    const qll_page_text how = {
        .mark = QLL_MARK_PARAGRAPH, .size_mm = QLL_BODY_MM, .weight = QLL_WEIGHT_REGULAR};
    const char *text = cautions_text(page, block);
    const double height_mm = cautions_text_mm(page, text);
    qll_page_need(page, height_mm);
    /* Longer than a page: the frame ends with the page, the text goes on. */
    qll_page_begin(page, QLL_MARK_DECORATION, 0, NULL);
    const qll_paint paint = {.pen = {.width_mm = 0.7, .colour = QLL_BLACK},
                             .fill = {1.0, 0.973, 0.84},
                             .is_filled = true};
    qll_canvas_rectangle(page->canvas,
                         (qll_box){page->left_mm, page->y_mm, page->width_mm,
                                   fmin(height_mm, page->bottom_mm - page->y_mm)},
                         &paint);
    qll_page_end(page);
    page->left_mm += QLL_EDGE_MM;
    page->width_mm -= 2 * QLL_EDGE_MM;
    page->y_mm += QLL_EDGE_MM;
    qll_page_paragraph(page, text, &how);
    page->left_mm -= QLL_EDGE_MM;
    page->width_mm += 2 * QLL_EDGE_MM;
    page->y_mm += QLL_EDGE_MM;
}

void qll_page_verbatim(qll_page *page, const char *lines, const qll_page_text *how)
{
    while (*lines != '\0') {
        size_t size = strcspn(lines, "\n");
        qll_page_paragraph(page, qll_text_clean((qll_text){lines, size}, page->canvas->arena).bytes,
                           how);
        lines += size + (lines[size] == '\n' ? 1 : 0);
    }
}

void qll_page_caption(qll_page *page, const char *text)
{
    const qll_page_text how = {
        .mark = QLL_MARK_PARAGRAPH, .size_mm = QLL_SMALL_MM, .weight = QLL_WEIGHT_BOLD};
    qll_page_paragraph(page, text, &how);
}

double qll_page_caption_mm(const qll_page *page, const char *text)
{
    return (double)qll_text_line_count(qll_text_of(text), page->width_mm, QLL_SMALL_MM,
                                       QLL_WEIGHT_BOLD)
           * qll_page_line_mm(QLL_SMALL_MM);
}
