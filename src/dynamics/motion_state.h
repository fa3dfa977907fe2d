/* What a run of valves shows: still, or swinging, and how. docs/theory/valve_motion.md. */
#ifndef QUELL_DYNAMICS_MOTION_STATE_H
#define QUELL_DYNAMICS_MOTION_STATE_H

#include "dynamics/lumped_run.h"

typedef enum qll_motion_state {
    QLL_MOTION_STATE_STABLE, /* no swing that lasts */
    QLL_MOTION_STATE_HUNTING,
    QLL_MOTION_STATE_CHATTERING,
    QLL_MOTION_STATE_SLAMMING,
    QLL_MOTION_STATE_COUNT
} qll_motion_state;

extern const char *const qll_motion_state_words[QLL_MOTION_STATE_COUNT];

/** What is asked of valves that rest, when the taps then close or open a little. */
typedef struct qll_motion_event {
    double flow_before_m3s, flow_m3s; /* drawn at rest, before and after */
    double taps_s;                    /* that the taps take for it; 0 = at once */
    double duration_s;                /* of the run */
    double watched_s;                 /* its last part, from which the state is read */
    double tolerance;                 /* of a step; 1e-4 tells swings to a part in 10,000 */
} qll_motion_event;

typedef struct qll_motion_found {
    qll_motion_state state;
    bool is_felt;                       /* it swings so much that stability.md calls it chatter */
    double swing;                       /* half of it at the outlet, over the highest set-point */
    double frequency_hz;                /* 0 where it does not swing twice */
    double least_pa, most_pa;           /* at the outlet, in the last part */
    double least_ever_pa, most_ever_pa; /* in the whole run */
    double blow_m_s;                    /* fastest meeting of seat or stop in the last part */
    size_t blows;                       /* of a seat in it */
    qll_run_count count;
} qll_motion_found;

/** What an outlet shows in samples of one interval. */
typedef struct qll_motion_samples {
    const double *pressure_pa;
    size_t count; /* at least 1 */
    double every_s;
    double set_pa_gauge; /* the highest set-point, what swings are held against */
    size_t blows;        /* of a seat meanwhile */
} qll_motion_samples;

/** Reads state, swing and frequency off samples; the least and most of them go to @p found too. */
void qll_motion_judge(const qll_motion_samples *samples, qll_motion_found *found);

/**
 * Rests the valves at the first flow, lets the event happen and reads the state.
 *
 * @return QLL_REFUSED where they cannot rest at a flow or times make no sense; QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_motion_run(qll_lumped *lumped, const qll_motion_event *event,
                                       qll_arena *arena, qll_motion_found *found);

#endif
