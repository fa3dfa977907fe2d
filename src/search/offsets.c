/* Offsets in stations of two stages: those left over with the offsets by rule are tried at all the
 * others. docs/theory/search.md, section 1.
 *
 * Stations that differ in one offset alone have most of their terms in common: they are tried one
 * beside the other, those of one second stage together where its offset moves, those of one first
 * stage where that of the first does, and within these by the first valve of the other. */
#include "search/pair.h"

#include <stdlib.h>
#include <string.h>

/* Where one stage keeps the ratio rule, two are not what a building needs. */
static bool one_stage_keeps_the_ratio(const qll_searching *searching)
{
    const qll_site *site = searching->site;
    return searching->inlet_high_pa_gauge <= site->limits.ratio_max * site->set_pa_gauge;
}

/* The valves of a stage by rule at the other offsets at which they hand over. */
static size_t list_offsets_of(const qll_searching *searching, const qll_stage_choice *choice,
                              qll_stage_plan plan, qll_stage_choice made[QLL_OFFSETS_MOST])
{
    plan.all_offsets = true;
    size_t count = qll_stage_choice_offsets(choice, &plan, searching->site, made);
    size_t kept = 0;
    for (size_t i = 1; i < count; i++) { /* the first is the one by rule */
        if (qll_handover_holds(&made[i], &plan)) {
            made[kept] = made[i];
            kept += 1;
        }
    }
    return kept;
}

/** A station of the front, and where its first stage stands. */
typedef struct kept_station {
    size_t split_at;
    size_t first_at; /* in that split */
    qll_stage_choice second;
    size_t valves[QLL_BRANCHES_MOST]; /* of the second stage, in the pool */
} kept_station;

/** Terms of the stations under way: rows behind first valves alone, by the pool, then some behind whole
 * first stages. */
typedef struct offset_room {
    qll_pair_room pair;
    size_t point_count, lead_count;              /* of the pool */
    qll_tally_term *lead_terms;                  /* of the first valve of second stages alone */
    qll_tally_term *own_terms[QLL_OFFSETS_MOST]; /* of second stages; behind first valves alone */
    qll_first_stage *firsts[QLL_OFFSETS_MOST];
} offset_room;

static bool is_same_stage(const qll_stage_choice *a, const qll_stage_choice *b)
{
    bool same = a->branch_count == b->branch_count;
    for (size_t j = 0; same && j < a->branch_count; j++) {
        same = a->branches[j].valve == b->branches[j].valve
               && a->branches[j].set_pa_gauge == b->branches[j].set_pa_gauge;
    }
    return same;
}

/* False if its first stage is none by rule. */
static bool find_stages(const qll_searching *searching, const qll_arrangement *arrangement,
                        kept_station *kept)
{
    const qll_stage_choice *first = &arrangement->stages[0];
    kept->second = arrangement->stages[1];
    for (size_t j = 0; j < kept->second.branch_count; j++) {
        const qll_branch *branches = searching->pool.branches;
        kept->valves[j] = 0;
        while (branches[kept->valves[j]].valve != kept->second.branches[j].valve) {
            kept->valves[j] += 1;
        }
    }
    for (size_t i = 0; i < searching->split_count; i++) {
        const qll_split *split = &searching->splits[i];
        if (split->first_plan.set_pa_gauge != first->branches[0].set_pa_gauge) {
            continue;
        }
        for (size_t k = 0; k < split->first_count; k++) {
            if (is_same_stage(&split->firsts[k]->choice, first)) {
                kept->split_at = i;
                kept->first_at = k;
                return true;
            }
        }
    }
    return false;
}

static int compare_index(size_t a, size_t b)
{
    return (a > b) - (a < b);
}

static int compare_seconds(const kept_station *a, const kept_station *b)
{
    int order = compare_index(a->valves[0], b->valves[0]);
    if (order == 0) {
        order = compare_index(a->second.branch_count, b->second.branch_count);
    }
    for (size_t j = 1; j < a->second.branch_count && order == 0; j++) {
        order = compare_index(a->valves[j], b->valves[j]);
    }
    for (size_t j = 1; j < a->second.branch_count && order == 0; j++) {
        double a_set = a->second.branches[j].set_pa_gauge;
        double b_set = b->second.branches[j].set_pa_gauge;
        order = (a_set < b_set) - (a_set > b_set);
    }
    return order;
}

static int by_second(const void *left, const void *right)
{
    const kept_station *a = left;
    const kept_station *b = right;
    int order = compare_index(a->split_at, b->split_at);
    order = order == 0 ? compare_seconds(a, b) : order;
    return order == 0 ? compare_index(a->first_at, b->first_at) : order;
}

static int by_first(const void *left, const void *right)
{
    const kept_station *a = left;
    const kept_station *b = right;
    int order = compare_index(a->split_at, b->split_at);
    order = order == 0 ? compare_index(a->first_at, b->first_at) : order;
    return order == 0 ? compare_seconds(a, b) : order;
}

/* All two-stage members of the front as it stands, of which @p stage has offsets; a copy, since it
 * changes under way. */
static qll_status copy_front(const qll_searching *searching, size_t stage, kept_station **found,
                             size_t *found_count)
{
    const qll_front *front = &searching->front;
    *found = qll_arena_take(searching->arena, front->count, sizeof **found);
    *found_count = 0;
    if (*found == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < front->count; i++) {
        const qll_arrangement *arrangement = &front->members[i]->arrangement;
        if (arrangement->stage_count == 2 && arrangement->stages[stage].branch_count > 1
            && find_stages(searching, arrangement, &(*found)[*found_count])) {
            *found_count += 1;
        }
    }
    qsort(*found, *found_count, sizeof **found, stage == 0 ? by_first : by_second);
    return QLL_OK;
}

static void forget_rows(const offset_room *room, qll_tally_term *terms, size_t from, size_t count)
{
    memset(terms + from * room->point_count, 0, count * room->point_count * sizeof *terms);
}

/* Stations of one second stage: that stage at its other offsets. */
static qll_status move_second(qll_searching *searching, const kept_station *stations, size_t count,
                              offset_room *room)
{
    qll_split *split = &searching->splits[stations->split_at];
    qll_stage_choice moved[QLL_OFFSETS_MOST];
    qll_second_stage seconds[QLL_OFFSETS_MOST];
    size_t made_count = 0;
    const size_t moved_count =
        list_offsets_of(searching, &stations->second, split->second_plan, moved);
    searching->counts.arrangements += count * moved_count;
    for (size_t v = 0; v < moved_count; v++) {
        qll_second_stage *second = &seconds[made_count];
        if (qll_second_stage_make(searching, &moved[v], second) != QLL_OK) {
            return QLL_NO_MEMORY;
        }
        const qll_rule broken = qll_second_stage_broken(searching, second, split);
        if (broken != QLL_RULE_COUNT) {
            searching->counts.by_rule[broken] += count;
            continue;
        }
        second->lead_terms = room->lead_terms;
        second->own_terms = room->own_terms[made_count];
        forget_rows(room, second->own_terms, 0, room->lead_count);
        made_count += 1;
    }
    for (size_t i = 0; i < count; i++) {
        qll_first_stage first = *split->firsts[stations[i].first_at];
        first.own_row = room->lead_count;
        forget_rows(room, room->lead_terms, first.own_row, 1);
        for (size_t v = 0; v < made_count; v++) {
            const qll_pair pair = {.split = split, .first = &first, .second = &seconds[v]};
            qll_pair_try(searching, &pair, &room->pair);
        }
    }
    return QLL_OK;
}

/* The first stage @p by_rule at its other offsets; those that break a rule of their own take @p count
 * stations with them. Returns in @p made_count how many are left. */
static qll_status make_firsts(qll_searching *searching, const qll_split *split,
                              const qll_first_stage *by_rule, size_t count, offset_room *room,
                              size_t *made_count)
{
    qll_stage_choice moved[QLL_OFFSETS_MOST];
    const size_t moved_count =
        list_offsets_of(searching, &by_rule->choice, split->first_plan, moved);
    searching->counts.arrangements += count * moved_count;
    *made_count = 0;
    for (size_t v = 0; v < moved_count; v++) {
        qll_first_stage *first = room->firsts[*made_count];
        qll_tally_stage *of = NULL;
        first->choice = moved[v];
        if (qll_tally_stage_make(&first->choice, searching->site, searching->arena, &of)
            != QLL_OK) {
            return QLL_NO_MEMORY;
        }
        qll_stage_corners_begin(&searching->corners, &first->corners);
        qll_stage_corners_solve(searching->duty, of->solver, first->choice.branch_count,
                                &first->corners);
        const qll_rule broken =
            qll_corner_broken_by_stage(&searching->corners, &of->stage, &first->corners);
        if (broken != QLL_RULE_COUNT) {
            searching->counts.by_rule[broken] += count;
            continue;
        }
        first->lead = by_rule->lead;
        first->lead_row = by_rule->lead;
        first->own_row = room->lead_count + *made_count;
        qll_first_stage_solve(split, &searching->points, of, first);
        *made_count += 1;
    }
    return QLL_OK;
}

/* Stations of one first stage: that stage at its other offsets. */
static qll_status move_first(qll_searching *searching, const kept_station *stations, size_t count,
                             offset_room *room)
{
    const qll_split *split = &searching->splits[stations->split_at];
    const qll_first_stage *by_rule = split->firsts[stations->first_at];
    size_t moved_count = 0;
    if (make_firsts(searching, split, by_rule, count, room, &moved_count) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        qll_second_stage second = {.lead_terms = room->lead_terms, .own_terms = room->own_terms[0]};
        if (i == 0 || stations[i].valves[0] != stations[i - 1].valves[0]) {
            forget_rows(room, room->lead_terms, by_rule->lead, 1);
            forget_rows(room, room->lead_terms, room->lead_count, moved_count);
        }
        forget_rows(room, room->own_terms[0], by_rule->lead, 1);
        if (qll_second_stage_make(searching, &stations[i].second, &second) != QLL_OK) {
            return QLL_NO_MEMORY;
        }
        for (size_t v = 0; v < moved_count; v++) {
            const qll_pair pair = {.split = split, .first = room->firsts[v], .second = &second};
            qll_pair_try(searching, &pair, &room->pair);
        }
    }
    return QLL_OK;
}

static bool is_moved_together(const kept_station *a, const kept_station *b, size_t stage)
{
    return a->split_at == b->split_at
           && (stage == 0 ? a->first_at == b->first_at : compare_seconds(a, b) == 0);
}

static qll_status search_stage(qll_searching *searching, size_t stage, offset_room *room)
{
    kept_station *found = NULL;
    size_t count = 0;
    qll_status status = copy_front(searching, stage, &found, &count);
    size_t to = 0;
    for (size_t from = 0; from < count && status == QLL_OK; from = to) {
        to = from + 1;
        while (to < count && is_moved_together(&found[from], &found[to], stage)) {
            to += 1;
        }
        const size_t most = (to - from) * QLL_OFFSETS_MOST;
        if (qll_front_reserve(&searching->front, most, searching->arena) != QLL_OK) {
            return QLL_NO_MEMORY;
        }
        const kept_station *before = from == 0 ? NULL : &found[from - 1];
        if (stage == 1
            && (before == NULL || before->split_at != found[from].split_at
                || before->valves[0] != found[from].valves[0])) {
            forget_rows(room, room->lead_terms, 0, room->lead_count);
        }
        const qll_arena_mark mark = qll_arena_now(searching->arena);
        status = stage == 0 ? move_first(searching, &found[from], to - from, room)
                            : move_second(searching, &found[from], to - from, room);
        qll_arena_reset(searching->arena, mark);
        if (!qll_searching_goes_on(searching, most, (double)to / (double)count)) {
            break;
        }
    }
    return status;
}

static qll_status offset_room_make(const qll_searching *searching, offset_room *room)
{
    const size_t valves = searching->pool.count;
    const size_t points = searching->points.count;
    qll_arena *arena = searching->arena;
    if (valves > SIZE_MAX - QLL_OFFSETS_MOST
        || (points != 0 && valves + QLL_OFFSETS_MOST > SIZE_MAX / points)) {
        return QLL_NO_MEMORY;
    }
    *room = (offset_room){.point_count = points, .lead_count = valves};
    room->lead_terms =
        qll_arena_take(arena, (valves + QLL_OFFSETS_MOST) * points, sizeof *room->lead_terms);
    if (room->lead_terms == NULL || qll_pair_room_make(searching, &room->pair) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    for (size_t v = 0; v < QLL_OFFSETS_MOST; v++) {
        room->own_terms[v] = qll_arena_take(arena, valves * points, sizeof *room->own_terms[v]);
        room->firsts[v] = qll_first_stage_take(searching, searching->splits);
        if (room->own_terms[v] == NULL || room->firsts[v] == NULL) {
            return QLL_NO_MEMORY;
        }
    }
    return QLL_OK;
}

qll_status qll_search_offsets(qll_searching *searching)
{
    offset_room room;
    if (one_stage_keeps_the_ratio(searching) || searching->split_count == 0) {
        return QLL_OK;
    }
    if (offset_room_make(searching, &room) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    /* The second stage first: its offset is what the building feels. */
    const double from = searching->share_from;
    const double to = searching->share_to;
    searching->share_to = 0.5 * (from + to);
    qll_status status = search_stage(searching, 1, &room);
    if (status == QLL_OK && !searching->stopped) {
        searching->share_from = searching->share_to;
        searching->share_to = to;
        status = search_stage(searching, 0, &room);
    }
    return status;
}
