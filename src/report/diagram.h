/* A station as a drawing: stages from left to right, branches one above the other. */
#ifndef QUELL_REPORT_DIAGRAM_H
#define QUELL_REPORT_DIAGRAM_H

#include "report/figures_of.h"

typedef struct qll_diagram {
    const qll_station *station;
    bool has_bypass;        /* drawn shut, round the whole station */
    const char *inlet_says; /* over the pipe that comes in, "132 psi at night"; NULL = where from */
    const char *outlet_says;
} qll_diagram;

/**
 * Draws any number of stages and branches into the figure's area: pipes, isolating valves, strainers,
 * unions, reducing valves and gauges, each valve with its name, id, size and set-point, and a line that
 * explains the symbols.
 *
 * The symbols are our own drawings in the spirit of ISO 14617 and ISO 6412 (from memory). What does not
 * fit is drawn smaller; words keep to their boxes and are shortened at 5 point.
 */
void qll_diagram_draw(const qll_figure *figure, const qll_diagram *diagram);

#endif
