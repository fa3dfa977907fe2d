/* The best station of every kind met so far. */
#ifndef QUELL_SEARCH_BOOK_H
#define QUELL_SEARCH_BOOK_H

#include "search/stage_place.h"

/** A whole station by value. */
typedef struct qll_whole {
    size_t stage_count;
    qll_pick stages[QLL_STAGES_MOST];
    double set_inlet_pa_gauge[QLL_STAGES_MOST];
    double expected, installed;
} qll_whole;

/* Nobody reads more kinds than this; the dearest give way. */
#define QLL_KINDS_KEPT 256

typedef struct qll_book {
    qll_whole *kinds; /* [QLL_KINDS_KEPT] best of each, as met */
    size_t count;
    double keep;
    double limit; /* what costs as much or more is not wanted */
    double least; /* expected cost of the best */
} qll_book;

/** QLL_OK or QLL_NO_MEMORY. */
QLL_MUST_USE qll_status qll_book_open(double keep, double known, qll_arena *arena, qll_book *book);

/** True if @p a comes before @p b: whole cents, then simplicity, then names. */
bool qll_whole_before(const qll_pool *pool, const qll_whole *a, const qll_whole *b);

/** Takes @p whole in if it comes below the limit and is the best of its kind. */
void qll_book_put(qll_book *book, const qll_pool *pool, const qll_whole *whole);

/** Makes the station of @p whole in @p arena. */
QLL_MUST_USE qll_status qll_whole_station(const qll_whole *whole, const qll_pool *pool,
                                          qll_arena *arena, qll_station *station);

#endif
