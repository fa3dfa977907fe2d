/* What the design peaks say of a pair before it is solved: docs/theory/search.md, 3. */
#ifndef QUELL_SEARCH_FORETOLD_H
#define QUELL_SEARCH_FORETOLD_H

#include "search/searching.h"

/* What speeds are judged by, with the last bits. */
#define QLL_FASTEST_M_S (QLL_SPEED_MOST_M_S * (1.0 + QLL_PRACTICE_SLACK) * (1.0 + 1e-9))

/** A part at a set-point in a place. */
typedef struct qll_placed {
    const qll_stage_place *place;
    const qll_part *part;
    double set_pa_gauge;
} qll_placed;

/** The most that drives the water through a part behind an inlet. */
double qll_part_choked_pa(const qll_searching *searching, const qll_part *part, double inlet_pa);

/** What it passes behind one inlet at an outlet, by itself or beside others. */
double qll_placed_m3s(const qll_searching *searching, const qll_placed *of, double inlet_pa,
                      double outlet_pa);

/** Outlet below which it runs faster than 15 ft/s behind an inlet while the stage passes @p flow_m3s; -INFINITY = at none
 * it can come to. */
double qll_placed_fast_pa(const qll_searching *searching, const qll_placed *of, double inlet_pa,
                          double flow_m3s);

/** Outlet above which it passes less than @p flow_m3s behind an inlet; -INFINITY = it passes less at any. */
double qll_placed_reach_pa(const qll_searching *searching, const qll_placed *of, double inlet_pa,
                           double flow_m3s);

/**
 * What survives of the design peaks at most of a stage of valves of this area together, none of which runs faster than
 * 15 ft/s: their wear, at least as much as at the mean velocity.
 */
double qll_peaks_floor(const qll_searching *searching, double area_m2);

#endif
