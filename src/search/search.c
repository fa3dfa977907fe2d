#include "search/searching.h"

#include <math.h>

qll_search_options qll_search_options_default(void)
{
    return (qll_search_options){.stages_max = QLL_STAGES_MOST,
                                .branches_max = QLL_BRANCHES_MOST,
                                .keep = 1.0,
                                .kinds_most = 12,
                                .callback_factor = 1.0,
                                .known = INFINITY};
}

/* The best first; the others by the same order. */
static void sort_kinds(qll_book *book, const qll_pool *pool)
{
    for (size_t i = 1; i < book->count; i++) {
        qll_whole moved = book->kinds[i];
        size_t at = i;
        while (at > 0 && qll_whole_before(pool, &moved, &book->kinds[at - 1])) {
            book->kinds[at] = book->kinds[at - 1];
            at--;
        }
        book->kinds[at] = moved;
    }
}

/* What nothing costs less than. */
static double floor_of(const qll_searching *searching, const qll_candidate *kinds, size_t count)
{
    const double least = count > 0 ? kinds[0].cost.expected : (double)INFINITY;
    return searching->stopped && searching->floor < least ? searching->floor : least;
}

static qll_status fill_found(qll_searching *searching, qll_search_result *found)
{
    qll_book *book = &searching->book;
    sort_kinds(book, &searching->pool);
    const size_t most = searching->options->kinds_most;
    const size_t count = book->count < most ? book->count : most;
    qll_candidate *made = qll_arena_take(searching->arena, count, sizeof *made);
    if (made == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        qll_candidate *one = &made[i];
        if (qll_whole_station(&book->kinds[i], &searching->pool, searching->arena, &one->station)
                != QLL_OK
            || qll_station_measure(&one->station, searching->yardstick, searching->arena,
                                   &one->cost)
                   != QLL_OK
            || qll_station_fitness(&one->station, searching->yardstick, searching->arena,
                                   &one->fitness)
                   != QLL_OK) {
            return QLL_NO_MEMORY;
        }
    }
    *found = (qll_search_result){.kinds = made,
                                 .kind_count = count,
                                 .is_fit = count > 0 && made[0].fitness.is_fit,
                                 .stopped = searching->stopped,
                                 .floor = floor_of(searching, made, count),
                                 .counts = searching->counts};
    return QLL_OK;
}

/* Whether nothing was found although everything that is looked at first was, and with no cost to be better
 * than. */
static bool has_nothing(const qll_searching *searching)
{
    return searching->book.count == 0 && !searching->stopped
           && searching->options->known == (double)INFINITY;
}

/* Of a pool of so many a few of each size and kind are looked at first, then some more, then the cheapest of those sizes and
 * kinds that the best has, as long as they are no more than half of it: what they come to leaves little of the rest to be
 * tried. */
#define QLL_SCOUT_FROM  64
#define QLL_SCOUT_FEW   5
#define QLL_SCOUT_MORE  20
#define QLL_SCOUT_LIKE  40
#define QLL_SCOUT_COUNT 3
/* The share of each scout in the whole search, as progress is reported. */
#define QLL_SCOUT_SHARE 0.1

static qll_status search_pool(qll_searching *searching, double from, double to)
{
    const double middle = from + 0.4 * (to - from);
    searching->share_from = from;
    searching->share_to = middle;
    qll_status status = qll_search_one_stage(searching);
    searching->share_from = middle;
    searching->share_to = to;
    if (status == QLL_OK && searching->options->stages_max > 1 && !searching->stopped) {
        status = qll_search_two_stages(searching);
    }
    return status;
}

/* A station of the thin pool as one of the whole. */
static void move_parts(const size_t *index, qll_whole *station)
{
    for (size_t k = 0; k < station->stage_count; k++) {
        for (size_t j = 0; j < station->stages[k].count; j++) {
            station->stages[k].part[j] = index[station->stages[k].part[j]];
        }
    }
}

/* Searches a thin pool for what is below the limit, into a book of its own: books know stations by their pool. */
static qll_status search_thin(qll_searching *searching, const qll_pool *thin, const size_t *index,
                              double from)
{
    const qll_pool whole = searching->pool;
    const qll_search_counts counts = searching->counts;
    qll_book book = searching->book;
    if (qll_book_open(book.keep, book.limit, searching->arena, &searching->book) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    searching->pool = *thin;
    qll_pool_pair(&searching->pool, searching->larger_least);
    qll_status status = search_pool(searching, from, from + QLL_SCOUT_SHARE);
    for (size_t i = 0; i < searching->book.count; i++) {
        move_parts(index, &searching->book.kinds[i]);
        qll_book_put(&book, &whole, &searching->book.kinds[i]);
    }
    searching->pool = whole;
    searching->counts = counts;
    searching->book = book;
    return status;
}

/* The valves of the best found; returns how many. */
static size_t list_best(const qll_searching *searching, size_t *parts)
{
    const qll_book *book = &searching->book;
    const qll_whole *best = book->count > 0 ? &book->kinds[0] : NULL;
    for (size_t i = 1; i < book->count; i++) {
        best = qll_whole_before(&searching->pool, &book->kinds[i], best) ? &book->kinds[i] : best;
    }
    size_t count = 0;
    for (size_t k = 0; best != NULL && k < best->stage_count; k++) {
        for (size_t j = 0; j < best->stages[k].count; j++) {
            parts[count] = best->stages[k].part[j];
            count += 1;
        }
    }
    return count;
}

/* A pool to be searched before the whole one. */
static qll_status choose_thin(const qll_searching *searching, size_t scout, qll_pool *thin,
                              size_t **index)
{
    if (scout < QLL_SCOUT_COUNT - 1) {
        return qll_pool_thin(&searching->pool, scout == 0 ? QLL_SCOUT_FEW : QLL_SCOUT_MORE,
                             searching->arena, thin, index);
    }
    size_t parts[QLL_STAGES_MOST * QLL_BRANCHES_MOST];
    const size_t count = list_best(searching, parts);
    return qll_pool_like(&searching->pool, parts, count, QLL_SCOUT_LIKE, searching->arena, thin,
                         index);
}

/* One scout after the other; *share is how far they came. */
static qll_status send_scouts(qll_searching *searching, double *share)
{
    qll_status status = QLL_OK;
    for (size_t i = 0; i < QLL_SCOUT_COUNT && searching->pool.count >= QLL_SCOUT_FROM
                       && status == QLL_OK && !searching->stopped;
         i++) {
        qll_arena_mark mark = qll_arena_now(searching->arena);
        qll_pool thin;
        size_t *index = NULL;
        status = choose_thin(searching, i, &thin, &index);
        if (status == QLL_OK && thin.count > 0 && 2 * thin.count <= searching->pool.count) {
            status = search_thin(searching, &thin, index, *share);
            *share += QLL_SCOUT_SHARE;
        }
        qll_arena_reset(searching->arena, mark);
    }
    return status;
}

static qll_status search_parts(qll_searching *searching, const qll_catalogue *catalogue)
{
    double share = 0.0;
    qll_status status = send_scouts(searching, &share);
    searching->floor = qll_searching_least_stage(searching, QLL_BRANCHES_MOST);
    if (status == QLL_OK && !searching->stopped) {
        status = search_pool(searching, share, 0.9);
    }
    searching->share_from = 0.9;
    searching->share_to = 1.0;
    if (status == QLL_OK && has_nothing(searching)) {
        status = qll_search_more(searching);
    }
    if (status == QLL_OK && has_nothing(searching) && !searching->options->fit_only) {
        status = qll_search_nearest(searching, catalogue);
    }
    return status;
}

qll_status qll_search(qll_yardstick *yardstick, const qll_catalogue *catalogue,
                      const qll_search_options *options, qll_arena *arena, qll_search_result *found)
{
    qll_searching searching = {
        .yardstick = yardstick, .options = options, .arena = arena, .told = options->told};
    if (qll_pool_make(yardstick, catalogue, false, arena, &searching.pool) != QLL_OK
        || qll_book_open(options->keep, options->known, arena, &searching.book) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    searching.counts.admitted = searching.pool.count;
    searching.larger_least = QLL_LARGER_LEAST;
    qll_pool_pair(&searching.pool, searching.larger_least);
    searching.beside = qll_costs_beside(yardstick->site->costs, yardstick->pipe_m);
    qll_status status = search_parts(&searching, catalogue);
    return status == QLL_OK ? fill_found(&searching, found) : status;
}
