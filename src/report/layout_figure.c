/* Figures on pages. */
#include "report/layout_page.h"

#include <math.h>

static double figure_scale(const qll_page *page, const qll_canvas *canvas)
{
    double across = page->width_mm / canvas->width_mm;
    double down = (page->bottom_mm - page->top_mm - 10.0) / canvas->height_mm;
    return fmin(1.0, fmin(across, down));
}

static double figure_height_mm(const qll_page *page, const qll_figure_block *figure,
                               const qll_canvas *canvas)
{
    return canvas->height_mm * figure_scale(page, canvas) + 1.0
           + qll_page_caption_mm(page, figure->title) + page->gap_mm;
}

/* The figure, or the same in less height where only that still fits on the page. On tight sheets it
 * takes no more than it must. */
static const qll_canvas *canvas_here(const qll_page *page, const qll_figure_block *figure)
{
    if (page->is_tight && (figure->half != NULL || figure->low != NULL)) {
        return figure->half != NULL ? figure->half : figure->low;
    }
    double room_mm = page->bottom_mm - page->y_mm;
    bool is_low = figure->low != NULL && !page->is_fresh
                  && figure_height_mm(page, figure, figure->canvas) > room_mm
                  && figure_height_mm(page, figure, figure->low) <= room_mm;
    return is_low ? figure->low : figure->canvas;
}

double qll_page_figure_mm(const qll_page *page, const qll_figure_block *figure)
{
    return figure_height_mm(page, figure, canvas_here(page, figure));
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

/* Draws the figure at the place of the page, its title below. */
static void draw_figure(qll_page *page, const qll_figure_block *figure, const qll_canvas *canvas)
{
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

void qll_page_figure(qll_page *page, const qll_figure_block *figure)
{
    const qll_canvas *canvas = canvas_here(page, figure);
    qll_page_need(page, figure_height_mm(page, figure, canvas));
    draw_figure(page, figure, canvas);
}

/* ---- two beside each other ---- */

#define QLL_BETWEEN_FIGURES_MM 4.0

static double half_width_mm(const qll_page *page)
{
    return (page->width_mm - QLL_BETWEEN_FIGURES_MM) / 2;
}

double qll_page_two_figures_mm(const qll_page *page, const qll_figure_block *left,
                               const qll_figure_block *right)
{
    qll_page half = *page;
    half.width_mm = half_width_mm(page);
    return fmax(figure_height_mm(&half, left, left->half),
                figure_height_mm(&half, right, right->half));
}

void qll_page_two_figures(qll_page *page, const qll_figure_block *left,
                          const qll_figure_block *right)
{
    const double height_mm = qll_page_two_figures_mm(page, left, right);
    qll_page_need(page, height_mm);
    const qll_page whole = *page;
    page->width_mm = half_width_mm(page);
    draw_figure(page, left, left->half);
    page->y_mm = whole.y_mm;
    page->left_mm += page->width_mm + QLL_BETWEEN_FIGURES_MM;
    draw_figure(page, right, right->half);
    page->left_mm = whole.left_mm;
    page->width_mm = whole.width_mm;
    page->y_mm = whole.y_mm + height_mm - page->gap_mm;
}
