/* docs/theory/search.md, 4. */
#include "search/between.h"
#include "search/halves.h"
#include "search/walk.h"

#include <math.h>
#include <string.h>

/* One set-point between the stages. */
typedef struct split {
    qll_searching *searching;
    double between_pa_gauge;
    qll_stage_place first, second;
    qll_halves firsts, seconds;
    /* What first stages give, at least and at most. */
    double *low_pa, *high_pa;           /* [supply * flow_count + flow] */
    double *low_peak_pa, *high_peak_pa; /* [scenario * QLL_SUPPLY_LEVELS + supply] */
    double rest_low_pa;
    qll_inlets highest;
} split;

typedef struct two_rooms {
    qll_walk_room walk;
    qll_trial_room first, second;
} two_rooms;

static qll_half half_of(const split *at, const qll_trial *trial)
{
    qll_half made = {.pick = trial->pick, .cost = trial->cost, .dearest = trial->dearest};
    made.chance = qll_searching_chance(at->searching, trial->survival, NULL);
    made.highest_pa_gauge = -INFINITY;
    for (size_t j = 0; j < trial->pick.count; j++) {
        made.highest_pa_gauge = fmax(made.highest_pa_gauge, trial->pick.set_pa_gauge[j]);
    }
    memcpy(made.survival, trial->survival, sizeof made.survival);
    return made;
}

/* Least that a first stage holds at the peaks and the middle supply, less hysteresis. */
static double held_pa_gauge(const split *at, const qll_trial *trial)
{
    const qll_yardstick *yardstick = at->searching->yardstick;
    double least = INFINITY;
    for (size_t c = 0; c < yardstick->duty->scenario_count; c++) {
        double outlet_pa_gauge =
            trial->outlets.peak_pa[c * QLL_SUPPLY_LEVELS + QLL_SUPPLY_LEVELS / 2]
            - yardstick->site->barometric_pa;
        for (size_t j = 0; j < trial->pick.count; j++) {
            const qll_part *part = &at->searching->pool.parts[trial->pick.part[j]];
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
    split *at = context;
    const qll_duty *duty = at->searching->yardstick->duty;
    qll_half made = half_of(at, trial);
    made.held_pa_gauge = held_pa_gauge(at, trial);
    widen(at->low_pa, at->high_pa, trial->outlets.grid_pa, duty->supply_count * duty->flow_count);
    widen(at->low_peak_pa, at->high_peak_pa, trial->outlets.peak_pa,
          duty->scenario_count * QLL_SUPPLY_LEVELS);
    at->rest_low_pa = fmin(at->rest_low_pa, trial->outlets.rest_pa);
    return qll_halves_put(&at->firsts, &made, at->searching->arena);
}

static qll_status put_second(void *context, const qll_trial *trial)
{
    split *at = context;
    qll_half made = half_of(at, trial);
    return qll_halves_put(&at->seconds, &made, at->searching->arena);
}

static double cost_of(const split *at, const qll_half *first, double second_cost, double dearest,
                      double chance)
{
    const qll_searching *searching = at->searching;
    double installed = first->cost + second_cost + searching->yardstick->site->costs->stage;
    return qll_searching_expected(searching, installed, dearest, chance);
}

static double dearer(double a, double b)
{
    return a > b ? a : b;
}

/* The second stage behind its first one, exactly; the outlets of the first stand in its room. */
static void try_both(split *at, two_rooms *rooms, const qll_half *first, const qll_trial *before,
                     const qll_half *second)
{
    qll_searching *searching = at->searching;
    const qll_yardstick *yardstick = searching->yardstick;
    qll_stage_place place = at->second;
    place.inlets = before->outlets;
    place.highest = NULL;
    qll_rest_of_station rest = {.cost = first->cost + yardstick->site->costs->stage,
                                .dearest = first->dearest};
    memcpy(rest.survival, before->survival, sizeof rest.survival);
    qll_trial trial;
    qll_practice broken =
        qll_trial_make(searching, &place, &second->pick, &rest, NULL, &rooms->second, &trial);
    if (broken < QLL_PRACTICE_COUNT) {
        searching->counts.by_practice[broken] += 1;
        return;
    }
    if (trial.is_dear) {
        return;
    }
    double survives = 1.0 - qll_searching_chance(searching, trial.survival, before->survival);
    qll_whole whole = {
        .stage_count = 2,
        .stages = {first->pick, second->pick},
        .set_inlet_pa_gauge = {at->first.set_inlet_pa_gauge, at->second.set_inlet_pa_gauge}};
    whole.installed = first->cost + second->cost + yardstick->site->costs->stage;
    qll_searching_put(searching, &whole, dearer(first->dearest, second->dearest), survives,
                      trial.outlets.rest_pa);
}

/* A first stage and what was made of it when it was first tried. */
typedef struct crossing {
    const qll_half *first;
    double limit_pa_gauge; /* no set-point of the second stage lies above */
    qll_trial before;
    bool has_before;
} crossing;

/* The first bound that says that nothing behind this first stage is wanted of @p second, a stage or the least of a
 * block of them. */
static bool is_out(split *at, const crossing *with, const qll_half *second, size_t count)
{
    qll_searching *searching = at->searching;
    const qll_half *first = with->first;
    if (qll_breaks_pa(second->highest_pa_gauge - with->limit_pa_gauge)) {
        searching->counts.by_practice[QLL_PRACTICE_ORDER] += count;
        return true;
    }
    double limit = qll_searching_limit(searching);
    double dearest = dearer(first->dearest, second->dearest);
    double both = dearer(first->chance, second->chance);
    if (!(cost_of(at, first, second->cost, dearest, both) < limit)
        || !(cost_of(at, first, second->cost, dearest,
                     qll_searching_chance(searching, first->survival, second->survival))
             < limit)) {
        searching->counts.bounded += count;
        return true;
    }
    return false;
}

/* The stages of one block; false if the first stage is none by the last bit, or nothing is to go on. */
static bool cross_block(split *at, two_rooms *rooms, crossing *with, const qll_block *block,
                        bool skips_singles)
{
    qll_searching *searching = at->searching;
    for (size_t i = block->from; i < block->to; i++) {
        const qll_half *second = &at->seconds.items[i];
        if ((skips_singles && second->pick.count == 1) || is_out(at, with, second, 1)) {
            continue;
        }
        if (!with->has_before) {
            if (qll_trial_make(searching, &at->first, &with->first->pick, NULL, NULL, &rooms->first,
                               &with->before)
                < QLL_PRACTICE_COUNT) {
                return false;
            }
            with->has_before = true;
        }
        try_both(at, rooms, with->first, &with->before, second);
        if (!qll_searching_looks(searching, QLL_LOOKS_PER_TRIAL)) {
            return false;
        }
    }
    return qll_searching_looks(searching, block->to - block->from);
}

/* Every second stage that may matter behind one first stage. */
static void cross_first(split *at, two_rooms *rooms, const qll_blocks *blocks,
                        const qll_half *first, bool skips_singles)
{
    crossing with = {.first = first, .limit_pa_gauge = first->held_pa_gauge - QLL_CLEAR_PA};
    size_t i = 0;
    while (i < blocks->count) {
        const qll_block *block = &blocks->items[i];
        bool is_empty = skips_singles && block->least.pick.count == 1;
        if (is_empty || is_out(at, &with, &block->least, block->to - block->from)) {
            i = block->past;
            continue;
        }
        i += 1;
        if (block->past == i && !cross_block(at, rooms, &with, block, skips_singles)) {
            return;
        }
    }
}

/* Leaves those of @p list that some stage of the other list may go with, whose least is @p other. */
static void keep_wanted(split *at, qll_halves *list, const qll_half *other, bool is_first)
{
    size_t kept = 0;
    for (size_t i = 0; i < list->count && qll_searching_looks(at->searching, 20); i++) {
        qll_half *one = &list->items[i];
        crossing with = {.first = is_first ? one : other, .limit_pa_gauge = INFINITY};
        if (is_first) {
            with.limit_pa_gauge = one->held_pa_gauge - QLL_CLEAR_PA;
        }
        if (!is_out(at, &with, is_first ? other : one, 1)) {
            list->items[kept] = *one;
            kept += 1;
        }
    }
    list->count = kept;
}

static qll_status cross(split *at, two_rooms *rooms, bool skips_singles)
{
    if (at->firsts.count == 0 || at->seconds.count == 0) {
        return QLL_OK;
    }
    const qll_half least_first = qll_halves_least(at->firsts.items, at->firsts.count);
    keep_wanted(at, &at->seconds, &least_first, false);
    if (at->seconds.count == 0) {
        return QLL_OK;
    }
    const qll_half least_second = qll_halves_least(at->seconds.items, at->seconds.count);
    keep_wanted(at, &at->firsts, &least_second, true);
    qll_blocks blocks;
    qll_blocks in_order; /* cheap ones that seldom call somebody back come first */
    if (qll_blocks_make(at->searching, &at->firsts, &in_order) != QLL_OK
        || qll_blocks_make(at->searching, &at->seconds, &blocks) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < at->firsts.count; i++) {
        const qll_half *first = &at->firsts.items[i];
        cross_first(at, rooms, &blocks, first, skips_singles && first->pick.count == 1);
        bool tells = i % 64 == 63;
        if (at->searching->stopped
            || (tells
                && !qll_searching_goes_on(at->searching, (double)i / (double)at->firsts.count))) {
            break;
        }
    }
    return QLL_OK;
}

static qll_status open_split(qll_searching *searching, double between_pa_gauge, split *at)
{
    const qll_yardstick *yardstick = searching->yardstick;
    const qll_duty *duty = yardstick->duty;
    const size_t grid = duty->supply_count * duty->flow_count;
    const size_t peaks = duty->scenario_count * QLL_SUPPLY_LEVELS;
    double *figures = qll_arena_take(searching->arena, grid + peaks, 2 * sizeof *figures);
    if (figures == NULL) {
        return QLL_NO_MEMORY;
    }
    *at = (split){.searching = searching,
                  .between_pa_gauge = between_pa_gauge,
                  .first = qll_stage_place_first(searching, between_pa_gauge, false),
                  .low_pa = figures,
                  .high_pa = figures + grid,
                  .low_peak_pa = figures + 2 * grid,
                  .high_peak_pa = figures + 2 * grid + peaks};
    at->first.clear_pa_gauge = yardstick->site->set_pa_gauge + QLL_CLEAR_PA;
    at->second = (qll_stage_place){.set_inlet_pa_gauge = between_pa_gauge,
                                   .low_pa_gauge = between_pa_gauge,
                                   .high_pa_gauge = between_pa_gauge,
                                   .wanted_pa_gauge = yardstick->site->set_pa_gauge,
                                   .clear_pa_gauge = -INFINITY,
                                   .is_last = true};
    return QLL_OK;
}

static void forget(split *at)
{
    const qll_duty *duty = at->searching->yardstick->duty;
    const size_t grid = duty->supply_count * duty->flow_count;
    const size_t peaks = duty->scenario_count * QLL_SUPPLY_LEVELS;
    for (size_t i = 0; i < grid; i++) {
        at->low_pa[i] = INFINITY;
        at->high_pa[i] = -INFINITY;
    }
    for (size_t i = 0; i < peaks; i++) {
        at->low_peak_pa[i] = INFINITY;
        at->high_peak_pa[i] = -INFINITY;
    }
    at->rest_low_pa = INFINITY;
    at->firsts = (qll_halves){0};
    at->seconds = (qll_halves){0};
}

/* Where no first stage passes a flow nothing is known of what comes: no number. */
static void leave_unknown(double *low, double *high, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (!(low[i] <= high[i])) {
            low[i] = NAN;
            high[i] = NAN;
        }
    }
}

static void place_second(split *at)
{
    const qll_duty *duty = at->searching->yardstick->duty;
    leave_unknown(at->low_pa, at->high_pa, duty->supply_count * duty->flow_count);
    leave_unknown(at->low_peak_pa, at->high_peak_pa, duty->scenario_count * QLL_SUPPLY_LEVELS);
    at->second.inlets =
        (qll_inlets){.grid_pa = at->low_pa, .peak_pa = at->low_peak_pa, .rest_pa = at->rest_low_pa};
    at->highest = (qll_inlets){
        .grid_pa = at->high_pa, .peak_pa = at->high_peak_pa, .rest_pa = at->rest_low_pa};
    at->second.highest = &at->highest;
}

/* Least cost of any stage that carries the greatest peak at 15 ft/s: one valve, or two. */
static double least_stage_cost(const qll_searching *searching, size_t branches_most)
{
    const qll_pool *pool = &searching->pool;
    double area_m2 = searching->yardstick->duty->peak_m3s / QLL_SPEED_MOST_M_S * (1.0 - 1e-9);
    double least = INFINITY;
    for (size_t i = 0; i < pool->count; i++) {
        if (pool->parts[i].area_m2 >= area_m2) {
            least = fmin(least, pool->parts[i].cost);
            break;
        }
    }
    for (size_t i = 0; i < pool->count && branches_most > 1; i++) {
        for (size_t j = i; j < pool->count; j++) {
            double cost = searching->beside + pool->parts[i].cost + pool->parts[j].cost;
            if (cost >= least) {
                break;
            }
            if (pool->parts[i].area_m2 + pool->parts[j].area_m2 >= area_m2) {
                least = cost;
            }
        }
        if (searching->beside + 2.0 * pool->parts[i].cost >= least) {
            break;
        }
    }
    return least;
}

/* Shares of a split: its first stages, its second ones, both together. */
static const double split_shares[] = {0.0, 0.4, 0.6, 1.0};

static qll_status try_split(split *at, two_rooms *rooms, size_t branches_most, bool again,
                            double from, double to)
{
    qll_searching *searching = at->searching;
    forget(at);
    qll_searching_part(searching, from, to, split_shares[0], split_shares[1]);
    double least = least_stage_cost(searching, branches_most);
    qll_rest_of_station rest = qll_rest_costing(least + searching->yardstick->site->costs->stage);
    qll_walk walk = {.searching = searching,
                     .place = &at->first,
                     .rest = &rest,
                     .branches_most = branches_most,
                     .sink = put_first,
                     .context = at,
                     .tells_progress = true};
    qll_status status = qll_walk_stage(&walk, &rooms->walk);
    if (status != QLL_OK || at->firsts.count == 0 || searching->stopped) {
        return status;
    }
    qll_searching_part(searching, from, to, split_shares[1], split_shares[2]);
    double cheapest = INFINITY;
    for (size_t i = 0; i < at->firsts.count; i++) {
        cheapest = fmin(cheapest, at->firsts.items[i].cost);
    }
    rest.cost = cheapest + searching->yardstick->site->costs->stage;
    place_second(at);
    walk.place = &at->second;
    walk.sink = put_second;
    status = qll_walk_stage(&walk, &rooms->walk);
    qll_searching_part(searching, from, to, split_shares[2], split_shares[3]);
    return status == QLL_OK && !searching->stopped ? cross(at, rooms, again) : status;
}

/* What a split needs is given back: the book holds what it found by value. */
static qll_status search_split(split *at, two_rooms *rooms, size_t branches_most, bool again,
                               double from, double to)
{
    qll_arena *arena = at->searching->arena;
    qll_arena_mark mark = qll_arena_now(arena);
    qll_status status = try_split(at, rooms, branches_most, again, from, to);
    qll_arena_reset(arena, mark);
    return status;
}

qll_status qll_search_two_stages(qll_searching *searching)
{
    double between_pa_gauge[QLL_BETWEEN_MOST];
    const size_t count = qll_between_pressures(
        searching->yardstick, searching->yardstick->site->set_pa_gauge, between_pa_gauge);
    split splits[QLL_BETWEEN_MOST];
    two_rooms rooms;
    if (count == 0) {
        return QLL_OK;
    }
    if (qll_walk_room_make(searching, &rooms.walk) != QLL_OK
        || qll_trial_room_make(searching, &rooms.first) != QLL_OK
        || qll_trial_room_make(searching, &rooms.second) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    const size_t most = searching->options->branches_max < 2 ? 1 : 2;
    qll_status status = QLL_OK;
    /* Single valves first give the pairs a limit, unless there is one. */
    const bool singles_first = most == 1 || !(searching->options->known < (double)INFINITY);
    const double from = searching->share_from;
    const double step = (searching->share_to - from) / (double)(2 * count);
    for (size_t i = 0; i < count && status == QLL_OK && !searching->stopped; i++) {
        status = open_split(searching, between_pa_gauge[i], &splits[i]);
        if (status == QLL_OK && singles_first) {
            double begin = from + step * (double)i;
            status = search_split(&splits[i], &rooms, 1, false, begin, begin + step);
        }
    }
    for (size_t i = 0; i < count && status == QLL_OK && most > 1 && !searching->stopped; i++) {
        double begin = from + step * (double)(count + i);
        status = search_split(&splits[i], &rooms, most, singles_first, begin, begin + step);
    }
    return status;
}
