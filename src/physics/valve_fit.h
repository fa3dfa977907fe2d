/* From published capacity points to a valve's opening law. docs/theory/fit.md. */
#ifndef QUELL_PHYSICS_VALVE_FIT_H
#define QUELL_PHYSICS_VALVE_FIT_H

#include "physics/valve.h"

/** What a data sheet's capacity table says in one row. */
typedef struct qll_capacity_point {
    double inlet_pa_gauge, set_pa_gauge;
    double flow_m3s;
    double falloff_pa; /* set-point less outlet at that flow */
} qll_capacity_point;

/* Readings that differ by no more than this agree (our assumption: what a printed curve is read to). */
#define QLL_FIT_AGREE 0.05

typedef enum qll_fit_fault {
    QLL_FIT_SOUND,
    QLL_FIT_TOO_FEW,       /* fewer than two points */
    QLL_FIT_IMPOSSIBLE,    /* point first: a flow or fall-off not above 0, an outlet not between */
    QLL_FIT_CONTRADICTION, /* point second passes less at a greater fall-off than point first */
    QLL_FIT_ABOVE_FULL,    /* point first passes more than the full Kv that was given */
} qll_fit_fault;

typedef struct qll_fit_row {
    double kv_m3h;          /* measured: flow at a drop of 1 bar and this opening */
    double fitted_flow_m3s; /* by the straight law */
    double residual_share;  /* fitted over measured flow, less 1 */
} qll_fit_row;

typedef struct qll_valve_fit {
    qll_fit_fault fault;
    size_t first, second;   /* of the fault, indices of points */
    double kv_m3h, band_pa; /* the straight law Kv = kv min(1, fall-off/band) */
    bool full_travel_seen;  /* a point lies beyond full travel, or full Kv was given */
    double rms_share, worst_share;
    const qll_fit_row *rows; /* [point], in the order given */
    const qll_point *law; /* x = fall-off Pa, y = measured Kv m3/h, both rising strictly: the points
                                themselves, those that agree put together */
    size_t law_count;
} qll_valve_fit;

/** Flow of Kv at the pressures of a data sheet, m3/s, exactly as the opening law reads it. */
double qll_sheet_flow_m3s(double kv_m3h, double inlet_pa_gauge, double outlet_pa_gauge, double fl);

/**
 * Fits the straight law by least squares of the shares by which its flows miss, exactly: every
 * division of the points into throttling and fully open is tried.
 *
 * @param kv_m3h full Kv where the sheet gives it; NaN: fitted
 * @param fl     pressure recovery, by which a choked point is known
 * @return QLL_OK (see fault) or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_valve_fit_make(const qll_capacity_point *points, size_t count,
                                           double kv_m3h, double fl, qll_arena *arena,
                                           qll_valve_fit *fit);

#endif
