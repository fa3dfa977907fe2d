/* A station run through the events that trouble it most, for answers that are not about an event: docs/theory/hammer.md. */
#ifndef QUELL_ENGINE_FIND_MOTION_H
#define QUELL_ENGINE_FIND_MOTION_H

#include "engine/event_plan.h"

/** Whether the survey gives an outlet its pipes: without them no water can be run. */
bool qll_motion_can_run(const qll_site *site);

/** Adds what events are worked out by to the sources of the answer. */
void qll_motion_sources(qll_asked *asked, qll_prepared *prepared);

/**
 * Closes each outlet that the survey gives pipes for, and lets the building's draw fall from its peak, all as usual; what the
 * worst of them did goes into the verdicts of @p assessment. Without such an outlet, or where the pipes cannot be run, only
 * the reason does. Nothing is run for whoever has stopped before.
 *
 * @param moving what was run; its count is 0 where nothing was
 * @return QLL_OK, QLL_STOPPED or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_find_motion(qll_asked *asked, const qll_event_case *of,
                                        qll_assessment *assessment, const qll_moving **moving);

#endif
