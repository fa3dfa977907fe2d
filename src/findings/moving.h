/* Events in the pipes, and what they came to where an answer about a station runs them as well: docs/theory/hammer.md. */
#ifndef QUELL_FINDINGS_MOVING_H
#define QUELL_FINDINGS_MOVING_H

#include "base/said.h"
#include "station/verdict.h"

/** X(NAME, word of --event). */
#define QLL_EVENT_LIST(X) \
    X(CLOSURE, "closure") \
    X(DEMAND, "demand")   \
    X(HEATER, "heater")   \
    X(CREEP, "creep")     \
    X(DAY, "day")

typedef enum qll_event_kind {
#define QLL_EVENT_NAME(name, word) QLL_EVENT_##name,
    QLL_EVENT_LIST(QLL_EVENT_NAME)
#undef QLL_EVENT_NAME
    QLL_EVENT_COUNT
} qll_event_kind;

/** A verdict of the event. */
typedef struct qll_event_verdict {
    const char *rule; /* "hammer", "hunting", of creep "static" */
    qll_grade grade;
    double value,
        limit;      /* Pa: rise or pressure, and what it is held against; swing either way. NaN */
    qll_kind kind;  /* what both measure */
    double gravity; /* among verdicts of its rule; more is worse */
    qll_said says;
} qll_event_verdict;

/** One of the events that a station is run through. */
typedef struct qll_moving_event {
    qll_event_kind event;
    const char *event_word;
    const char *outlet;            /* that closes; NULL where the whole building's draw changes */
    qll_said says;                 /* what happens */
    qll_event_verdict verdicts[2]; /* hammer, hunting, without their sentences */
} qll_moving_event;

typedef struct qll_moving {
    const qll_moving_event *events;
    size_t count;
} qll_moving;

#endif
