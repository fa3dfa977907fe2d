/* A search under way: what its parts share. */
#ifndef QUELL_SEARCH_SEARCHING_H
#define QUELL_SEARCH_SEARCHING_H

#include "search/book.h"
#include "search/stage_place.h"

/* Offsets between neighbours, small above large; a trade paper on parallel reducing valves (author
 * unknown) sets the small one 3 to 5 psi above the large one, the larger ones are our assumption. */
#define QLL_OFFSET_COUNT 5
extern const double qll_offsets_pa[QLL_OFFSET_COUNT];

/* What a trial or a lead counts among looks at bounds. */
#define QLL_LOOKS_PER_TRIAL 1000

typedef struct qll_searching {
    qll_yardstick *yardstick;
    const qll_search_options *options;
    qll_arena *arena;
    qll_pool pool;
    qll_book book;
    qll_search_counts counts;
    double beside;       /* cost of one more valve side by side */
    double floor;        /* no station that was not looked at costs less; INFINITY = all were */
    double larger_least; /* of a pair the larger one's full Kv over the smaller one's, at least */
    double share_from, share_to; /* of the whole search, for the part under way */
    double told;                 /* share reported last */
    size_t quiet_count;          /* looks since then */
    bool stopped;
} qll_searching;

/** Tells progress; @p share is of the part under way. False if it said stop. */
bool qll_searching_goes_on(qll_searching *searching, double share);

/** The part under way is @p from to @p to of what @p whole_from to @p whole_to was. */
void qll_searching_part(qll_searching *searching, double whole_from, double whole_to, double from,
                        double to);

/** Asks whether to go on, in a loop that has no share of its own: every so many looks. */
bool qll_searching_looks(qll_searching *searching, size_t looks);

/** Chance of a callback of survivals multiplied, without what is too much at rest. */
double qll_searching_chance(const qll_searching *searching, const double a[QLL_NODES],
                            const double b[QLL_NODES]);

/** Expected cost of a station whose dearest part is known: installed, and what callbacks cost times the
 * factor that was asked for. */
static inline double qll_searching_expected(const qll_searching *searching, double installed,
                                            double dearest, double chance)
{
    double once = searching->yardstick->site->costs->visit + dearest;
    return installed
           + searching->options->callback_factor * chance * qll_costs_callback(once, chance);
}

/**
 * Figures what @p whole is expected to cost and takes it into the book: @p survives is the chance of no callback
 * without what is too much at rest, @p rest_pa its outlet at rest, absolute.
 */
void qll_searching_put(qll_searching *searching, qll_whole *whole, double dearest, double survives,
                       double rest_pa);

/** The same of a trial that is the whole station. */
void qll_searching_put_one(qll_searching *searching, const qll_trial *trial);

/** Above this nothing is wanted any more. */
static inline double qll_searching_limit(const qll_searching *searching)
{
    return searching->book.limit;
}

/** Least cost of any stage of so many valves side by side at most that carries the greatest peak at 15 ft/s; beyond
 * two as of two. INFINITY = there is none. */
double qll_searching_least_stage(const qll_searching *searching, size_t branches_most);

/** The place of a first or only stage that holds @p wanted_pa_gauge. */
qll_stage_place qll_stage_place_first(const qll_searching *searching, double wanted_pa_gauge,
                                      bool is_last);

/** Every arrangement of one, two, three stages; all hand what they find to the book. */
QLL_MUST_USE qll_status qll_search_one_stage(qll_searching *searching);
QLL_MUST_USE qll_status qll_search_two_stages(qll_searching *searching);
QLL_MUST_USE qll_status qll_search_more(qll_searching *searching);

/** Where nothing fits: what comes nearest, into the book. */
QLL_MUST_USE qll_status qll_search_nearest(qll_searching *searching,
                                           const qll_catalogue *catalogue);

#endif
