/* docs/theory/search.md, 4. */
#include "search/between.h"
#include "search/bound.h"
#include "search/crossing.h"
#include "search/front.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Least that a station of two stages is installed for. */
static double least_station_cost(const qll_searching *searching, size_t branches_most)
{
    return 2.0 * qll_searching_least_stage(searching, branches_most)
           + searching->yardstick->site->costs->stage;
}

/* Shares of what is done before any pair is tried, of the first stages tried, and of both together. */
static const double looking_share = 0.3;
static const double trying_share = 0.6;

/* A further stage that is one of a list of which @p front is the front. */
static qll_status rest_of_front(const qll_split *split, const qll_halves *front, qll_half *outline,
                                qll_blocks *blocks, qll_rest_of_station *rest)
{
    qll_status status = qll_blocks_make(split->searching, front, blocks);
    if (status == QLL_OK) {
        *rest = qll_rest_costing(split->searching->yardstick->site->costs->stage);
        rest->others = blocks;
        rest->outline = outline;
        rest->outline_count = qll_blocks_outline(blocks, outline);
    }
    return status;
}

static qll_status rest_of_list(const qll_split *split, const qll_halves *list, qll_half *outline,
                               qll_blocks *blocks, qll_rest_of_station *rest)
{
    qll_halves front;
    qll_status status = qll_halves_front(split->searching, list, &front);
    return status == QLL_OK ? rest_of_front(split, &front, outline, blocks, rest) : status;
}

/* Least that a station of the stages listed may cost, and which leads are still wanted. */
static void weigh_leads(qll_split *split, const qll_rest_of_station *rest)
{
    const qll_searching *searching = split->searching;
    for (size_t i = 0; i < split->firsts.count; i++) {
        const qll_half *one = &split->firsts.items[i];
        const qll_half_bound of = qll_half_bound_of(one);
        double least = qll_searching_least(searching, rest, &of, -INFINITY);
        split->least = fmin(split->least, least);
        if (least < qll_searching_limit(searching)) {
            qll_marks_put(&split->firsts_left, &searching->pool, one);
        }
    }
}

/* Which second stages are still wanted behind the first ones that are left. */
static void weigh_seconds(qll_split *split, const qll_rest_of_station *rest)
{
    qll_marks_clear(split->searching, &split->seconds_left);
    for (size_t i = 0; i < split->seconds.count; i++) {
        const qll_half *one = &split->seconds.items[i];
        const qll_half_bound of = qll_half_bound_of(one);
        if (qll_searching_wants(split->searching, rest, &of, 1.0)) {
            qll_marks_put(&split->seconds_left, &split->searching->pool, one);
        }
    }
}

static bool is_open(const qll_split *split, qll_status status)
{
    return status == QLL_OK && !split->searching->stopped && split->firsts.count > 0
           && split->seconds.count > 0;
}

/* All that is known of a split before any of its pairs is tried. */
static qll_status look_at(qll_split *split, qll_split_room *room)
{
    qll_searching *searching = split->searching;
    const double stage = searching->yardstick->site->costs->stage;
    const double least_cost = qll_searching_least_stage(searching, split->branches_most);
    qll_half *outline = qll_arena_take(searching->arena, QLL_OUTLINE_MOST, sizeof *outline);
    if (outline == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_split_foresee(split, room);
    qll_rest_of_station rest = qll_rest_costing(least_cost + stage);
    qll_status status = qll_split_list_leads(split, &rest, room);
    qll_blocks blocks;
    if (status == QLL_OK) {
        status = rest_of_list(split, &split->firsts, outline, &blocks, &rest);
    }
    if (status == QLL_OK && split->firsts.count > 0 && !searching->stopped) {
        status = qll_split_list_seconds(split, &rest, NULL, room);
    }
    if (!is_open(split, status)) {
        return status;
    }
    split->least = INFINITY;
    status = rest_of_list(split, &split->seconds, outline, &blocks, &rest);
    if (status == QLL_OK && !searching->stopped) {
        weigh_leads(split, &rest);
    }
    return status;
}

typedef qll_status list_seconds(qll_split *split, const qll_rest_of_station *rest,
                                const qll_marks *left, qll_split_room *room);

/* Second stages are bounded anew behind the first ones of @p front, those only that are still wanted behind them. */
static qll_status list_seconds_behind(qll_split *split, const qll_halves *front, qll_half *outline,
                                      list_seconds *list, qll_split_room *room)
{
    qll_blocks blocks;
    qll_rest_of_station rest;
    qll_status status = rest_of_front(split, front, outline, &blocks, &rest);
    if (status == QLL_OK && !split->searching->stopped) {
        weigh_seconds(split, &rest);
        status = list(split, &rest, &split->seconds_left, room);
    }
    return status;
}

/* First stages are kept that are left after their peaks, second ones bounded anew behind those, and then first ones tried
 * in full. */
static qll_status list_firsts(qll_split *split, qll_half *outline, qll_split_room *room)
{
    qll_blocks blocks;
    qll_rest_of_station rest;
    split->firsts.count = 0;
    qll_status status = rest_of_list(split, &split->seconds, outline, &blocks, &rest);
    status = status == QLL_OK ? qll_split_keep_firsts(split, &rest, room) : status;
    qll_halves front;
    if (status == QLL_OK && !split->searching->stopped && split->kept.count > 0) {
        status = qll_kept_front(split->searching, &split->kept, &front);
        if (status == QLL_OK) {
            status = list_seconds_behind(split, &front, outline, qll_split_list_seconds, room);
        }
        if (status == QLL_OK && !split->searching->stopped && split->seconds.count > 0) {
            status = rest_of_list(split, &split->seconds, outline, &blocks, &rest);
            status = status == QLL_OK ? qll_split_list_firsts(split, &rest, room) : status;
        }
    }
    return status;
}

/* Its first stages are tried behind what bounds the second ones, these bounded anew behind those, then both together. */
static qll_status try_split(qll_split *split, qll_split_room *room, bool again, double from,
                            double to)
{
    qll_searching *searching = split->searching;
    qll_half *outline = qll_arena_take(searching->arena, QLL_OUTLINE_MOST, sizeof *outline);
    if (outline == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_searching_part(searching, from, to, 0.0, trying_share);
    qll_status status = list_firsts(split, outline, room);
    if (!is_open(split, status)) {
        return status;
    }
    qll_halves front;
    status = qll_halves_front(searching, &split->firsts, &front);
    if (status == QLL_OK && !searching->stopped) {
        status = list_seconds_behind(split, &front, outline, qll_split_list_pairs, room);
    }
    qll_searching_part(searching, from, to, trying_share, 1.0);
    return is_open(split, status) ? qll_split_cross(split, room, again) : status;
}

static int compare_least(const void *left, const void *right)
{
    const qll_split *a = *(qll_split *const *)left;
    const qll_split *b = *(qll_split *const *)right;
    if (a->least != b->least) {
        return a->least < b->least ? -1 : 1;
    }
    return a->between_pa_gauge < b->between_pa_gauge ? -1 : 1;
}

/* All splits with so many valves side by side at most. */
typedef struct splitting {
    qll_searching *searching;
    qll_split_room *room;
    qll_split splits[QLL_BETWEEN_MOST];
    size_t count;
    bool again;   /* single valves have been tried */
    bool is_last; /* nothing is tried after these */
} splitting;

/* The station of two stages that is best so far; NULL = none. */
static const qll_whole *best_of_two(const qll_searching *searching)
{
    const qll_book *book = &searching->book;
    const qll_whole *best = NULL;
    for (size_t i = 0; i < book->count; i++) {
        const qll_whole *one = &book->kinds[i];
        if (one->stage_count == 2
            && (best == NULL || qll_whole_before(&searching->pool, one, best))) {
            best = one;
        }
    }
    return best;
}

/* That of the least bound first, but before it the one of the best found so far: what lies near that is mostly best of all, and
 * fells more of the others. */
static void order_splits(splitting *at, qll_split *order[QLL_BETWEEN_MOST])
{
    for (size_t i = 0; i < at->count; i++) {
        order[i] = &at->splits[i];
    }
    qsort(order, at->count, sizeof(void *), compare_least);
    const qll_whole *best = best_of_two(at->searching);
    for (size_t i = 1; best != NULL && i < at->count; i++) {
        qll_split *split = order[i];
        if (split->between_pa_gauge == best->stages[0].set_pa_gauge[0]) {
            memmove(&order[1], &order[0], i * sizeof(void *));
            order[0] = split;
        }
    }
}

/* Those whose bound is above what was found meanwhile are not tried. What a split needs is given back: the book holds what
 * it found by value. */
static qll_status try_all(splitting *at, double from, double to)
{
    qll_searching *searching = at->searching;
    qll_split *order[QLL_BETWEEN_MOST];
    order_splits(at, order);
    qll_status status = QLL_OK;
    const double step = (to - from) / (double)at->count;
    for (size_t i = 0; i < at->count && status == QLL_OK && !searching->stopped; i++) {
        qll_split *split = order[i];
        const double next = i + 1 < at->count ? order[i + 1]->least : (double)INFINITY;
        searching->floor = at->is_last ? fmin(split->least, next) : searching->floor;
        if (!(split->least < qll_searching_limit(searching))) {
            continue;
        }
        const double begin = from + step * (double)i;
        qll_arena_mark mark = qll_arena_now(searching->arena);
        status = try_split(split, at->room, at->again, begin, begin + step);
        qll_arena_reset(searching->arena, mark);
    }
    return status;
}

static qll_status search_splits(splitting *at, const double *between_pa_gauge, size_t branches_most,
                                double from, double to)
{
    qll_searching *searching = at->searching;
    const double middle = from + looking_share * (to - from);
    const double step = (middle - from) / (double)at->count;
    qll_arena_mark mark = qll_arena_now(searching->arena);
    qll_status status = QLL_OK;
    for (size_t i = 0; i < at->count && status == QLL_OK && !searching->stopped; i++) {
        qll_searching_part(searching, from + step * (double)i, from + step * (double)(i + 1), 0.0,
                           1.0);
        qll_split *split = &at->splits[i];
        status = qll_split_open(searching, between_pa_gauge[i], branches_most, split);
        if (status == QLL_OK) {
            status = look_at(split, at->room);
        }
        if (status == QLL_OK) {
            status = qll_split_shelve(split, at->room);
        }
    }
    if (status == QLL_OK && !searching->stopped) {
        status = try_all(at, middle, to);
    }
    qll_arena_reset(searching->arena, mark);
    at->room->firsts = (qll_halves){0}; /* which was taken since the mark */
    at->room->seconds = (qll_halves){0};
    return status;
}

qll_status qll_search_two_stages(qll_searching *searching)
{
    double between_pa_gauge[QLL_BETWEEN_MOST];
    splitting at = {.searching = searching};
    qll_split_room room;
    at.room = &room;
    at.count = qll_between_pressures(searching->yardstick, searching->yardstick->site->set_pa_gauge,
                                     between_pa_gauge);
    if (at.count == 0) {
        return QLL_OK;
    }
    const size_t most = searching->options->branches_max < 2 ? 1 : 2;
    const double from = searching->share_from;
    const double to = searching->share_to;
    const double middle = from + 0.2 * (to - from);
    searching->floor = least_station_cost(searching, most);
    if (!(searching->floor < qll_searching_limit(searching))) {
        return QLL_OK; /* what was found is cheaper than what any two stages are installed for */
    }
    if (qll_split_room_make(searching, &room) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_status status = QLL_OK;
    /* Single valves first give the pairs a limit, unless there is one. */
    at.again = false;
    const bool singles_first = most == 1 || !(searching->options->known < (double)INFINITY);
    at.is_last = most == 1;
    if (singles_first) {
        status = search_splits(&at, between_pa_gauge, 1, from, middle);
    }
    if (most > 1 && status == QLL_OK && !searching->stopped) {
        at.again = singles_first;
        at.is_last = true;
        status = search_splits(&at, between_pa_gauge, most, middle, to);
    }
    if (!searching->stopped) {
        searching->floor = INFINITY;
    }
    return status;
}
