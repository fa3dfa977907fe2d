/* A whole station at one operating point: its stages one after the other. */
#ifndef QUELL_STATION_OPERATE_H
#define QUELL_STATION_OPERATE_H

#include "station/balance.h"
#include "station/site.h"

/** Sound 1 m from the pipe, dB(A), by station/level.h; indicative. */
typedef struct qll_branch_level {
    double level_dba;         /* NaN: silent, or beyond the method */
    double low_dba, high_dba; /* as the onset of cavitation is off one way or the other */
    qll_noise_limit limit;    /* why there is no level; WITHIN also where nothing sounds */
} qll_branch_level;

typedef struct qll_operating_point {
    double flow_m3s;
    double inlet_pa;  /* absolute, of the first stage */
    double outlet_pa; /* absolute, of the last stage; NaN if it cannot pass the flow */
    double *stage_inlet_pa, *stage_outlet_pa; /* [stage], absolute */
    qll_branch_state *const *branches;        /* [stage][branch] */
    qll_branch_level *const *levels; /* the same, by qll_point_levels(); NULL in a search */
    qll_branch_level level;          /* of the whole station, likewise */
    bool passes;
} qll_operating_point;

/** The solvers of a station's stages, made once. Opaque. */
typedef struct qll_operator qll_operator;

/** Prepares @p station for @p site; lives in @p arena and points at the station. */
QLL_MUST_USE qll_status qll_operator_make(const qll_station *station, const qll_site *site,
                                          qll_arena *arena, qll_operator **made);

/** The solver of one stage. */
const qll_stage_solver *qll_operator_stage(const qll_operator *made, size_t stage);

/** Room for @p count points of @p station, to be filled by qll_operate(), as often as you like. */
QLL_MUST_USE qll_status qll_points_make(const qll_station *station, size_t count, qll_arena *arena,
                                        qll_operating_point **points);

/**
 * Fills @p points for absolute inlet pressures and flows (>= 0). Where a stage cannot pass the flow,
 * its outlet and all behind it are NaN, and the branches of these stages stand as not working.
 */
void qll_operate(const qll_operator *made, const double *inlet_pa, const double *flow_m3s,
                 size_t count, qll_operating_point *points);

/**
 * @p station with every set-point moved by @p bands hysteresis bands of its valve: what friction makes
 * of it, -1/2 while the flow rises, +1/2 while it falls. Lives in @p arena.
 */
QLL_MUST_USE qll_status qll_station_shift(const qll_station *station, double bands,
                                          qll_arena *arena, qll_station *shifted);

/** The branch that passes most of the water, the first of equals. */
size_t qll_in_charge(const qll_branch_state *branches, size_t count);

/** True if every branch is at full travel: the stage no longer regulates. */
bool qll_all_full(const qll_branch_state *branches, size_t count);

/**
 * Inlet over outlet of a stage in gauge pressures. An outlet below 1 kPa counts as 1 kPa, so that the
 * ratio stays a number.
 */
static inline double qll_gauge_ratio(double inlet_pa, double outlet_pa, double barometric_pa)
{
    double outlet_pa_gauge = outlet_pa - barometric_pa;
    return (inlet_pa - barometric_pa) / (outlet_pa_gauge > 1000.0 ? outlet_pa_gauge : 1000.0);
}

#endif
