/* A station as a drawing: stages from left to right, branches one above the other. */
#ifndef QUELL_REPORT_DIAGRAM_H
#define QUELL_REPORT_DIAGRAM_H

#include "report/figures_of.h"

typedef struct qll_diagram {
    const qll_station *station;
    const qll_branch_sizes *const
        *sizes;      /* [stage][branch] where it is to be put in: reducers, test cocks and the
                                           * hose valve are drawn too; NULL = it is there */
    bool has_relief; /* behind the station */
} qll_diagram;

/**
 * Draws any number of stages and branches into the figure's area: pipes, isolating valves, strainers,
 * unions, reducing valves and gauges, what else is put in, each with the letters of the sheets, each valve with
 * its id, size and set-point, and two lines that explain the symbols.
 *
 * The symbols are our own drawings in the spirit of ISO 14617 and ISO 6412 (from memory). What does not
 * fit is drawn smaller; words keep to their boxes and are shortened at 5 point.
 */
void qll_diagram_draw(const qll_figure *figure, const qll_diagram *diagram);

#endif
