/* Where the parts of a plot go. From the top: legend, labels of upright guides, strips, frame, numbers,
 * title; from the left: title, numbers, frame, labels of level guides. Whatever has words stands outside
 * the frame, so that no label can lie on a curve. */
#include "report/plot_parts.h"
#include "report/ticks.h"

#include <math.h>
#include <string.h>

/* Labels of level guides take at most this share of the width. */
#define QLL_LEVEL_SHARE 0.27

static void make_log_scale(qll_scale *scale, double low, double high)
{
    scale->from = low;
    scale->to = high > low ? high : low * 10;
    scale->decimals = -1;
    double ticks[QLL_PLOT_TICKS_MOST];
    size_t count = qll_ticks_cover_log(scale->from, scale->to, ticks, QLL_PLOT_TICKS_MOST);
    /* The frame ends where the data do: a decade of empty paper helps nobody. */
    for (size_t i = 0; i < count; i++) {
        if (ticks[i] >= scale->from * (1 - 1e-9) && ticks[i] <= scale->to * (1 + 1e-9)) {
            scale->ticks[scale->tick_count] = ticks[i];
            scale->tick_count += 1;
        }
    }
}

/* Ticks at round numbers; those outside a tight axis are left out. */
static void make_even_scale_of(qll_scale *scale, double low, double high, double most)
{
    qll_ticks ticks = qll_ticks_cover(low, high, (size_t)most);
    bool is_tight = scale->axis->is_tight && high > low;
    scale->tick_count = 0;
    scale->from = is_tight ? low : qll_tick_value(&ticks, 0);
    scale->to = is_tight ? high : qll_tick_value(&ticks, ticks.count - 1);
    scale->decimals = ticks.decimals;
    double slack = ticks.step * 1e-6;
    for (size_t i = 0; i < ticks.count && scale->tick_count < QLL_PLOT_TICKS_MOST; i++) {
        double value = qll_tick_value(&ticks, i);
        if (value >= scale->from - slack && value <= scale->to + slack) {
            scale->ticks[scale->tick_count] = value;
            scale->tick_count += 1;
        }
    }
}

/* One number alone says nothing of how far it goes: a tight axis takes finer steps until it has two. */
static void make_even_scale(qll_scale *scale, double low, double high, double most)
{
    make_even_scale_of(scale, low, high, most);
    for (int tries = 0; tries < 3 && scale->tick_count < 2; tries++) {
        most = fmin(2.0 * most, QLL_PLOT_TICKS_MOST - 1);
        make_even_scale_of(scale, low, high, most);
    }
}

static void make_scale(qll_scale *scale, const qll_axis *axis, double length_mm, double spacing_mm)
{
    *scale = (qll_scale){.axis = axis};
    double low = axis->low * axis->per_si;
    double high = axis->high * axis->per_si;
    bool is_sound = isfinite(low) && isfinite(high) && high >= low && fabs(low) < 1e12
                    && fabs(high) < 1e12 && (!axis->is_log || low > 0);
    if (!is_sound) {
        low = axis->is_log ? 1 : 0;
        high = axis->is_log ? 10 : 1;
    }
    if (axis->names != NULL) {
        scale->from = -0.5;
        scale->to = (double)axis->name_count - 0.5;
        return;
    }
    if (axis->at != NULL) {
        scale->from = low;
        scale->to = high > low ? high : low + 1;
        scale->decimals = -1;
        for (size_t i = 0; i < axis->at_count && scale->tick_count < QLL_PLOT_TICKS_MOST; i++) {
            double tick = axis->at[i] * axis->per_si;
            if (tick >= scale->from && tick <= scale->to) {
                scale->ticks[scale->tick_count] = tick;
                scale->tick_count += 1;
            }
        }
        return;
    }
    if (axis->is_log) {
        make_log_scale(scale, low, high);
        return;
    }
    make_even_scale(scale, low, high,
                    fmin(fmax(length_mm / spacing_mm, 2), QLL_PLOT_TICKS_MOST - 1));
}

static double widest_number_mm(const qll_layout *layout, const qll_scale *scale)
{
    double widest = 0;
    for (size_t i = 0; i < scale->tick_count; i++) {
        qll_writer writer = qll_writer_new(layout->canvas->arena);
        qll_tick_write(&writer, scale->ticks[i],
                       scale->decimals < 0 ? qll_tick_decimals(scale->ticks[i]) : scale->decimals);
        widest = fmax(widest, qll_text_width_mm(qll_writer_text(&writer), QLL_PLOT_LETTERS_MM,
                                                QLL_WEIGHT_REGULAR));
    }
    return widest;
}

static double widest_label_mm(const qll_guide *guides, size_t count)
{
    double widest = 0;
    for (size_t i = 0; i < count; i++) {
        widest = fmax(widest, qll_text_width_mm(qll_text_of(guides[i].label), QLL_PLOT_LETTERS_MM,
                                                QLL_WEIGHT_REGULAR));
    }
    return widest;
}

static double widest_strip_mm(const qll_plot *plot)
{
    double widest = 0;
    for (size_t i = 0; i < plot->strip_count; i++) {
        widest = fmax(widest, qll_text_width_mm(qll_text_of(plot->strips[i].name),
                                                QLL_PLOT_LETTERS_MM, QLL_WEIGHT_REGULAR));
    }
    return widest;
}

static double widest_word_mm(const qll_axis *axis)
{
    double widest = 0;
    for (size_t i = 0; i < axis->name_count; i++) {
        const char *at = axis->names[i];
        while (*at != '\0') {
            const size_t size = strcspn(at, " ");
            widest = fmax(widest, qll_text_width_mm((qll_text){at, size}, QLL_PLOT_LETTERS_MM,
                                                    QLL_WEIGHT_REGULAR));
            at += size + strspn(at + size, " ");
        }
    }
    return widest;
}

/* Of a name's share of the axis, what it may take: names do not touch. */
#define QLL_NAME_SHARE 0.94

/* How many lines the names from @p first on take at most, every @p step of them; three are enough for any that should
 * be there. */
static double name_lines(const qll_axis *axis, double room, size_t first, size_t step)
{
    size_t most = 1;
    for (size_t i = first; i < axis->name_count; i += step) {
        size_t lines = qll_text_line_count(qll_text_of(axis->names[i]), room, QLL_PLOT_LETTERS_MM,
                                           QLL_WEIGHT_REGULAR);
        most = lines > most ? lines : most;
    }
    return (double)(most < 3 ? most : 3);
}

/* Names below the axis stand in one row, or by turns in two where a word is wider than its share of the axis: a word
 * is broken nowhere. */
static void lay_out_names(qll_layout *layout)
{
    const qll_axis *axis = layout->x.axis;
    const double share_mm = layout->frame.width_mm / (double)axis->name_count * QLL_NAME_SHARE;
    layout->name_rows = axis->name_count > 1 && widest_word_mm(axis) > share_mm ? 2 : 1;
    layout->name_room_mm = (double)layout->name_rows * share_mm;
    for (size_t row = 0; row < layout->name_rows; row++) {
        layout->name_rows_mm[row] = name_lines(axis, layout->name_room_mm, row, layout->name_rows)
                                    * QLL_LINE_EM * QLL_PLOT_LETTERS_MM;
    }
}

qll_text qll_layout_title(const qll_layout *layout, const qll_axis *axis)
{
    qll_writer writer = qll_writer_new(layout->canvas->arena);
    qll_write(&writer, axis->title);
    qll_write(&writer, axis->title[0] != '\0' && axis->unit[0] != '\0' ? ", " : "");
    qll_write(&writer, axis->unit);
    return qll_writer_text(&writer);
}

/* In how many lines the title beside the frame stands: two are enough for any that should be there. */
static size_t title_lines(const qll_layout *layout)
{
    size_t lines =
        qll_text_line_count(qll_layout_title(layout, &layout->plot->y), layout->frame.height_mm,
                            QLL_PLOT_LETTERS_MM, QLL_WEIGHT_REGULAR);
    return lines < 2 ? lines : 2;
}

/* Lays out with @p number_mm for the numbers left of the frame. */
static void lay_out(qll_layout *layout, double number_mm)
{
    const qll_plot *plot = layout->plot;
    const qll_box *area = &layout->area;
    double left =
        fmax((double)layout->title_lines * QLL_PLOT_LINE_MM + 1 + number_mm + QLL_PLOT_TICK_MM,
             fmin(widest_strip_mm(plot) + 1.5, area->width_mm * 0.2));
    double right = 4;
    if (plot->level_count > 0) {
        right = fmin(widest_label_mm(plot->levels, plot->level_count) + 3.5,
                     area->width_mm * QLL_LEVEL_SHARE);
    }
    layout->frame.x_mm = area->x_mm + left;
    layout->frame.width_mm = area->width_mm - left - right;
    make_scale(&layout->x, &plot->x, layout->frame.width_mm, 14);

    layout->legend_mm = area->y_mm;
    double top = qll_legend(layout, false);
    top += top > 0 ? 1 : 0;
    top += (double)qll_plot_upright_rows(layout) * QLL_PLOT_LINE_MM;
    layout->upright_mm = area->y_mm + top - 0.3 * QLL_PLOT_LETTERS_MM;
    top += plot->upright_count > 0 ? 0.5 : 0;
    layout->strips_mm = area->y_mm + top + 0.5;
    top += (double)plot->strip_count * QLL_PLOT_LINE_MM + (plot->strip_count > 0 ? 2.2 : 0);
    top = fmax(top, QLL_PLOT_LINE_MM / 2);
    double below = QLL_PLOT_TICK_MM + QLL_PLOT_LINE_MM;
    if (plot->x.names != NULL) {
        lay_out_names(layout);
        below = 2 * QLL_PLOT_TICK_MM + layout->name_rows_mm[0]
                + (layout->name_rows > 1 ? layout->name_rows_mm[1] : 0);
    }
    bool has_title = plot->x.title[0] != '\0' || plot->x.unit[0] != '\0';
    below += has_title ? QLL_PLOT_LINE_MM + 0.5 : 0;
    layout->frame.y_mm = area->y_mm + top;
    layout->frame.height_mm = area->height_mm - top - below;
    make_scale(&layout->y, &plot->y, layout->frame.height_mm, 8);
}

void qll_layout_make(qll_layout *layout)
{
    /* A first guess of the height decides how many ticks there are, and so how wide their numbers; the height
     * that is left in the end may ask for others. */
    make_scale(&layout->y, &layout->plot->y, layout->area.height_mm * 0.7, 8);
    double number_mm = widest_number_mm(layout, &layout->y);
    layout->title_lines = 1;
    lay_out(layout, number_mm);
    size_t lines = title_lines(layout);
    double needed_mm = widest_number_mm(layout, &layout->y);
    if (needed_mm > number_mm || lines > 1) {
        layout->title_lines = lines;
        lay_out(layout, fmax(needed_mm, number_mm));
    }
}
