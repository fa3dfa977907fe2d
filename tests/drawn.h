/* What must hold for anything drawn on a canvas, whatever it shows. */
#ifndef QUELL_TESTS_DRAWN_H
#define QUELL_TESTS_DRAWN_H

#include "check.h"
#include "report/svg.h"
#include "xml.h"

/* A text that is level or stands upright, as the box its letters may fill. */
static inline qll_box drawn_box(const qll_item *item)
{
    double share = item->letters.anchor == QLL_ANCHOR_START ? 0
                   : item->letters.anchor == QLL_ANCHOR_END ? 1
                                                            : 0.5;
    double height = QLL_CAPITALS_EM * item->letters.size_mm;
    if (item->letters.turned_deg != 0) {
        return (qll_box){item->points[0].x_mm - height,
                         item->points[0].y_mm - (1 - share) * item->width_mm, height,
                         item->width_mm};
    }
    return (qll_box){item->points[0].x_mm - share * item->width_mm, item->points[0].y_mm - height,
                     item->width_mm, height};
}

static inline bool drawn_is_boxed(const qll_item *item)
{
    return item->kind == QLL_ITEM_TEXT
           && (item->letters.turned_deg == 0 || item->letters.turned_deg == 90);
}

/* Nothing leaves the page. */
static inline size_t drawn_outside(const qll_canvas *canvas)
{
    const double slack = 0.01;
    size_t outside = 0;
    for (size_t i = 0; i < canvas->count; i++) {
        const qll_item *item = &canvas->items[i];
        for (size_t k = 0; k < item->point_count; k++) {
            const qll_xy at = item->points[k];
            outside += at.x_mm < -slack || at.x_mm > canvas->width_mm + slack || at.y_mm < -slack
                       || at.y_mm > canvas->height_mm + slack;
        }
        if (drawn_is_boxed(item)) {
            qll_box box = drawn_box(item);
            outside += box.x_mm < -slack || box.x_mm + box.width_mm > canvas->width_mm + slack;
        }
    }
    return outside;
}

/* No text lies on another. */
static inline size_t drawn_overlaps(const qll_canvas *canvas)
{
    size_t overlaps = 0;
    for (size_t i = 0; i < canvas->count; i++) {
        for (size_t k = 0; k < i; k++) {
            if (!drawn_is_boxed(&canvas->items[i]) || !drawn_is_boxed(&canvas->items[k])) {
                continue;
            }
            qll_box a = drawn_box(&canvas->items[i]);
            qll_box b = drawn_box(&canvas->items[k]);
            bool apart = a.x_mm >= b.x_mm + b.width_mm || b.x_mm >= a.x_mm + a.width_mm
                         || a.y_mm >= b.y_mm + b.height_mm || b.y_mm >= a.y_mm + a.height_mm;
            if (!apart) {
                printf("    \"%s\" lies on \"%s\"\n", canvas->items[i].text.bytes,
                       canvas->items[k].text.bytes);
                overlaps += 1;
            }
        }
    }
    return overlaps;
}

/* Its SVG is well-formed. */
static inline qll_text drawn_svg(const qll_canvas *canvas, const char *title)
{
    const qll_svg_about about = {.id = "drawn", .title = title, .description = title};
    qll_writer writer = qll_writer_new(canvas->arena);
    qll_svg_write(&writer, canvas, 0, &about);
    qll_text svg = qll_writer_text(&writer);
    size_t elements = 0;
    CHECK(svg.bytes != NULL && xml_fault(svg, &elements) == NULL);
    CHECK(svg.bytes != NULL && strstr(svg.bytes, "nan") == NULL
          && strstr(svg.bytes, "inf") == NULL);
    return svg;
}

static inline bool drawn_says(const qll_canvas *canvas, const char *text)
{
    for (size_t i = 0; i < canvas->count; i++) {
        if (canvas->items[i].kind == QLL_ITEM_TEXT && qll_text_is(canvas->items[i].text, text)) {
            return true;
        }
    }
    return false;
}

#endif
