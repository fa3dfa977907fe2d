#include "report/plot.h"

#include "base/units_table.h"
#include "records/day.h"
#include "report/plot_parts.h"
#include "report/ticks.h"

#include <math.h>
#include <string.h>

qll_axis qll_axis_of(const char *title, qll_kind kind, qll_unit_system units, double low_si,
                     double high_si)
{
    const char *name = qll_units_name(kind, units);
    const qll_unit *unit = qll_units_find(name, kind);
    return (qll_axis){
        .title = title,
        .unit = name,
        .per_si = unit == NULL ? 1 : unit->per / unit->factor,
        .low = low_si,
        .high = high_si,
    };
}

qll_look qll_look_of(size_t index)
{
    /* The colours are those of Okabe and Ito (2008), which people with any colour vision tell apart; the
     * values are from memory. Dashes and markers tell the same on a grey printer. */
    static const qll_look looks[] = {
        {QLL_DASH_SOLID, QLL_MARKER_NONE, {0, 0, 0}},
        {QLL_DASH_LONG, QLL_MARKER_CIRCLE, {0, 0.447, 0.698}},
        {QLL_DASH_DOT_DASH, QLL_MARKER_SQUARE, {0.835, 0.369, 0}},
        {QLL_DASH_SHORT, QLL_MARKER_TRIANGLE, {0, 0.62, 0.451}},
        {QLL_DASH_SOLID, QLL_MARKER_DIAMOND, {0.8, 0.475, 0.655}},
        {QLL_DASH_DOTTED, QLL_MARKER_CROSS, {0.35, 0.35, 0.35}},
    };
    size_t count = sizeof looks / sizeof looks[0];
    return looks[index % count];
}

static const qll_letters tick_letters = {.size_mm = QLL_PLOT_LETTERS_MM};

/* Places along an axis in mm from its start. */
static double tick_mm(const qll_scale *scale, size_t index, double length_mm)
{
    return qll_scale_share(scale, scale->ticks[index]) * length_mm;
}

static void draw_grid(const qll_layout *layout)
{
    const qll_pen pen = {.width_mm = QLL_PLOT_THIN_MM, .colour = QLL_GREY(0.25)};
    const qll_box *frame = &layout->frame;
    double right = frame->x_mm + frame->width_mm;
    double bottom = frame->y_mm + frame->height_mm;
    for (size_t i = 0; i < layout->x.tick_count; i++) {
        double x = frame->x_mm + tick_mm(&layout->x, i, frame->width_mm);
        qll_canvas_line(layout->canvas, (qll_xy){x, frame->y_mm}, (qll_xy){x, bottom}, &pen);
    }
    for (size_t i = 0; i < layout->y.tick_count; i++) {
        double y = bottom - tick_mm(&layout->y, i, frame->height_mm);
        qll_canvas_line(layout->canvas, (qll_xy){frame->x_mm, y}, (qll_xy){right, y}, &pen);
    }
}

static qll_text number(const qll_layout *layout, const qll_scale *scale, size_t index)
{
    qll_writer writer = qll_writer_new(layout->canvas->arena);
    if (scale->axis->is_day) {
        char day[QLL_DAY_SIZE];
        qll_day_write((int)scale->ticks[index], day);
        day[strcmp(day + 4, "-01-01") == 0 ? 4 : 7] = '\0'; /* "2026", or "2026-07" */
        qll_write(&writer, day);
        return qll_writer_text(&writer);
    }
    int decimals = scale->decimals < 0 ? qll_tick_decimals(scale->ticks[index]) : scale->decimals;
    qll_tick_write(&writer, scale->ticks[index], decimals);
    return qll_writer_text(&writer);
}

/* Names below the places they stand for, wrapped within their share of the axis. */
static void draw_names(const qll_layout *layout)
{
    const qll_axis *axis = layout->x.axis;
    qll_letters letters = tick_letters;
    letters.anchor = QLL_ANCHOR_MIDDLE;
    double bottom = layout->frame.y_mm + layout->frame.height_mm;
    const double room = layout->name_room_mm;
    const double least = layout->area.x_mm;
    const double most = layout->area.x_mm + layout->area.width_mm - room;
    for (size_t i = 0; i < axis->name_count; i++) {
        double x = qll_layout_x_mm(layout, (double)i) - room / 2;
        const size_t row = i % layout->name_rows;
        double row_mm = row == 0 ? 0 : layout->name_rows_mm[0];
        qll_box box = {fmin(fmax(x, least), most), bottom + QLL_PLOT_TICK_MM + row_mm, room,
                       layout->name_rows_mm[row]};
        (void)qll_canvas_text_box(layout->canvas, box, qll_text_of(axis->names[i]), &letters);
    }
}

/* Every tick gets its number unless it would touch the one before. */
static void draw_x_numbers(const qll_layout *layout)
{
    qll_letters letters = tick_letters;
    letters.anchor = QLL_ANCHOR_MIDDLE;
    double y = layout->frame.y_mm + layout->frame.height_mm + QLL_PLOT_TICK_MM
               + QLL_CAPITALS_EM * QLL_PLOT_LETTERS_MM + 0.6;
    double free_from = -INFINITY;
    const double right = layout->area.x_mm + layout->area.width_mm;
    for (size_t i = 0; i < layout->x.tick_count; i++) {
        qll_text text = number(layout, &layout->x, i);
        double half = qll_text_width_mm(text, letters.size_mm, letters.weight) / 2;
        double x =
            fmin(layout->frame.x_mm + tick_mm(&layout->x, i, layout->frame.width_mm), right - half);
        if (x - half > free_from) {
            qll_canvas_text(layout->canvas, (qll_xy){x, y}, text, &letters);
            free_from = x + half + 1;
        }
    }
}

static void draw_y_numbers(const qll_layout *layout)
{
    qll_letters letters = tick_letters;
    letters.anchor = QLL_ANCHOR_END;
    for (size_t i = 0; i < layout->y.tick_count; i++) {
        double y = layout->frame.y_mm + layout->frame.height_mm
                   - tick_mm(&layout->y, i, layout->frame.height_mm);
        qll_xy at = {layout->frame.x_mm - QLL_PLOT_TICK_MM,
                     y + QLL_CAPITALS_EM * QLL_PLOT_LETTERS_MM / 2};
        qll_canvas_text(layout->canvas, at, number(layout, &layout->y, i), &letters);
    }
}

static void draw_titles(const qll_layout *layout)
{
    qll_letters letters = tick_letters;
    letters.anchor = QLL_ANCHOR_MIDDLE;
    const qll_box *frame = &layout->frame;
    const qll_box *area = &layout->area;
    qll_text title = qll_layout_title(layout, layout->x.axis);
    /* Below the middle of the frame, but within the area. */
    double taken = fmin(qll_text_width_mm(title, letters.size_mm, letters.weight), area->width_mm);
    double left = area->x_mm + taken / 2;
    double right = area->x_mm + area->width_mm - taken / 2;
    qll_xy below = {fmax(fmin(frame->x_mm + frame->width_mm / 2, right), left),
                    area->y_mm + area->height_mm - 0.25 * QLL_PLOT_LETTERS_MM};
    (void)qll_canvas_text_fit(layout->canvas, below, title, area->width_mm, &letters);
    letters.turned_deg = 90;
    qll_xy beside = {layout->area.x_mm + QLL_PLOT_LETTERS_MM * 0.85,
                     frame->y_mm + frame->height_mm / 2};
    qll_text rest = qll_layout_title(layout, layout->y.axis);
    for (size_t line = 1; line <= layout->title_lines && rest.size > 0; line++) {
        qll_text shown = rest;
        if (line < layout->title_lines) {
            shown = qll_text_line(&rest, frame->height_mm, letters.size_mm, letters.weight);
        }
        (void)qll_canvas_text_fit(layout->canvas, beside, shown, frame->height_mm, &letters);
        beside.x_mm += QLL_PLOT_LINE_MM;
    }
}

double qll_plot_legend_mm(qll_canvas *canvas, qll_box area, const qll_plot *plot)
{
    qll_layout layout = {.canvas = canvas, .plot = plot, .area = area};
    qll_layout_make(&layout);
    return qll_legend(&layout, false);
}

void qll_plot_draw(qll_canvas *canvas, qll_box area, const qll_plot *plot)
{
    qll_layout layout = {.canvas = canvas, .plot = plot, .area = area};
    qll_layout_make(&layout);
    if (!(layout.frame.width_mm > 5 && layout.frame.height_mm > 5)) {
        return; /* an area in which nothing could be read */
    }
    qll_plot_ranges(&layout);
    qll_plot_cells(&layout);
    qll_plot_bands(&layout);
    draw_grid(&layout);
    qll_plot_uprights(&layout, true, false);
    qll_plot_discs(&layout);
    qll_plot_curves(&layout);
    qll_canvas_rectangle(canvas, layout.frame,
                         &(qll_paint){.pen = {.width_mm = QLL_PLOT_FRAME_MM}});
    if (plot->x.names != NULL) {
        draw_names(&layout);
    } else {
        draw_x_numbers(&layout);
    }
    draw_y_numbers(&layout);
    draw_titles(&layout);
    qll_plot_levels(&layout);
    qll_plot_uprights(&layout, false, true);
    qll_plot_strips(&layout);
    (void)qll_legend(&layout, true);
    qll_plot_frame(&layout);
}
