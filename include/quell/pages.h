/* Pages as lists of what is on them, in millimetres; they know no file format. x runs to the right and y down from the
 * upper left corner of the page. Whoever has them can put them on paper, on a screen or into a file. */
#ifndef QUELL_PAGES_H
#define QUELL_PAGES_H

#include "quell/api.h"
#include "quell/arena.h"
#include "quell/text.h"

QLL_C_BEGIN

/* The typographic point of printing programs, 1/72 in. */
#define QLL_POINT_MM (25.4 / 72.0)

typedef enum qll_weight {
    QLL_WEIGHT_REGULAR,
    QLL_WEIGHT_BOLD,
    QLL_WEIGHT_COUNT
} qll_weight;

typedef struct qll_xy {
    double x_mm, y_mm;
} qll_xy;

typedef struct qll_box {
    double x_mm, y_mm, width_mm, height_mm;
} qll_box;

/** Shares from 0 to 1. */
typedef struct qll_colour {
    double red, green, blue;
} qll_colour;

/** How a line is broken up; what tells curves apart without colour. */
typedef enum qll_dash {
    QLL_DASH_SOLID,
    QLL_DASH_LONG,
    QLL_DASH_SHORT,
    QLL_DASH_DOTTED,
    QLL_DASH_DOT_DASH,
    QLL_DASH_COUNT
} qll_dash;

/** Lengths of dash and gap in turn, mm; @p count is 0 for a solid line. */
QLL_API const double *qll_dash_lengths_mm(qll_dash dash, size_t *count);

typedef struct qll_pen {
    double width_mm; /* 0 = no line */
    qll_dash dash;
    qll_colour colour;
} qll_pen;

/** A shape is stroked, filled or both. */
typedef struct qll_paint {
    qll_pen pen;
    qll_colour fill;
    bool is_filled;
} qll_paint;

typedef enum qll_anchor {
    QLL_ANCHOR_START,
    QLL_ANCHOR_MIDDLE,
    QLL_ANCHOR_END,
} qll_anchor;

typedef struct qll_letters {
    double size_mm; /* of the em; QLL_POINT_MM * 9 is 9 point */
    qll_weight weight;
    qll_anchor anchor;
    qll_colour colour;
    double turned_deg; /* anticlockwise about the spot; 90 reads from below */
} qll_letters;

/**
 * X(NAME): what a part of the page is, for those who do not see it: tags of a PDF, elements of a page.
 *
 * A table holds rows, a row cells; a list holds items. A decoration is a part that says nothing: rules,
 * page numbers.
 */
/* clang-format off */
#define QLL_MARK_LIST(X)                                                                           \
    X(HEADING) X(PARAGRAPH) X(LIST) X(LIST_ITEM) X(TABLE) X(ROW) X(HEAD_CELL) X(CELL) X(FIGURE)     \
    X(LINK) X(DECORATION)

/* clang-format on */

typedef enum qll_mark_kind {
#define QLL_MARK_NAME(name) QLL_MARK_##name,
    QLL_MARK_LIST(QLL_MARK_NAME)
#undef QLL_MARK_NAME
    QLL_MARK_COUNT
} qll_mark_kind;

typedef struct qll_mark {
    qll_mark_kind kind;
    int level;        /* of a heading, 1 to 6; it becomes an entry of the outline */
    const char *text; /* a heading's entry in the outline; a figure's alternative text; a link's
                         target: "#name" of a place, or "https://..."; else NULL */
} qll_mark;

typedef enum qll_item_kind {
    QLL_ITEM_PATH,   /* points joined by straight lines */
    QLL_ITEM_CIRCLE, /* about points[0] */
    QLL_ITEM_TEXT,   /* from points[0], on the base line */
    QLL_ITEM_BEGIN,  /* of a mark */
    QLL_ITEM_END,    /* of the mark begun last */
    QLL_ITEM_PLACE,  /* points[0] is where links to #text lead */
    QLL_ITEM_PAGE,   /* what follows is on the next page */
} qll_item_kind;

typedef struct qll_item {
    qll_item_kind kind;
    bool is_closed;       /* path */
    const qll_xy *points; /* in the canvas's arena */
    size_t point_count;
    double radius_mm;
    qll_paint paint;
    qll_text text;   /* clean: see qll_text_clean() */
    double width_mm; /* of the text, which no back end may exceed */
    qll_letters letters;
    qll_mark mark; /* its text is clean; "" rather than NULL */
} qll_item;

/** Grows in an arena. What finds no room there is left out; the arena counts it. */
typedef struct qll_canvas {
    qll_arena *arena;
    double width_mm, height_mm; /* of every page */
    qll_item *items;
    size_t count, room;
    size_t page_count; /* at least 1 */
    size_t open_marks;
    const struct qll_drawn_frame *frame; /* of the plot drawn last; NULL = none */
} qll_canvas;

/** The first item of @p page (from 0) and, one further, its end; the page items are in neither. */
QLL_API void qll_canvas_page_items(const qll_canvas *canvas, size_t page, size_t *first,
                                   size_t *end);

QLL_C_END

#endif
