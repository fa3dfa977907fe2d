#include "search/split.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* What is ordered by full Kv. */
typedef struct keyed {
    double kv_m3h;
    size_t part;
} keyed;

static int compare_keyed(const void *left, const void *right)
{
    const keyed *a = left;
    const keyed *b = right;
    if (a->kv_m3h != b->kv_m3h) {
        return a->kv_m3h < b->kv_m3h ? -1 : 1;
    }
    return a->part < b->part ? -1 : a->part > b->part;
}

static qll_status order_by_kv(const qll_searching *searching, size_t *by_kv)
{
    const qll_pool *pool = &searching->pool;
    qll_arena_mark mark = qll_arena_now(searching->arena);
    keyed *all = qll_arena_take(searching->arena, pool->count, sizeof *all);
    if (all == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < pool->count; i++) {
        all[i] = (keyed){pool->parts[i].branch.valve->kv_m3h, i};
    }
    qsort(all, pool->count, sizeof *all, compare_keyed);
    for (size_t i = 0; i < pool->count; i++) {
        by_kv[i] = all[i].part;
    }
    qll_arena_reset(searching->arena, mark);
    return QLL_OK;
}

qll_status qll_split_room_make(const qll_searching *searching, qll_split_room *room)
{
    const size_t scenarios = searching->yardstick->duty->scenario_count;
    const size_t count = searching->pool.count;
    qll_arena *arena = searching->arena;
    room->firsts = (qll_halves){0};
    room->seconds = (qll_halves){0};
    room->by_kv = qll_arena_take(arena, count, sizeof *room->by_kv);
    room->hard_m3s = qll_arena_take(arena, count, scenarios * sizeof *room->hard_m3s);
    if (room->by_kv == NULL || room->hard_m3s == NULL
        || order_by_kv(searching, room->by_kv) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_status status = qll_ends_make(searching->yardstick->duty, arena, &room->behind);
    status = status == QLL_OK ? qll_walk_room_make(searching, &room->walk) : status;
    status = status == QLL_OK ? qll_trial_room_make(searching, &room->first) : status;
    if (status == QLL_OK) {
        status = qll_least_room_make(searching, &room->least);
    }
    return status == QLL_OK ? qll_trial_room_make(searching, &room->second) : status;
}

qll_status qll_split_open(qll_searching *searching, double between_pa_gauge, size_t branches_most,
                          qll_split *split)
{
    const qll_site *site = searching->yardstick->site;
    *split = (qll_split){.searching = searching,
                         .between_pa_gauge = between_pa_gauge,
                         .branches_most = branches_most,
                         .least = INFINITY,
                         .first = qll_stage_place_first(searching, between_pa_gauge, false)};
    split->first.clear_pa_gauge = site->set_pa_gauge + QLL_CLEAR_PA;
    split->second = (qll_stage_place){.set_inlet_pa_gauge = between_pa_gauge,
                                      .low_pa_gauge = between_pa_gauge,
                                      .high_pa_gauge = between_pa_gauge,
                                      .wanted_pa_gauge = site->set_pa_gauge,
                                      .clear_pa_gauge = -INFINITY,
                                      .is_last = true};
    const size_t grid = qll_split_grid(split);
    const size_t peaks = qll_split_peaks(split);
    double *figures = qll_arena_take(searching->arena, grid + peaks, 2 * sizeof *figures);
    split->lead_pa = qll_arena_take(searching->arena, grid + peaks, sizeof *split->lead_pa);
    if (figures == NULL || split->lead_pa == NULL
        || qll_marks_make(searching, &split->firsts_left) != QLL_OK
        || qll_marks_make(searching, &split->seconds_left) != QLL_OK
        || qll_ends_make(searching->yardstick->duty, searching->arena, &split->second.ends)
               != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    split->range = (qll_between_range){.low_pa = figures,
                                       .high_pa = figures + grid,
                                       .low_peak_pa = figures + 2 * grid,
                                       .high_peak_pa = figures + 2 * grid + peaks};
    return QLL_OK;
}

/* What a first stage gives hangs little on the supply: the ends over all of them let a lead be solved once for all. */
static void level_supplies(const qll_split *split)
{
    const qll_duty *duty = split->searching->yardstick->duty;
    const qll_inlet_ends *ends = &split->second.ends;
    for (size_t i = 0; i < qll_split_grid(split); i++) {
        split->range.low_pa[i] = ends->low_pa[i % duty->flow_count];
        split->range.high_pa[i] = ends->high_pa[i % duty->flow_count];
    }
}

void qll_split_place_second(qll_split *split)
{
    const qll_between_range *range = &split->range;
    split->second.inlets = (qll_inlets){
        .grid_pa = range->low_pa, .peak_pa = range->low_peak_pa, .rest_pa = range->rest_low_pa};
    split->range.highest = (qll_inlets){
        .grid_pa = range->high_pa, .peak_pa = range->high_peak_pa, .rest_pa = range->rest_low_pa};
    split->second.highest = &split->range.highest;
    qll_place_ends(split->searching->yardstick->duty, &split->second);
    level_supplies(split);
}

static qll_half half_of(const qll_split *split, const qll_trial *trial)
{
    qll_half made = {.pick = trial->pick,
                     .placing = trial->placing,
                     .cost = trial->cost,
                     .dearest = trial->dearest};
    made.chance = qll_searching_chance(split->searching, trial->survival, NULL);
    made.gives_pa = trial->gives_pa;
    made.needs_pa = trial->needs_pa;
    made.highest_pa_gauge = -INFINITY;
    made.rated_pa_gauge =
        split->searching->pool.parts[trial->pick.part[0]].branch.valve->inlet_max_pa_gauge;
    for (size_t j = 0; j < trial->pick.count; j++) {
        made.highest_pa_gauge = fmax(made.highest_pa_gauge, trial->pick.set_pa_gauge[j]);
    }
    memcpy(made.survival, trial->survival, sizeof made.survival);
    return made;
}

/* Least that a first stage holds at the peaks and the middle supply, less hysteresis. */
static double held_pa_gauge(const qll_split *split, const qll_trial *trial)
{
    const qll_yardstick *yardstick = split->searching->yardstick;
    double least = INFINITY;
    for (size_t c = 0; c < yardstick->duty->scenario_count; c++) {
        double outlet_pa_gauge =
            trial->outlets.peak_pa[c * QLL_SUPPLY_LEVELS + QLL_SUPPLY_LEVELS / 2]
            - yardstick->site->barometric_pa;
        for (size_t j = 0; j < trial->pick.count; j++) {
            const qll_part *part = &split->searching->pool.parts[trial->pick.part[j]];
            double held = fmin(trial->pick.set_pa_gauge[j], outlet_pa_gauge);
            least = fmin(least, held - part->hysteresis_pa);
        }
    }
    return least;
}

static void widen(double *low, double *high, const double *with, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (!isnan(with[i])) {
            low[i] = with[i] < low[i] ? with[i] : low[i];
            high[i] = with[i] > high[i] ? with[i] : high[i];
        }
    }
}

static qll_status put_first(void *context, const qll_trial *trial)
{
    qll_split *split = context;
    qll_half made = half_of(split, trial);
    made.held_pa_gauge = held_pa_gauge(split, trial);
    made.peak_pa = trial->outlets.peak_pa[0];
    made.rest_pa_gauge = trial->outlets.rest_pa - split->searching->yardstick->site->barometric_pa;
    widen(split->range.low_pa, split->range.high_pa, trial->outlets.grid_pa, qll_split_grid(split));
    widen(split->range.low_peak_pa, split->range.high_peak_pa, trial->outlets.peak_pa,
          qll_split_peaks(split));
    split->range.rest_low_pa = fmin(split->range.rest_low_pa, trial->outlets.rest_pa);
    return qll_halves_put(&split->firsts, &made, split->searching->arena);
}

static qll_status put_kept(void *context, const qll_trial *trial)
{
    qll_split *split = context;
    const qll_between_range *range = &split->range;
    const size_t grid = qll_split_grid(split);
    widen(range->low_pa, range->high_pa, trial->outlets.grid_pa, grid);
    if (trial->outlets_most_pa != NULL) {
        widen(range->low_pa, range->high_pa, trial->outlets_most_pa, grid);
    }
    widen(range->low_peak_pa, range->high_peak_pa, trial->outlets.peak_pa, qll_split_peaks(split));
    split->range.rest_low_pa = fmin(split->range.rest_low_pa, trial->outlets.rest_pa);
    return qll_kept_put(&split->kept, &split->first, trial, split->searching->arena);
}

/* Its dearest part is at least its first. */
static qll_half second_of(const qll_split *split, const qll_trial *trial)
{
    qll_half made = half_of(split, trial);
    if (trial->seconds != NULL) {
        made.dearest = split->searching->pool.parts[trial->pick.part[0]].cost;
    }
    return made;
}

static qll_status put_second(void *context, const qll_trial *trial)
{
    qll_split *split = context;
    const qll_half made = second_of(split, trial);
    return qll_halves_put(&split->seconds, &made, split->searching->arena);
}

/* What its pairs share, and each of them; NULL = no memory. */
static qll_alike *alike_of(const qll_split *split, const qll_trial *trial)
{
    qll_arena *arena = split->searching->arena;
    qll_alike *made = qll_arena_take(arena, 1, sizeof *made);
    qll_second *seconds = qll_arena_take(arena, trial->second_count, sizeof *seconds);
    if (made == NULL || seconds == NULL) {
        return NULL;
    }
    memcpy(seconds, trial->seconds, trial->second_count * sizeof *seconds);
    *made = (qll_alike){.seconds = seconds,
                        .second_count = trial->second_count,
                        .open_from = trial->open_from,
                        .floor = trial->floor};
    memcpy(made->open_share, trial->open_share, sizeof made->open_share);
    const double rounded = 1.0 + 1e-12; /* up */
    for (size_t k = 0; k < QLL_NODES; k++) {
        made->alone[k] = trial->survival[k] / trial->floor * rounded;
    }
    return made;
}

static qll_status put_pairs(void *context, const qll_trial *trial)
{
    qll_split *split = context;
    qll_half made = second_of(split, trial);
    if (trial->seconds != NULL) {
        made.alike = alike_of(split, trial);
        if (made.alike == NULL) {
            return QLL_NO_MEMORY;
        }
    }
    return qll_halves_put(&split->seconds, &made, split->searching->arena);
}

/* Where no first stage passes a flow, or one may give anything, nothing is known of what comes: no number. */
static void leave_unknown(double *low, double *high, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (!(low[i] <= high[i]) || !isfinite(low[i]) || !isfinite(high[i])) {
            low[i] = NAN;
            high[i] = NAN;
        }
    }
}

/* The range of what was listed, and the place behind it. */
static void finish_range(qll_split *split)
{
    leave_unknown(split->range.low_pa, split->range.high_pa, qll_split_grid(split));
    leave_unknown(split->range.low_peak_pa, split->range.high_peak_pa, qll_split_peaks(split));
    qll_split_place_second(split);
}

static void forget(qll_split *split)
{
    for (size_t i = 0; i < qll_split_grid(split); i++) {
        split->range.low_pa[i] = INFINITY;
        split->range.high_pa[i] = -INFINITY;
    }
    for (size_t i = 0; i < qll_split_peaks(split); i++) {
        split->range.low_peak_pa[i] = INFINITY;
        split->range.high_peak_pa[i] = -INFINITY;
    }
    split->range.rest_low_pa = INFINITY;
}

static qll_walk walk_of(qll_split *split, const qll_stage_place *place,
                        const qll_rest_of_station *rest, qll_walk_sink *sink)
{
    return (qll_walk){.searching = split->searching,
                      .place = place,
                      .rest = rest,
                      .branches_most = split->branches_most,
                      .sink = sink,
                      .context = split,
                      .tells_progress = true};
}

/* Nothing listed, in room that is at hand. */
static qll_halves emptied(const qll_halves *room)
{
    return (qll_halves){.items = room->items, .room = room->room};
}

static qll_status list_by_lead(qll_split *split, const qll_stage_place *place,
                               const qll_rest_of_station *rest, qll_walk_sink *sink,
                               const qll_marks *left, qll_split_room *room)
{
    qll_walk walk = walk_of(split, place, rest, sink);
    walk.by_lead = true;
    walk.left = left;
    return qll_walk_stage(&walk, &room->walk);
}

static qll_status put_lead(void *context, const qll_trial *trial)
{
    qll_split *split = context;
    qll_half made = half_of(split, trial);
    made.dearest = split->searching->pool.parts[trial->pick.part[0]].cost;
    const size_t grid = qll_split_grid(split);
    for (size_t i = 0; i < grid + qll_split_peaks(split); i++) {
        double outlet_pa = i < grid ? trial->outlets.grid_pa[i] : trial->outlets.peak_pa[i - grid];
        /* What the lead cannot pass alone it may pass with another. */
        outlet_pa = isnan(outlet_pa) ? -(double)INFINITY : outlet_pa;
        split->lead_pa[i] = fmin(split->lead_pa[i], outlet_pa);
    }
    return qll_halves_put(&split->firsts, &made, split->searching->arena);
}

static void narrow(const double *lead_pa, size_t count, double *low_pa, const double *high_pa)
{
    for (size_t i = 0; i < count; i++) {
        low_pa[i] = fmin(fmax(low_pa[i], lead_pa[i]), high_pa[i]);
    }
}

qll_status qll_split_list_leads(qll_split *split, const qll_rest_of_station *rest,
                                qll_split_room *room)
{
    const size_t grid = qll_split_grid(split);
    for (size_t i = 0; i < grid + qll_split_peaks(split); i++) {
        split->lead_pa[i] = INFINITY;
    }
    split->firsts = emptied(&room->firsts);
    qll_status status = list_by_lead(split, &split->first, rest, put_lead, NULL, room);
    narrow(split->lead_pa, grid, split->range.low_pa, split->range.high_pa);
    narrow(split->lead_pa + grid, qll_split_peaks(split), split->range.low_peak_pa,
           split->range.high_peak_pa);
    qll_split_place_second(split);
    return status;
}

/* What comes is no less than was known before. */
static void meet(const double *before_pa, size_t count, double *after_pa, bool is_low)
{
    for (size_t i = 0; i < count; i++) {
        const bool is_further = is_low ? before_pa[i] > after_pa[i] : before_pa[i] < after_pa[i];
        after_pa[i] = is_further ? before_pa[i] : after_pa[i];
    }
}

static qll_status keep_range(const qll_split *split, qll_between_range *made)
{
    const size_t grid = qll_split_grid(split);
    const size_t peaks = qll_split_peaks(split);
    double *figures = qll_arena_take(split->searching->arena, grid + peaks, 2 * sizeof *figures);
    if (figures == NULL) {
        return QLL_NO_MEMORY;
    }
    *made = (qll_between_range){.low_pa = figures,
                                .high_pa = figures + grid + peaks,
                                .low_peak_pa = figures + grid,
                                .high_peak_pa = figures + 2 * grid + peaks};
    memcpy(made->low_pa, split->range.low_pa, grid * sizeof *figures);
    memcpy(made->high_pa, split->range.high_pa, grid * sizeof *figures);
    memcpy(made->low_peak_pa, split->range.low_peak_pa, peaks * sizeof *figures);
    memcpy(made->high_peak_pa, split->range.high_peak_pa, peaks * sizeof *figures);
    return QLL_OK;
}

qll_status qll_split_keep_firsts(qll_split *split, const qll_rest_of_station *rest,
                                 qll_split_room *room)
{
    qll_between_range before;
    if (keep_range(split, &before) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    forget(split);
    split->kept = (qll_kept_list){0};
    qll_walk walk = walk_of(split, &split->first, rest, put_kept);
    walk.is_early = true;
    walk.left = &split->firsts_left;
    qll_status status = qll_walk_stage(&walk, &room->walk);
    meet(before.low_pa, qll_split_grid(split), split->range.low_pa, true);
    meet(before.high_pa, qll_split_grid(split), split->range.high_pa, false);
    meet(before.low_peak_pa, qll_split_peaks(split), split->range.low_peak_pa, true);
    meet(before.high_peak_pa, qll_split_peaks(split), split->range.high_peak_pa, false);
    finish_range(split);
    return status;
}

qll_status qll_split_list_firsts(qll_split *split, const qll_rest_of_station *rest,
                                 qll_split_room *room)
{
    forget(split);
    split->firsts = emptied(&room->firsts);
    const qll_walk walk = walk_of(split, &split->first, rest, put_first);
    qll_status status = qll_walk_kept(&walk, &split->kept, &room->walk);
    finish_range(split);
    return status;
}

qll_status qll_split_list_seconds(qll_split *split, const qll_rest_of_station *rest,
                                  const qll_marks *left, qll_split_room *room)
{
    split->seconds = emptied(&room->seconds);
    return list_by_lead(split, &split->second, rest, put_second, left, room);
}

qll_status qll_split_list_pairs(qll_split *split, const qll_rest_of_station *rest,
                                const qll_marks *left, qll_split_room *room)
{
    split->seconds = emptied(&room->seconds);
    return list_by_lead(split, &split->second, rest, put_pairs, left, room);
}

static void give_back(qll_halves *list, qll_halves *room)
{
    *room = list->room > room->room ? *list : *room;
    *list = (qll_halves){0};
}

qll_status qll_split_shelve(qll_split *split, qll_split_room *room)
{
    const qll_halves listed = split->seconds;
    give_back(&split->firsts, &room->firsts);
    give_back(&split->seconds, &room->seconds);
    if (listed.count == 0) {
        return QLL_OK;
    }
    qll_half *items = qll_arena_take(split->searching->arena, listed.count, sizeof *items);
    if (items == NULL) {
        return QLL_NO_MEMORY;
    }
    memcpy(items, listed.items, listed.count * sizeof *items);
    split->seconds = (qll_halves){.items = items, .count = listed.count, .room = listed.count};
    return QLL_OK;
}
