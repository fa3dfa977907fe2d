#include "report/listen_figures.h"

#include "base/count.h"
#include "report/figure_parts.h"

#include <math.h>

#define QLL_WIDE_MM       174.0
#define QLL_HIGH_MM       80.0
#define QLL_HALF_HIGH_MM  58.0 /* of two plots, one under the other */
#define QLL_LEVELS_SHOWN  60.0 /* dB */
#define QLL_COLUMNS_SHOWN 80   /* of the bands over time */
#define QLL_THIRDS        ((size_t)QLL_SOUND_BANDS / 2)

static const double octaves_hz[] = {125, 250, 500, 1000, 2000, 4000, 8000};

/* A figure on a canvas of its own; its canvas is NULL without memory. */
static qll_figure begin(qll_sheet *sheet)
{
    qll_canvas *canvas = qll_arena_take(sheet->arena, 1, sizeof *canvas);
    if (canvas != NULL) {
        *canvas = qll_canvas_new(QLL_WIDE_MM, QLL_HIGH_MM, sheet->arena);
    }
    return (qll_figure){.canvas = canvas,
                        .area = {0, 0, QLL_WIDE_MM, QLL_HIGH_MM},
                        .units = sheet->units,
                        .language = sheet->language};
}

static void end(qll_sheet *sheet, const qll_figure *figure, const char *id, qll_message title,
                qll_message description)
{
    const qll_figure_block block = {.canvas = figure->canvas,
                                    .id = id,
                                    .title = qll_say(figure->language, title),
                                    .description = qll_say(figure->language, description)};
    qll_sheet_figure(sheet, &block);
}

static qll_axis frequency_axis(const qll_figure *figure, qll_extent seen)
{
    qll_axis axis = qll_figure_axis(qll_figure_word(figure, QLL_SAYS_FIGURE_PITCH), "Hz", 1, seen);
    axis.is_log = true;
    axis.at = octaves_hz;
    axis.at_count = QLL_COUNT(octaves_hz);
    return axis;
}

static void draw_spectrum(qll_sheet *sheet, const qll_listen_findings *findings)
{
    const qll_figure figure = begin(sheet);
    double *middles_hz = qll_arena_take(sheet->arena, QLL_SOUND_BANDS, sizeof *middles_hz);
    if (figure.canvas == NULL || middles_hz == NULL) {
        return;
    }
    const double *edge_hz = findings->result->edge_hz;
    qll_extent levels = qll_extent_of(0, 0);
    size_t count = 0;
    for (; count < QLL_SOUND_BANDS && isfinite(findings->level_db[count]); count++) {
        middles_hz[count] = sqrt(edge_hz[count] * edge_hz[count + 1]);
        levels = count == 0 ? qll_extent_of(findings->level_db[0], findings->level_db[0]) : levels;
        qll_extent_see(&levels, findings->level_db[count]);
    }
    levels.low = fmax(levels.low, levels.high - QLL_LEVELS_SHOWN);
    const qll_curve_drawn curves[] = {
        qll_curve_of(qll_figure_word(&figure, QLL_SAYS_FIGURE_RECORDED), middles_hz,
                     findings->level_db, count, qll_look_of(0), QLL_HEAVY_MM),
        qll_curve_of(qll_figure_word(&figure, QLL_SAYS_FIGURE_QUIET), middles_hz,
                     findings->quiet_level_db, count, qll_look_of(1), QLL_NORMAL_MM),
    };
    const qll_plot plot = {
        .x = frequency_axis(&figure, qll_extent_of(edge_hz[0], edge_hz[QLL_SOUND_BANDS])),
        .y = qll_figure_axis(qll_figure_word(&figure, QLL_SAYS_FIGURE_UNDER_FULL), "dB", 1, levels),
        .curves = curves,
        .curve_count = findings->quiet_level_db == NULL ? 1 : 2,
    };
    if (count > 1) {
        qll_plot_draw(figure.canvas, figure.area, &plot);
        end(sheet, &figure, "recording-spectrum", QLL_SAYS_LISTEN_SPECTRUM,
            QLL_SAYS_SHOWS_LISTEN_SPECTRUM);
    }
}

/* ---- bands over time ---- */

/* Mean power of two sixths of an octave over some rows, dB. */
static double level_of(const qll_listen_findings *findings, size_t from, size_t to, size_t third)
{
    double power = 0.0;
    for (size_t i = from; i < to; i++) {
        power += pow(10.0, 0.1 * findings->gram_db[i][2 * third])
                 + pow(10.0, 0.1 * findings->gram_db[i][2 * third + 1]);
    }
    return 10.0 * log10(power / (double)(to - from));
}

static qll_fill fill_of(double under_db)
{
    static const qll_fill fills[] = {QLL_FILL_SOLID, QLL_FILL_STRIPED, QLL_FILL_LIGHT};
    for (size_t i = 0; i < QLL_COUNT(fills); i++) {
        if (under_db <= 15.0 * (double)(i + 1)) {
            return fills[i];
        }
    }
    return QLL_FILL_WHITE;
}

static size_t fill_cells(const qll_listen_findings *findings, size_t columns, qll_cell_drawn *cells)
{
    const qll_sound_result *result = findings->result;
    const size_t rows = result->gram.row_count;
    double most_db = -(double)INFINITY;
    size_t count = 0;
    for (size_t c = 0; c < columns; c++) {
        const size_t from = c * rows / columns, to = (c + 1) * rows / columns;
        for (size_t third = 0; third < QLL_THIRDS; third++) {
            const double level_db = level_of(findings, from, to, third);
            cells[count] = (qll_cell_drawn){.x_low = (double)from * result->gram.row_s,
                                            .x_high = (double)to * result->gram.row_s,
                                            .y_low = result->edge_hz[2 * third],
                                            .y_high = result->edge_hz[2 * third + 2],
                                            .share = level_db};
            most_db = isfinite(level_db) ? fmax(most_db, level_db) : most_db;
            count += isfinite(level_db) ? 1 : 0;
        }
    }
    for (size_t i = 0; i < count; i++) {
        cells[i].fill = fill_of(most_db - cells[i].share);
        cells[i].share = 0.0;
    }
    return count;
}

static void draw_spectrogram(qll_sheet *sheet, const qll_listen_findings *findings)
{
    const size_t rows = findings->result->gram.row_count;
    const size_t columns = rows < QLL_COLUMNS_SHOWN ? rows : QLL_COLUMNS_SHOWN;
    const qll_figure figure = begin(sheet);
    qll_cell_drawn *cells = qll_arena_take(sheet->arena, columns * QLL_THIRDS, sizeof *cells);
    if (figure.canvas == NULL || cells == NULL) {
        return;
    }
    const double *edge_hz = findings->result->edge_hz;
    const size_t count = fill_cells(findings, columns, cells);
    qll_plot plot = {
        .x = qll_figure_axis(qll_figure_word(&figure, QLL_SAYS_FIGURE_TIME), "s", 1,
                             qll_extent_of(0, findings->result->duration_s)),
        .y = frequency_axis(&figure, qll_extent_of(edge_hz[0], edge_hz[2 * QLL_THIRDS])),
        .cells = cells,
        .cell_count = count,
    };
    plot.fill_names[QLL_FILL_SOLID] = qll_figure_word(&figure, QLL_SAYS_FIGURE_LOUDEST);
    plot.fill_names[QLL_FILL_STRIPED] = qll_figure_word(&figure, QLL_SAYS_FIGURE_LOUD);
    plot.fill_names[QLL_FILL_LIGHT] = qll_figure_word(&figure, QLL_SAYS_FIGURE_LOW);
    plot.fill_names[QLL_FILL_WHITE] = qll_figure_word(&figure, QLL_SAYS_FIGURE_FAINT);
    if (count > 0) {
        qll_plot_draw(figure.canvas, figure.area, &plot);
        end(sheet, &figure, "recording-spectrogram", QLL_SAYS_LISTEN_SPECTROGRAM,
            QLL_SAYS_SHOWS_LISTEN_SPECTROGRAM);
    }
}

/* ---- the log beside it ---- */

static void see(qll_extent *seen, const double *values, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (isfinite(values[i])) {
            qll_extent_see(seen, values[i]);
        }
    }
}

static void draw_levels(const qll_figure *figure, const qll_beside_result *beside, qll_box area,
                        qll_axis time)
{
    const qll_curve_drawn curves[] = {
        qll_curve_of(qll_figure_word(figure, QLL_SAYS_BESIDE_LEVEL), beside->time_s,
                     beside->level_db, beside->column_count, qll_look_of(0), QLL_NORMAL_MM),
        qll_curve_of(qll_figure_word(figure, QLL_SAYS_BESIDE_HIGH), beside->time_s, beside->high_db,
                     beside->column_count, qll_look_of(1), QLL_NORMAL_MM),
    };
    qll_extent levels = qll_extent_of(beside->level_db[0], beside->level_db[0]);
    see(&levels, beside->level_db, beside->column_count);
    see(&levels, beside->high_db, beside->column_count);
    levels.low = fmax(levels.low, levels.high - QLL_LEVELS_SHOWN);
    const qll_plot plot = {
        .x = time,
        .y = qll_figure_axis(qll_figure_word(figure, QLL_SAYS_FIGURE_UNDER_FULL), "dB", 1, levels),
        .curves = curves,
        .curve_count = QLL_COUNT(curves),
    };
    qll_plot_draw(figure->canvas, area, &plot);
}

static void draw_pressures(const qll_figure *figure, const qll_beside_result *beside, qll_box area,
                           qll_axis time)
{
    static const qll_message names[] = {QLL_SAYS_CHANNEL_INLET, QLL_SAYS_CHANNEL_OUTLET};
    qll_curve_drawn curves[2];
    qll_extent seen = {(double)INFINITY, -(double)INFINITY};
    size_t count = 0;
    for (size_t c = QLL_CHANNEL_INLET; c <= QLL_CHANNEL_OUTLET; c++) {
        if (beside->pa[c] != NULL) {
            see(&seen, beside->pa[c], beside->column_count);
            curves[count] =
                qll_curve_of(qll_figure_word(figure, names[c]), beside->time_s, beside->pa[c],
                             beside->column_count, qll_look_of(count), QLL_NORMAL_MM);
            count += 1;
        }
    }
    if (!(seen.low <= seen.high)) {
        return;
    }
    const qll_plot plot = {
        .x = time,
        .y = qll_axis_of(qll_figure_word(figure, QLL_SAYS_HEAD_PRESSURE), QLL_KIND_PRESSURE,
                         figure->units, seen.low, seen.high),
        .curves = curves,
        .curve_count = count,
    };
    qll_plot_draw(figure->canvas, area, &plot);
}

void qll_listen_beside_figure(qll_sheet *sheet, const qll_listen_findings *findings)
{
    const qll_beside_result *beside = findings->beside->result;
    qll_canvas *canvas = qll_arena_take(sheet->arena, 1, sizeof *canvas);
    if (canvas == NULL || beside->column_count == 0) {
        return;
    }
    *canvas = qll_canvas_new(QLL_WIDE_MM, 2.0 * QLL_HALF_HIGH_MM, sheet->arena);
    const qll_figure figure = {.canvas = canvas,
                               .area = {0, 0, QLL_WIDE_MM, 2.0 * QLL_HALF_HIGH_MM},
                               .units = sheet->units,
                               .language = sheet->language};
    qll_axis time = qll_figure_axis(qll_figure_word(&figure, QLL_SAYS_FIGURE_TIME), "s", 1,
                                    qll_extent_of(0, findings->result->duration_s));
    time.is_tight = true;
    draw_levels(&figure, beside, (qll_box){0, 0, QLL_WIDE_MM, QLL_HALF_HIGH_MM}, time);
    draw_pressures(&figure, beside, (qll_box){0, QLL_HALF_HIGH_MM, QLL_WIDE_MM, QLL_HALF_HIGH_MM},
                   time);
    end(sheet, &figure, "recording-beside", QLL_SAYS_BESIDE_DRAWING, QLL_SAYS_SHOWS_BESIDE);
}

void qll_listen_figures(qll_sheet *sheet, const qll_listen_findings *findings)
{
    if (qll_has_part(findings->left_out, QLL_PART_SPECTRUM)) {
        draw_spectrum(sheet, findings);
    }
    if (qll_has_part(findings->left_out, QLL_PART_SPECTROGRAM)) {
        draw_spectrogram(sheet, findings);
    }
}
