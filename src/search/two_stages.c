/* Two-stage arrangements, for each set-point between the stages.
 *
 * 1. What the first stage does depends on no second stage: it is solved once (first_stage.c).
 * 2. What a second stage does at a flow depends on its inlet pressure alone: bounds of its terms
 *    behind any first stage come from a few inlet pressures (second_bound.c).
 * 3. Most pairs of stages fall when these bounds are held against the front. If a pair falls by the
 *    least bound of its second stage, so does that of every first stage that is no better in noise,
 *    wear and price, without being looked at.
 * 4. The others are put together point by point (pair.c), and fall or enter the front. */
#include "search/pair.h"

#include <math.h>
#include <string.h>

/* Memory for terms of single valves behind single valves: all of them for some 40 valves at 120
 * points; of more, those of the second stages that promise most (our choice). */
#define QLL_LEAD_TABLES_SIZE ((size_t)8 * 1024 * 1024)

/** What second stages share, used anew by every split. A table holds a row for each valve of the
 * pool, as the lead of first stages. */
typedef struct second_room {
    qll_pair_room pair;
    qll_tally_term *own_terms;  /* one table, of the second stage under way */
    qll_tally_term *lead_terms; /* tables of valves alone */
    size_t table_room, table_count;
    size_t *table_of;   /* [valve of the pool], as the lead of second stages; from 1, 0 = none */
    size_t table_terms; /* of one table */
} second_room;

/* True if a better first stage, or this one itself, is beaten by the least bound. */
static bool falls_at_once(qll_searching *searching, const qll_split *split, size_t at,
                          const qll_second_stage *second)
{
    const qll_first_stage *first = split->firsts[at];
    for (size_t i = 0; i < first->better_count; i++) {
        if (split->is_beaten[first->better[i]]) {
            return true;
        }
    }
    const qll_objectives bounded = {.noise = fmax(first->total_noise, split->least.noise),
                                    .unsteady = split->least.unsteady,
                                    .wear = first->total_wear + split->least.wear,
                                    .price = first->price + second->price};
    return qll_front_beats_soon(&searching->front, &bounded);
}

static void try_first(qll_searching *searching, qll_split *split, size_t at,
                      const qll_second_stage *second, second_room *room)
{
    const qll_first_stage *first = split->firsts[at];
    split->is_beaten[at] = falls_at_once(searching, split, at, second);
    bool is_beaten = split->is_beaten[at];
    if (!is_beaten) {
        qll_split_bound_pair(split, first);
        const qll_objectives bounded = {.noise = split->rest[0].noise,
                                        .unsteady = split->rest[0].unsteady,
                                        .wear = split->rest[0].wear,
                                        .price = first->price + second->price};
        is_beaten = qll_front_beats_soon(&searching->front, &bounded);
    }
    if (is_beaten) {
        searching->counts.beaten += 1;
        return;
    }
    const qll_pair pair = {
        .split = split, .first = first, .second = second, .least = split->behind};
    qll_pair_try(searching, &pair, &room->pair);
}

/* The table of a valve alone; NULL if there is no room for another one. */
static qll_tally_term *find_table(second_room *room, size_t lead)
{
    if (room->table_of[lead] == 0) {
        if (room->table_count == room->table_room) {
            return NULL;
        }
        room->table_count += 1;
        room->table_of[lead] = room->table_count;
    }
    return &room->lead_terms[(room->table_of[lead] - 1) * room->table_terms];
}

static void try_firsts(qll_searching *searching, size_t lead, qll_second_stage *second,
                       qll_split *split, second_room *room)
{
    second->lead_terms = find_table(room, lead);
    second->own_terms = room->own_terms;
    memset(room->own_terms, 0, room->table_terms * sizeof *room->own_terms);
    qll_split_bound(second->of, lead, split);
    for (size_t i = 0; i < split->first_count; i++) {
        try_first(searching, split, i, second, room);
    }
}

static qll_status try_second(qll_searching *searching, const qll_second_choice *promised,
                             qll_split *split, second_room *room)
{
    const qll_stage_choice *choice = &promised->choice;
    if (!qll_handover_holds(choice, &split->second_plan)) {
        searching->counts.by_handover += split->first_count;
        return QLL_OK;
    }
    if (qll_front_reserve(&searching->front, split->first_count, searching->arena) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_arena_mark mark = qll_arena_now(searching->arena);
    qll_second_stage second;
    if (qll_second_stage_make(searching, choice, &second) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    const qll_rule broken = qll_second_stage_broken(searching, &second, split);
    if (broken == QLL_RULE_COUNT) {
        split->second_carries = true;
        try_firsts(searching, promised->lead, &second, split, room);
    } else {
        searching->counts.by_rule[broken] += split->first_count;
    }
    qll_arena_reset(searching->arena, mark);
    return QLL_OK;
}

static qll_status try_seconds(qll_searching *searching, const qll_stage_plan *plan,
                              qll_split *split, second_room *room)
{
    qll_second_choice **seconds = NULL;
    size_t count = 0;
    qll_status status = qll_split_seconds(searching, plan, split, &seconds, &count);
    for (size_t i = 0; i < count && status == QLL_OK; i++) {
        status = try_second(searching, seconds[i], split, room);
        double share = (double)(i + 1) / (double)count;
        if (!qll_searching_goes_on(searching, split->first_count, share)) {
            break;
        }
    }
    return status;
}

static void forget_leads(const qll_searching *searching, second_room *room)
{
    memset(room->table_of, 0, searching->pool.count * sizeof *room->table_of);
    memset(room->lead_terms, 0, room->table_count * room->table_terms * sizeof *room->lead_terms);
    room->table_count = 0;
}

static qll_status search_split(qll_searching *searching, qll_split *split, second_room *room)
{
    forget_leads(searching, room);
    qll_status status = qll_split_begin(searching, split);
    if (status != QLL_OK || split->first_count == 0) {
        return status;
    }
    status = try_seconds(searching, &split->second_plan, split, room);
    bool needs_three = searching->options->branches_max >= 3 && !split->second_carries;
    if (status == QLL_OK && needs_three && !searching->stopped) {
        const qll_stage_plan three = qll_stage_plan_of_three(&split->second_plan);
        searching->counts.arrangements +=
            split->first_count * qll_stage_choice_count(searching, &three);
        status = try_seconds(searching, &three, split, room);
    }
    return status;
}

qll_split qll_split_at(const qll_searching *searching, double between_pa_gauge)
{
    const size_t most = searching->options->branches_max;
    const qll_stage_plan first = {
        .set_pa_gauge = between_pa_gauge,
        .set_inlet_pa_gauge = searching->inlet_middle_pa_gauge,
        .inlet_low_pa_gauge = searching->inlet_low_pa_gauge,
        .inlet_high_pa_gauge = searching->inlet_high_pa_gauge,
        .branches_least = 1,
        .branches_most = most < 2 ? most : 2,
        .offset_most_pa = QLL_OFFSET_MOST_FIRST_PA,
    };
    /* Behind a first stage the inlet hardly moves. */
    qll_stage_plan second = first;
    second.set_pa_gauge = searching->site->set_pa_gauge;
    second.set_inlet_pa_gauge = between_pa_gauge;
    second.inlet_low_pa_gauge = between_pa_gauge;
    second.inlet_high_pa_gauge = between_pa_gauge;
    second.offset_most_pa = QLL_OFFSET_MOST_PA;
    return (qll_split){.first_plan = first, .second_plan = second};
}

static qll_status second_room_make(const qll_searching *searching, second_room *room)
{
    const size_t valves = searching->pool.count;
    const size_t points = searching->points.count;
    qll_arena *arena = searching->arena;
    if (points != 0 && valves > SIZE_MAX / sizeof(qll_tally_term) / points) {
        return QLL_NO_MEMORY;
    }
    *room = (second_room){.table_terms = valves * points};
    const size_t table_size = valves * points * sizeof(qll_tally_term);
    const size_t held = table_size == 0 ? 0 : QLL_LEAD_TABLES_SIZE / table_size;
    room->table_room = held < valves ? held : valves;
    room->table_of = qll_arena_take(arena, valves, sizeof *room->table_of);
    room->own_terms = qll_arena_take(arena, room->table_terms, sizeof *room->own_terms);
    room->lead_terms =
        qll_arena_take(arena, room->table_room * room->table_terms, sizeof *room->lead_terms);
    bool has_all = room->table_of != NULL && room->own_terms != NULL && room->lead_terms != NULL
                   && qll_pair_room_make(searching, &room->pair) == QLL_OK;
    return has_all ? QLL_OK : QLL_NO_MEMORY;
}

qll_status qll_search_two_stages(qll_searching *searching)
{
    double between_pa_gauge[QLL_BETWEEN_MOST];
    const size_t count = qll_between_pressures(searching->site, searching->duty, between_pa_gauge);
    const double from = searching->share_from;
    const double each = (searching->share_to - from) / (double)(count > 0 ? count : 1);
    second_room room;
    qll_status status = second_room_make(searching, &room);
    searching->splits = qll_arena_take(searching->arena, count, sizeof *searching->splits);
    if (searching->splits == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count && status == QLL_OK && !searching->stopped; i++) {
        searching->share_from = from + each * (double)i;
        searching->share_to = from + each * (double)(i + 1);
        /* The front grows while the split's own arrays stand below it, so nothing is given back
         * between set-points: there are few. */
        qll_split *split = &searching->splits[i];
        *split = qll_split_at(searching, between_pa_gauge[i]);
        searching->split_count = i + 1;
        status = search_split(searching, split, &room);
    }
    return status;
}
