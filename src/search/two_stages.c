/* Two-stage arrangements, for each set-point between the stages.
 *
 * 1. What the first stage does depends on no second stage: it is solved once (first_stage.c).
 * 2. What a second stage does at a flow depends on its inlet pressure alone: bounds of its terms
 *    behind any first stage come from a few inlet pressures (second_bound.c).
 * 3. Most pairs of stages fall when these bounds are held against the front. If a pair falls by the
 *    least bound of its second stage, so does that of every first stage that is no better in noise,
 *    wear and price, without being looked at.
 * 4. The others are solved flow by flow, bounds giving way to terms, and fall or enter the front. */
#include "search/split.h"

#include <math.h>

/* Flow classes solved between two looks at the first of the front; every so many looks at all. */
#define QLL_CHECK_EVERY     6
#define QLL_CHECK_ALL_EVERY 3

typedef struct second_stage {
    const qll_stage_choice *choice;
    qll_tally_stage *of;
    double price;
} second_stage;

static qll_objectives plus(qll_objectives sum, qll_bound rest)
{
    sum.noise += rest.noise;
    sum.unsteady += rest.unsteady;
    sum.wear += rest.wear;
    return sum;
}

/* True if a better first stage, or this one itself, is beaten by the least bound. */
static bool falls_at_once(qll_searching *searching, const qll_split *split, size_t at,
                          const second_stage *second)
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

static qll_rule broken_rule(const qll_searching *searching, qll_split *split,
                            const qll_first_stage *first, const second_stage *second)
{
    const qll_stage stages[] = {qll_stage_choice_view(&first->choice), second->of->stage};
    const qll_station station = {.stages = stages, .stage_count = 2};
    const qll_stage_corners *const corners[] = {&first->corners, &split->behind};
    qll_stage_corners_follow(searching->duty, &first->corners, &split->behind);
    qll_stage_corners_solve(searching->duty, second->of->solver, second->choice->branch_count,
                            &split->behind);
    return qll_corner_broken(&searching->corners, &station, corners);
}

/* Points that are solved together. */
#define QLL_BATCH_POINTS 32

/* Adds the terms of points @p from to @p to. */
static void add_points(const qll_searching *searching, const qll_first_stage *first,
                       const second_stage *second, size_t from, size_t to, qll_objectives *sum)
{
    double inlet_pa[QLL_BATCH_POINTS];
    double flow_m3s[QLL_BATCH_POINTS];
    qll_tally_term terms[QLL_BATCH_POINTS];
    for (size_t at = from; at < to; at += QLL_BATCH_POINTS) {
        size_t count = to - at < QLL_BATCH_POINTS ? to - at : QLL_BATCH_POINTS;
        for (size_t i = 0; i < count; i++) {
            inlet_pa[i] = first->terms[at + i].outlet_pa;
            flow_m3s[i] = searching->points.points[at + i].flow_m3s;
        }
        qll_tally_many(second->of, inlet_pa, flow_m3s, count, terms);
        for (size_t i = 0; i < count; i++) {
            qll_tally_term both = qll_tally_both(&first->terms[at + i], &terms[i]);
            qll_tally_add(sum, &both, searching->points.points[at + i].weight);
        }
    }
}

/* Solves the pair some flow classes at a time; false if the front beats it before the end. */
static bool sum_pair(qll_searching *searching, const qll_split *split, const qll_first_stage *first,
                     const second_stage *second, qll_objectives *sum)
{
    size_t done = 0;
    for (size_t look = 1; done < split->group_count; look++) {
        size_t to = done + QLL_CHECK_EVERY < split->group_count ? done + QLL_CHECK_EVERY
                                                                : split->group_count;
        add_points(searching, first, second, split->groups[done].from, split->groups[to - 1].to,
                   sum);
        done = to;
        const qll_objectives bounded = plus(*sum, split->rest[done]);
        bool is_beaten = look % QLL_CHECK_ALL_EVERY == 0
                             ? qll_front_beats(&searching->front, &bounded)
                             : qll_front_beats_soon(&searching->front, &bounded);
        if (is_beaten) {
            return false;
        }
    }
    return true;
}

static void try_pair(qll_searching *searching, qll_split *split, size_t at,
                     const second_stage *second)
{
    const qll_first_stage *first = split->firsts[at];
    qll_objectives sum = {.price = first->price + second->price};
    split->is_beaten[at] = falls_at_once(searching, split, at, second);
    bool is_beaten = split->is_beaten[at];
    if (!is_beaten) {
        qll_split_bound_pair(split, first);
        const qll_objectives bounded = plus(sum, split->rest[0]);
        is_beaten = qll_front_beats_soon(&searching->front, &bounded);
    }
    if (is_beaten) {
        searching->counts.beaten += 1;
        return;
    }
    qll_rule broken = broken_rule(searching, split, first, second);
    if (broken != QLL_RULE_COUNT) {
        searching->counts.by_rule[broken] += 1;
        return;
    }
    if (!sum_pair(searching, split, first, second, &sum)) {
        searching->counts.beaten += 1;
        return;
    }
    searching->counts.scored += 1;
    qll_front_member member = {
        .arrangement = {.stages = {first->choice, *second->choice}, .stage_count = 2},
        .objectives = sum,
        .part_count = first->choice.branch_count + second->choice->branch_count};
    qll_front_add(&searching->front, &member);
}

static qll_status try_second(qll_searching *searching, const qll_stage_choice *choice,
                             qll_split *split)
{
    if (!qll_handover_holds(choice, &split->second_plan)) {
        searching->counts.by_handover += split->first_count;
        return QLL_OK;
    }
    if (qll_front_reserve(&searching->front, split->first_count, searching->arena) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_arena_mark mark = qll_arena_now(searching->arena);
    second_stage second = {.choice = choice, .price = qll_tally_price(choice)};
    if (qll_tally_stage_make(choice, searching->site, searching->arena, &second.of) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    if (!split->second_carries) {
        qll_stage_corners_solve(searching->duty, second.of->solver, choice->branch_count,
                                &split->best);
        split->second_carries =
            qll_corner_broken_by_stage(&searching->corners, &second.of->stage, &split->best)
            == QLL_RULE_COUNT;
    }
    qll_split_bound(second.of, split);
    for (size_t i = 0; i < split->first_count; i++) {
        try_pair(searching, split, i, &second);
    }
    qll_arena_reset(searching->arena, mark);
    return QLL_OK;
}

static qll_status try_seconds(qll_searching *searching, const qll_stage_plan *plan,
                              qll_split *split)
{
    qll_second_choice **seconds = NULL;
    size_t count = 0;
    qll_status status = qll_split_seconds(searching, plan, split, &seconds, &count);
    for (size_t i = 0; i < count && status == QLL_OK; i++) {
        status = try_second(searching, &seconds[i]->choice, split);
        double share = (double)(i + 1) / (double)count;
        if (!qll_searching_goes_on(searching, split->first_count, share)) {
            break;
        }
    }
    return status;
}

static qll_status search_split(qll_searching *searching, qll_split *split)
{
    qll_status status = qll_split_begin(searching, split);
    if (status != QLL_OK || split->first_count == 0) {
        return status;
    }
    status = try_seconds(searching, &split->second_plan, split);
    bool needs_three = searching->options->branches_max >= 3 && !split->second_carries;
    if (status == QLL_OK && needs_three && !searching->stopped) {
        const qll_stage_plan three = qll_stage_plan_of_three(&split->second_plan);
        searching->counts.arrangements +=
            split->first_count * qll_stage_choice_count(searching, &three);
        status = try_seconds(searching, &three, split);
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

qll_status qll_search_two_stages(qll_searching *searching)
{
    double between_pa_gauge[QLL_BETWEEN_MOST];
    const size_t count = qll_between_pressures(searching->site, searching->duty, between_pa_gauge);
    const double from = searching->share_from;
    const double each = (searching->share_to - from) / (double)(count > 0 ? count : 1);
    qll_status status = QLL_OK;
    for (size_t i = 0; i < count && status == QLL_OK && !searching->stopped; i++) {
        searching->share_from = from + each * (double)i;
        searching->share_to = from + each * (double)(i + 1);
        /* The front grows while the split's own arrays stand below it, so nothing is given back
         * between set-points: there are few. */
        qll_split split = qll_split_at(searching, between_pa_gauge[i]);
        status = search_split(searching, &split);
    }
    return status;
}
