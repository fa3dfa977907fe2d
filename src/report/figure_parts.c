#include "report/figure_parts.h"

#include <math.h>

/* What no quantity of a document is above (base/units.h). */
#define QLL_VALUE_MOST 1e100

const char *qll_figure_word(const qll_figure *figure, qll_message which)
{
    return qll_say(figure->language, which);
}

void *qll_figure_take(const qll_figure *figure, size_t count, size_t size)
{
    return qll_arena_take(figure->canvas->arena, count, size);
}

/* "design peak 83 gpm" */
const char *qll_figure_value(const qll_figure *figure, qll_message message, double si,
                             qll_kind kind)
{
    qll_writer writer = qll_writer_new(figure->canvas->arena);
    qll_write(&writer, qll_figure_word(figure, message));
    if (fabs(si) <= QLL_VALUE_MOST) { /* false where it is no number too */
        qll_write(&writer, " ");
        qll_units_write(&writer, si, kind, figure->units);
    }
    return qll_writer_text(&writer).bytes;
}

qll_guide qll_figure_peak(const qll_figure *figure, double peak_m3s)
{
    return (qll_guide){qll_figure_value(figure, QLL_SAYS_HEAD_DESIGN_PEAK, peak_m3s, QLL_KIND_FLOW),
                       peak_m3s};
}

qll_extent qll_extent_of(double low, double high)
{
    return (qll_extent){low, high};
}

void qll_extent_see(qll_extent *seen, double value)
{
    if (isfinite(value)) {
        seen->low = fmin(seen->low, value);
        seen->high = fmax(seen->high, value);
    }
}

void qll_extent_see_all(qll_extent *seen, const double *values, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        qll_extent_see(seen, values[i]);
    }
}

void qll_extent_see_guides(qll_extent *seen, const qll_guide *guides, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        qll_extent_see(seen, guides[i].at);
    }
}

qll_axis qll_figure_axis(const char *title, const char *unit, double per_si, qll_extent seen)
{
    return (qll_axis){
        .title = title, .unit = unit, .per_si = per_si, .low = seen.low, .high = seen.high};
}

qll_guide qll_figure_pressure_guide(const qll_figure *figure, qll_message message, double pa)
{
    return (qll_guide){qll_figure_value(figure, message, pa, QLL_KIND_PRESSURE), pa};
}

qll_curve_drawn qll_curve_of(const char *name, const double *x, const double *y, size_t count,
                             qll_look look, double width_mm)
{
    return (qll_curve_drawn){.name = name,
                             .tag = "",
                             .x = x,
                             .y = y,
                             .count = count,
                             .look = look,
                             .width_mm = width_mm};
}
