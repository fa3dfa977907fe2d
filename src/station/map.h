/* Where each valve is in trouble: its inlet pressures against the station's flows, cell by cell.
 * docs/theory/map.md. */
#ifndef QUELL_STATION_MAP_H
#define QUELL_STATION_MAP_H

#include "station/verdict.h"

#define QLL_MAP_INLETS 16
#define QLL_MAP_FLOWS  24

typedef struct qll_map_cell {
    bool passes;  /* the stage can pass the flow at this inlet */
    bool working; /* this valve passes some of it */
    qll_grade grade;
    qll_regime regime;
    double time_share; /* of all time, nearest cell of every class of the duty */
} qll_map_cell;

typedef struct qll_map {
    size_t stage, branch;
    size_t inlet_count,
        flow_count; /* at most QLL_MAP_INLETS, QLL_MAP_FLOWS; 1 if there is no range */
    const double *inlet_pa_gauge; /* of the stage, rising evenly */
    const double *flow_m3s;       /* of the station, rising evenly in the logarithm */
    const qll_map_cell *cells;    /* [inlet * flow_count + flow] */
} qll_map;

/**
 * One map per valve, in the order of stages and branches. The time shares of a map sum to the share
 * of time with flow.
 *
 * @param maps and all it points at lives in @p arena
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_maps_make(const qll_station *station, const qll_site *site,
                                      const qll_duty *duty, qll_arena *arena, const qll_map **maps,
                                      size_t *count);

#endif
