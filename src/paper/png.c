#include "paper/brush.h"

/* Most dots along one side that cairo's image surface takes. */
#define QLL_DOTS_MOST 32767.0

static cairo_status_t draw_page(const qll_canvas *canvas, size_t page, const qll_brush *brush,
                                cairo_surface_t *surface, double dots_per_mm)
{
    cairo_t *cairo = cairo_create(surface);
    cairo_set_source_rgb(cairo, 1, 1, 1);
    cairo_paint(cairo);
    cairo_scale(cairo, dots_per_mm * QLL_POINT_MM, dots_per_mm * QLL_POINT_MM);
    size_t first = 0;
    size_t end = 0;
    qll_canvas_page_items(canvas, page, &first, &end);
    for (size_t i = first; i < end; i++) {
        qll_brush_draw(brush, cairo, &canvas->items[i]);
    }
    cairo_status_t status = cairo_status(cairo);
    cairo_destroy(cairo);
    return status;
}

qll_status qll_png_write(const qll_canvas *canvas, size_t page, double dots_per_mm,
                         const char *font_folder, qll_arena *arena, qll_paper *paper)
{
    *paper = (qll_paper){.why = "", .warning = ""};
    double width = canvas->width_mm * dots_per_mm;
    double height = canvas->height_mm * dots_per_mm;
    if (!(dots_per_mm > 0 && dots_per_mm <= 40 && width >= 1 && width <= QLL_DOTS_MOST
          && height >= 1 && height <= QLL_DOTS_MOST)) {
        paper->why = "the picture would have no dots, or too many";
        return QLL_IO;
    }
    size_t refused = qll_arena_refused(arena);
    qll_brush brush;
    qll_status status = qll_brush_open(&brush, font_folder, arena, &paper->why);
    if (status == QLL_OK) {
        qll_writer writer = qll_writer_new(arena);
        cairo_surface_t *surface =
            cairo_image_surface_create(CAIRO_FORMAT_RGB24, (int)(width + 0.5), (int)(height + 0.5));
        cairo_status_t drawn = draw_page(canvas, page, &brush, surface, dots_per_mm);
        if (drawn == CAIRO_STATUS_SUCCESS) {
            drawn = cairo_surface_write_to_png_stream(surface, qll_brush_take_bytes, &writer);
        }
        cairo_surface_destroy(surface);
        status = qll_brush_status(drawn, &paper->why);
        if (status == QLL_OK) {
            paper->bytes = qll_writer_text(&writer);
        }
    }
    qll_brush_close(&brush);
    return qll_arena_refused(arena) == refused ? status : QLL_NO_MEMORY;
}
