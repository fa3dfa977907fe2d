/* An event from rest to rest: waves while something happens, long steps while nothing does. */
#ifndef QUELL_DYNAMICS_EVENT_H
#define QUELL_DYNAMICS_EVENT_H

#include "dynamics/pipeline.h"

/** Sees the pipes after each step; what it keeps is its own. */
typedef void qll_event_step(const qll_pipeline *pipeline, void *context);

typedef struct qll_event {
    double until_s;
    const double *wakes_s; /* when something begins to move, rising */
    size_t wake_count;
    double quiet_step_s;  /* of steps without waves; 0 = waves all the time */
    double quiet_pa;      /* waves are over when no joint moves by more in a step */
    double wakes_pa;      /* and begin again when one moves by more in a quiet step */
    qll_event_step *step; /* NULL = nobody looks */
    void *context;
} qll_event;

/** What usually does: quiet below 50 Pa in a step of the waves, awake above 2 kPa in a second's (our assumption). */
qll_event qll_event_of(double until_s, const double *wakes_s, size_t wake_count);

/** How it went. */
typedef struct qll_event_run {
    size_t wave_steps, quiet_steps;
    double worst_pa; /* by how much the search of a step's end still moved a pressure at most */
} qll_event_run;

/** Takes @p pipeline, which has begun, to @p event->until_s or within one of its steps beyond. */
qll_event_run qll_event_follow(const qll_event *event, qll_pipeline *pipeline);

#endif
