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

/** What stands out about a branch, the gravest first: qll_branch_trouble() of station/trouble.h. */
typedef enum qll_trouble {
    QLL_TROUBLE_NONE,
    QLL_TROUBLE_TOO_FAST,  /* above QLL_SPEED_MOST_M_S in its own size */
    QLL_TROUBLE_SEAT,      /* cavitation that damages, or choked */
    QLL_TROUBLE_LOW_FLOW,  /* in charge and below the least stable flow */
    QLL_TROUBLE_AUDIBLE,   /* cavitation that is heard */
    QLL_TROUBLE_FAST,      /* above the velocity band */
    QLL_TROUBLE_WIDE_OPEN, /* in charge and at full travel */
    QLL_TROUBLE_COUNT
} qll_trouble;

/** A solved stage as a whole. Ratios and indices are those of its own pressures, what strainers and
 * reducers take included; NaN where it cannot pass the flow. */
typedef struct qll_stage_state {
    double ratio_gauge, ratio_absolute; /* qll_gauge_ratio(), qll_absolute_ratio() */
    double xf, sigma;                   /* qll_xf(), qll_sigma() */
    qll_regime regime;                  /* of its worst valve that works */
    size_t in_charge;                   /* the branch that passes most of the water */
    size_t working_count;               /* branches that pass water */
} qll_stage_state;

typedef struct qll_operating_point {
    double flow_m3s;
    double inlet_pa;  /* absolute, of the first stage */
    double outlet_pa; /* absolute, of the last stage; NaN if it cannot pass the flow */
    double *stage_inlet_pa, *stage_outlet_pa; /* [stage], absolute */
    qll_stage_state *stages;                  /* [stage] */
    double ratio_gauge;                       /* the greatest of any stage; NaN if none has one */
    double fastest_m_s;                       /* in any valve's own size; 0 if none works */
    qll_trouble trouble;                      /* the gravest of any valve */
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

#endif
