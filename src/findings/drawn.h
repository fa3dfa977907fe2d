/* Figures that stand inside an answer for machines: the drawing, and what a page needs to read it. */
#ifndef QUELL_FINDINGS_DRAWN_H
#define QUELL_FINDINGS_DRAWN_H

#include "base/text.h"

/** X(NAME, word): how the points of a series are drawn. */
#define QLL_SERIES_LIST(X)                                   \
    X(LINE, "line")       /* joined by straight lines */     \
    X(MARKS, "marks")     /* a mark each */                  \
    X(LEVEL, "level")     /* one y, across the plot */       \
    X(UPRIGHT, "upright") /* one x, up the plot */           \
    X(RANGE, "range")     /* from an x to another, shaded */ \
    X(STRIP, "strip")     /* rows above the plot: from and to, in pairs */

typedef enum qll_series_kind {
#define QLL_SERIES_NAME(name, word) QLL_SERIES_##name,
    QLL_SERIES_LIST(QLL_SERIES_NAME)
#undef QLL_SERIES_NAME
    QLL_SERIES_COUNT
} qll_series_kind;

/** What is drawn between the axes. A figure of a point that it does not have is not a number. */
typedef struct qll_drawn_series {
    const char *name;
    qll_series_kind kind;
    const double *x, *y; /* [count], SI */
    size_t count;
} qll_drawn_series;

/** Where an axis runs, and from which value to which. */
typedef struct qll_drawn_axis {
    const char *title, *unit; /* as they are written; "" if not */
    double per_si;            /* what is written is SI times this */
    double from, to;          /* SI, at from_px and to_px */
    double from_px, to_px;    /* of the drawing, from its upper left corner */
    bool is_log;
    bool is_day;              /* SI is days since 1970, written as a date */
    const char *const *names; /* at the whole numbers from 0, instead of figures; NULL */
    size_t name_count;
} qll_drawn_axis;

/** The plot of a figure. */
typedef struct qll_drawn_frame {
    qll_drawn_axis x, y;
    const qll_drawn_series *series;
    size_t series_count;
} qll_drawn_frame;

typedef struct qll_drawn_figure {
    const char *name; /* as it is asked for: "map-2" */
    const char *title, *description;
    qll_text svg;
    const qll_drawn_frame *frame; /* NULL for what has no axes */
} qll_drawn_figure;

/** Sheets inside an answer: one page, and what it takes to read its drawings, whose own svg is not said again. */
typedef struct qll_sheets_told {
    const char *html; /* NULL = not there */
    const qll_drawn_figure *drawn;
    size_t drawn_count;
} qll_sheets_told;

#endif
