/* Which station: every arrangement of the catalogue's valves, the hard rules, the scores, the
 * non-dominated set and one recommendation. */
#ifndef QUELL_SEARCH_SEARCH_H
#define QUELL_SEARCH_SEARCH_H

#include "station/verdict.h"

typedef struct qll_catalogue {
    const char *name;
    const char *currency; /* of its prices, by ISO 4217: "EUR"; NULL = not said */
    const qll_valve *valves;
    const qll_opening_law *laws; /* [valve] */
    size_t count;
    bool invented; /* the generic catalogue; answers say so */
} qll_catalogue;

/* At most so many stations are handed back out of the non-dominated set. */
#define QLL_DESIGN_KEPT 12

typedef struct qll_search_options {
    size_t stages_max;   /* 1 to 3; default 3; three only where two cannot keep the ratio */
    size_t branches_max; /* 1 to 3; default 3 */
    uint64_t seed;       /* of the draws that decide between near-ties; default 1 */
    double pipe_size_m;  /* nominal of the service pipe, for by_pipe_size; default NaN = unknown */
    /* Called now and then with the share done, 0 to 1; may be NULL. Returns false to stop. */
    bool (*progress)(double share, void *context);
    void *progress_context;
} qll_search_options;

qll_search_options qll_search_options_default(void);

/**
 * X(NAME): why the recommended one was chosen; docs/theory/recommendation.md.
 *
 * SINGLE_WITHOUT_CAUTION: one valve does it, and no rule finds fault. SIMPLEST_NOT_BEATEN: nothing
 * simpler was open to choice. QUIETER_EARNS_PARTS: a simpler one was, but rules or noise are clearly
 * better with more valves. STAGES_SHARE_THE_DROP: no one-stage station takes the drop without a fail
 * in ratio or cavitation. THREE_SHARE_THE_DROP: nor does any of two stages keep the ratio. LEAST_BAD: every station of the set breaks a rule; this one fewest.
 */
/* clang-format off */
#define QLL_REASON_LIST(X)                                                                         \
    X(SINGLE_WITHOUT_CAUTION) X(SIMPLEST_NOT_BEATEN) X(QUIETER_EARNS_PARTS)                        \
    X(STAGES_SHARE_THE_DROP) X(THREE_SHARE_THE_DROP) X(LEAST_BAD)

/* clang-format on */

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

/** Why candidates fell, for the answer when nothing is left: each by the first rule it broke. */
typedef struct qll_search_counts {
    size_t arrangements; /* tried, set-points and all */
    size_t by_rule[QLL_RULE_COUNT];
    size_t by_handover;
    size_t beaten; /* fell to a better one before all its rules were looked at */
    size_t scored; /* over all flows and supplies, to the end */
    size_t front;  /* members of the non-dominated set */
} qll_search_counts;

typedef struct qll_design {
    /* Out of the non-dominated set (counts.front members) at most QLL_DESIGN_KEPT that represent
     * it, recommended first: the quietest, cheapest, steadiest, least worn, the one of fewest valves,
     * the runner-up, and others as far apart as can be. A single valve without caution is here
     * although another dominates it. */
    const qll_candidate *candidates;
    size_t count;
    size_t recommended; /* always 0; means nothing when count is 0 */
    qll_reason reason;
    size_t runner_up; /* the simpler one it beat, index in candidates; or SIZE_MAX */
    qll_search_counts counts;
    /* One valve of the service pipe's size, whatever rules it breaks, for contrast; NULL if the
     * size is unknown or the catalogue is empty. */
    const qll_candidate *by_pipe_size;
    bool stopped; /* progress said stop: the set is of what had been tried until then */
} qll_design;

/**
 * Searches @p catalogue for @p site over @p duty.
 *
 * The result does not depend on the catalogue's order (ids differ from one another). An empty front
 * is not a failure: count is 0 and counts say which rule felled the arrangements. What is tried:
 * docs/theory/search.md.
 *
 * @param design its arrays live in @p arena and point at the catalogue's valves and laws
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_search(const qll_site *site, const qll_duty *duty,
                                   const qll_catalogue *catalogue,
                                   const qll_search_options *options, qll_arena *arena,
                                   qll_design *design);

#endif
