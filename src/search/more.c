/* Where no single valve and no small and large one do: two alike, three side by side, three stages.
 * docs/theory/search.md, 5. */
#include "search/between.h"
#include "search/walk.h"

#include <math.h>
#include <string.h>

/* Of each size so many of the cheapest are tried in threes (our choice: three valves side by side or in
 * series are for want of anything better). */
#define QLL_PER_SIZE 6

/* The parts that are tried, by rising cost. */
typedef struct short_list {
    size_t *parts; /* in the pool */
    size_t count;
} short_list;

static qll_status make_short_list(const qll_searching *searching, short_list *list)
{
    const qll_pool *pool = &searching->pool;
    size_t *seen = qll_arena_take(searching->arena, pool->size_count, sizeof *seen);
    list->parts = qll_arena_take(searching->arena, pool->count, sizeof *list->parts);
    list->count = 0;
    if (seen == NULL || list->parts == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < pool->count; i++) {
        if (seen[pool->parts[i].size] < QLL_PER_SIZE) {
            seen[pool->parts[i].size] += 1;
            list->parts[list->count] = i;
            list->count += 1;
        }
    }
    return QLL_OK;
}

/* ---- three side by side ---- */

typedef struct threes {
    qll_searching *searching;
    qll_stage_place place;
    qll_rest_of_station none;
    qll_trial_room room;
} threes;

/* Both placements: the last one at the wanted pressure, or the first. */
static void try_settings(threes *at, const qll_pick *pick)
{
    for (size_t i = 0; i < QLL_OFFSET_COUNT; i++) {
        for (int above = 0; above < 2; above++) {
            qll_pick set = *pick;
            double top_pa =
                at->place.wanted_pa_gauge + (above == 1 ? 2.0 * qll_offsets_pa[i] : 0.0);
            for (size_t j = 0; j < set.count; j++) {
                set.set_pa_gauge[j] = top_pa - (double)j * qll_offsets_pa[i];
            }
            if (!qll_searching_looks(at->searching, QLL_LOOKS_PER_TRIAL)) {
                return;
            }
            qll_trial trial;
            qll_practice broken =
                qll_trial_make(at->searching, &at->place, &set, &at->none, NULL, &at->room, &trial);
            if (broken < QLL_PRACTICE_COUNT) {
                at->searching->counts.by_practice[broken] += 1;
            } else if (!trial.is_dear) {
                qll_searching_put_one(at->searching, &trial);
            }
        }
    }
}

/* In the order of their ranks: the least opens first. */
static void sort_ranks(const qll_pool *pool, qll_pick *pick)
{
    for (size_t i = 1; i < pick->count; i++) {
        size_t moved = pick->part[i];
        size_t at = i;
        while (at > 0 && pool->parts[pick->part[at - 1]].rank > pool->parts[moved].rank) {
            pick->part[at] = pick->part[at - 1];
            at--;
        }
        pick->part[at] = moved;
    }
}

static bool can_carry(const threes *at, const qll_pick *pick)
{
    const qll_pool *pool = &at->searching->pool;
    double area_m2 = 0.0;
    for (size_t j = 0; j < pick->count; j++) {
        area_m2 += pool->parts[pick->part[j]].area_m2;
    }
    double peak_m3s = at->searching->yardstick->duty->peak_m3s;
    return peak_m3s <= QLL_SPEED_MOST_M_S * area_m2 * (1.0 + 1e-9);
}

static void try_three(threes *at, const short_list *list, const size_t index[3])
{
    qll_searching *searching = at->searching;
    const qll_pool *pool = &searching->pool;
    qll_pick pick = {.count = 3};
    double cost = 2.0 * searching->beside;
    for (size_t j = 0; j < 3; j++) {
        pick.part[j] = list->parts[index[j]];
        cost += pool->parts[pick.part[j]].cost;
    }
    if (cost < qll_searching_limit(searching) && can_carry(at, &pick)) {
        sort_ranks(pool, &pick);
        try_settings(at, &pick);
    }
}

static bool carries(const qll_searching *searching, const qll_stage_place *place,
                    const qll_part *first, const qll_part *second)
{
    const qll_yardstick *yardstick = searching->yardstick;
    const double set_pa_gauge = place->wanted_pa_gauge;
    for (size_t c = 0; c < yardstick->duty->scenario_count; c++) {
        double peak_m3s = yardstick->peak_m3s[c];
        double passes_m3s = qll_part_hard_m3s(searching, place, first, set_pa_gauge, c)
                            + qll_part_hard_m3s(searching, place, second, set_pa_gauge, c);
        if (!(peak_m3s <= passes_m3s)
            || peak_m3s > QLL_SPEED_MOST_M_S * (first->area_m2 + second->area_m2)) {
            return false;
        }
    }
    return true;
}

/* Whether any two carry every peak side by side: then it is something else that does not fit, and a third would
 * not mend it. */
static bool two_carry(const qll_searching *searching, const qll_stage_place *place)
{
    const qll_pool *pool = &searching->pool;
    for (size_t i = 0; i < pool->count; i++) {
        for (size_t j = i; j < pool->count; j++) {
            if (carries(searching, place, &pool->parts[i], &pool->parts[j])) {
                return true;
            }
        }
    }
    return false;
}

static qll_status three_side_by_side(qll_searching *searching, const short_list *list)
{
    const qll_site *site = searching->yardstick->site;
    threes at = {.searching = searching,
                 .place = qll_stage_place_first(searching, site->set_pa_gauge, true),
                 .none = qll_rest_costing(0.0)};
    if (!qll_keeps_ratio(site, at.place.high_pa_gauge, site->set_pa_gauge)
        || two_carry(searching, &at.place)) {
        return QLL_OK;
    }
    if (qll_trial_room_make(searching, &at.room) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    for (size_t a = 0; a < list->count; a++) {
        for (size_t b = a; b < list->count && !searching->stopped; b++) {
            for (size_t c = b; c < list->count; c++) {
                try_three(&at, list, (const size_t[3]){a, b, c});
            }
        }
        if (!qll_searching_goes_on(searching, (double)(a + 1) / (double)list->count)) {
            break;
        }
    }
    return QLL_OK;
}

/* ---- three stages ---- */

typedef struct in_series {
    qll_searching *searching;
    const short_list *list;
    double between_pa_gauge[QLL_STAGES_MOST];
    qll_trial_room rooms[QLL_STAGES_MOST];
    qll_walk_room walk;
    qll_pick picks[QLL_STAGES_MOST]; /* so far */
    qll_stage_place places[QLL_STAGES_MOST];
    qll_rest_of_station rest; /* of what stands so far */
} in_series;

static qll_status put_last(void *context, const qll_trial *trial)
{
    in_series *at = context;
    qll_searching *searching = at->searching;
    double survives = 1.0 - qll_searching_chance(searching, trial->survival, at->rest.survival);
    qll_whole whole = {.stage_count = QLL_STAGES_MOST, .installed = at->rest.cost + trial->cost};
    for (size_t k = 0; k < QLL_STAGES_MOST; k++) {
        whole.stages[k] = k + 1 < QLL_STAGES_MOST ? at->picks[k] : trial->pick;
        whole.set_inlet_pa_gauge[k] = at->places[k].set_inlet_pa_gauge;
    }
    qll_searching_put(searching, &whole, fmax(at->rest.dearest, trial->dearest), survives,
                      trial->outlets.rest_pa);
    return QLL_OK;
}

static qll_stage_place behind(const in_series *at, size_t stage, const qll_inlets *inlets)
{
    const qll_site *site = at->searching->yardstick->site;
    double inlet_pa_gauge = at->between_pa_gauge[stage - 1];
    bool is_last = stage + 1 == QLL_STAGES_MOST;
    double next_pa_gauge =
        stage + 2 < QLL_STAGES_MOST ? at->between_pa_gauge[stage + 1] : site->set_pa_gauge;
    return (qll_stage_place){
        .inlets = *inlets,
        .set_inlet_pa_gauge = inlet_pa_gauge,
        .low_pa_gauge = inlet_pa_gauge,
        .high_pa_gauge = inlet_pa_gauge,
        .wanted_pa_gauge = is_last ? site->set_pa_gauge : at->between_pa_gauge[stage],
        .clear_pa_gauge = is_last ? -(double)INFINITY : next_pa_gauge + QLL_CLEAR_PA,
        .is_last = is_last};
}

/* Single valves, before the last stage those of the short list. */
static qll_status go_down(in_series *at, size_t stage)
{
    qll_searching *searching = at->searching;
    if (stage + 1 == QLL_STAGES_MOST) {
        const qll_walk walk = {.searching = searching,
                               .place = &at->places[stage],
                               .rest = &at->rest,
                               .branches_most = 1,
                               .sink = put_last,
                               .context = at};
        return qll_walk_stage(&walk, &at->walk);
    }
    const qll_rest_of_station before = at->rest;
    qll_status status = QLL_OK;
    for (size_t i = 0; i < at->list->count && status == QLL_OK; i++) {
        if (!qll_searching_looks(searching, QLL_LOOKS_PER_TRIAL)) {
            break;
        }
        qll_pick pick = {.count = 1, .part = {at->list->parts[i]}};
        pick.set_pa_gauge[0] = at->places[stage].wanted_pa_gauge;
        qll_trial trial;
        qll_practice broken = qll_trial_make(searching, &at->places[stage], &pick, &before, NULL,
                                             &at->rooms[stage], &trial);
        if (broken < QLL_PRACTICE_COUNT || trial.is_dear) {
            if (broken < QLL_PRACTICE_COUNT) {
                searching->counts.by_practice[broken] += 1;
            }
            continue;
        }
        at->picks[stage] = pick;
        at->rest = before;
        at->rest.cost += trial.cost + searching->yardstick->site->costs->stage;
        at->rest.dearest = fmax(at->rest.dearest, trial.dearest);
        for (size_t k = 0; k < QLL_NODES; k++) {
            at->rest.survival[k] *= trial.survival[k];
        }
        at->places[stage + 1] = behind(at, stage + 1, &trial.outlets);
        status = go_down(at, stage + 1);
        if (stage == 0) {
            (void)qll_searching_goes_on(searching, (double)(i + 1) / (double)at->list->count);
        }
    }
    at->rest = before;
    return status;
}

static qll_status three_in_series(qll_searching *searching, const short_list *list)
{
    in_series *at = qll_arena_take(searching->arena, 1, sizeof *at);
    if (at == NULL) {
        return QLL_NO_MEMORY;
    }
    at->searching = searching;
    at->list = list;
    if (!qll_between_many(searching, QLL_STAGES_MOST, at->between_pa_gauge)) {
        return QLL_OK;
    }
    for (size_t k = 0; k < QLL_STAGES_MOST; k++) {
        if (qll_trial_room_make(searching, &at->rooms[k]) != QLL_OK) {
            return QLL_NO_MEMORY;
        }
    }
    if (qll_walk_room_make(searching, &at->walk) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    at->rest = qll_rest_costing(0.0);
    at->places[0] = qll_stage_place_first(searching, at->between_pa_gauge[0], false);
    at->places[0].clear_pa_gauge = at->between_pa_gauge[1] + QLL_CLEAR_PA;
    return go_down(at, 0);
}

static bool has_none(const qll_searching *searching)
{
    return searching->book.count == 0 && !searching->stopped;
}

qll_status qll_search_more(qll_searching *searching)
{
    const qll_search_options *options = searching->options;
    qll_status status = QLL_OK;
    searching->larger_least = 1.0;
    qll_pool_pair(&searching->pool, searching->larger_least);
    if (options->branches_max > 1) {
        status = qll_search_one_stage(searching);
    }
    if (status == QLL_OK && has_none(searching) && options->branches_max > 1
        && options->stages_max > 1) {
        status = qll_search_two_stages(searching);
    }
    short_list list;
    if (status == QLL_OK && has_none(searching)) {
        status = make_short_list(searching, &list);
        if (status == QLL_OK && options->branches_max > 2) {
            status = three_side_by_side(searching, &list);
        }
        if (status == QLL_OK && has_none(searching) && options->stages_max > 2) {
            status = three_in_series(searching, &list);
        }
    }
    return status;
}
