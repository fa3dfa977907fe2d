/* Which station: the one of least expected cost that a catalogue and a site allow.
 * docs/theory/recommendation.md, search.md. */
#ifndef QUELL_SEARCH_SEARCH_H
#define QUELL_SEARCH_SEARCH_H

#include "station/fitness.h"

typedef struct qll_catalogue {
    const char *name;
    const char *currency; /* of its prices, by ISO 4217: "EUR"; NULL = not said */
    const qll_valve *valves;
    const qll_opening_law *laws; /* [valve] */
    size_t count;
    const qll_costs
        *costs;    /* those it gives itself: NaN and no sizes where it gives none; NULL = none */
    bool invented; /* the generic catalogue; answers say so */
} qll_catalogue;

#define QLL_STAGES_MOST   3
#define QLL_BRANCHES_MOST 3

typedef struct qll_search_options {
    size_t stages_max;   /* 1 to 3; default 3 */
    size_t branches_max; /* 1 to 3; default 3 */
    /* Kinds of station that cost up to so many times the least are found exactly; at least 1. */
    double keep;
    double callback_factor; /* times the cost of a callback; default 1 */
    size_t kinds_most;      /* kinds handed back; default 12 */
    /* A station already known, of this expected cost: only what may be better is looked at, and where nothing
     * is, nothing is handed back. Default INFINITY. */
    double known;
    bool fit_only; /* what comes nearest where nothing fits is not looked for */
    /* Called now and then with the share done, 0 to 1; may be NULL. Returns false to stop. */
    bool (*progress)(double share, void *context);
    void *progress_context;
    double
        told; /* share that has been reported before: no less is reported. 1 = only stopping is asked */
} qll_search_options;

qll_search_options qll_search_options_default(void);

/** A station that was looked at. Its parts live in the arena of the search. */
typedef struct qll_candidate {
    qll_station station;
    qll_cost cost;
    qll_fitness fitness;
} qll_candidate;

/** What was done, for the reader and for tests of the bounds. */
typedef struct qll_search_counts {
    size_t admitted; /* valves that may be put in this pipe at all */
    size_t leads;    /* valves solved alone over the whole duty */
    size_t bounded;  /* stations that fell by a bound, before they were solved */
    size_t measured; /* stations measured in full */
    size_t
        by_practice[QLL_PRACTICE_COUNT]; /* stations that fell by a hard rule, the first broken */
} qll_search_counts;

typedef struct qll_search_result {
    /* The best of each kind (stages, valves side by side, sizes), the least expected cost first: all of
     * those within options.keep of the least, others as they were met. */
    const qll_candidate *kinds;
    size_t kind_count;
    bool is_fit;  /* false: kinds[0] is the nearest, and what it breaks is in its fitness */
    bool stopped; /* progress said stop: the best of what had been tried until then */
    double
        floor; /* no station is expected to cost less; where the search ended, what the best does */
    qll_search_counts counts;
} qll_search_result;

/**
 * Searches @p catalogue for the site of @p yardstick.
 *
 * The result does not depend on the catalogue's order (ids differ from one another). kind_count is 0
 * only where the catalogue is empty, options.known was not beaten, or progress said stop before anything was found.
 *
 * @param found its arrays live in @p arena and point at the catalogue's valves and laws
 * @return QLL_OK or QLL_NO_MEMORY
 */
QLL_MUST_USE qll_status qll_search(qll_yardstick *yardstick, const qll_catalogue *catalogue,
                                   const qll_search_options *options, qll_arena *arena,
                                   qll_search_result *found);

#endif
