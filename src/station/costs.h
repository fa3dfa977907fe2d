/* What a station costs to install, and what a callback costs: docs/theory/recommendation.md, 2. */
#ifndef QUELL_STATION_COSTS_H
#define QUELL_STATION_COSTS_H

#include "station/station.h"

/** Costs of one size, in the money of the catalogue. */
typedef struct qll_size_cost {
    double nominal_m;
    double branch; /* stops, strainer, unions, gauges, reducers and work round one valve */
    double beside; /* one more valve side by side in a pipe of this size: tees, bends and work */
    double direct, pilot; /* what a valve costs whose price is not known */
} qll_size_cost;

typedef struct qll_costs {
    double visit;               /* an unpaid trip back, before any part */
    double stage;               /* each further stage, besides its branches */
    const qll_size_cost *sizes; /* rising in size; at least one */
    size_t size_count;
} qll_costs;

/** Everything round a valve of @p nominal_m; between sizes by straight lines in the size, beyond the
 * ends the end's own. */
double qll_costs_branch(const qll_costs *costs, double nominal_m);

/** Price of @p valve: the catalogue's, or where it has none the estimate by size and kind. */
double qll_costs_valve(const qll_costs *costs, const qll_valve *valve);

/** Valve and everything round it. */
double qll_costs_part(const qll_costs *costs, const qll_valve *valve);

/** One more valve side by side in a pipe of @p pipe_m, interpolated as the branch is; of the smallest size
 * where the pipe is not known (NaN). */
double qll_costs_beside(const qll_costs *costs, double pipe_m);

/** The whole station in a pipe of @p pipe_m: its parts, each further valve of a stage, each further stage. */
double qll_costs_installed(const qll_costs *costs, const qll_station *station, double pipe_m);

/** Putting right once: the visit and the dearest of the station's valves with what is round it. */
double qll_costs_once(const qll_costs *costs, const qll_station *station);

/** What a callback costs in the mean where each comes with chance @p share: what is put in again is of
 * the same kind, and may bring somebody back again. docs/theory/recommendation.md, 2. */
static inline double qll_costs_callback(double once, double share)
{
    /* A hundred trips back are as bad as any number. */
    const double most_share = 0.99;
    return once / (1.0 - (share < most_share ? share : most_share));
}

/** Prices of the valves alone by the catalogue; NaN if one has none. */
double qll_costs_list_price(const qll_station *station);

#endif
