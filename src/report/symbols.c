#include "report/symbols.h"

#include "base/count.h"

#include <math.h>

/* Sizes at scale 1, mm. */
#define QLL_PIPE_MM    0.45
#define QLL_OUTLINE_MM 0.28
#define QLL_THIN_MM    0.15

/* Points of a symbol about its middle, at scale 1. */
static void shape(const qll_sketch *sketch, qll_xy at, const qll_xy *points, size_t count,
                  const qll_paint *paint)
{
    qll_xy moved[8];
    for (size_t i = 0; i < count && i < 8; i++) {
        moved[i] = (qll_xy){at.x_mm + sketch->scale * points[i].x_mm,
                            at.y_mm + sketch->scale * points[i].y_mm};
    }
    qll_canvas_path(sketch->canvas, moved, count, paint->is_filled, paint);
}

static void stroke(const qll_sketch *sketch, qll_xy at, qll_xy from, qll_xy to, const qll_pen *pen)
{
    const qll_xy points[] = {from, to};
    shape(sketch, at, points, 2, &(qll_paint){.pen = *pen});
}

static const qll_pen outline = {.width_mm = QLL_OUTLINE_MM};
static const qll_pen thin = {.width_mm = QLL_THIN_MM};

void qll_symbol_pipe(const qll_sketch *sketch, qll_xy from, qll_xy to)
{
    qll_canvas_line(sketch->canvas, from, to, &(qll_pen){.width_mm = QLL_PIPE_MM});
}

/* Two triangles that touch in the middle. */
static void bow_tie(const qll_sketch *sketch, qll_xy at, double half, double height)
{
    const qll_paint paint = {.pen = outline, .fill = QLL_WHITE, .is_filled = true};
    const qll_xy left[] = {{-half, -height}, {0, 0}, {-half, height}};
    const qll_xy right[] = {{half, -height}, {0, 0}, {half, height}};
    shape(sketch, at, left, 3, &paint);
    shape(sketch, at, right, 3, &paint);
}

void qll_symbol_isolating(const qll_sketch *sketch, qll_xy at)
{
    bow_tie(sketch, at, 2, 1.35);
    stroke(sketch, at, (qll_xy){0, 0}, (qll_xy){0, -2.2}, &outline);
    stroke(sketch, at, (qll_xy){-1.1, -2.2}, (qll_xy){1.1, -2.2}, &outline);
}

void qll_symbol_strainer(const qll_sketch *sketch, qll_xy at)
{
    const qll_paint body = {.pen = outline, .fill = QLL_WHITE, .is_filled = true};
    /* The leg, its cap, and the screen in it as a broken line. */
    const qll_xy leg[] = {{-1.1, 0}, {1.3, 2.4}, {2.3, 1.4}, {0.9, 0}};
    shape(sketch, at, leg, 4, &body);
    stroke(sketch, at, (qll_xy){1.0, 2.7}, (qll_xy){2.6, 1.1}, &(qll_pen){.width_mm = 0.45});
    stroke(sketch, at, (qll_xy){-0.1, 0}, (qll_xy){1.8, 1.9},
           &(qll_pen){.width_mm = QLL_THIN_MM, .dash = QLL_DASH_DOTTED});
    stroke(sketch, at, (qll_xy){-2.4, 0}, (qll_xy){2.4, 0}, &(qll_pen){.width_mm = QLL_PIPE_MM});
}

void qll_symbol_union(const qll_sketch *sketch, qll_xy at)
{
    stroke(sketch, at, (qll_xy){-0.35, -1}, (qll_xy){-0.35, 1}, &outline);
    stroke(sketch, at, (qll_xy){0.35, -1}, (qll_xy){0.35, 1}, &outline);
}

/* Two discs on edge, longer than a union's, with a gap for the gasket. */
void qll_symbol_flange(const qll_sketch *sketch, qll_xy at)
{
    const qll_pen thick = {.width_mm = QLL_PIPE_MM};
    stroke(sketch, at, (qll_xy){-0.45, -1.7}, (qll_xy){-0.45, 1.7}, &thick);
    stroke(sketch, at, (qll_xy){0.45, -1.7}, (qll_xy){0.45, 1.7}, &thick);
}

/* Half a disc with its flat side down, about a point of the sketch. */
static void dome(const qll_sketch *sketch, qll_xy at, double radius, double y)
{
    qll_xy arc[15];
    const size_t points = QLL_COUNT(arc);
    for (size_t i = 0; i < points; i++) {
        double angle = acos(-1.0) * (double)i / (double)(points - 1);
        arc[i] = (qll_xy){at.x_mm + sketch->scale * radius * cos(angle),
                          at.y_mm + sketch->scale * (y - radius * sin(angle))};
    }
    qll_canvas_path(sketch->canvas, arc, points, true,
                    &(qll_paint){.pen = outline, .fill = QLL_WHITE, .is_filled = true});
}

void qll_symbol_reducing(const qll_sketch *sketch, qll_xy at, bool has_pilot)
{
    bow_tie(sketch, at, 3, 1.9);
    stroke(sketch, at, (qll_xy){0, 0}, (qll_xy){0, -3.4}, &outline);
    dome(sketch, at, 2.1, -3.4);
    /* The spring over the diaphragm. */
    const qll_xy spring[] = {{0, -5.5},    {-0.7, -5.9}, {0.7, -6.3},
                             {-0.7, -6.7}, {0.7, -7.1},  {0, -7.5}};
    shape(sketch, at, spring, 6, &(qll_paint){.pen = thin});
    /* The line that brings the outlet's pressure under the diaphragm. */
    const qll_xy sensing[] = {{4.1, 0}, {4.1, -4.1}, {2.0, -4.1}};
    shape(sketch, at, sensing, 3, &(qll_paint){.pen = {.width_mm = 0.2, .dash = QLL_DASH_DOTTED}});
    if (has_pilot) {
        qll_xy beside = {at.x_mm + 4.1 * sketch->scale, at.y_mm - 4.1 * sketch->scale};
        qll_canvas_circle(sketch->canvas, beside, 0.95 * sketch->scale,
                          &(qll_paint){.pen = outline, .fill = QLL_BLACK, .is_filled = true});
    }
}

void qll_symbol_reducer(const qll_sketch *sketch, qll_xy at, bool widens)
{
    const qll_paint body = {.pen = outline, .fill = QLL_WHITE, .is_filled = true};
    double in = widens ? 0.6 : 1.3;
    double out = widens ? 1.3 : 0.6;
    const qll_xy wedge[] = {{-1, -in}, {1, -out}, {1, out}, {-1, in}};
    shape(sketch, at, wedge, 4, &body);
}

/* What is drawn small keeps letters that can be read. */
static double letters_mm(const qll_sketch *sketch)
{
    return fmax(2.5 * sketch->scale, QLL_LETTERS_LEAST_MM);
}

/* Its letters above a point at @p up over the pipe. */
static void name_over(const qll_sketch *sketch, qll_xy at, double up, const char *name)
{
    const qll_letters letters = {.size_mm = letters_mm(sketch), .anchor = QLL_ANCHOR_MIDDLE};
    qll_xy words = {at.x_mm, at.y_mm - up * sketch->scale};
    (void)qll_canvas_text_fit(sketch->canvas, words, qll_text_of(name), 8.0 * sketch->scale,
                              &letters);
}

/* Two triangles one above the other, on a stem. */
static void upright_tie(const qll_sketch *sketch, qll_xy at, double foot, double half)
{
    const qll_paint paint = {.pen = outline, .fill = QLL_WHITE, .is_filled = true};
    double middle = foot + half;
    const qll_xy below[] = {{-0.8, -foot}, {0, -middle}, {0.8, -foot}};
    const qll_xy above[] = {{-0.8, -middle - half}, {0, -middle}, {0.8, -middle - half}};
    stroke(sketch, at, (qll_xy){0, 0}, (qll_xy){0, -foot}, &outline);
    shape(sketch, at, below, 3, &paint);
    shape(sketch, at, above, 3, &paint);
}

void qll_symbol_cock(const qll_sketch *sketch, qll_xy at, const char *name)
{
    upright_tie(sketch, at, 1.2, 0.9);
    stroke(sketch, at, (qll_xy){-0.8, -3.4}, (qll_xy){0.8, -3.4}, &outline);
    name_over(sketch, at, 4.2, name);
}

void qll_symbol_hose_valve(const qll_sketch *sketch, qll_xy at, const char *name)
{
    upright_tie(sketch, at, 1.4, 1.2);
    /* The hose end, turned down. */
    const qll_xy hose[] = {{0, -3.8}, {0, -4.6}, {1.6, -4.6}, {1.6, -3.4}};
    shape(sketch, at, hose, 4, &(qll_paint){.pen = outline});
    name_over(sketch, at, 5.4, name);
}

void qll_symbol_relief(const qll_sketch *sketch, qll_xy at, const char *name)
{
    const qll_paint body = {.pen = outline, .fill = QLL_WHITE, .is_filled = true};
    const qll_xy below[] = {{-0.8, -1.4}, {0, -2.8}, {0.8, -1.4}};
    const qll_xy beside[] = {{1.4, -3.6}, {0, -2.8}, {1.4, -2.0}};
    const qll_xy spring[] = {{0, -2.8}, {-0.6, -3.2}, {0.6, -3.7}, {-0.6, -4.2}, {0.6, -4.7}};
    stroke(sketch, at, (qll_xy){0, 0}, (qll_xy){0, -1.4}, &outline);
    shape(sketch, at, below, 3, &body);
    shape(sketch, at, beside, 3, &body);
    shape(sketch, at, spring, 5, &(qll_paint){.pen = thin});
    name_over(sketch, at, 5.4, name);
}

void qll_symbol_gauge(const qll_sketch *sketch, qll_xy at, const char *name)
{
    const qll_letters letters = {.size_mm = letters_mm(sketch), .anchor = QLL_ANCHOR_MIDDLE};
    const double name_mm = qll_text_width_mm(qll_text_of(name), letters.size_mm, letters.weight);
    const double radius = fmax(2.5 * sketch->scale, name_mm / 1.7);
    stroke(sketch, at, (qll_xy){0, 0}, (qll_xy){0, -3.2}, &outline);
    qll_xy middle = {at.x_mm, at.y_mm - 3.2 * sketch->scale - radius};
    qll_canvas_circle(sketch->canvas, middle, radius,
                      &(qll_paint){.pen = outline, .fill = QLL_WHITE, .is_filled = true});
    qll_xy words = {middle.x_mm, middle.y_mm + QLL_CAPITALS_EM * letters.size_mm / 2};
    (void)qll_canvas_text_fit(sketch->canvas, words, qll_text_of(name), 1.7 * radius, &letters);
}

void qll_symbol_arrow(const qll_sketch *sketch, qll_xy at)
{
    const qll_xy head[] = {{-2.4, -1}, {0, 0}, {-2.4, 1}};
    shape(sketch, at, head, 3, &(qll_paint){.fill = QLL_BLACK, .is_filled = true});
}
