/* The step of time and the cells of every pipe: docs/theory/waves.md, eq. 6 and 7. */
#ifndef QUELL_DYNAMICS_GRID_H
#define QUELL_DYNAMICS_GRID_H

#include "base/problems.h"

#include <stdbool.h>
#include <stddef.h>

/** What a step may be like; 0 stands for what is usual. */
typedef struct qll_grid_limits {
    double step_most_s;    /* no longer than this; 0 = no limit of its own */
    double lumped_s;       /* travel times below it are lumped; 0 = 1/200 of the longest way */
    double speed_off_most; /* share by which a wave speed may be moved; 0 = 0.01 */
    size_t cells_most;     /* of all pipes together; 0 = 20,000 */
} qll_grid_limits;

/** One pipe of the grid. */
typedef struct qll_grid_pipe {
    size_t cells;     /* 0 = lumped */
    double speed_off; /* its wave speed over the true one, less 1; 0 where lumped */
    double
        lumped_5_percent_s; /* lumped: what takes this long or longer is right within 5 %; else 0 */
} qll_grid_pipe;

typedef struct qll_grid {
    double step_s;
    qll_grid_pipe *pipes;
    size_t cells;
    double speed_off_most; /* the greatest |speed_off| */
    bool is_within;        /* it keeps the limit */
} qll_grid;

/**
 * Chooses the grid of @p count pipes by the times that a wave takes through them.
 *
 * @param travel_s  over 0 each; at least one
 * @param longest_s the longest way of a wave through the tree, one way
 * @return QLL_OK or QLL_NO_MEMORY; its pipes live in @p arena
 */
QLL_MUST_USE qll_status qll_grid_choose(const double *travel_s, size_t count, double longest_s,
                                        const qll_grid_limits *limits, qll_arena *arena,
                                        qll_grid *grid);

#endif
