/* The page that is being filled: where it stands, when it turns, a paragraph on it. */
#include "report/layout_page.h"

#include <math.h>

#define QLL_PAGE_LINE_EM 1.2 /* of running text; what is drawn has more */

qll_letters qll_page_letters(double size_mm, qll_weight weight)
{
    return (qll_letters){
        .size_mm = size_mm, .weight = weight, .anchor = QLL_ANCHOR_START, .colour = QLL_BLACK};
}

double qll_page_line_mm(double size_mm)
{
    return size_mm * QLL_PAGE_LINE_EM;
}

void qll_page_begin(qll_page *page, qll_mark_kind kind, int level, const char *text)
{
    const qll_mark mark = {.kind = kind, .level = level, .text = text};
    qll_canvas_begin(page->canvas, &mark);
}

void qll_page_end(qll_page *page)
{
    qll_canvas_end(page->canvas);
}

void qll_page_foot(qll_page *page)
{
    qll_arena *arena = page->canvas->arena;
    qll_writer this = qll_writer_new(arena);
    qll_writer all = qll_writer_new(arena);
    qll_writer number = qll_writer_new(arena);
    qll_write_format(&this, "%zu", page->canvas->page_count);
    qll_write_format(&all, "%zu", page->total);
    const qll_filling fillings[] = {{"page", qll_writer_text(&this).bytes},
                                    {"pages", qll_writer_text(&all).bytes}};
    qll_say_with(&number, page->sheet->language, QLL_SAYS_PAGE_OF, fillings, 2);
    qll_page_begin(page, QLL_MARK_DECORATION, 0, NULL);
    double y_mm = page->canvas->height_mm - 9.0;
    double right_mm = page->left_mm + page->width_mm;
    const qll_pen pen = {.width_mm = 0.2, .colour = QLL_GREY(0.6)};
    qll_canvas_line(page->canvas, (qll_xy){page->left_mm, y_mm - 4.5},
                    (qll_xy){right_mm, y_mm - 4.5}, &pen);
    qll_letters letters = qll_page_letters(QLL_SMALL_MM, QLL_WEIGHT_REGULAR);
    letters.colour = QLL_GREY(0.7);
    (void)qll_canvas_text_fit(page->canvas, (qll_xy){page->left_mm, y_mm},
                              qll_text_of(page->sheet->subject), page->width_mm - 35.0, &letters);
    letters.anchor = QLL_ANCHOR_END;
    qll_canvas_text(page->canvas, (qll_xy){right_mm, y_mm}, qll_writer_text(&number), &letters);
    qll_page_end(page);
}

void qll_page_turn(qll_page *page)
{
    qll_page_foot(page);
    qll_canvas_page(page->canvas);
    page->y_mm = page->top_mm;
    page->is_fresh = true;
}

void qll_page_need(qll_page *page, double height_mm)
{
    if (!page->is_fresh && page->y_mm + height_mm > page->bottom_mm) {
        qll_page_turn(page);
    }
}

bool qll_page_is_half_empty(const qll_page *page)
{
    /* A little more than half: its last boxes may be empty. */
    return page->y_mm < page->top_mm + 0.56 * (page->bottom_mm - page->top_mm);
}

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

void qll_page_paragraph(qll_page *page, const char *text, const qll_paragraph_style *how)
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

void qll_page_caption(qll_page *page, const char *text)
{
    const qll_paragraph_style how = {
        .mark = QLL_MARK_PARAGRAPH, .size_mm = QLL_SMALL_MM, .weight = QLL_WEIGHT_BOLD};
    qll_page_paragraph(page, text, &how);
}

double qll_page_caption_mm(const qll_page *page, const char *text)
{
    return (double)qll_text_line_count(qll_text_of(text), page->width_mm, QLL_SMALL_MM,
                                       QLL_WEIGHT_BOLD)
           * qll_page_line_mm(QLL_SMALL_MM);
}
