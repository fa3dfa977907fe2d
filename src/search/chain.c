#include "search/chain.h"

#include <string.h>

/* Points solved between two looks at the front. */
#define QLL_CHECK_EVERY 24

qll_status qll_chain_room_make(const qll_searching *searching, qll_chain_room *room)
{
    const qll_duty_points *points = &searching->points;
    qll_arena *arena = searching->arena;
    room->inlet_pa = qll_arena_take(arena, points->count, sizeof *room->inlet_pa);
    room->flow_m3s = qll_arena_take(arena, points->count, sizeof *room->flow_m3s);
    room->own = qll_arena_take(arena, points->count, sizeof *room->own);
    if (room->inlet_pa == NULL || room->flow_m3s == NULL || room->own == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < points->count; i++) {
        room->flow_m3s[i] = points->points[i].flow_m3s;
    }
    for (size_t k = 0; k < QLL_STAGES_MOST; k++) {
        room->terms[k] = qll_arena_take(arena, points->count, sizeof *room->terms[k]);
        room->rest[k] = qll_arena_take(arena, points->count + 1, sizeof *room->rest[k]);
        if (room->terms[k] == NULL || room->rest[k] == NULL
            || qll_stage_corners_make(searching->duty, arena, &room->corners[k]) != QLL_OK) {
            return QLL_NO_MEMORY;
        }
    }
    qll_stage_corners_begin(&searching->corners, &room->corners[0]);
    return QLL_OK;
}

/** A chain under way: the stages that stand already. */
typedef struct progress {
    const qll_chain *chain;
    qll_chain_room *room;
    size_t at[QLL_STAGES_MOST]; /* choice of each link */
    qll_stage stages[QLL_STAGES_MOST];
    double price;
    size_t depth; /* stages that stand */
} progress;

static size_t combinations_behind(const qll_chain *chain, size_t depth)
{
    size_t count = 1;
    for (size_t k = depth; k < chain->link_count; k++) {
        count *= chain->links[k].count;
    }
    return count;
}

/* Solves points @p from to @p to of stage @p k behind those before it. */
static void solve_points(const qll_searching *searching, const progress *under_way,
                         const qll_tally_stage *of, size_t from, size_t to)
{
    qll_chain_room *room = under_way->room;
    const size_t k = under_way->depth;
    for (size_t i = from; i < to; i++) {
        room->inlet_pa[i] =
            k == 0 ? searching->points.points[i].inlet_pa : room->terms[k - 1][i].outlet_pa;
    }
    qll_tally_many(of, room->inlet_pa + from, room->flow_m3s + from, to - from, room->own + from);
    for (size_t i = from; i < to; i++) {
        room->terms[k][i] =
            k == 0 ? room->own[i] : qll_tally_both(&room->terms[k - 1][i], &room->own[i]);
    }
}

/* What the stages before the one under way come to from @p point on, with no more from itself. */
static qll_objectives with_rest(const progress *under_way, qll_objectives sum, size_t point)
{
    if (under_way->depth > 0) {
        const qll_bound *rest = &under_way->room->rest[under_way->depth - 1][point];
        sum.noise += rest->noise;
        sum.wear += rest->wear;
    }
    return sum;
}

/* Sums a whole station; false if the front beats it before the end. */
static bool sum_station(qll_searching *searching, const progress *under_way,
                        const qll_tally_stage *of, qll_objectives *sum)
{
    const qll_duty_points *points = &searching->points;
    for (size_t from = 0; from < points->count; from += QLL_CHECK_EVERY) {
        size_t left = points->count - from;
        size_t to = from + (left < QLL_CHECK_EVERY ? left : QLL_CHECK_EVERY);
        solve_points(searching, under_way, of, from, to);
        for (size_t i = from; i < to; i++) {
            qll_tally_add(sum, &under_way->room->terms[under_way->depth][i],
                          points->points[i].weight);
        }
        const qll_objectives bounded = with_rest(under_way, *sum, to);
        if (qll_front_beats_soon(&searching->front, &bounded)) {
            return false;
        }
    }
    return true;
}

static void add_station(qll_searching *searching, const progress *under_way,
                        const qll_objectives *sum)
{
    const qll_chain *chain = under_way->chain;
    qll_front_member member = {.arrangement = {.stage_count = chain->link_count},
                               .objectives = *sum};
    for (size_t k = 0; k < chain->link_count; k++) {
        member.arrangement.stages[k] = chain->links[k].choices[under_way->at[k]];
    }
    member.part_count = qll_arrangement_parts(&member.arrangement);
    searching->counts.scored += 1;
    qll_front_add(&searching->front, &member);
}

/* All stages stand but the last, @p of: rules, then the sum. */
static void finish_station(qll_searching *searching, progress *under_way, const qll_tally_stage *of,
                           double price)
{
    const qll_station station = {.stages = under_way->stages, .stage_count = under_way->depth + 1};
    const qll_stage_corners *corners[QLL_STAGES_MOST];
    for (size_t k = 0; k < station.stage_count; k++) {
        corners[k] = &under_way->room->corners[k];
    }
    qll_rule broken = qll_corner_broken(&searching->corners, &station, corners);
    if (broken != QLL_RULE_COUNT) {
        searching->counts.by_rule[broken] += 1;
        return;
    }
    qll_objectives sum = {.price = price};
    if (sum_station(searching, under_way, of, &sum)) {
        add_station(searching, under_way, &sum);
    } else {
        searching->counts.beaten += 1;
    }
}

/* A stage with others to come; true if these may go on. What its noise, wear and price come to holds
 * for all stations with it. */
static bool pass_stage(qll_searching *searching, const progress *under_way,
                       const qll_tally_stage *of, double price)
{
    const qll_duty_points *points = &searching->points;
    const qll_tally_term *terms = under_way->room->terms[under_way->depth];
    qll_bound *rest = under_way->room->rest[under_way->depth];
    solve_points(searching, under_way, of, 0, points->count);
    rest[points->count] = (qll_bound){0.0, 0.0, 0.0};
    for (size_t i = points->count; i > 0; i--) {
        const double weight = points->points[i - 1].weight;
        rest[i - 1] = (qll_bound){.noise = rest[i].noise + weight * terms[i - 1].noise,
                                  .wear = rest[i].wear + weight * terms[i - 1].wear};
    }
    const qll_objectives sum = {.noise = rest[0].noise, .wear = rest[0].wear, .price = price};
    return !qll_front_beats(&searching->front, &sum);
}

static qll_status descend(qll_searching *searching, progress *under_way);

static qll_status try_stage(qll_searching *searching, progress *under_way,
                            const qll_stage_choice *choice)
{
    const size_t k = under_way->depth;
    qll_chain_room *room = under_way->room;
    qll_tally_stage *of = NULL;
    if (qll_tally_stage_make(choice, searching->site, searching->arena, &of) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    if (k > 0) {
        qll_stage_corners_follow(searching->duty, &room->corners[k - 1], &room->corners[k]);
    }
    qll_stage_corners_solve(searching->duty, of->solver, choice->branch_count, &room->corners[k]);
    under_way->stages[k] = of->stage;
    const double before = under_way->price;
    const double price = before + qll_tally_price(choice);
    if (k + 1 == under_way->chain->link_count) {
        finish_station(searching, under_way, of, price);
        return QLL_OK;
    }
    bool goes_on = pass_stage(searching, under_way, of, price);
    under_way->depth = k + 1;
    under_way->price = price;
    qll_status status = QLL_OK;
    if (goes_on) {
        status = descend(searching, under_way);
    } else {
        searching->counts.beaten += combinations_behind(under_way->chain, under_way->depth);
    }
    under_way->depth = k;
    under_way->price = before;
    return status;
}

static qll_status descend(qll_searching *searching, progress *under_way)
{
    const size_t k = under_way->depth;
    const qll_chain_link *link = &under_way->chain->links[k];
    qll_status status = QLL_OK;
    for (size_t i = 0; i < link->count && status == QLL_OK; i++) {
        under_way->at[k] = i;
        qll_arena_mark mark = qll_arena_now(searching->arena);
        status = try_stage(searching, under_way, &link->choices[i]);
        qll_arena_reset(searching->arena, mark);
    }
    return status;
}

qll_status qll_chain_try(qll_searching *searching, const qll_chain *chain, qll_chain_room *room)
{
    const size_t count = combinations_behind(chain, 0);
    progress under_way = {.chain = chain, .room = room};
    if (count == 0) {
        return QLL_OK;
    }
    if (qll_front_reserve(&searching->front, count, searching->arena) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    searching->counts.arrangements += count;
    return descend(searching, &under_way);
}
