/* The event that a question asks for, as a plan for a run: docs/theory/hammer.md. */
#ifndef QUELL_ENGINE_EVENT_PLAN_H
#define QUELL_ENGINE_EVENT_PLAN_H

#include "engine/engine.h"
#include "findings/simulated.h"

/** What a plan is made of; its parts point at one another. */
typedef struct qll_event_plan {
    qll_run_plan plan;
    qll_motion motion;
    qll_draw_plan *draws;
} qll_event_plan;

/** Survey, demands and station of a question. */
typedef struct qll_event_case {
    const qll_prepared *prepared;
    const qll_duty *duty;
    const qll_station *station;
} qll_event_case;

/** Which event, and what of it is not as usual: as words and quantities; NULL = as usual. */
typedef struct qll_event_order {
    const char *event, *outlet, *flow, *before, *within;
    bool notes_usual; /* what is taken as usual is noted as assumed */
} qll_event_order;

qll_event_order qll_event_order_of(const qll_question *question);

/**
 * Reads @p order and fills the plan and what is said of it: event, event_word, says, within_s, before_m3s, after_m3s,
 * static_pa_gauge.
 *
 * @return QLL_OK, QLL_REFUSED with problems, QLL_STOPPED or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_event_plan_make(qll_asked *asked, const qll_event_case *of,
                                            const qll_event_order *order, qll_event_plan *made,
                                            qll_simulated_findings *findings);

#endif
