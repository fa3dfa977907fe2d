/* Reducing valves side by side, with the water around them in lumps: a pipe before and behind, and what
 * the nodes hold. docs/theory/valve_motion.md, 10 to 12. Pressures absolute. */
#ifndef QUELL_DYNAMICS_LUMPED_H
#define QUELL_DYNAMICS_LUMPED_H

#include "dynamics/regulator.h"
#include "numeric/rosenbrock.h"

/** Water that moves as one plug; no inertance = no pipe. */
typedef struct qll_plug {
    double inertance_kg_m4;
    double resistance_pa_s_m3;
} qll_plug;

typedef struct qll_around {
    double supply_pa;
    qll_plug before, behind;
    double before_m3_pa;      /* what the inlet's node gives; over 0 with a pipe before it */
    double behind_m3_pa;      /* the outlet's node; over 0 */
    double far_m3_pa;         /* the taps' node; over 0 with a pipe behind the valves */
    double air_m3, air_at_pa; /* at the outlet's node, and the pressure at which it was measured */
    double barometric_pa;
} qll_around;

/** One pipe as it is lumped. */
typedef struct qll_lumped_pipe {
    double length_m, bore_m, wave_speed_m_s;
    double loss; /* of a wave that went there and back, 0 to below 1 */
} qll_lumped_pipe;

/** (12): the plug; half of *holds_m3_pa belongs to each end. */
qll_plug qll_lumped_pipe_plug(const qll_lumped_pipe *pipe, double density_kg_m3,
                              double *holds_m3_pa);

/** Where the values of a state stand. Lift and second value of valve j are 2 j and 2 j + 1. */
typedef struct qll_lumped_places {
    size_t outlet, flow_out, far, inlet, flow_in, taps;
    size_t count;
} qll_lumped_places;

typedef struct qll_lumped {
    const qll_regulator *valves;
    qll_regulator_mode *modes; /* one per valve */
    size_t valve_count;
    qll_around around;
    qll_lumped_places at;
    double taps_rate; /* of the taps' opening, m3/(s Pa^1/2) per s */
} qll_lumped;

/**
 * @param lumped points at @p valves; its modes live in @p arena
 * @return QLL_REFUSED without a valve, or where what surrounds it makes no sense; QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_lumped_make(const qll_regulator *valves, size_t valve_count,
                                        const qll_around *around, qll_arena *arena,
                                        qll_lumped *lumped);

static inline bool qll_lumped_has_before(const qll_lumped *lumped)
{
    return lumped->around.before.inertance_kg_m4 > 0;
}

static inline bool qll_lumped_has_behind(const qll_lumped *lumped)
{
    return lumped->around.behind.inertance_kg_m4 > 0;
}

/** Valve @p j between its pressures. */
qll_regulator_place qll_lumped_place(const qll_lumped *lumped, const double *values, size_t j);

/** Rates and slopes of a whole state, for qll_rates; the context is a qll_lumped. */
void qll_lumped_rates(const void *lumped, const double *values, double *rates);
void qll_lumped_slopes(const void *lumped, const double *values, double *slopes);

/**
 * The state at rest, without friction, while the taps draw @p flow_m3s, and the modes that hold there: free.
 *
 * @return false where the valves cannot pass it, or nothing is left to push it out of the taps
 */
bool qll_lumped_rest(qll_lumped *lumped, double flow_m3s, double *values);

#endif
