/* What would cure a station that is there: each kind of work with its best valve and settings.
 * docs/theory/cures.md. */
#ifndef QUELL_SEARCH_CURES_H
#define QUELL_SEARCH_CURES_H

#include "search/search.h"
#include "station/verdict.h"

/**
 * X(NAME, word): what is done.
 *
 * SETTINGS: the same valves at other set-points. SMALL_BESIDE: a small valve beside those of a stage.
 * SMALLER_VALVE: one valve gives way to a smaller one. STAGE_BEFORE: one valve before it as a first stage.
 * WHOLE: everything is taken out and the best station put in. TANK, STRAINER: what a verdict asks for; what
 * that does to the chance of a callback is not computed.
 */
#define QLL_CURE_LIST(X)              \
    X(SETTINGS, "settings")           \
    X(SMALL_BESIDE, "small-beside")   \
    X(SMALLER_VALVE, "smaller-valve") \
    X(STAGE_BEFORE, "stage-before")   \
    X(WHOLE, "whole")                 \
    X(TANK, "tank")                   \
    X(STRAINER, "strainer")

typedef enum qll_cure_kind {
#define QLL_CURE_NAME(name, word) QLL_CURE_##name,
    QLL_CURE_LIST(QLL_CURE_NAME)
#undef QLL_CURE_NAME
    QLL_CURE_COUNT
} qll_cure_kind;

extern const char *const qll_cure_words[QLL_CURE_COUNT];

typedef struct qll_cure {
    qll_cure_kind kind;
    qll_station station; /* as it is then */
    /* installed: what is bought and done, one visit included, not what is there; all figures NaN for TANK
     * and STRAINER. */
    qll_cost cost;
    qll_fitness fitness;
    size_t stage,
        branch; /* in station: the valve that is new; SMALLER_VALVE: also the one it replaces */
    const qll_verdict *verdict; /* TANK, STRAINER: the one that asks for it; else NULL */
} qll_cure;

typedef struct qll_cures {
    qll_cost now; /* of what is there, left as it is: nothing is installed */
    qll_fitness fitness;
    const qll_cure *cures; /* the least expected cost first, those without figures last */
    size_t count;
} qll_cures;

typedef struct qll_cures_case {
    const qll_station *station; /* that is there */
    const qll_assessment *assessment;
    const qll_catalogue *catalogue;
    qll_unit_system units; /* in which tanks are sold */
    bool is_only_now;      /* no cure is looked for */
    /* As of a search: asked now and then with the share done; false to stop. May be NULL. */
    bool (*progress)(double share, void *context);
    void *progress_context;
} qll_cures_case;

/**
 * Finds the best of each kind that is fit and lowers the expected cost against leaving the station as it is.
 * Where what is there is not fit it cannot be left, and the best that is fit is shown whatever it costs.
 *
 * @param found its arrays live in @p arena
 * @return QLL_OK, QLL_STOPPED or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_cures_find(const qll_cures_case *given, qll_yardstick *yardstick,
                                       qll_arena *arena, qll_cures *found);

#endif
