/* Words around a plot: legend, labels of guides, strips. */
#include "report/plot_parts.h"

#include <math.h>

/* A line's sample in the legend, and what stands between one entry and the next. */
#define QLL_SAMPLE_MM 11.0
#define QLL_GAP_MM    4.0

static const qll_letters letters = {.size_mm = QLL_PLOT_LETTERS_MM};

/* The pen that walks along the rows of the legend. */
typedef struct walk {
    const qll_layout *layout;
    bool draw;
    double x_mm, y_mm;
    size_t rows;
} walk;

/* Room for a sample and @p name; goes to the next row where this one is full. Where it starts. */
static qll_xy step(walk *at, const char *name, double sample_mm)
{
    const qll_box *area = &at->layout->area;
    double left = at->layout->frame.x_mm;
    double width =
        sample_mm + 1.2 + qll_text_width_mm(qll_text_of(name), letters.size_mm, letters.weight);
    double room = at->layout->plot->legend_width_mm;
    double right = area->x_mm + (room > 0 ? room : area->width_mm);
    if (at->rows == 0 || (at->x_mm > left && at->x_mm + width > right)) {
        at->y_mm = at->rows == 0 ? at->layout->legend_mm : at->y_mm + QLL_PLOT_LINE_MM;
        at->x_mm = left;
        at->rows += 1;
    }
    qll_xy start = {at->x_mm, at->y_mm + QLL_PLOT_LINE_MM / 2};
    if (at->draw) {
        qll_xy words = {start.x_mm + sample_mm + 1.2,
                        start.y_mm + QLL_CAPITALS_EM * QLL_PLOT_LETTERS_MM / 2};
        (void)qll_canvas_text_fit(at->layout->canvas, words, qll_text_of(name), right - words.x_mm,
                                  &letters);
    }
    at->x_mm += width + QLL_GAP_MM;
    return start;
}

static void curve_entry(walk *at, const qll_curve_drawn *curve)
{
    bool has_line = curve->width_mm > 0;
    double sample = has_line ? QLL_SAMPLE_MM : 3;
    qll_xy start = step(at, curve->name, sample);
    if (!at->draw) {
        return;
    }
    if (has_line) {
        const qll_pen pen = {curve->width_mm, curve->look.dash, curve->look.colour};
        qll_canvas_line(at->layout->canvas, start, (qll_xy){start.x_mm + QLL_SAMPLE_MM, start.y_mm},
                        &pen);
    }
    qll_marker_draw(at->layout->canvas, (qll_xy){start.x_mm + sample / 2, start.y_mm},
                    &curve->look);
}

static void box_entry(walk *at, const char *name, qll_fill fill)
{
    qll_xy start = step(at, name, 5);
    if (at->draw) {
        qll_box box = {start.x_mm, start.y_mm - 1.3, 5, 2.6};
        qll_fill_box(at->layout->canvas, box, fill);
        qll_canvas_rectangle(at->layout->canvas, box,
                             &(qll_paint){.pen = {.width_mm = QLL_PLOT_THIN_MM}});
    }
}

double qll_legend(const qll_layout *layout, bool draw)
{
    const qll_plot *plot = layout->plot;
    walk at = {.layout = layout, .draw = draw};
    for (size_t i = 0; i < plot->curve_count; i++) {
        if (plot->curves[i].name[0] != '\0') {
            curve_entry(&at, &plot->curves[i]);
        }
    }
    for (size_t i = 0; i < plot->range_count; i++) {
        if (plot->ranges[i].name[0] != '\0') {
            box_entry(&at, plot->ranges[i].name, QLL_FILL_LIGHT);
        }
    }
    for (int fill = 0; fill < QLL_FILL_COUNT; fill++) {
        if (plot->fill_names[fill] != NULL) {
            box_entry(&at, plot->fill_names[fill], (qll_fill)fill);
        }
    }
    if (plot->disc_name != NULL) {
        qll_xy start = step(&at, plot->disc_name, 3);
        if (draw) {
            qll_canvas_circle(layout->canvas, (qll_xy){start.x_mm + 1.5, start.y_mm}, 1.1,
                              &(qll_paint){.fill = QLL_BLACK, .is_filled = true});
        }
    }
    return (double)at.rows * QLL_PLOT_LINE_MM;
}

/* A level guide's label on its way to a place where it touches no other. */
typedef struct label {
    const qll_guide *guide;
    double y_mm;   /* of the guide */
    double top_mm; /* of the label */
    double height_mm;
} label;

static void sort_labels(label *labels, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        label one = labels[i];
        size_t at = i;
        for (; at > 0 && labels[at - 1].y_mm > one.y_mm; at--) {
            labels[at] = labels[at - 1];
        }
        labels[at] = one;
    }
}

/* Pushes labels down off each other, then, where the last is below @p bottom, up again. */
static void spread_labels(label *labels, size_t count, double top, double bottom)
{
    double free_from = top;
    for (size_t i = 0; i < count; i++) {
        labels[i].top_mm = fmax(labels[i].y_mm - labels[i].height_mm / 2, free_from);
        free_from = labels[i].top_mm + labels[i].height_mm;
    }
    double free_to = bottom;
    for (size_t i = count; i > 0; i--) {
        label *one = &labels[i - 1];
        one->top_mm = fmin(one->top_mm, free_to - one->height_mm);
        free_to = one->top_mm;
    }
}

static void draw_level(const qll_layout *layout, const label *one, double width_mm)
{
    const qll_box *frame = &layout->frame;
    double right = frame->x_mm + frame->width_mm;
    const qll_pen pen = {.width_mm = 0.2, .dash = QLL_DASH_SHORT};
    const qll_pen thin = {.width_mm = QLL_PLOT_THIN_MM};
    qll_canvas_line(layout->canvas, (qll_xy){frame->x_mm, one->y_mm}, (qll_xy){right, one->y_mm},
                    &pen);
    double middle = one->top_mm + one->height_mm / 2;
    qll_canvas_line(layout->canvas, (qll_xy){right, one->y_mm}, (qll_xy){right + 2.2, middle},
                    &thin);
    qll_box box = {right + 2.8, one->top_mm, width_mm, one->height_mm + 0.1};
    (void)qll_canvas_text_box(layout->canvas, box, qll_text_of(one->guide->label), &letters);
}

void qll_plot_levels(const qll_layout *layout)
{
    const qll_plot *plot = layout->plot;
    const qll_box *frame = &layout->frame;
    label *labels = qll_arena_take(layout->canvas->arena, plot->level_count, sizeof *labels);
    if (labels == NULL) {
        return;
    }
    double right = layout->area.x_mm + layout->area.width_mm;
    double width = right - (frame->x_mm + frame->width_mm + 2.8);
    size_t count = 0;
    for (size_t i = 0; i < plot->level_count; i++) {
        double y = qll_layout_y_mm(layout, plot->levels[i].at);
        if (!(y >= frame->y_mm - 0.01 && y <= frame->y_mm + frame->height_mm + 0.01)) {
            continue;
        }
        size_t lines = qll_text_line_count(qll_text_of(plot->levels[i].label), width,
                                           letters.size_mm, letters.weight);
        labels[count] =
            (label){.guide = &plot->levels[i],
                    .y_mm = y,
                    .height_mm = (double)(lines < 4 ? lines : 4) * QLL_LINE_EM * letters.size_mm};
        count += 1;
    }
    sort_labels(labels, count);
    /* Legend and upright labels have the room above the frame. */
    spread_labels(labels, count, frame->y_mm - 0.6, layout->area.y_mm + layout->area.height_mm);
    for (size_t i = 0; i < count; i++) {
        draw_level(layout, &labels[i], width);
    }
}

static double upright_half_mm(const qll_guide *guide)
{
    return qll_text_width_mm(qll_text_of(guide->label), letters.size_mm, letters.weight) / 2;
}

/* The middle of an upright guide's label: above the guide, but within the area. */
static double upright_middle_mm(const qll_layout *layout, const qll_guide *guide)
{
    double half = upright_half_mm(guide);
    double left = layout->area.x_mm + half;
    double right = layout->area.x_mm + layout->area.width_mm - half;
    return fmax(fmin(qll_layout_x_mm(layout, guide->at), right), left);
}

static bool is_shown(const qll_layout *layout, const qll_guide *guide)
{
    double x = qll_layout_x_mm(layout, guide->at);
    return x >= layout->frame.x_mm - 0.01
           && x <= layout->frame.x_mm + layout->frame.width_mm + 0.01;
}

/* The row (from 0, the lowest) of guide @p index: the first in which it touches none before it. */
static size_t upright_row(const qll_layout *layout, size_t index)
{
    const qll_guide *guides = layout->plot->uprights;
    double middle = upright_middle_mm(layout, &guides[index]);
    double half = upright_half_mm(&guides[index]);
    size_t row = 0;
    for (size_t i = 0; i < index; i++) {
        double distance = fabs(upright_middle_mm(layout, &guides[i]) - middle);
        if (is_shown(layout, &guides[i]) && distance < half + upright_half_mm(&guides[i]) + 1.5) {
            row += 1;
        }
    }
    return row;
}

size_t qll_plot_upright_rows(const qll_layout *layout)
{
    size_t rows = 0;
    for (size_t i = 0; i < layout->plot->upright_count; i++) {
        if (is_shown(layout, &layout->plot->uprights[i])) {
            size_t row = upright_row(layout, i);
            rows = row + 1 > rows ? row + 1 : rows;
        }
    }
    return rows;
}

void qll_plot_uprights(const qll_layout *layout, bool lines, bool labels)
{
    const qll_box *frame = &layout->frame;
    const qll_pen pen = {.width_mm = 0.2, .dash = QLL_DASH_DOT_DASH};
    qll_letters words = letters;
    words.anchor = QLL_ANCHOR_MIDDLE;
    for (size_t i = 0; i < layout->plot->upright_count; i++) {
        const qll_guide *guide = &layout->plot->uprights[i];
        if (!is_shown(layout, guide)) {
            continue;
        }
        double x = qll_layout_x_mm(layout, guide->at);
        double y = layout->upright_mm - (double)upright_row(layout, i) * QLL_PLOT_LINE_MM;
        if (lines) {
            qll_canvas_line(layout->canvas, (qll_xy){x, y + 0.3 * QLL_PLOT_LETTERS_MM},
                            (qll_xy){x, frame->y_mm + frame->height_mm}, &pen);
        }
        if (labels) {
            (void)qll_canvas_text_fit(layout->canvas, (qll_xy){upright_middle_mm(layout, guide), y},
                                      qll_text_of(guide->label), layout->area.width_mm, &words);
        }
    }
}

void qll_plot_strips(const qll_layout *layout)
{
    const qll_box *frame = &layout->frame;
    const qll_paint bar = {.fill = QLL_GREY(0.55), .is_filled = true};
    const qll_pen thin = {.width_mm = QLL_PLOT_THIN_MM, .colour = QLL_GREY(0.4)};
    qll_letters words = letters;
    words.anchor = QLL_ANCHOR_END;
    double right = frame->x_mm + frame->width_mm;
    for (size_t i = 0; i < layout->plot->strip_count; i++) {
        const qll_strip *strip = &layout->plot->strips[i];
        double middle = layout->strips_mm + ((double)i + 0.5) * QLL_PLOT_LINE_MM;
        qll_canvas_line(layout->canvas, (qll_xy){frame->x_mm, middle}, (qll_xy){right, middle},
                        &thin);
        (void)qll_canvas_text_fit(
            layout->canvas,
            (qll_xy){frame->x_mm - 1, middle + QLL_CAPITALS_EM * letters.size_mm / 2},
            qll_text_of(strip->name), frame->x_mm - 1 - layout->area.x_mm, &words);
        for (size_t k = 0; k < strip->range_count; k++) {
            double from = fmax(qll_layout_x_mm(layout, strip->ranges[k].from), frame->x_mm);
            double to = fmin(qll_layout_x_mm(layout, strip->ranges[k].to), right);
            if (to > from) {
                qll_canvas_rectangle(layout->canvas, (qll_box){from, middle - 0.9, to - from, 1.8},
                                     &bar);
            }
        }
    }
}
