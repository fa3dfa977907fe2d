/* Reducing valves and the water around them in time, from one event to the next. */
#ifndef QUELL_DYNAMICS_LUMPED_RUN_H
#define QUELL_DYNAMICS_LUMPED_RUN_H

#include "dynamics/lumped.h"

/** What happens: the taps move evenly from as they were to another opening. */
typedef struct qll_taps_move {
    double from_s, to_s;  /* to_s = from_s: at once */
    double opening_after; /* flow per root of pressure, m3/(s Pa^1/2) */
} qll_taps_move;

/** A state on its way: called at every sample, from the first at time 0. */
typedef struct qll_run_watch {
    double every_s; /* 0 = no samples */
    void (*sample)(void *context, double time_s, const double *values);
    /* A plug meets its seat or stop, at that speed; may be NULL. */
    void (*blow)(void *context, double time_s, size_t valve, bool seat, double speed_m_s);
    void *context;
} qll_run_watch;

typedef struct qll_run_order {
    qll_taps_move move;
    double duration_s;
    double tolerance; /* relative, of one step; 1e-5 serves for pictures, 1e-9 for comparisons */
    /* While a valve is free no step is longer; 0 = any. A stepper that damps what is stiff also calms what
     * really grows, if its steps are long: qll_linear.grows_within_s. */
    double step_most_s;
    size_t steps_most; /* after which the run is given up */
    qll_run_watch watch;
} qll_run_order;

typedef struct qll_run_count {
    size_t steps, refused, events;
    bool finished; /* false: steps_most were not enough, or there was no step to be found */
} qll_run_count;

/**
 * Runs from @p values (of qll_lumped_rest(), or any with lumped->modes to match), valves with friction at rest held by
 * it; values become those at the end.
 *
 * @param arena scratch, given back
 * @return QLL_REFUSED for an order that makes no sense; QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_lumped_run(qll_lumped *lumped, const qll_run_order *order,
                                       double *values, qll_arena *arena, qll_run_count *count);

#endif
