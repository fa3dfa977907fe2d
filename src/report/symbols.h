/* Symbols of a piping drawing, on a horizontal pipe with water from left to right. */
#ifndef QUELL_REPORT_SYMBOLS_H
#define QUELL_REPORT_SYMBOLS_H

#include "report/canvas.h"

/** A place and a size to draw in: 1 is a reducing valve of 6 mm. */
typedef struct qll_sketch {
    qll_canvas *canvas;
    double scale;
} qll_sketch;

void qll_symbol_pipe(const qll_sketch *sketch, qll_xy from, qll_xy to);

/** Two triangles point to point with a handle. */
void qll_symbol_isolating(const qll_sketch *sketch, qll_xy at);

/** A leg at 45 degrees with its screen and cap. */
void qll_symbol_strainer(const qll_sketch *sketch, qll_xy at);

/** Two short bars. */
void qll_symbol_union(const qll_sketch *sketch, qll_xy at);
void qll_symbol_flange(const qll_sketch *sketch, qll_xy at);

/** Two triangles under a spring dome that senses the outlet; with a pilot beside it if @p has_pilot. */
void qll_symbol_reducing(const qll_sketch *sketch, qll_xy at, bool has_pilot);

/** A circle on a stem with its name, "P1". */
void qll_symbol_gauge(const qll_sketch *sketch, qll_xy at, const char *name);

/** A flat wedge, its broad end before or behind. */
void qll_symbol_reducer(const qll_sketch *sketch, qll_xy at, bool widens);

/* On a stem, with their name over them. */

/** A small bow tie, plugged. */
void qll_symbol_cock(const qll_sketch *sketch, qll_xy at, const char *name);

/** A bow tie with a hose end. */
void qll_symbol_hose_valve(const qll_sketch *sketch, qll_xy at, const char *name);

/** Two triangles at a right angle under a spring. */
void qll_symbol_relief(const qll_sketch *sketch, qll_xy at, const char *name);

/** An arrow head with its point at @p at. */
void qll_symbol_arrow(const qll_sketch *sketch, qll_xy at);

#endif
