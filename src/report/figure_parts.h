/* What the files that make figures share. */
#ifndef QUELL_REPORT_FIGURE_PARTS_H
#define QUELL_REPORT_FIGURE_PARTS_H

#include "report/figures.h"

/* Widths of curves, mm. */
#define QLL_HEAVY_MM  0.6
#define QLL_NORMAL_MM 0.4

const char *qll_figure_word(const qll_figure *figure, qll_message which);

/** Memory of the figure's canvas, which remembers when there is none. */
void *qll_figure_take(const qll_figure *figure, size_t count, size_t size);

/** "design peak 83 gpm"; the word alone where the value is no number. */
const char *qll_figure_value(const qll_figure *figure, qll_message message, double si,
                             qll_kind kind);
qll_guide qll_figure_peak(const qll_figure *figure, double peak_m3s);

/** Least and greatest of the numbers seen. */
typedef struct qll_extent {
    double low, high;
} qll_extent;

qll_extent qll_extent_of(double low, double high);
void qll_extent_see(qll_extent *seen, double value);
void qll_extent_see_all(qll_extent *seen, const double *values, size_t count);
void qll_extent_see_guides(qll_extent *seen, const qll_guide *guides, size_t count);

qll_axis qll_figure_axis(const char *title, const char *unit, double per_si, qll_extent seen);

/** A curve without a bubble. */
qll_curve_drawn qll_curve_of(const char *name, const double *x, const double *y, size_t count,
                             qll_look look, double width_mm);

#endif
