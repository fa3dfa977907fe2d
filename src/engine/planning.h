/* An event on its way to a plan; for src/engine/event_*.c alone. */
#ifndef QUELL_ENGINE_PLANNING_H
#define QUELL_ENGINE_PLANNING_H

#include "engine/event_plan.h"

typedef struct qll_planning {
    qll_asked *asked;
    const qll_event_case *of;
    const qll_event_order *order;
    qll_event_plan *made;
    qll_simulated_findings *findings;
} qll_planning;

/** The main midway between its lowest and highest, gauge. */
static inline double qll_planning_static_middle(const qll_planning *p)
{
    return p->of->duty->supply_static_pa_gauge[p->of->duty->supply_count / 2];
}

/** A day of the first scenario that people live in. QLL_OK, QLL_REFUSED or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_plan_day(qll_planning *p);

#endif
