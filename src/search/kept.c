#include "search/kept.h"

#include "search/trying.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define QLL_NO_SECOND UINT32_MAX

/* What a float makes of a figure that is to be no less. */
#define QLL_KEPT_UP    (1.0 + 1e-6)
#define QLL_KEPT_UP_PA 1.0

/* The set-point of a place at which a second valve stands. */
static uint32_t set_of(const qll_stage_place *place, double set_pa_gauge)
{
    uint32_t set = QLL_SET_WANTED;
    while (set + 1 < QLL_SET_SECOND_COUNT && qll_set_pa_gauge(place, set) != set_pa_gauge) {
        set += 1;
    }
    return set;
}

qll_status qll_kept_put(qll_kept_list *list, const qll_stage_place *place, const qll_trial *trial,
                        qll_arena *arena)
{
    if (list->count == list->room) {
        const size_t room = list->room == 0 ? 1024 : 2 * list->room;
        qll_kept *items = qll_arena_take(arena, room, sizeof *items);
        if (items == NULL) {
            return QLL_NO_MEMORY;
        }
        if (list->count > 0) {
            memcpy(items, list->items, list->count * sizeof *items);
        }
        list->items = items;
        list->room = room;
    }
    const qll_pick *pick = &trial->pick;
    qll_kept *made = &list->items[list->count];
    *made = (qll_kept){.lead = (uint32_t)pick->part[0],
                       .second = QLL_NO_SECOND,
                       .gives_pa = (float)(trial->gives_pa + QLL_KEPT_UP_PA)};
    if (pick->count > 1) {
        made->second = (uint32_t)pick->part[1];
        made->set = set_of(place, pick->set_pa_gauge[1]);
    }
    for (size_t k = 0; k < QLL_NODES; k++) {
        made->survival[k] = (float)(QLL_KEPT_UP * trial->survival[k]);
    }
    list->count += 1;
    return QLL_OK;
}

static double cost_of(const qll_searching *searching, const qll_kept *one)
{
    const qll_part *parts = searching->pool.parts;
    return one->second == QLL_NO_SECOND
               ? parts[one->lead].cost
               : searching->beside + parts[one->lead].cost + parts[one->second].cost;
}

static double dearest_of(const qll_searching *searching, const qll_kept *one)
{
    const qll_part *parts = searching->pool.parts;
    return one->second == QLL_NO_SECOND ? parts[one->lead].cost
                                        : fmax(parts[one->lead].cost, parts[one->second].cost);
}

/* As a bound sees it. */
static qll_half half_of(const qll_searching *searching, const qll_kept *one)
{
    qll_half made = {.pick = {.count = one->second == QLL_NO_SECOND ? 1 : 2},
                     .cost = cost_of(searching, one),
                     .dearest = dearest_of(searching, one),
                     .gives_pa = (double)one->gives_pa,
                     .needs_pa = -INFINITY,
                     .highest_pa_gauge = -INFINITY,
                     .rated_pa_gauge = INFINITY};
    for (size_t k = 0; k < QLL_NODES; k++) {
        made.survival[k] = (double)one->survival[k];
    }
    made.chance = qll_searching_chance(searching, made.survival, NULL);
    return made;
}

/* What is ordered by cost. */
typedef struct keyed {
    double cost;
    size_t index;
} keyed;

static int compare_keyed(const void *left, const void *right)
{
    const keyed *a = left;
    const keyed *b = right;
    if (a->cost != b->cost) {
        return a->cost < b->cost ? -1 : 1;
    }
    return a->index < b->index ? -1 : a->index > b->index;
}

qll_status qll_kept_front(qll_searching *searching, const qll_kept_list *list, qll_halves *front)
{
    *front = (qll_halves){0};
    keyed *order = qll_arena_take(searching->arena, list->count, sizeof *order);
    if (order == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < list->count; i++) {
        order[i] = (keyed){cost_of(searching, &list->items[i]), i};
    }
    qsort(order, list->count, sizeof *order, compare_keyed);
    qll_status status = QLL_OK;
    for (size_t i = 0; i < list->count && status == QLL_OK && !searching->stopped; i++) {
        const qll_half one = half_of(searching, &list->items[order[i].index]);
        status = qll_front_put(searching, front, &one);
    }
    return status;
}

/* A pair of the lead that has been solved. */
static qll_status try_kept(qll_trying *at, const qll_pairing *pairs, const qll_kept *one)
{
    const qll_searching *searching = at->searching;
    const size_t index = one->second;
    const qll_second_figures second = {.hysteresis_pa = searching->pool.parts[index].hysteresis_pa,
                                       .inlet_effect =
                                           searching->pool.parts[index].branch.valve->inlet_effect};
    double gap_pa;
    if (!qll_second_hands_over(&at->tables, &second, pairs->set, &gap_pa)) {
        return QLL_OK; /* not by the last bit */
    }
    double survival[QLL_NODES], kept[QLL_NODES];
    memcpy(survival, pairs->alone, sizeof survival);
    qll_survival_hunting(
        qll_hunting_severity(at->lead.part->hysteresis_pa + second.hysteresis_pa, gap_pa),
        pairs->open_share, survival);
    for (size_t k = 0; k < QLL_NODES; k++) {
        kept[k] = (double)one->survival[k];
    }
    qll_half_bound of =
        qll_half_bound_with(kept, cost_of(searching, one), dearest_of(searching, one));
    of.gives_pa = (double)one->gives_pa;
    return qll_try_second(at, index, pairs, &of, survival);
}

/* Whether the walk's rest still wants it. */
static bool is_wanted(const qll_trying *at, const qll_kept *one)
{
    const qll_half as_half = half_of(at->searching, one);
    const qll_half_bound of = qll_half_bound_of(&as_half);
    return qll_searching_wants(at->searching, at->walk->rest, &of, 1.0);
}

qll_status qll_walk_kept(const qll_walk *walk, const qll_kept_list *list, qll_walk_room *room)
{
    qll_trying at;
    qll_trying_begin(walk, room, &at);
    qll_pairing pairs = {.set = QLL_SET_WANTED};
    const qll_kept *lead = NULL; /* of which lead and set-point one was wanted last */
    const qll_kept *set = NULL;
    qll_status status = QLL_OK;
    for (size_t i = 0; i < list->count && status == QLL_OK && !walk->searching->stopped; i++) {
        const qll_kept *one = &list->items[i];
        if (!is_wanted(&at, one)) {
            walk->searching->counts.bounded += 1;
            continue;
        }
        if (lead == NULL || lead->lead != one->lead) {
            qll_trying_lead(&at, one->lead, walk->place->wanted_pa_gauge);
            qll_trying_solve(&at);
            lead = one;
            set = NULL;
        }
        if (one->second == QLL_NO_SECOND) {
            status = qll_try_single(&at);
            continue;
        }
        if (set == NULL || set->set != one->set) {
            qll_pairing_begin(&at, one->set, qll_placing_of(QLL_SET_WANTED, one->set), &pairs);
            set = one;
        }
        status = try_kept(&at, &pairs, one);
        if (i % 64 == 63 && walk->tells_progress
            && !qll_searching_goes_on(walk->searching, (double)i / (double)list->count)) {
            break;
        }
    }
    return status;
}
