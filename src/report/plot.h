/* A plot: axes, and what is drawn between them. Figures are SI; the axes say what is shown. */
#ifndef QUELL_REPORT_PLOT_H
#define QUELL_REPORT_PLOT_H

#include "base/units.h"
#include "report/canvas.h"

typedef struct qll_axis {
    const char *title; /* "flow"; "" if none */
    const char *unit;  /* "gpm"; "" if none */
    double per_si;     /* shown = SI times this */
    double low, high;  /* SI, to be covered; over 0 if is_log */
    bool is_log;
    bool is_tight; /* ends at low and high, not at the round numbers around them */
    bool is_day;   /* SI is days since 1970, and so is what is shown: written as years and months */
    const double
        *at; /* ticks here (SI, rising, at least 2) and nowhere else; NULL = round numbers */
    size_t at_count;
    const char *const *names; /* below the whole numbers from 0, instead of figures; NULL */
    size_t name_count;
} qll_axis;

/** An axis of a kind of quantity in the customary unit of @p units. Not for temperatures. */
qll_axis qll_axis_of(const char *title, qll_kind kind, qll_unit_system units, double low_si,
                     double high_si);

typedef enum qll_marker {
    QLL_MARKER_NONE,
    QLL_MARKER_CIRCLE,
    QLL_MARKER_SQUARE,
    QLL_MARKER_TRIANGLE,
    QLL_MARKER_DIAMOND,
    QLL_MARKER_CROSS,
    QLL_MARKER_COUNT
} qll_marker;

/** How a curve differs from others: dash and marker on any printer, colour where there is one. */
typedef struct qll_look {
    qll_dash dash;
    qll_marker marker;
    qll_colour colour;
} qll_look;

/** The look of the curve numbered @p index; the first of all is a plain black line. */
qll_look qll_look_of(size_t index);

typedef struct qll_curve_drawn {
    const char *name;    /* in the legend; "" = not there */
    const char *tag;     /* at most 3 letters in a bubble at its last point; "" = none */
    const double *x, *y; /* [count], SI; a y that is not a number breaks the line */
    size_t count;
    qll_look look;
    double width_mm; /* 0 = markers alone, one at every point */
    bool is_strong;  /* its bubble is black */
} qll_curve_drawn;

/** A straight line over the whole plot, with its label outside. */
typedef struct qll_guide {
    const char *label;
    double at; /* SI */
} qll_guide;

/** A range along x that is shaded from bottom to top. */
typedef struct qll_range_drawn {
    const char *name; /* in the legend */
    double from, to;
} qll_range_drawn;

/** What lies between two lines over the same x, shaded. */
typedef struct qll_band_drawn {
    const double *x, *low, *high; /* [count], SI */
    size_t count;
} qll_band_drawn;

/** A row above the plot: over which x something is at work. */
typedef struct qll_strip {
    const char *name;
    const qll_range_drawn *ranges; /* their names are not shown */
    size_t range_count;
} qll_strip;

/** How an area is filled, from light to heavy. */
typedef enum qll_fill {
    QLL_FILL_NONE,
    QLL_FILL_WHITE,
    QLL_FILL_LIGHT,
    QLL_FILL_STRIPED,
    QLL_FILL_CROSSED,
    QLL_FILL_SOLID,
    QLL_FILL_COUNT
} qll_fill;

typedef struct qll_cell_drawn {
    double x_low, x_high, y_low, y_high; /* SI */
    qll_fill fill;
    double share; /* drawn as a disc whose area is this share of the largest; 0 = none */
} qll_cell_drawn;

typedef struct qll_plot {
    qll_axis x, y;
    const qll_curve_drawn *curves;
    size_t curve_count;
    const qll_guide *levels; /* across, at a y */
    size_t level_count;
    const qll_guide *uprights; /* up, at an x */
    size_t upright_count;
    const qll_range_drawn *ranges;
    size_t range_count;
    const qll_band_drawn *bands;
    size_t band_count;
    const qll_strip *strips;
    size_t strip_count;
    const qll_cell_drawn *cells;
    size_t cell_count;
    const char *fill_names[QLL_FILL_COUNT]; /* in the legend; NULL = not there */
    const char *disc_name;                  /* in the legend, if cells have shares; NULL */
    bool cells_have_edges;
    double legend_width_mm; /* of the legend, from the area's left; 0 = the area's */
} qll_plot;

/** The height of the legend of @p plot in @p area. */
double qll_plot_legend_mm(qll_canvas *canvas, qll_box area, const qll_plot *plot);

/** Draws @p plot within @p area, which should be at least 60 by 45 mm. Nothing leaves the area. */
void qll_plot_draw(qll_canvas *canvas, qll_box area, const qll_plot *plot);

#endif
