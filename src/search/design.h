/* The answer to "which station": the best one, what else was in question, and what the choice hangs on.
 * docs/theory/recommendation.md, 5 and 6. */
#ifndef QUELL_SEARCH_DESIGN_H
#define QUELL_SEARCH_DESIGN_H

#include "search/search.h"
#include "station/need.h"
#include "station/verdict.h"

/** X(NAME, word): why a station is shown. */
#define QLL_ROLE_LIST(X)          \
    X(RECOMMENDED, "recommended") \
    X(CHEAPEST, "cheapest")       \
    X(QUIETEST, "quietest")       \
    X(USUAL, "usual")             \
    X(NEXT, "next")

typedef enum qll_role {
#define QLL_ROLE_NAME(name, word) QLL_ROLE_##name,
    QLL_ROLE_LIST(QLL_ROLE_NAME)
#undef QLL_ROLE_NAME
    QLL_ROLE_COUNT
} qll_role;

extern const char *const qll_role_words[QLL_ROLE_COUNT];

/** A station that is shown. */
typedef struct qll_shown {
    qll_station station;
    qll_cost cost;
    qll_fitness fitness;
    qll_assessment assessment;
    unsigned roles; /* bit per qll_role */
} qll_shown;

/**
 * X(NAME): why the recommended one.
 *
 * ONE_VALVE: one valve does it, and no second one pays for itself. PAIR_PAYS: a second valve saves more in
 * callbacks than it costs. PAIR_CARRIES: no single valve keeps the rules. STAGES_BY_RATIO: one stage would
 * have to take more than the greatest ratio. STAGES_PAY: two stages save more than they cost.
 * STAGES_CARRY: no station of one stage keeps the rules. NOT_FIT: nothing does; this comes nearest.
 */
/* clang-format off */
#define QLL_REASON_LIST(X)                                                                         \
    X(ONE_VALVE) X(PAIR_PAYS) X(PAIR_CARRIES) X(STAGES_BY_RATIO) X(STAGES_PAY) X(STAGES_CARRY)     \
    X(NOT_FIT)

/* clang-format on */

typedef enum qll_reason {
#define QLL_REASON_NAME(name) QLL_REASON_##name,
    QLL_REASON_LIST(QLL_REASON_NAME)
#undef QLL_REASON_NAME
    QLL_REASON_COUNT
} qll_reason;

/** X(NAME, word): a datum that the choice may hang on, and what its value is. */
#define QLL_DATUM_LIST(X)                                                                 \
    X(STREET, "supply") /* the highest static pressure, gauge Pa; the others with it */   \
    X(WANTED, "downstream.set_pressure") /* gauge Pa */                                   \
    X(DEMAND, "demand")                  /* a factor on every flow but the design peak */ \
    X(PEAK, "peak")                      /* the design peak, m3/s */                      \
    X(PEOPLE, "site.people")             /* a qll_people */                               \
    X(VISIT, "costs.visit")              /* money */                                      \
    X(LEAST_FLOW, "flow_min")            /* a factor on every least stable flow */

typedef enum qll_datum {
#define QLL_DATUM_NAME(name, word) QLL_DATUM_##name,
    QLL_DATUM_LIST(QLL_DATUM_NAME)
#undef QLL_DATUM_NAME
    QLL_DATUM_COUNT
} qll_datum;

extern const char *const qll_datum_words[QLL_DATUM_COUNT];

/** A datum that, moved within its range, makes another kind of station the best. */
typedef struct qll_hang {
    qll_datum datum;
    double now, at;      /* from at on another kind is best */
    bool is_needed;      /* false: from there on no valve is needed */
    bool is_fit;         /* false: from there on nothing fits */
    qll_station instead; /* the best there; no stages where none is needed */
} qll_hang;

/** X(NAME): what makes a call close. */
#define QLL_CLOSE_LIST(X) \
    X(NOT)                \
    X(WITHIN)             \
    X(VISIT_HALVED)       \
    X(VISIT_DOUBLED) X(WEIGHTS_HALVED) X(WEIGHTS_DOUBLED) X(DEMAND_HALVED) X(DEMAND_DOUBLED)

typedef enum qll_close {
#define QLL_CLOSE_NAME(name) QLL_CLOSE_##name,
    QLL_CLOSE_LIST(QLL_CLOSE_NAME)
#undef QLL_CLOSE_NAME
    QLL_CLOSE_COUNT
} qll_close;

/** Another kind that is as good, or would be. */
typedef struct qll_close_call {
    qll_close why;
    size_t other;        /* among those shown */
    double dearer_share; /* it costs so much more, expected, as a share */
} qll_close_call;

typedef struct qll_design {
    qll_need need;
    const qll_shown *shown; /* the recommended or nearest one first */
    size_t count;           /* 0: no valve is needed, or there is none in the catalogue */
    bool is_fit;            /* the first may be installed */
    bool stopped;           /* progress said stop: the best of what had been tried until then */
    double floor; /* no station that is fit is expected to cost less: as in qll_search_result */
    qll_reason reason;
    double one_stage_ratio; /* the gauge ratio that a single stage would have to take */
    size_t simpler;         /* the best simpler one it beat, among those shown; SIZE_MAX = none */
    qll_close_call close;
    const qll_hang *hangs;
    size_t hang_count;
    qll_search_counts counts;
} qll_design;

/** What a design is made of. */
typedef struct qll_design_case {
    const qll_site *site;
    const qll_duty *duty;
    const qll_catalogue *catalogue;
    const qll_search_options *options;
    bool
        has_alternatives; /* else the recommended one, the simpler one that it beat, and no close call */
} qll_design_case;

/** Everything but the hangs. QLL_OK or QLL_NO_MEMORY; arrays live in @p arena. */
QLL_MUST_USE qll_status qll_design_make(const qll_design_case *given, qll_arena *arena,
                                        qll_design *design);

#endif
