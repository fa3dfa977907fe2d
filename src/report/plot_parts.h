/* What the files that draw plots share. */
#ifndef QUELL_REPORT_PLOT_PARTS_H
#define QUELL_REPORT_PLOT_PARTS_H

#include "report/lettering.h"
#include "report/plot.h"

/* Sizes on paper, mm. */
#define QLL_PLOT_LETTERS_MM QLL_LETTERS_LEAST_MM
#define QLL_PLOT_LINE_MM    (QLL_PLOT_LETTERS_MM * 1.25)
#define QLL_PLOT_TICK_MM    1.2
#define QLL_PLOT_THIN_MM    0.13
#define QLL_PLOT_FRAME_MM   0.25

#define QLL_PLOT_TICKS_MOST 64

/** An axis with its ticks, in the shown unit. */
typedef struct qll_scale {
    const qll_axis *axis;
    double from, to; /* at the ends of the frame, shown */
    double ticks[QLL_PLOT_TICKS_MOST];
    size_t tick_count;
    int decimals;
} qll_scale;

/** How far along the scale a shown value stands: 0 at its low end, 1 at its high. */
double qll_scale_share(const qll_scale *scale, double shown);

/** A plot laid out. */
typedef struct qll_layout {
    qll_canvas *canvas;
    const qll_plot *plot;
    qll_box area;
    qll_box frame;
    qll_scale x, y;
    double strips_mm;       /* top of the first strip */
    double legend_mm;       /* top of the legend */
    double upright_mm;      /* base line of the lowest row of labels above the frame */
    size_t title_lines;     /* of the title beside the frame */
    size_t name_rows;       /* in how many rows names stand below the frame by turns: 1 or 2 */
    double name_room_mm;    /* the width of a name */
    double name_rows_mm[2]; /* the heights of the rows */
} qll_layout;

/** Where a figure (SI) stands, mm; NaN if the axis has no such place. */
double qll_layout_x_mm(const qll_layout *layout, double si);
double qll_layout_y_mm(const qll_layout *layout, double si);

/** What stands at an axis, with its unit. */
qll_text qll_layout_title(const qll_layout *layout, const qll_axis *axis);

void qll_layout_make(qll_layout *layout);

/** Legend entries take this much room: their rows times the line height. With @p draw, draws them. */
double qll_legend(const qll_layout *layout, bool draw);

/** Guides' labels outside the frame. */
void qll_plot_levels(const qll_layout *layout);
void qll_plot_uprights(const qll_layout *layout, bool lines, bool labels);
size_t qll_plot_upright_rows(const qll_layout *layout);

/** The parts inside the frame, in drawing order. */
void qll_plot_cells(const qll_layout *layout);
void qll_plot_discs(const qll_layout *layout);
void qll_plot_ranges(const qll_layout *layout);
void qll_plot_bands(const qll_layout *layout);
void qll_plot_strips(const qll_layout *layout);
void qll_plot_curves(const qll_layout *layout);

/** What a page needs to read the plot, onto its canvas. */
void qll_plot_frame(const qll_layout *layout);

void qll_fill_box(qll_canvas *canvas, qll_box box, qll_fill fill);
void qll_marker_draw(qll_canvas *canvas, qll_xy at, const qll_look *look);

#endif
