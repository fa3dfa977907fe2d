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

/* So many looks at bounds take some milliseconds; a trial counts as many. */
#define QLL_LOOKS_PER_ASK 200000

bool qll_searching_goes_on(qll_searching *searching, double share)
{
    const qll_search_options *options = searching->options;
    if (searching->stopped || options->progress == NULL) {
        return !searching->stopped;
    }
    double done = searching->share_from + share * (searching->share_to - searching->share_from);
    searching->told = done > searching->told ? done : searching->told;
    searching->quiet_count = 0;
    searching->stopped = !options->progress(searching->told, options->progress_context);
    return !searching->stopped;
}

void qll_searching_part(qll_searching *searching, double whole_from, double whole_to, double from,
                        double to)
{
    searching->share_from = whole_from + from * (whole_to - whole_from);
    searching->share_to = whole_from + to * (whole_to - whole_from);
}

bool qll_searching_looks(qll_searching *searching, size_t looks)
{
    searching->quiet_count += looks;
    return searching->quiet_count < QLL_LOOKS_PER_ASK ? !searching->stopped
                                                      : qll_searching_goes_on(searching, 0.0);
}

double qll_searching_chance(const qll_searching *searching, const double a[QLL_NODES],
                            const double b[QLL_NODES])
{
    const double *chance = searching->yardstick->unknowns->chance;
    double survives = 0.0;
    for (size_t k = 0; k < QLL_NODES; k++) {
        survives += chance[k] * a[k] * (b == NULL ? 1.0 : b[k]);
    }
    return survives < 1.0 ? 1.0 - survives : 0.0;
}

void qll_searching_put(qll_searching *searching, qll_whole *whole, double dearest, double survives,
                       double rest_pa)
{
    double rests = 1.0 - qll_rest_chance(searching->yardstick, rest_pa);
    whole->expected =
        qll_searching_expected(searching, whole->installed, dearest, 1.0 - rests * survives);
    qll_book_put(&searching->book, &searching->pool, whole);
}

void qll_searching_put_one(qll_searching *searching, const qll_trial *trial)
{
    const qll_yardstick *yardstick = searching->yardstick;
    qll_whole whole = {
        .stage_count = 1,
        .stages = {trial->pick},
        .set_inlet_pa_gauge = {qll_duty_set_inlet_pa_gauge(yardstick->duty, yardstick->site)},
        .installed = trial->cost};
    double survives = 1.0 - qll_searching_chance(searching, trial->survival, NULL);
    qll_searching_put(searching, &whole, trial->dearest, survives, trial->outlets.rest_pa);
}

qll_stage_place qll_stage_place_first(const qll_searching *searching, double wanted_pa_gauge,
                                      bool is_last)
{
    const qll_yardstick *yardstick = searching->yardstick;
    const qll_duty *duty = yardstick->duty;
    double low_pa_gauge, high_pa_gauge;
    qll_stage_inlets(yardstick, NULL, 0, &low_pa_gauge, &high_pa_gauge);
    return (qll_stage_place){
        .inlets = {.grid_pa = duty->inlet_pa,
                   .peak_pa = yardstick->peak_inlet_pa,
                   .rest_pa = duty->inlet_static_pa[QLL_SUPPLY_LEVELS - 1]},
        .set_inlet_pa_gauge = qll_duty_set_inlet_pa_gauge(duty, yardstick->site),
        .low_pa_gauge = low_pa_gauge,
        .high_pa_gauge = high_pa_gauge,
        .wanted_pa_gauge = wanted_pa_gauge,
        .clear_pa_gauge = -INFINITY,
        .is_last = is_last,
        .is_first = true,
    };
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

/* Of a pool of so many a few of each size and kind are looked at first, then some more, as long as they are no more than
 * half of it: what they come to leaves little of the rest to be tried. */
#define QLL_SCOUT_FROM   64
#define QLL_SCOUT_EACH   5
#define QLL_SCOUT_FACTOR 4
/* The share of each scout in the whole search, as progress is reported. */
#define QLL_SCOUT_SHARE  0.1

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

/* One scout after the other; *share is how far they came. */
static qll_status scout(qll_searching *searching, double *share)
{
    bool is_worth = searching->pool.count >= QLL_SCOUT_FROM;
    qll_status status = QLL_OK;
    for (size_t each = QLL_SCOUT_EACH; is_worth && status == QLL_OK && !searching->stopped;
         each *= QLL_SCOUT_FACTOR) {
        qll_arena_mark mark = qll_arena_now(searching->arena);
        qll_pool thin;
        size_t *index = NULL;
        status = qll_pool_thin(&searching->pool, each, searching->arena, &thin, &index);
        is_worth = status == QLL_OK && 2 * thin.count <= searching->pool.count;
        if (is_worth) {
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
    qll_status status = scout(searching, &share);
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
