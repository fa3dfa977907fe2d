#include "report/svg.h"

#include "report/markup.h"
#include "report/theme.h"

#include <math.h>

/* Two decimals are a three-hundredth of a millimetre. */
static void write_px(qll_writer *writer, double mm)
{
    double px = round(mm * QLL_PIXELS_PER_MM * 100) / 100;
    qll_write_number(writer, px == 0 ? 0 : px); /* no negative zero */
}

static void write_attribute(qll_writer *writer, const char *name, double mm)
{
    qll_write_format(writer, " %s=\"", name);
    write_px(writer, mm);
    qll_write(writer, "\"");
}

static void write_colour(qll_writer *writer, const char *name, qll_colour colour)
{
    qll_write_format(writer, " %s=\"", name);
    qll_markup_write_colour(writer, colour);
    qll_write(writer, "\"");
}

static void write_paint(qll_writer *writer, const qll_paint *paint)
{
    if (paint->is_filled) {
        write_colour(writer, "fill", paint->fill);
    } else {
        qll_write(writer, " fill=\"none\"");
    }
    qll_theme_write_class(writer, paint);
    if (!(paint->pen.width_mm > 0)) {
        return;
    }
    write_colour(writer, "stroke", paint->pen.colour);
    write_attribute(writer, "stroke-width", paint->pen.width_mm);
    size_t count = 0;
    const double *lengths = qll_dash_lengths_mm(paint->pen.dash, &count);
    for (size_t i = 0; i < count; i++) {
        qll_write(writer, i == 0 ? " stroke-dasharray=\"" : " ");
        write_px(writer, lengths[i]);
    }
    qll_write(writer, count > 0 ? "\"" : "");
}

static void write_path(qll_writer *writer, const qll_item *item)
{
    qll_write(writer, item->is_closed ? "<polygon points=\"" : "<polyline points=\"");
    for (size_t i = 0; i < item->point_count; i++) {
        qll_write(writer, i == 0 ? "" : " ");
        write_px(writer, item->points[i].x_mm);
        qll_write(writer, ",");
        write_px(writer, item->points[i].y_mm);
    }
    qll_write(writer, "\"");
    write_paint(writer, &item->paint);
    qll_write(writer, "/>\n");
}

static void write_circle(qll_writer *writer, const qll_item *item)
{
    qll_write(writer, "<circle");
    write_attribute(writer, "cx", item->points[0].x_mm);
    write_attribute(writer, "cy", item->points[0].y_mm);
    write_attribute(writer, "r", item->radius_mm);
    write_paint(writer, &item->paint);
    qll_write(writer, "/>\n");
}

static void write_words(qll_writer *writer, const qll_item *item)
{
    const qll_letters *letters = &item->letters;
    qll_write(writer, "<text");
    write_attribute(writer, "x", item->points[0].x_mm);
    write_attribute(writer, "y", item->points[0].y_mm);
    write_attribute(writer, "font-size", letters->size_mm);
    if (letters->weight == QLL_WEIGHT_BOLD) {
        qll_write(writer, " font-weight=\"700\"");
    }
    if (letters->anchor != QLL_ANCHOR_START) {
        qll_write_format(writer, " text-anchor=\"%s\"",
                         letters->anchor == QLL_ANCHOR_MIDDLE ? "middle" : "end");
    }
    if (letters->turned_deg != 0) {
        qll_write(writer, " transform=\"rotate(");
        qll_write_number(writer, -letters->turned_deg);
        qll_write(writer, " ");
        write_px(writer, item->points[0].x_mm);
        qll_write(writer, " ");
        write_px(writer, item->points[0].y_mm);
        qll_write(writer, ")\"");
    }
    write_colour(writer, "fill", letters->colour);
    qll_theme_write_class(writer, &(qll_paint){.fill = letters->colour, .is_filled = true});
    qll_write(writer, ">");
    qll_markup_write_clean(writer, item->text);
    qll_write(writer, "</text>\n");
}

static void write_id(qll_writer *writer, const qll_svg_about *about, const char *element)
{
    qll_markup_write(writer, about->id);
    qll_write_format(writer, "-%s", element);
}

/* <title> or <desc>. */
static void write_about(qll_writer *writer, const qll_svg_about *about, const char *element,
                        const char *says)
{
    qll_write_format(writer, "<%s id=\"", element);
    write_id(writer, about, element);
    qll_write(writer, "\">");
    qll_markup_write(writer, says);
    qll_write_format(writer, "</%s>\n", element);
}

static void write_head(qll_writer *writer, const qll_canvas *canvas, const qll_svg_about *about)
{
    if (!about->is_part) {
        qll_write(writer, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    }
    qll_write(writer, "<svg xmlns=\"http://www.w3.org/2000/svg\" id=\"");
    write_id(writer, about, "svg");
    qll_write(writer, "\"");
    write_attribute(writer, "width", canvas->width_mm);
    write_attribute(writer, "height", canvas->height_mm);
    qll_write(writer, " viewBox=\"0 0 ");
    write_px(writer, canvas->width_mm);
    qll_write(writer, " ");
    write_px(writer, canvas->height_mm);
    qll_write(writer, "\" role=\"img\" aria-labelledby=\"");
    write_id(writer, about, "title");
    qll_write(writer, " ");
    write_id(writer, about, "desc");
    qll_write(writer, "\" font-family=\"Inter, Helvetica, Arial, sans-serif\">\n");
    write_about(writer, about, "title", about->title);
    write_about(writer, about, "desc", about->description);
}

static void write_item(qll_writer *writer, const qll_item *item)
{
    switch (item->kind) {
    case QLL_ITEM_PATH: write_path(writer, item); break;
    case QLL_ITEM_CIRCLE: write_circle(writer, item); break;
    case QLL_ITEM_TEXT: write_words(writer, item); break;
    case QLL_ITEM_BEGIN:
    case QLL_ITEM_END:
    case QLL_ITEM_PLACE:
    case QLL_ITEM_PAGE: break;
    }
}

void qll_svg_write(qll_writer *writer, const qll_canvas *canvas, size_t page,
                   const qll_svg_about *about)
{
    write_head(writer, canvas, about);
    size_t first = 0;
    size_t end = 0;
    qll_canvas_page_items(canvas, page, &first, &end);
    if (!about->is_styled) {
        qll_theme_used used = {.fills = {false}};
        qll_theme_see(&used, canvas->items + first, end - first);
        qll_theme_write_style(writer, &used, about->id);
    }
    for (size_t i = first; i < end; i++) {
        write_item(writer, &canvas->items[i]);
    }
    qll_write(writer, "</svg>\n");
}
