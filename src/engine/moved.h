/* A question with one datum moved: docs/theory/hangs_on.md. */
#ifndef QUELL_ENGINE_MOVED_H
#define QUELL_ENGINE_MOVED_H

#include "engine/engine.h"

/** One datum, and how far it moves. */
typedef struct qll_move {
    double now, end;
    qll_datum datum;
    bool is_halved; /* between now and end lies something */
} qll_move;

/** The question as it is then; points into itself, so it stays where it was made. */
typedef struct qll_moved {
    qll_asked asked; /* notes nothing that people see */
    qll_prepared prepared;
    qll_costs costs;
    qll_catalogue catalogue;
    double demand_factor;
    qll_duty duty;
} qll_moved;

/**
 * Fills @p to with the question of @p designed, asked of @p catalogue, and the datum of @p move at @p value. What
 * it needs lives in the arena of @p asked. QLL_OK or QLL_NO_MEMORY.
 */
QLL_MUST_USE qll_status qll_moved_make(const qll_asked *asked, const qll_designed *designed,
                                       const qll_catalogue *catalogue, const qll_move *move,
                                       double value, qll_moved *to);

#endif
