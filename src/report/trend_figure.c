#include "report/trend_figure.h"

#include "base/count.h"
#include "records/day.h"
#include "report/figure_parts.h"
#include "wording/texts.h"

#include <math.h>
#include <string.h>

#define QLL_WIDE_MM 174.0
#define QLL_HIGH_MM 70.0

/* No finer than a gauge shows: what hardly changes is drawn as level (our assumption). */
#define QLL_LEAST_SPAN_PA 2e4

/* How far ahead is drawn, at most: a day of service beyond would leave no room for the readings (our assumption). */
#define QLL_AHEAD_SPANS 2.0

typedef struct drawing {
    const qll_wording *wording;
    qll_arena *arena;
    qll_followed followed;
    const qll_course *course;
    double from, to; /* days that are drawn */
    bool has_line;
    double line_x[2], line_y[2];
    double ahead_x[2]; /* from the last reading on, where the line may lead */
    double low_y[2], high_y[2];
} drawing;

static const char *text(const drawing *d, qll_text_id id)
{
    const qll_said said = {.id = id};
    return qll_said_text(d->arena, d->wording, &said);
}

static const char *day_text(const drawing *d, double day)
{
    char written[QLL_DAY_SIZE];
    qll_day_write((int)floor(day), written);
    const char *kept = qll_arena_copy(d->arena, written, strlen(written));
    return kept == NULL ? "" : kept;
}

/* ---- where it leads ---- */

/* The last day that is drawn: that by which service is wanted at the latest, if it is near enough. */
static double last_shown(const qll_course *course, double span)
{
    const double last = course->drift.last_day;
    const double most = last + QLL_AHEAD_SPANS * span;
    const double wanted = isnan(course->reached.latest) ? most : course->reached.latest;
    return course->reached.day > last && course->reached.day <= most
               ? fmin(most, wanted + 0.05 * span)
               : last + 0.25 * span;
}

/* The day on which the stretch of the last reading began. */
static double stretch_begins(const qll_course *course)
{
    size_t at = course->count;
    while (at > 1 && !course->points[at - 1].begins) {
        at--;
    }
    return course->points[at - 1].day;
}

static double line_at(const qll_drift *drift, double slope_per_year, double day)
{
    return drift->level + slope_per_year * (day - drift->last_day) / QLL_YEAR_DAYS;
}

static void find_lines(drawing *d)
{
    const qll_drift *drift = &d->course->drift;
    const double span = fmax(drift->last_day - drift->first_day, QLL_YEAR_DAYS);
    d->from = drift->first_day - 0.02 * span; /* no reading stands on the frame */
    d->has_line = isfinite(drift->low_per_year) && isfinite(drift->high_per_year);
    d->to = d->has_line ? last_shown(d->course, span) : drift->last_day;
    d->line_x[0] = stretch_begins(d->course);
    d->line_x[1] = d->to;
    d->ahead_x[0] = drift->last_day;
    d->ahead_x[1] = d->to;
    for (size_t i = 0; i < 2; i++) {
        d->line_y[i] = line_at(drift, drift->slope_per_year, d->line_x[i]);
        d->low_y[i] = line_at(drift, drift->low_per_year, d->ahead_x[i]);
        d->high_y[i] = line_at(drift, drift->high_per_year, d->ahead_x[i]);
    }
}

/* ---- axes ---- */

/* Ticks at the first of months, at most eight steps. */
static qll_axis day_axis(const drawing *d)
{
    static const int steps[] = {1, 3, 6, 12, 24, 60, 120, 240, 600};
    const double month_days = QLL_YEAR_DAYS / 12.0;
    size_t at = 0;
    while (at + 1 < QLL_COUNT(steps) && (d->to - d->from) / month_days > 8.0 * steps[at]) {
        at++;
    }
    const size_t room = (size_t)((d->to - d->from) / (month_days * steps[at])) + 3;
    double *ticks = qll_arena_take(d->arena, room, sizeof *ticks);
    size_t count = 0;
    const int first = (int)floor(d->from / month_days / steps[at]) * steps[at];
    for (size_t i = 0; ticks != NULL && i < room; i++) {
        const double day = qll_day_after_months(0, first + (int)i * steps[at]);
        if (day >= d->from && day <= d->to) {
            ticks[count] = day;
            count += 1;
        }
    }
    return (qll_axis){.title = "",
                      .unit = "",
                      .per_si = 1.0,
                      .low = d->from,
                      .high = d->to,
                      .at = ticks,
                      .at_count = count,
                      .is_day = true};
}

static qll_axis pressure_axis(const drawing *d, const char *title)
{
    const qll_course *course = d->course;
    qll_extent seen = qll_extent_of(course->points[0].value, course->points[0].value);
    for (size_t i = 0; i < course->count; i++) {
        qll_extent_see(&seen, course->points[i].value);
    }
    if (d->has_line) {
        qll_extent_see_all(&seen, d->line_y, 2);
        qll_extent_see_all(&seen, d->low_y, 2);
        qll_extent_see_all(&seen, d->high_y, 2);
    }
    qll_extent_see(&seen, course->limit);
    const double more_pa = fmax(0.0, QLL_LEAST_SPAN_PA - (seen.high - seen.low));
    const qll_kind kind =
        d->followed == QLL_FOLLOWED_STRAINER ? QLL_KIND_PRESSURE_DIFFERENCE : QLL_KIND_PRESSURE;
    return qll_axis_of(title, kind, d->wording->units, fmax(seen.low - more_pa / 2, 0.0),
                       seen.high + more_pa / 2);
}

/* ---- what is drawn ---- */

/* Readings that were the first after a cleaning, or those that were not. */
static qll_curve_drawn marks(const drawing *d, bool begins, qll_marker marker, qll_text_id name)
{
    const qll_course *course = d->course;
    double *x = qll_arena_take(d->arena, course->count, sizeof *x);
    double *y = qll_arena_take(d->arena, course->count, sizeof *y);
    size_t count = 0;
    for (size_t i = 0; x != NULL && y != NULL && i < course->count; i++) {
        if (course->points[i].begins == begins) {
            x[count] = course->points[i].day;
            y[count] = course->points[i].value;
            count += 1;
        }
    }
    const qll_look look = {.marker = marker, .colour = QLL_BLACK};
    return qll_curve_of(text(d, name), x, y, count, look, 0);
}

static size_t add_curves(const drawing *d, qll_curve_drawn curves[5])
{
    size_t count = 1;
    curves[0] = marks(d, false, QLL_MARKER_CIRCLE, QLL_TEXT_RECORD_TREND_READINGS);
    const qll_curve_drawn cleaned =
        marks(d, true, QLL_MARKER_DIAMOND, QLL_TEXT_RECORD_TREND_CLEANED);
    if (cleaned.count > 0) {
        curves[count++] = cleaned;
    }
    if (d->has_line) {
        const qll_look solid = {.dash = QLL_DASH_SOLID, .colour = QLL_BLACK};
        const qll_look dashed = {.dash = QLL_DASH_LONG, .colour = QLL_BLACK};
        curves[count++] = qll_curve_of(text(d, QLL_TEXT_RECORD_TREND_LINE), d->line_x, d->line_y, 2,
                                       solid, QLL_HEAVY_MM);
        curves[count++] = qll_curve_of(text(d, QLL_TEXT_RECORD_TREND_MOST), d->ahead_x, d->high_y,
                                       2, dashed, QLL_NORMAL_MM);
        curves[count++] = qll_curve_of(text(d, QLL_TEXT_RECORD_TREND_LEAST), d->ahead_x, d->low_y,
                                       2, dashed, QLL_NORMAL_MM);
    }
    return count;
}

static const char *limit_label(const drawing *d)
{
    const qll_kind kind =
        d->followed == QLL_FOLLOWED_STRAINER ? QLL_KIND_PRESSURE_DIFFERENCE : QLL_KIND_PRESSURE;
    const qll_said said = {QLL_TEXT_RECORD_TREND_LIMIT, {qll_as_quantity(d->course->limit, kind)}};
    return qll_said_text(d->arena, d->wording, &said);
}

static const char *service_label(const drawing *d)
{
    const qll_said said = {QLL_TEXT_RECORD_TREND_SERVICE,
                           {qll_as_is(day_text(d, d->course->reached.day))}};
    return qll_said_text(d->arena, d->wording, &said);
}

static void draw(const drawing *d, qll_canvas *canvas, const char *title)
{
    const qll_course *course = d->course;
    const bool is_ahead = course->reached.day > course->drift.last_day;
    qll_curve_drawn curves[5];
    const size_t curve_count = add_curves(d, curves);
    const qll_guide limit = {isnan(course->limit) ? "" : limit_label(d), course->limit};
    const qll_guide service = {is_ahead ? service_label(d) : "", course->reached.day};
    const qll_band_drawn band = {d->ahead_x, d->low_y, d->high_y, 2};
    const qll_plot plot = {
        .x = day_axis(d),
        .y = pressure_axis(d, title),
        .curves = curves,
        .curve_count = curve_count,
        .bands = &band,
        .band_count = d->has_line ? 1 : 0,
        .levels = &limit,
        .level_count = (size_t)!isnan(course->limit),
        .uprights = &service,
        .upright_count = is_ahead && course->reached.day <= d->to ? 1 : 0,
    };
    qll_plot_draw(canvas, (qll_box){0, 0, QLL_WIDE_MM, QLL_HIGH_MM}, &plot);
}

qll_figure_block qll_trend_figure(const qll_wording *wording, qll_arena *arena,
                                  qll_followed followed, const qll_course *course,
                                  const char *title, const char *description)
{
    static const char *const ids[QLL_FOLLOWED_COUNT] = {[QLL_FOLLOWED_SET] = "trend-set-point",
                                                        [QLL_FOLLOWED_LOCK_UP] = "trend-lock-up",
                                                        [QLL_FOLLOWED_STRAINER] =
                                                            "trend-strainer-loss"};
    qll_figure_block made = {.id = ids[followed], .title = title, .description = description};
    drawing d = {.wording = wording, .arena = arena, .followed = followed, .course = course};
    if (course->count == 0 || !(course->drift.last_day > course->drift.first_day)) {
        return made;
    }
    qll_canvas *canvas = qll_arena_take(arena, 1, sizeof *canvas);
    if (canvas != NULL) {
        *canvas = qll_canvas_new(QLL_WIDE_MM, QLL_HIGH_MM, arena);
        find_lines(&d);
        draw(&d, canvas, title);
        made.canvas = canvas;
    }
    return made;
}
