/* What an event does to pipes and fixtures: docs/theory/hammer.md. */
#ifndef QUELL_TRANSIENT_HAMMER_H
#define QUELL_TRANSIENT_HAMMER_H

#include "transient/run.h"

/** What was found, the gravest first. */
typedef enum qll_hammer_kind {
    QLL_HAMMER_PARTS, /* the water column parts */
    QLL_HAMMER_OVER,  /* higher than what is there is made for */
    QLL_HAMMER_RISE,  /* a blow */
    QLL_HAMMER_DIP,   /* lower than half of what stands there */
    QLL_HAMMER_NONE
} qll_hammer_kind;

typedef struct qll_hammer {
    qll_hammer_kind kind;
    size_t joint;                                                /* the worst place */
    double high_pa_gauge, low_pa_gauge, rise_pa, stood_pa_gauge; /* there */
    double limit_pa_gauge;                                       /* OVER: that it is made for */
    double cavity_share; /* the greatest of vapor, of a cell of the grid; 0 without any */
    double force_n;      /* on the elbows of the pipe that gets most */
    size_t force_line;
} qll_hammer;

/** Rise over which pipes knock, Pa: 2 bar (EN 806-2, from memory). */
#define QLL_HAMMER_RISE_PA 2e5

/** The verdict of a run. */
qll_hammer qll_hammer_of(const qll_run_found *found);

/** What a joint's pipes, and behind the station its fixtures, are made for, gauge. */
double qll_hammer_limit_pa_gauge(const qll_tree *tree, size_t joint);

/** What a pipe of @p size is made for in a surge of cold water, gauge; NULL = as a layered one. */
double qll_pipe_rating_pa_gauge(const qll_pipe_size *size);

#endif
