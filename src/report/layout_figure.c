/* Figures on pages. */
#include "report/layout_page.h"

#include <math.h>

static double figure_scale(const qll_page *page, const qll_canvas *canvas)
{
    double across = page->width_mm / canvas->width_mm;
    double down = (page->bottom_mm - page->top_mm - 10.0) / canvas->height_mm;
    return fmin(1.0, fmin(across, down));
}

static double figure_height_mm(const qll_page *page, const qll_canvas *canvas)
{
    return canvas->height_mm * figure_scale(page, canvas) + qll_page_line_mm(QLL_SMALL_MM)
           + QLL_GAP_MM;
}

/* The figure, or the same in less height where only that still fits on the page. */
static const qll_canvas *canvas_here(const qll_page *page, const qll_figure_block *figure)
{
    double room_mm = page->bottom_mm - page->y_mm;
    bool is_low = figure->low != NULL && !page->is_fresh
                  && figure_height_mm(page, figure->canvas) > room_mm
                  && figure_height_mm(page, figure->low) <= room_mm;
    return is_low ? figure->low : figure->canvas;
}

double qll_page_figure_mm(const qll_page *page, const qll_figure_block *figure)
{
    return figure_height_mm(page, canvas_here(page, figure));
}

/* Draws an item of another canvas, moved and made smaller. */
static void draw_item(qll_page *page, const qll_item *item, double scale)
{
    qll_canvas *canvas = page->canvas;
    qll_xy *moved = qll_arena_take(canvas->arena, item->point_count, sizeof *moved);
    if (moved == NULL) {
        return;
    }
    for (size_t i = 0; i < item->point_count; i++) {
        moved[i] = (qll_xy){page->left_mm + item->points[i].x_mm * scale,
                            page->y_mm + item->points[i].y_mm * scale};
    }
    qll_paint paint = item->paint;
    paint.pen.width_mm *= scale;
    qll_letters letters = item->letters;
    letters.size_mm *= scale;
    switch (item->kind) {
    case QLL_ITEM_PATH:
        qll_canvas_path(canvas, moved, item->point_count, item->is_closed, &paint);
        break;
    case QLL_ITEM_CIRCLE:
        qll_canvas_circle(canvas, moved[0], item->radius_mm * scale, &paint);
        break;
    case QLL_ITEM_TEXT: qll_canvas_text(canvas, moved[0], item->text, &letters); break;
    case QLL_ITEM_BEGIN:
    case QLL_ITEM_END:
    case QLL_ITEM_PLACE:
    case QLL_ITEM_PAGE: break;
    }
}

void qll_page_figure(qll_page *page, const qll_figure_block *figure)
{
    const qll_canvas *canvas = canvas_here(page, figure);
    qll_page_need(page, figure_height_mm(page, canvas));
    double scale = figure_scale(page, canvas);
    size_t first = 0;
    size_t end = 0;
    qll_canvas_page_items(canvas, 0, &first, &end);
    qll_page_begin(page, QLL_MARK_FIGURE, 0, figure->description);
    for (size_t i = first; i < end; i++) {
        draw_item(page, &canvas->items[i], scale);
    }
    qll_page_end(page);
    page->y_mm += canvas->height_mm * scale + 1.0;
    page->is_fresh = false;
    qll_page_caption(page, figure->title);
}
