/* What is drawn between the axes: shades, cells, curves, markers, bubbles. */
#include "report/plot_parts.h"

#include <math.h>

/* From one line of hatching to the next, mm. */
#define QLL_HATCH_MM 1.7

#define QLL_MARKER_MM 0.85 /* half its size */
#define QLL_BUBBLE_MM 2.8  /* radius */

/* The largest disc of a plot of cells, mm. */
#define QLL_DISC_MM 2.6

/* A curve has about so many markers, however many points. */
#define QLL_MARKERS_SHOWN 7

/* Lines at 45 degrees, on a grid common to the page so that they run on from box to box. */
static void hatch(qll_canvas *canvas, qll_box box, bool rises, double grey)
{
    const qll_pen pen = {.width_mm = QLL_PLOT_THIN_MM, .colour = QLL_GREY(grey)};
    double right = box.x_mm + box.width_mm;
    double bottom = box.y_mm + box.height_mm;
    /* x + y = k on lines that rise to the right, y - x = k on those that fall. */
    double low = rises ? box.x_mm + box.y_mm : box.y_mm - right;
    double high = rises ? right + bottom : bottom - box.x_mm;
    long first = (long)ceil(low / QLL_HATCH_MM);
    long end = (long)ceil(high / QLL_HATCH_MM);
    for (long line = first; line < end; line++) {
        double k = (double)line * QLL_HATCH_MM;
        double x_from = fmax(box.x_mm, rises ? k - bottom : box.y_mm - k);
        double x_to = fmin(right, rises ? k - box.y_mm : bottom - k);
        if (x_to > x_from) {
            qll_canvas_line(canvas, (qll_xy){x_from, rises ? k - x_from : k + x_from},
                            (qll_xy){x_to, rises ? k - x_to : k + x_to}, &pen);
        }
    }
}

void qll_fill_box(qll_canvas *canvas, qll_box box, qll_fill fill)
{
    static const double greys[QLL_FILL_COUNT] = {
        [QLL_FILL_LIGHT] = 0.1,
        [QLL_FILL_SOLID] = 0.4,
        [QLL_FILL_STRIPED] = 0.0,
        [QLL_FILL_CROSSED] = 0.6,
    };
    /* Boxes side by side overlap by a hair, or the paper shows through between them. */
    const double hair = 0.03;
    /* Written so that sizes that are no numbers fail too; a page holds no larger ones. */
    if (fill == QLL_FILL_NONE
        || !(box.width_mm > 0 && box.height_mm > 0 && box.width_mm + box.height_mm < 5000)) {
        return;
    }
    qll_canvas_rectangle(canvas,
                         (qll_box){box.x_mm - hair, box.y_mm - hair, box.width_mm + 2 * hair,
                                   box.height_mm + 2 * hair},
                         &(qll_paint){.fill = QLL_GREY(greys[fill]), .is_filled = true});
    if (fill == QLL_FILL_STRIPED || fill == QLL_FILL_CROSSED) {
        hatch(canvas, box, true, fill == QLL_FILL_STRIPED ? 0.75 : 0.95);
    }
    if (fill == QLL_FILL_CROSSED) {
        hatch(canvas, box, false, 0.95);
    }
}

static double within(double value, double low, double high)
{
    return fmax(fmin(value, high), low);
}

/* A box in SI, cut at the frame. */
static qll_box cut_box(const qll_layout *layout, const qll_cell_drawn *cell)
{
    const qll_box *frame = &layout->frame;
    double right = frame->x_mm + frame->width_mm;
    double bottom = frame->y_mm + frame->height_mm;
    double x_low = within(qll_layout_x_mm(layout, cell->x_low), frame->x_mm, right);
    double x_high = within(qll_layout_x_mm(layout, cell->x_high), frame->x_mm, right);
    double y_low = within(qll_layout_y_mm(layout, cell->y_low), frame->y_mm, bottom);
    double y_high = within(qll_layout_y_mm(layout, cell->y_high), frame->y_mm, bottom);
    return (qll_box){x_low, y_high, x_high - x_low, y_low - y_high};
}

void qll_plot_cells(const qll_layout *layout)
{
    const qll_plot *plot = layout->plot;
    for (size_t i = 0; i < plot->cell_count; i++) {
        qll_box box = cut_box(layout, &plot->cells[i]);
        qll_fill_box(layout->canvas, box, plot->cells[i].fill);
        if (plot->cells_have_edges) {
            qll_canvas_rectangle(
                layout->canvas, box,
                &(qll_paint){.pen = {.width_mm = QLL_PLOT_THIN_MM, .colour = QLL_GREY(0.5)}});
        }
    }
}

void qll_plot_discs(const qll_layout *layout)
{
    const qll_plot *plot = layout->plot;
    double most = 0;
    for (size_t i = 0; i < plot->cell_count; i++) {
        most = fmax(most, plot->cells[i].share);
    }
    for (size_t i = 0; i < plot->cell_count; i++) {
        double share = plot->cells[i].share;
        if (!(share > 0)) {
            continue;
        }
        qll_box box = cut_box(layout, &plot->cells[i]);
        qll_xy middle = {box.x_mm + box.width_mm / 2, box.y_mm + box.height_mm / 2};
        double fits = fmin(box.width_mm, box.height_mm) * 0.46;
        double radius = fmin(QLL_DISC_MM, fits) * sqrt(share / most);
        if (radius > 0.08) {
            qll_canvas_circle(layout->canvas, middle, radius,
                              &(qll_paint){.pen = {.width_mm = 0.2, .colour = QLL_WHITE},
                                           .fill = QLL_BLACK,
                                           .is_filled = true});
        }
    }
}

void qll_plot_ranges(const qll_layout *layout)
{
    const qll_axis *y = layout->y.axis;
    for (size_t i = 0; i < layout->plot->range_count; i++) {
        const qll_range_drawn *range = &layout->plot->ranges[i];
        qll_cell_drawn cell = {
            range->from,    range->to, layout->y.from / y->per_si, layout->y.to / y->per_si,
            QLL_FILL_LIGHT, 0};
        qll_fill_box(layout->canvas, cut_box(layout, &cell), QLL_FILL_LIGHT);
    }
}

void qll_plot_bands(const qll_layout *layout)
{
    for (size_t i = 0; i < layout->plot->band_count; i++) {
        const qll_band_drawn *band = &layout->plot->bands[i];
        qll_xy *edge = qll_arena_take(layout->canvas->arena, 2 * band->count, sizeof *edge);
        for (size_t k = 0; edge != NULL && k < band->count; k++) {
            const double x = qll_layout_x_mm(layout, band->x[k]);
            edge[k] = (qll_xy){x, qll_layout_y_mm(layout, band->low[k])};
            edge[2 * band->count - 1 - k] = (qll_xy){x, qll_layout_y_mm(layout, band->high[k])};
        }
        if (edge != NULL) {
            qll_canvas_path(layout->canvas, edge, 2 * band->count, true,
                            &(qll_paint){.fill = QLL_GREY(0.1), .is_filled = true});
        }
    }
}

void qll_marker_draw(qll_canvas *canvas, qll_xy at, const qll_look *look)
{
    const double r = QLL_MARKER_MM;
    const qll_paint paint = {
        .pen = {.width_mm = 0.25, .colour = look->colour}, .fill = QLL_WHITE, .is_filled = true};
    const qll_xy triangle[] = {{at.x_mm, at.y_mm - 1.15 * r},
                               {at.x_mm + r, at.y_mm + 0.7 * r},
                               {at.x_mm - r, at.y_mm + 0.7 * r}};
    const qll_xy diamond[] = {{at.x_mm, at.y_mm - 1.2 * r},
                              {at.x_mm + 1.2 * r, at.y_mm},
                              {at.x_mm, at.y_mm + 1.2 * r},
                              {at.x_mm - 1.2 * r, at.y_mm}};
    switch (look->marker) {
    case QLL_MARKER_CIRCLE: qll_canvas_circle(canvas, at, r, &paint); break;
    case QLL_MARKER_SQUARE:
        qll_canvas_rectangle(
            canvas, (qll_box){at.x_mm - 0.9 * r, at.y_mm - 0.9 * r, 1.8 * r, 1.8 * r}, &paint);
        break;
    case QLL_MARKER_TRIANGLE: qll_canvas_path(canvas, triangle, 3, true, &paint); break;
    case QLL_MARKER_DIAMOND: qll_canvas_path(canvas, diamond, 4, true, &paint); break;
    case QLL_MARKER_CROSS:
        qll_canvas_line(canvas, (qll_xy){at.x_mm - r, at.y_mm - r},
                        (qll_xy){at.x_mm + r, at.y_mm + r}, &paint.pen);
        qll_canvas_line(canvas, (qll_xy){at.x_mm - r, at.y_mm + r},
                        (qll_xy){at.x_mm + r, at.y_mm - r}, &paint.pen);
        break;
    case QLL_MARKER_NONE:
    case QLL_MARKER_COUNT: break;
    }
}

static bool is_inside(const qll_layout *layout, qll_xy at)
{
    const qll_box *frame = &layout->frame;
    return at.x_mm >= frame->x_mm - 0.01 && at.x_mm <= frame->x_mm + frame->width_mm + 0.01
           && at.y_mm >= frame->y_mm - 0.01 && at.y_mm <= frame->y_mm + frame->height_mm + 0.01;
}

/* Narrows [from, to], shares of the way from @p start to @p end, to where the coordinate lies between
 * @p low and @p high. */
static bool cut_side(double start, double end, double low, double high, double range[2])
{
    double way = end - start;
    if (way == 0) {
        return start >= low && start <= high;
    }
    double one = (low - start) / way;
    double two = (high - start) / way;
    range[0] = fmax(range[0], fmin(one, two));
    range[1] = fmin(range[1], fmax(one, two));
    return range[0] <= range[1];
}

/* Liang and Barsky's way to cut a line at a box. */
static bool cut_line(const qll_layout *layout, qll_xy *start, qll_xy *end)
{
    const qll_box *frame = &layout->frame;
    double range[2] = {0, 1};
    if (!(isfinite(start->x_mm) && isfinite(start->y_mm) && isfinite(end->x_mm)
          && isfinite(end->y_mm))
        || !cut_side(start->x_mm, end->x_mm, frame->x_mm, frame->x_mm + frame->width_mm, range)
        || !cut_side(start->y_mm, end->y_mm, frame->y_mm, frame->y_mm + frame->height_mm, range)) {
        return false;
    }
    qll_xy from = *start;
    qll_xy way = {end->x_mm - from.x_mm, end->y_mm - from.y_mm};
    *start = (qll_xy){from.x_mm + range[0] * way.x_mm, from.y_mm + range[0] * way.y_mm};
    *end = (qll_xy){from.x_mm + range[1] * way.x_mm, from.y_mm + range[1] * way.y_mm};
    return true;
}

static qll_xy point_of(const qll_layout *layout, const qll_curve_drawn *curve, size_t index)
{
    return (qll_xy){qll_layout_x_mm(layout, curve->x[index]),
                    qll_layout_y_mm(layout, curve->y[index])};
}

static double distance_mm(qll_xy a, qll_xy b)
{
    return hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm);
}

static bool is_same(qll_xy a, qll_xy b)
{
    return distance_mm(a, b) < 1e-6;
}

/* The curve in as few polylines as it has parts inside the frame, so that dashes run on. */
static void draw_line(const qll_layout *layout, const qll_curve_drawn *curve)
{
    qll_xy *spots = qll_arena_take(layout->canvas->arena, curve->count + 1, sizeof *spots);
    if (spots == NULL) {
        return;
    }
    const qll_paint paint = {.pen = {curve->width_mm, curve->look.dash, curve->look.colour}};
    size_t taken = 0;
    for (size_t i = 0; i + 1 < curve->count; i++) {
        qll_xy start = point_of(layout, curve, i);
        qll_xy end = point_of(layout, curve, i + 1);
        if (!cut_line(layout, &start, &end)) {
            continue;
        }
        if (taken > 0 && !is_same(spots[taken - 1], start)) {
            qll_canvas_path(layout->canvas, spots, taken, false, &paint);
            taken = 0;
        }
        if (taken == 0) {
            spots[taken++] = start;
        }
        /* A point nearer to the one before than a pen is wide adds bytes and nothing to see. */
        bool is_near = taken > 1 && distance_mm(spots[taken - 1], spots[taken - 2]) < 0.1;
        spots[is_near ? taken - 1 : taken] = end;
        taken += is_near ? 0 : 1;
    }
    qll_canvas_path(layout->canvas, spots, taken, false, &paint);
}

static void draw_markers(const qll_layout *layout, const qll_curve_drawn *curve, size_t index)
{
    bool has_few = curve->count <= (size_t)2 * QLL_MARKERS_SHOWN || !(curve->width_mm > 0);
    size_t every = has_few ? 1 : 1 + curve->count / QLL_MARKERS_SHOWN;
    /* Curves that run close have their markers at different places. */
    for (size_t i = every == 1 ? 0 : (index * 2 + 1) % every; i < curve->count; i += every) {
        qll_xy at = point_of(layout, curve, i);
        if (is_inside(layout, at)) {
            qll_marker_draw(layout->canvas, at, &curve->look);
        }
    }
}

/* Bubbles placed so far. */
typedef struct bubbles {
    qll_xy *at;
    size_t count;
} bubbles;

static bool is_free(const bubbles *placed, qll_xy at)
{
    for (size_t i = 0; i < placed->count; i++) {
        if (distance_mm(placed->at[i], at) < 2 * QLL_BUBBLE_MM + 0.3) {
            return false;
        }
    }
    return true;
}

/* Keeps the place free. */
static void keep_free(bubbles *placed, qll_xy at)
{
    placed->at[placed->count] = at;
    placed->count += 1;
}

/* Is all of a bubble inside the frame? */
static bool has_room(const qll_layout *layout, qll_xy at)
{
    const double r = QLL_BUBBLE_MM;
    return is_inside(layout, (qll_xy){at.x_mm - r, at.y_mm - r})
           && is_inside(layout, (qll_xy){at.x_mm + r, at.y_mm + r});
}

/* At the point itself or, where another bubble is, near it. */
static qll_xy free_place(const qll_layout *layout, const bubbles *placed, qll_xy at)
{
    const double step = 2 * QLL_BUBBLE_MM + 0.4;
    if (is_free(placed, at)) {
        return at;
    }
    for (int ring = 1; ring <= 4; ring++) {
        for (int turn = 0; turn < 8 * ring; turn++) {
            double angle = turn * acos(-1.0) / (4 * ring);
            qll_xy here = {at.x_mm + ring * step * cos(angle), at.y_mm - ring * step * sin(angle)};
            if (has_room(layout, here) && is_free(placed, here)) {
                return here;
            }
        }
    }
    return at;
}

static void draw_bubble(const qll_layout *layout, const qll_curve_drawn *curve, bubbles *placed)
{
    size_t last = curve->count;
    while (last > 0 && !is_inside(layout, point_of(layout, curve, last - 1))) {
        last -= 1;
    }
    if (last == 0) {
        return;
    }
    qll_xy point = point_of(layout, curve, last - 1);
    keep_free(placed, point); /* what is at the point itself is to be seen */
    qll_xy at = free_place(layout, placed, point);
    keep_free(placed, at);
    if (!is_same(at, point)) {
        qll_canvas_line(layout->canvas, point, at,
                        &(qll_pen){QLL_PLOT_THIN_MM, QLL_DASH_SOLID, curve->look.colour});
    }
    qll_canvas_circle(layout->canvas, at, QLL_BUBBLE_MM,
                      &(qll_paint){.pen = {.width_mm = 0.25, .colour = curve->look.colour},
                                   .fill = curve->is_strong ? QLL_BLACK : QLL_WHITE,
                                   .is_filled = true});
    const qll_letters letters = {.colour = curve->is_strong ? QLL_WHITE : QLL_BLACK,
                                 .size_mm = QLL_PLOT_LETTERS_MM,
                                 .weight = QLL_WEIGHT_BOLD,
                                 .anchor = QLL_ANCHOR_MIDDLE};
    (void)qll_canvas_text_fit(
        layout->canvas, (qll_xy){at.x_mm, at.y_mm + QLL_CAPITALS_EM * QLL_PLOT_LETTERS_MM / 2},
        qll_text_of(curve->tag), 2 * QLL_BUBBLE_MM - 0.6, &letters);
}

void qll_plot_curves(const qll_layout *layout)
{
    const qll_plot *plot = layout->plot;
    bubbles placed = {
        .at = qll_arena_take(layout->canvas->arena, plot->curve_count * 2, sizeof *placed.at)};
    if (placed.at == NULL) {
        return;
    }
    for (size_t i = 0; i < plot->curve_count; i++) {
        if (plot->curves[i].width_mm > 0) {
            draw_line(layout, &plot->curves[i]);
        }
    }
    for (size_t i = 0; i < plot->curve_count; i++) {
        draw_markers(layout, &plot->curves[i], i);
    }
    for (size_t i = 0; i < plot->curve_count; i++) {
        if (plot->curves[i].tag[0] != '\0') {
            draw_bubble(layout, &plot->curves[i], &placed);
        }
    }
}
