/* What readings far apart hide of the peak (docs/theory/metered.md). */
#ifndef QUELL_DEMAND_RESOLVE_H
#define QUELL_DEMAND_RESOLVE_H

#include "demand/scenario.h"

/* Readings further apart than this hide both ends of the flow: in a 1 s log of a residential block
 * the peak falls from 10.8 to 8.9 gpm at 1 min and to 4.4 gpm at 15 min (our computation). */
#define QLL_RESOLVED_S 60.0
/* Readings further apart than this hide the short uses: a flushometer draws 1.5 L/s for 4 s. */
#define QLL_SECONDS_S  10.0

typedef struct qll_resolved {
    double factor;     /* greatest flow of a second over the greatest mean that the readings show;
                          1 where they hide nothing */
    double people;     /* of the building that shows such readings; 0 where they hide nothing */
    double steady_m3s; /* its flow that never stops */
    size_t days;       /* simulated; 0 where the readings hide nothing */
} qll_resolved;

/**
 * How much greater the flow of a second is than the greatest finest mean of the scenario's log: the
 * ratio in a simulated building of the same use and least night flow whose readings rise as high.
 *
 * @param scenario with a log, free of faults (qll_scenario_fault())
 * @return QLL_OK, QLL_NO_MEMORY, or QLL_STOPPED by the log's goes_on()
 */
QLL_MUST_USE qll_status qll_resolve(const qll_scenario *scenario, qll_arena *arena,
                                    qll_resolved *resolved);

#endif
