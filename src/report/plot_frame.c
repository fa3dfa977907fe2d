/* The frame of a plot for whoever reads values off the drawing: axes, and what is drawn in SI. */
#include "findings/drawn.h"
#include "report/plot_parts.h"
#include "report/svg.h"

#include <math.h>
#include <string.h>

/* A frame on its way. */
typedef struct framing {
    const qll_plot *plot;
    qll_canvas *canvas;
    qll_drawn_series *series;
    size_t count;
} framing;

static void *take(const framing *at, size_t count, size_t size)
{
    return qll_arena_take(at->canvas->arena, count, size);
}

static const char *copy(const framing *at, const char *closed)
{
    const char *made = qll_arena_copy(at->canvas->arena, closed, strlen(closed));
    return made == NULL ? "" : made;
}

static qll_drawn_axis axis_of(const framing *at, const qll_scale *scale, double from_mm,
                              double to_mm)
{
    const qll_axis *axis = scale->axis;
    qll_drawn_axis made = {
        .title = copy(at, axis->title),
        .unit = copy(at, axis->unit),
        .per_si = axis->per_si,
        .from = scale->from / axis->per_si,
        .to = scale->to / axis->per_si,
        .from_px = from_mm * QLL_PIXELS_PER_MM,
        .to_px = to_mm * QLL_PIXELS_PER_MM,
        .is_log = axis->is_log,
        .is_day = axis->is_day,
    };
    const size_t count = axis->names == NULL ? 0 : axis->name_count;
    const char **names = take(at, count, sizeof *names);
    for (size_t i = 0; i < count && names != NULL; i++) {
        names[i] = copy(at, axis->names[i]);
    }
    made.names = names;
    made.name_count = names == NULL ? 0 : count;
    return made;
}

/* Adds a series of points that are copied; x or y NULL: not a number. */
static void add(framing *at, const char *name, qll_series_kind kind, const double *x,
                const double *y, size_t count)
{
    double *own_x = take(at, count, sizeof *own_x);
    double *own_y = take(at, count, sizeof *own_y);
    if (own_x == NULL || own_y == NULL) {
        return;
    }
    for (size_t i = 0; i < count; i++) {
        own_x[i] = x == NULL ? (double)NAN : x[i];
        own_y[i] = y == NULL ? (double)NAN : y[i];
    }
    at->series[at->count] = (qll_drawn_series){
        .name = copy(at, name), .kind = kind, .x = own_x, .y = own_y, .count = count};
    at->count += 1;
}

static void add_curves(framing *at)
{
    for (size_t i = 0; i < at->plot->curve_count; i++) {
        const qll_curve_drawn *curve = &at->plot->curves[i];
        const char *name = curve->name[0] == '\0' ? curve->tag : curve->name;
        add(at, name, curve->width_mm > 0 ? QLL_SERIES_LINE : QLL_SERIES_MARKS, curve->x, curve->y,
            curve->count);
    }
}

static void add_guides(framing *at)
{
    for (size_t i = 0; i < at->plot->level_count; i++) {
        add(at, at->plot->levels[i].label, QLL_SERIES_LEVEL, NULL, &at->plot->levels[i].at, 1);
    }
    for (size_t i = 0; i < at->plot->upright_count; i++) {
        add(at, at->plot->uprights[i].label, QLL_SERIES_UPRIGHT, &at->plot->uprights[i].at, NULL,
            1);
    }
}

static void add_range(framing *at, const char *name, qll_series_kind kind,
                      const qll_range_drawn *ranges, size_t count)
{
    double *ends = take(at, 2 * count, sizeof *ends);
    for (size_t i = 0; i < count && ends != NULL; i++) {
        ends[2 * i] = ranges[i].from;
        ends[2 * i + 1] = ranges[i].to;
    }
    if (ends != NULL) {
        add(at, name, kind, ends, NULL, 2 * count);
    }
}

static void add_ranges(framing *at)
{
    const qll_plot *plot = at->plot;
    for (size_t i = 0; i < plot->range_count; i++) {
        add_range(at, plot->ranges[i].name, QLL_SERIES_RANGE, &plot->ranges[i], 1);
    }
    for (size_t i = 0; i < plot->strip_count; i++) {
        add_range(at, plot->strips[i].name, QLL_SERIES_STRIP, plot->strips[i].ranges,
                  plot->strips[i].range_count);
    }
}

void qll_plot_frame(const qll_layout *layout)
{
    const qll_plot *plot = layout->plot;
    const qll_box *frame = &layout->frame;
    framing at = {.plot = plot, .canvas = layout->canvas};
    const size_t room = plot->curve_count + plot->level_count + plot->upright_count
                        + plot->range_count + plot->strip_count;
    at.series = take(&at, room, sizeof *at.series);
    qll_drawn_frame *made = take(&at, 1, sizeof *made);
    if (at.series == NULL || made == NULL) {
        return;
    }
    add_curves(&at);
    add_guides(&at);
    add_ranges(&at);
    *made = (qll_drawn_frame){
        .x = axis_of(&at, &layout->x, frame->x_mm, frame->x_mm + frame->width_mm),
        .y = axis_of(&at, &layout->y, frame->y_mm + frame->height_mm, frame->y_mm),
        .series = at.series,
        .series_count = at.count,
    };
    layout->canvas->frame = made;
}

double qll_scale_share(const qll_scale *scale, double shown)
{
    if (scale->axis->is_log) {
        return shown > 0 ? log(shown / scale->from) / log(scale->to / scale->from) : (double)NAN;
    }
    return (shown - scale->from) / (scale->to - scale->from);
}

double qll_layout_x_mm(const qll_layout *layout, double si)
{
    double share = qll_scale_share(&layout->x, si * layout->x.axis->per_si);
    return layout->frame.x_mm + share * layout->frame.width_mm;
}

double qll_layout_y_mm(const qll_layout *layout, double si)
{
    double share = qll_scale_share(&layout->y, si * layout->y.axis->per_si);
    return layout->frame.y_mm + (1 - share) * layout->frame.height_mm;
}
