/* What is kept of a run while it goes on; for src/transient/run*.c alone. */
#ifndef QUELL_TRANSIENT_WATCH_H
#define QUELL_TRANSIENT_WATCH_H

#include "dynamics/event.h"
#include "transient/run.h"

/** Least and greatest of one part of a trace, in the order in which they came. */
typedef struct qll_bin {
    double low, high;
    bool low_is_first;
} qll_bin;

typedef struct qll_watch {
    const qll_run_plan *plan;
    const qll_tree *tree;
    qll_pipeline *pipeline;
    qll_joint_seen *joints;
    qll_valve_seen *valves;
    double *samples; /* [stage * room + step] behind each stage, of the watched part */
    size_t sample_room, sample_count;
    size_t trace_count; /* QLL_TRACES and the valves */
    qll_bin *bins;      /* [trace * QLL_BINS + bin] */
    size_t *bin_seen;   /* [bin] steps in it */
    double held_m3;     /* in the pipes, and what went into the joints' boundaries since */
    double into_m3s;    /* at the end of the last step */
    double went_m3, drawn_m3;
    bool is_counted; /* no quiet step so far */
} qll_watch;

enum {
    QLL_BINS = 400 /* of a trace */
};

/** Begins to watch a pipeline that rests. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_watch_begin(const qll_run_plan *plan, const qll_tree *tree,
                                        qll_pipeline *pipeline, double step_s, qll_arena *arena,
                                        qll_watch *watch);

/** After a step of @p step_s; is_wave: of the waves. */
void qll_watch_step(qll_watch *watch, double step_s, bool is_wave);

/** What was seen becomes what was found: lines, valves, traces, envelope. QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_watch_end(qll_watch *watch, double step_s, qll_arena *arena,
                                      qll_run_found *found);

#endif
