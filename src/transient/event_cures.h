/* What would cure an event's hammer or hunting, each by a run of its own: docs/theory/hammer.md. */
#ifndef QUELL_TRANSIENT_EVENT_CURES_H
#define QUELL_TRANSIENT_EVENT_CURES_H

#include "base/customary.h"
#include "transient/hammer.h"

/** X(NAME, word). */
#define QLL_EVENT_CURE_LIST(X) \
    X(ARRESTER, "arrester")    \
    X(SLOWER, "slower")        \
    X(OFFSET, "offset")        \
    X(DAMPING, "damping")      \
    X(AIR, "air")

typedef enum qll_event_cure_kind {
#define QLL_EVENT_CURE_NAME(name, word) QLL_EVENT_CURE_##name,
    QLL_EVENT_CURE_LIST(QLL_EVENT_CURE_NAME)
#undef QLL_EVENT_CURE_NAME
    QLL_EVENT_CURE_COUNT
} qll_event_cure_kind;

extern const char *const qll_event_cure_words[QLL_EVENT_CURE_COUNT];

/** The greatest offset that is tried. */
#define QLL_EVENT_CURE_OFFSET_MOST_PA (15 * QLL_PSI_PA)

typedef struct qll_event_cure {
    qll_event_cure_kind kind;
    bool works;
    double
        size; /* air m3; time s; offset Pa; how many times the damping: of the first that works, else of the
                    one with the best figure */
    double precharge_pa_gauge; /* of air */
    size_t valve;              /* that is set lower */
    double set_pa_gauge;       /* to this */
    /* Of its own run: the highest pressure where the hammer was worst, or the greatest swing either way
     * behind any valve. */
    double figure_pa;
} qll_event_cure;

/** What was tried. */
typedef struct qll_event_cures {
    qll_event_cure *cures;
    size_t count;
} qll_event_cures;

/** Whether a run's valves come to rest: no swing over 0.5 % of a set-point and none felt. */
bool qll_run_is_still(const qll_run_found *found);

/** The greatest half swing behind any valve whose lift moves, Pa; 0 without one. */
double qll_run_swing_pa(const qll_run_found *found);

/**
 * Tries what may cure @p found, the run of @p plan.
 *
 * @param is_closure hammer is looked at, and the plan has one move, at its followed draw; else hunting
 * @param tried in @p arena, QLL_EVENT_CURE_COUNT at most; none where there is nothing to cure
 * @return QLL_OK, QLL_STOPPED or QLL_NO_MEMORY; the runs themselves give their memory back
 */
QLL_MUST_USE qll_status qll_event_cures_find(const qll_run_plan *plan, const qll_run_found *found,
                                             bool is_closure,
                                             bool (*goes_on)(double share, void *context),
                                             void *context, qll_arena *arena,
                                             qll_event_cures *tried);

#endif
