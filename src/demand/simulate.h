/* A building's flow second by second: random uses as rectangles (docs/theory/simulation.md). */
#ifndef QUELL_DEMAND_SIMULATE_H
#define QUELL_DEMAND_SIMULATE_H

#include "demand/duration.h"
#include "demand/scenario.h"

#include <stdint.h>

#define QLL_DAY_SECONDS 86400

/** Consecutive seconds, never more than an hour, over which the same continuous flows run. */
typedef struct qll_second_block {
    size_t first_s; /* of the day */
    size_t count;
    const int32_t *levels;  /* of uses, in steps; 0 = nobody draws */
    int32_t leak_level;     /* of leaks, the whole day */
    double step_m3s;        /* one level */
    const double *flow_m3s; /* everything: (level + leak level) * step + base */
    size_t base; /* which of the day's sums of steady and continuous flows runs; from 0 */
    double base_m3s;
} qll_second_block;

/** Takes the blocks of a day in order. */
typedef void qll_second_sink(void *context, const qll_second_block *block);

/** One building being simulated; lives in its arena. */
typedef struct qll_simulator qll_simulator;

/**
 * A simulator of @p scenario, warmed up so that its first midnight is like any other. The same
 * scenario and seed give the same seconds on every machine with the same C library.
 *
 * @param scenario free of faults (qll_scenario_fault()); only read during this call
 * @return QLL_OK, QLL_NO_MEMORY, or QLL_REFUSED if a day has more than 1e8 uses
 */
QLL_MUST_USE qll_status qll_simulator_make(const qll_scenario *scenario, uint64_t seed,
                                           qll_arena *arena, qll_simulator **simulator);

/** How many different sums of steady and continuous flows there are over a day. */
size_t qll_simulator_base_count(const qll_simulator *simulator);

/** Simulates the next day and hands it to @p sink. Takes no memory. */
void qll_simulator_day(qll_simulator *simulator, qll_second_sink *sink, void *context);

#endif
