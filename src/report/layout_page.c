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
