/* Which station: every arrangement of the catalogue's valves, the hard rules, the scores, the
 * non-dominated set and one recommendation. */
#ifndef QUELL_SEARCH_SEARCH_H
#define QUELL_SEARCH_SEARCH_H

#include "station/verdict.h"

typedef struct qll_catalogue {
    const char *name;
    const qll_valve *valves;
    const qll_opening_law *laws; /* [valve] */
    size_t count;
    bool invented; /* the generic catalogue; answers say so */
} qll_catalogue;

typedef struct qll_search_options {
    size_t stages_max;   /* default 2 */
    size_t branches_max; /* default 3 */
    /* Called now and then with the share done, 0 to 1; may be NULL. Returns false to stop. */
    bool (*progress)(double share, void *context);
    void *progress_context;
} qll_search_options;

qll_search_options qll_search_options_default(void);

/** X(NAME): why the recommended one was chosen. */
#define QLL_REASON_LIST(X) \
    X(SINGLE_WITHOUT_CAUTION) X(SIMPLEST_NOT_BEATEN) X(QUIETER_EARNS_PARTS) X(LEAST_BAD)

typedef enum qll_reason {
#define QLL_REASON_NAME(name) QLL_REASON_##name,
    QLL_REASON_LIST(QLL_REASON_NAME)
#undef QLL_REASON_NAME
    QLL_REASON_COUNT
} qll_reason;

typedef struct qll_candidate {
    qll_station station;
    qll_assessment assessment;
    size_t part_count; /* valves */
} qll_candidate;

/** Why candidates fell, for the answer when nothing is left. */
typedef struct qll_search_counts {
    size_t arrangements; /* tried */
    size_t by_rule[QLL_RULE_COUNT];
    size_t by_handover;
    size_t scored, front;
} qll_search_counts;

typedef struct qll_design {
    const qll_candidate *candidates; /* the non-dominated set, recommended first */
    size_t count;
    size_t recommended; /* 0 unless count is 0 */
    qll_reason reason;
    size_t runner_up; /* the simpler one it beat, or SIZE_MAX */
    qll_search_counts counts;
    const qll_candidate
        *by_pipe_size; /* one valve of the station pipe's size, for contrast; NULL */
} qll_design;

/**
 * Searches @p catalogue for @p site over @p duty.
 *
 * The result does not depend on the catalogue's order. An empty front is not a failure: count is 0
 * and counts say which rule felled the arrangements.
 */
QLL_MUST_USE qll_status qll_search(const qll_site *site, const qll_duty *duty,
                                   const qll_catalogue *catalogue,
                                   const qll_search_options *options, qll_arena *arena,
                                   qll_design *design);

#endif
