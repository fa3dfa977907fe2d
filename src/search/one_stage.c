/* Single-stage arrangements.
 *
 * As long as the outlet stands above the set-point of its last branch, a stage is the same as one
 * without that branch. So a pair takes over all points of its single valve at which the second one
 * is shut, and three valves those of their pair: only the rest is solved. */
#include "search/searching.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* Points after which the partial sums are held against the front, each time. */
#define QLL_CHECK_EVERY 12
/* Pairs whose terms are held at one time: those of two valves, one for each offset. */
#define QLL_PAIRS_HELD  16

typedef struct held_pair {
    double offset_pa;
    qll_tally_term *terms; /* [point] */
} held_pair;

/* Terms that longer stages take over, and room for the corners of the stage under way. */
typedef struct known_terms {
    qll_stage_corners corners;
    qll_tally_term *singles; /* [valve of the pool][point] */
    held_pair pairs[QLL_PAIRS_HELD];
    size_t pair_count;
    size_t pair_valves[2]; /* those the pairs are of */
} known_terms;

static bool is_shut(const qll_stage_choice *choice, const qll_site *site,
                    const qll_duty_point *point, const qll_tally_term *without_it)
{
    double change_pa = point->inlet_pa - site->barometric_pa - choice->set_inlet_pa_gauge;
    double set_pa_gauge =
        qll_branch_moved_set_pa(&choice->branches[choice->branch_count - 1], change_pa);
    return without_it->outlet_pa - site->barometric_pa >= set_pa_gauge;
}

/* Terms of @p choice at all points, those of @p shorter taken over where its last branch is shut. */
static qll_status find_terms(const qll_searching *searching, const qll_stage_choice *choice,
                             const qll_tally_term *shorter, qll_tally_term *terms)
{
    const qll_site *site = searching->site;
    qll_arena_mark mark = qll_arena_now(searching->arena);
    qll_tally_stage *of = NULL;
    qll_status status = qll_tally_stage_make(choice, site, searching->arena, &of);
    for (size_t i = 0; i < searching->points.count && status == QLL_OK; i++) {
        const qll_duty_point *point = &searching->points.points[i];
        if (shorter != NULL && is_shut(choice, site, point, &shorter[i])) {
            terms[i] = shorter[i];
        } else {
            terms[i] = qll_tally_at(of, point->inlet_pa, point->flow_m3s);
        }
    }
    qll_arena_reset(searching->arena, mark);
    return status;
}

static qll_status know_singles(const qll_searching *searching, double set_inlet_pa_gauge,
                               known_terms *known)
{
    const size_t point_count = searching->points.count;
    for (size_t i = 0; i < searching->pool.count; i++) {
        qll_stage_choice choice = {.branch_count = 1, .set_inlet_pa_gauge = set_inlet_pa_gauge};
        choice.branches[0] = searching->pool.branches[i];
        choice.branches[0].set_pa_gauge = searching->site->set_pa_gauge;
        qll_status status = find_terms(searching, &choice, NULL, &known->singles[i * point_count]);
        if (status != QLL_OK) {
            return status;
        }
    }
    return QLL_OK;
}

/* Terms of the first two branches of three; NULL in @p terms if there is no room to hold them. */
static qll_status know_pair(const qll_searching *searching, const qll_stage_walk *walk,
                            const qll_stage_choice *three, known_terms *known,
                            const qll_tally_term **terms)
{
    if (walk->valves[0] != known->pair_valves[0] || walk->valves[1] != known->pair_valves[1]) {
        known->pair_count = 0;
        known->pair_valves[0] = walk->valves[0];
        known->pair_valves[1] = walk->valves[1];
    }
    double offset_pa = three->branches[0].set_pa_gauge - three->branches[1].set_pa_gauge;
    for (size_t i = 0; i < known->pair_count; i++) {
        if (known->pairs[i].offset_pa == offset_pa) {
            *terms = known->pairs[i].terms;
            return QLL_OK;
        }
    }
    *terms = NULL;
    if (known->pair_count == QLL_PAIRS_HELD) {
        return QLL_OK;
    }
    held_pair *held = &known->pairs[known->pair_count];
    qll_stage_choice pair = *three;
    pair.branch_count = 2;
    const qll_tally_term *single = &known->singles[walk->valves[0] * searching->points.count];
    qll_status status = find_terms(searching, &pair, single, held->terms);
    if (status == QLL_OK) {
        held->offset_pa = offset_pa;
        known->pair_count += 1;
        *terms = held->terms;
    }
    return status;
}

static qll_status known_terms_make(qll_searching *searching, double set_inlet_pa_gauge,
                                   known_terms *known)
{
    const size_t point_count = searching->points.count;
    const size_t room = searching->pool.count + QLL_PAIRS_HELD;
    if (point_count != 0 && room > SIZE_MAX / point_count) {
        return QLL_NO_MEMORY;
    }
    qll_tally_term *terms = qll_arena_take(searching->arena, room * point_count, sizeof *terms);
    if (terms == NULL) {
        return QLL_NO_MEMORY;
    }
    *known = (known_terms){.singles = terms + QLL_PAIRS_HELD * point_count};
    for (size_t i = 0; i < QLL_PAIRS_HELD; i++) {
        known->pairs[i].terms = terms + i * point_count;
    }
    if (qll_stage_corners_make(searching->duty, searching->arena, &known->corners) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_stage_corners_begin(&searching->corners, &known->corners);
    return know_singles(searching, set_inlet_pa_gauge, known);
}

/* Sums what is not taken over from @p shorter; false if the front beats the sum half way. */
static bool sum_rest(qll_searching *searching, const qll_stage_choice *choice,
                     const qll_tally_stage *of, const qll_tally_term *shorter, qll_objectives *sum)
{
    const qll_site *site = searching->site;
    size_t since_check = 0;
    for (size_t i = 0; i < searching->points.count; i++) {
        const qll_duty_point *point = &searching->points.points[i];
        if (shorter != NULL && is_shut(choice, site, point, &shorter[i])) {
            continue;
        }
        if (since_check == QLL_CHECK_EVERY) {
            since_check = 0;
            if (qll_front_beats_soon(&searching->front, sum)) {
                return false;
            }
        }
        since_check += 1;
        qll_tally_term term = qll_tally_at(of, point->inlet_pa, point->flow_m3s);
        qll_tally_add(sum, &term, point->weight);
    }
    return true;
}

/* Rules, then the sum; adds to the front what deserves it. @p sum holds what is taken over. */
static qll_status try_choice(qll_searching *searching, const qll_stage_choice *choice,
                             const qll_tally_term *shorter, qll_stage_corners *corners,
                             qll_objectives *sum)
{
    qll_tally_stage *of = NULL;
    if (qll_tally_stage_make(choice, searching->site, searching->arena, &of) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    const qll_station station = {.stages = &of->stage, .stage_count = 1};
    qll_stage_corners_solve(searching->duty, of->solver, choice->branch_count, corners);
    const qll_stage_corners *const all_corners[] = {corners};
    qll_rule broken = qll_corner_broken(&searching->corners, &station, all_corners);
    if (broken != QLL_RULE_COUNT) {
        searching->counts.by_rule[broken] += 1;
        return QLL_OK;
    }
    bool is_single = choice->branch_count == 1;
    if (is_single) {
        for (size_t i = 0; i < searching->points.count; i++) {
            qll_tally_add(sum, &shorter[i], searching->points.points[i].weight);
        }
    } else if (!sum_rest(searching, choice, of, shorter, sum)) {
        searching->counts.beaten += 1;
        return QLL_OK;
    }
    searching->counts.scored += 1;
    qll_front_member member = {.arrangement = {.stages = {*choice}, .stage_count = 1},
                               .objectives = *sum,
                               .part_count = choice->branch_count};
    if (is_single) {
        searching->singles[searching->single_count] = member;
        searching->single_count += 1;
    }
    qll_front_add(&searching->front, &member);
    return QLL_OK;
}

/* What is taken over from the terms of the stage without the last branch. */
static void take_over(const qll_searching *searching, const qll_stage_choice *choice,
                      const qll_tally_term *shorter, qll_objectives *sum)
{
    for (size_t i = 0; i < searching->points.count; i++) {
        const qll_duty_point *point = &searching->points.points[i];
        if (is_shut(choice, searching->site, point, &shorter[i])) {
            qll_tally_add(sum, &shorter[i], point->weight);
        }
    }
}

static qll_status consider(qll_searching *searching, const qll_stage_walk *walk,
                           const qll_stage_choice *choice, known_terms *known)
{
    searching->counts.arrangements += 1;
    if (!qll_handover_holds(choice, &walk->plan)) {
        searching->counts.by_handover += 1;
        return QLL_OK;
    }
    const qll_tally_term *shorter = &known->singles[walk->valves[0] * searching->points.count];
    if (choice->branch_count == 3) {
        qll_status status = know_pair(searching, walk, choice, known, &shorter);
        if (status != QLL_OK) {
            return status;
        }
    }
    qll_objectives sum = {.price = qll_tally_price(choice)};
    if (choice->branch_count > 1 && shorter != NULL) {
        take_over(searching, choice, shorter, &sum);
        if (qll_front_beats(&searching->front, &sum)) {
            searching->counts.beaten += 1;
            return QLL_OK;
        }
    }
    if (qll_front_reserve(&searching->front, 1, searching->arena) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_arena_mark mark = qll_arena_now(searching->arena);
    qll_status status = try_choice(searching, choice, shorter, &known->corners, &sum);
    qll_arena_reset(searching->arena, mark);
    return status;
}

qll_status qll_search_one_stage(qll_searching *searching)
{
    const qll_stage_plan plan = {
        .set_pa_gauge = searching->site->set_pa_gauge,
        .set_inlet_pa_gauge = searching->inlet_middle_pa_gauge,
        .inlet_low_pa_gauge = searching->inlet_low_pa_gauge,
        .inlet_high_pa_gauge = searching->inlet_high_pa_gauge,
        .branches_least = 1,
        .branches_most = searching->options->branches_max,
        .offset_most_pa = QLL_OFFSET_MOST_PA,
        .all_offsets = true,
    };
    known_terms known;
    qll_status status = known_terms_make(searching, plan.set_inlet_pa_gauge, &known);
    qll_stage_walk walk = qll_stage_walk_begin(&searching->pool, searching->site, plan);
    qll_stage_choice choice;
    while (status == QLL_OK && qll_stage_walk_next(&walk, &choice)) {
        status = consider(searching, &walk, &choice, &known);
        double share = (double)(walk.valves[0] + 1) / (double)searching->pool.count;
        if (choice.branch_count == plan.branches_most) {
            if (!qll_searching_goes_on(searching, 1, share)) {
                break;
            }
        }
    }
    return status;
}
