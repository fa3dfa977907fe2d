/* What is said and shown of an event that was run. */
#ifndef QUELL_ENGINE_FIND_EVENT_H
#define QUELL_ENGINE_FIND_EVENT_H

#include "engine/engine.h"
#include "findings/simulated.h"

/** Fills hammer, verdicts, places, pipes, valve_names, notes and cure_says of @p findings, whose run and cures are there. QLL_OK or
 * QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_find_event(qll_asked *asked, qll_simulated_findings *findings);

#endif
