#include "report/log_figure.h"

#include "report/figure_parts.h"

#include <math.h>

#define QLL_LOG_WIDTH_MM  170.0
#define QLL_LOG_HEIGHT_MM 48.0

/* Seconds, minutes or hours, whichever reads best. */
static qll_axis time_axis(const char *title, double length_s)
{
    const qll_extent seen = {0.0, length_s};
    if (length_s > 2.0 * 3600.0) {
        return qll_figure_axis(title, "h", 1.0 / 3600.0, seen);
    }
    return length_s > 180.0 ? qll_figure_axis(title, "min", 1.0 / 60.0, seen)
                            : qll_figure_axis(title, "s", 1.0, seen);
}

qll_figure_block qll_log_figure(const qll_wording *wording, qll_arena *arena,
                                const qll_pressure_stretch *stretch, const double *values,
                                qll_kind kind, const char *title, size_t number)
{
    qll_figure_block made = {.title = title, .description = title};
    qll_canvas *canvas = qll_arena_take(arena, 1, sizeof *canvas);
    double *x = qll_arena_take(arena, stretch->count, sizeof *x);
    if (canvas == NULL || x == NULL) {
        return made;
    }
    const double length_s = stretch->to_unix_s - stretch->from_unix_s;
    qll_extent seen = {(double)INFINITY, -(double)INFINITY};
    for (size_t i = 0; i < stretch->count; i++) {
        x[i] = length_s * (double)i / (double)(stretch->count - 1);
        if (isfinite(values[i])) {
            seen.low = fmin(seen.low, values[i]);
            seen.high = fmax(seen.high, values[i]);
        }
    }
    *canvas = qll_canvas_new(QLL_LOG_WIDTH_MM, QLL_LOG_HEIGHT_MM, arena);
    const qll_curve_drawn curve =
        qll_curve_of("", x, values, stretch->count, qll_look_of(0), QLL_NORMAL_MM);
    const qll_plot plot = {
        .x = time_axis(qll_say(wording->language, QLL_SAYS_FIGURE_TIME), length_s),
        .y = qll_axis_of("", kind, wording->units, seen.low, seen.high),
        .curves = &curve,
        .curve_count = 1,
    };
    qll_plot_draw(canvas, (qll_box){0, 0, QLL_LOG_WIDTH_MM, QLL_LOG_HEIGHT_MM}, &plot);
    qll_writer id = qll_writer_new(arena);
    qll_write_format(&id, "log-%zu", number);
    made.canvas = canvas;
    made.id = qll_writer_text(&id).bytes;
    return made;
}
