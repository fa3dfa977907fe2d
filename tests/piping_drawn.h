/* The symbols of a station's drawing, counted by their shapes: what is drawn beside what is bought. */
#ifndef QUELL_TESTS_PIPING_DRAWN_H
#define QUELL_TESTS_PIPING_DRAWN_H

#include "drawn.h"
#include "station/parts_list.h"

/* The legend shows one of each kind again. */
typedef struct piping_drawn {
    size_t ties; /* pairs of triangles: stops, valves, cocks, hose valve, relief valve */
    size_t reducers, unions;
} piping_drawn;

static inline bool is_triangle(const qll_item *item)
{
    return item->kind == QLL_ITEM_PATH && item->is_closed && item->point_count == 3
           && item->paint.fill.red > 0.5;
}

/* Its ends upright. */
static inline bool is_wedge(const qll_item *item)
{
    return item->kind == QLL_ITEM_PATH && item->is_closed && item->point_count == 4
           && item->points[0].x_mm == item->points[3].x_mm
           && item->points[1].x_mm == item->points[2].x_mm;
}

/* The scale of the drawing itself: a reducing valve's triangle is 3 mm wide at 1. */
static inline double drawing_scale(const qll_canvas *canvas, double legend_from_mm)
{
    double widest_mm = 0.0;
    for (size_t i = 0; i < canvas->count; i++) {
        const qll_item *item = &canvas->items[i];
        if (is_triangle(item) && item->points[0].y_mm <= legend_from_mm) {
            widest_mm = fmax(widest_mm, fabs(item->points[1].x_mm - item->points[0].x_mm));
        }
    }
    return widest_mm / 3.0;
}

/* An upright stroke as long as a bar of a union, 2 mm at 1. */
static inline bool is_bar(const qll_item *item, double scale)
{
    return item->kind == QLL_ITEM_PATH && !item->is_closed && item->point_count == 2
           && item->points[0].x_mm == item->points[1].x_mm
           && fabs(fabs(item->points[1].y_mm - item->points[0].y_mm) - 2.0 * scale) < 1e-9;
}

/* Without the legend, which is drawn at 3/4 whatever the scale. */
static inline piping_drawn piping_of(const qll_canvas *canvas, double legend_from_mm)
{
    piping_drawn found = {0};
    double scale = drawing_scale(canvas, legend_from_mm);
    size_t triangles = 0;
    size_t bars = 0;
    for (size_t i = 0; i < canvas->count; i++) {
        const qll_item *item = &canvas->items[i];
        if (item->point_count == 0 || item->points[0].y_mm > legend_from_mm) {
            continue;
        }
        triangles += is_triangle(item) ? 1 : 0;
        bars += is_bar(item, scale) ? 1 : 0;
        found.reducers += is_wedge(item) ? 1 : 0;
    }
    found.ties = triangles / 2;
    found.unions = bars / 2;
    return found;
}

static inline size_t bought(const qll_pieces *pieces, qll_piece_kind kind)
{
    size_t count = 0;
    for (size_t i = 0; i < pieces->count; i++) {
        count += pieces->pieces[i].kind == kind ? pieces->pieces[i].count : 0;
    }
    return count;
}

/* As many symbols as parts. */
static inline void check_drawn_parts(const qll_canvas *canvas, double legend_from_mm,
                                     const qll_pieces *pieces)
{
    const piping_drawn found = piping_of(canvas, legend_from_mm);
    CHECK(found.unions == bought(pieces, QLL_PIECE_UNION));
    CHECK(found.reducers == bought(pieces, QLL_PIECE_REDUCER));
    CHECK(found.ties
          == bought(pieces, QLL_PIECE_STOP) + bought(pieces, QLL_PIECE_VALVE)
                 + bought(pieces, QLL_PIECE_COCK) + bought(pieces, QLL_PIECE_HOSE_VALVE)
                 + bought(pieces, QLL_PIECE_RELIEF));
}

#endif
