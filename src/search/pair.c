/* The term of a second stage at a point depends on the flow and its inlet pressure alone, so it is
 * the same behind all first stages that give the same outlet there: those that share their first
 * branch, where no other one is open. It is also that of its own first branch alone, where no other one
 * is open. docs/theory/search.md, section 4. */
#include "search/pair.h"

#include "search/lead.h"

#include <math.h>

/* Points solved between two looks at the first of the front; every so many looks at all. */
#define QLL_BATCH_POINTS    32
#define QLL_CHECK_ALL_EVERY 3
/* Fewer open points are solved sooner than the whole front is asked. */
#define QLL_CHECK_ALL_FROM  16

qll_status qll_pair_room_make(const qll_searching *searching, qll_pair_room *room)
{
    const size_t count = searching->points.count;
    room->open = qll_arena_take(searching->arena, count, sizeof *room->open);
    room->rest = qll_arena_take(searching->arena, count + 1, sizeof *room->rest);
    bool has_all =
        room->open != NULL && room->rest != NULL
        && qll_stage_corners_make(searching->duty, searching->arena, &room->behind) == QLL_OK;
    return has_all ? QLL_OK : QLL_NO_MEMORY;
}

qll_status qll_second_stage_make(const qll_searching *searching, const qll_stage_choice *choice,
                                 qll_second_stage *second)
{
    second->choice = choice;
    second->price = qll_tally_price(choice);
    return qll_tally_stage_make(choice, searching->site, searching->arena, &second->of);
}

qll_rule qll_second_stage_broken(const qll_searching *searching, const qll_second_stage *second,
                                 qll_split *split)
{
    qll_stage_corners_solve(searching->duty, second->of->solver, second->choice->branch_count,
                            &split->best);
    return qll_corner_broken_by_stage(&searching->corners, &second->of->stage, &split->best);
}

static qll_objectives plus(qll_objectives sum, qll_bound rest)
{
    sum.noise += rest.noise;
    sum.unsteady += rest.unsteady;
    sum.wear += rest.wear;
    return sum;
}

/* NULL if it must be solved. What the lead of the second stage does there becomes known of the whole
 * stage, so that the next first stage with the same lead need not ask which branches are open. */
static const qll_tally_term *known_term(const qll_pair *pair, size_t point_count, size_t point)
{
    const qll_first_stage *first = pair->first;
    const qll_second_stage *second = pair->second;
    const bool has_own = first->leads_alone[point];
    const size_t row = has_own ? first->lead_row : first->own_row;
    if (row == QLL_NO_ROW) {
        return NULL;
    }
    const size_t at = row * point_count + point;
    if (has_own && qll_term_is_known(&second->own_terms[at])) {
        return &second->own_terms[at];
    }
    if (second->lead_terms != NULL && qll_term_is_known(&second->lead_terms[at])
        && qll_leads_alone(second->of, first->terms[point].outlet_pa,
                           second->lead_terms[at].outlet_pa)) {
        if (has_own) {
            second->own_terms[at] = second->lead_terms[at];
        }
        return &second->lead_terms[at];
    }
    return NULL;
}

static void remember(const qll_pair *pair, size_t point_count, size_t point,
                     const qll_tally_term *term)
{
    const qll_first_stage *first = pair->first;
    const qll_second_stage *second = pair->second;
    const bool has_own = first->leads_alone[point];
    const size_t row = has_own ? first->lead_row : first->own_row;
    if (row == QLL_NO_ROW) {
        return;
    }
    const size_t at = row * point_count + point;
    if (has_own) {
        second->own_terms[at] = *term;
    }
    if (second->lead_terms != NULL
        && qll_leads_alone(second->of, first->terms[point].outlet_pa, term->outlet_pa)) {
        second->lead_terms[at] = *term;
    }
}

/* What the station comes to at least at a point that is not solved. */
static qll_bound bound_of(const qll_pair *pair, const qll_bound *least, size_t point, double weight)
{
    const qll_tally_term *first = &pair->first->terms[point];
    return (qll_bound){.noise = weight * fmax(first->noise, least->noise),
                       .unsteady = weight * least->unsteady,
                       .wear = weight * (first->wear + least->wear)};
}

/* Sums what is known; the other points become the open ones of @p room. */
static void take_over(const qll_searching *searching, const qll_pair *pair, qll_pair_room *room,
                      qll_objectives *sum)
{
    const qll_duty_points *points = &searching->points;
    const qll_bound nothing = {0.0, 0.0, 0.0};
    room->open_count = 0;
    for (size_t g = 0; g < pair->split->group_count; g++) {
        const qll_bound *least = pair->least == NULL ? &nothing : &pair->least[g];
        for (size_t p = pair->split->groups[g].from; p < pair->split->groups[g].to; p++) {
            const double weight = points->points[p].weight;
            const qll_tally_term *known = known_term(pair, points->count, p);
            if (known != NULL) {
                qll_tally_term both = qll_tally_both(&pair->first->terms[p], known);
                qll_tally_add(sum, &both, weight);
            } else {
                room->open[room->open_count] = p;
                room->rest[room->open_count] = bound_of(pair, least, p, weight);
                room->open_count += 1;
            }
        }
    }
    room->rest[room->open_count] = nothing;
    for (size_t i = room->open_count; i > 0; i--) {
        room->rest[i - 1] = qll_bound_sum(room->rest[i - 1], room->rest[i]);
    }
}

/* Solves the open points @p from to @p to and adds their terms. */
static void add_open(const qll_searching *searching, const qll_pair *pair, const size_t *open,
                     size_t count, qll_objectives *sum)
{
    const qll_duty_points *points = &searching->points;
    double inlet_pa[QLL_BATCH_POINTS];
    double flow_m3s[QLL_BATCH_POINTS];
    qll_tally_term terms[QLL_BATCH_POINTS];
    for (size_t i = 0; i < count; i++) {
        inlet_pa[i] = pair->first->terms[open[i]].outlet_pa;
        flow_m3s[i] = points->points[open[i]].flow_m3s;
    }
    qll_tally_many(pair->second->of, inlet_pa, flow_m3s, count, terms);
    for (size_t i = 0; i < count; i++) {
        remember(pair, points->count, open[i], &terms[i]);
        qll_tally_term both = qll_tally_both(&pair->first->terms[open[i]], &terms[i]);
        qll_tally_add(sum, &both, points->points[open[i]].weight);
    }
}

/* Solves the open points, some at a time; false if the front beats the station before the end. */
static bool sum_open(qll_searching *searching, const qll_pair *pair, const qll_pair_room *room,
                     qll_objectives *sum)
{
    size_t done = 0;
    for (size_t look = 1; done < room->open_count; look++) {
        const size_t left = room->open_count - done;
        const size_t count = left < QLL_BATCH_POINTS ? left : QLL_BATCH_POINTS;
        add_open(searching, pair, room->open + done, count, sum);
        done += count;
        const qll_objectives bounded = plus(*sum, room->rest[done]);
        bool is_beaten = look % QLL_CHECK_ALL_EVERY == 0
                             ? qll_front_beats(&searching->front, &bounded)
                             : qll_front_beats_soon(&searching->front, &bounded);
        if (is_beaten) {
            return false;
        }
    }
    return true;
}

static qll_rule broken_rule(const qll_searching *searching, const qll_pair *pair,
                            qll_pair_room *room)
{
    const qll_first_stage *first = pair->first;
    const qll_second_stage *second = pair->second;
    const qll_stage stages[] = {qll_stage_choice_view(&first->choice), second->of->stage};
    const qll_station station = {.stages = stages, .stage_count = 2};
    const qll_stage_corners *const corners[] = {&first->corners, &room->behind};
    qll_stage_corners_follow(searching->duty, &first->corners, &room->behind);
    qll_stage_corners_solve(searching->duty, second->of->solver, second->choice->branch_count,
                            &room->behind);
    return qll_corner_broken(&searching->corners, &station, corners);
}

void qll_pair_try(qll_searching *searching, const qll_pair *pair, qll_pair_room *room)
{
    const qll_first_stage *first = pair->first;
    const qll_second_stage *second = pair->second;
    qll_objectives sum = {.price = first->price + second->price};
    take_over(searching, pair, room, &sum);
    const qll_objectives bounded = plus(sum, room->rest[0]);
    if (qll_front_beats_soon(&searching->front, &bounded)) {
        searching->counts.beaten += 1;
        return;
    }
    const qll_rule broken = broken_rule(searching, pair, room);
    if (broken != QLL_RULE_COUNT) {
        searching->counts.by_rule[broken] += 1;
        return;
    }
    bool is_worth_it = room->open_count >= QLL_CHECK_ALL_FROM;
    if ((is_worth_it && qll_front_beats(&searching->front, &bounded))
        || !sum_open(searching, pair, room, &sum)) {
        searching->counts.beaten += 1;
        return;
    }
    searching->counts.scored += 1;
    const qll_front_member member = {
        .arrangement = {.stages = {first->choice, *second->choice}, .stage_count = 2},
        .objectives = sum,
        .part_count = first->choice.branch_count + second->choice->branch_count};
    qll_front_add(&searching->front, &member);
}
