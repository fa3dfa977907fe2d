/* Stations of three stages, where two cannot keep the ratio rule. docs/theory/search.md, section 1.
 *
 * Each place in the series is looked at by itself, behind the pressure the stage before it is set to,
 * and only what nothing beats there goes into the stations that are tried as a whole. */
#include "search/chain.h"

#include <math.h>

enum {
    QLL_THREE = 3,
    /* Stages of one place that are put together with those of the others (our choice). */
    QLL_PLACE_MOST = 32
};

/** One place in the series. */
typedef struct place {
    qll_stage_plan plan;
    bool is_first, is_last;
    qll_stage_choice choices[QLL_PLACE_MOST];
    size_t count;
} place;

bool qll_needs_three_stages(const qll_searching *searching)
{
    const double most = searching->site->limits.ratio_max;
    const double high_pa_gauge = searching->inlet_high_pa_gauge;
    const double set_pa_gauge = searching->site->set_pa_gauge;
    double between_pa_gauge[QLL_BETWEEN_MOST];
    const size_t count = qll_between_pressures(searching->site, searching->duty, between_pa_gauge);
    bool keeps = high_pa_gauge <= most * set_pa_gauge;
    for (size_t i = 0; i < count; i++) {
        keeps = keeps
                || (high_pa_gauge <= most * between_pa_gauge[i]
                    && between_pa_gauge[i] <= most * set_pa_gauge);
    }
    return !keeps;
}

/* To what the catalogue's valves that bear the inlet can be set at most; 0 if none bears it. */
static double highest_set_pa_gauge(const qll_searching *searching)
{
    double highest = 0.0;
    for (size_t i = 0; i < searching->pool.count; i++) {
        const qll_valve *valve = searching->pool.branches[i].valve;
        if (valve->inlet_max_pa_gauge >= searching->inlet_high_pa_gauge) {
            highest = fmax(highest, valve->set_max_pa_gauge);
        }
    }
    return highest;
}

/* The set-point, on the grid, of the first of @p stages that take the drop from @p inlet_pa_gauge
 * with equal margins; NaN if there is none. */
static double first_of_split(const qll_searching *searching, double inlet_pa_gauge, size_t stages)
{
    const qll_site *site = searching->site;
    const double air_pa = site->barometric_pa;
    double between_pa[QLL_THREE - 1];
    if (!(inlet_pa_gauge > site->set_pa_gauge)
        || !qll_stage_split(inlet_pa_gauge + air_pa, site->set_pa_gauge + air_pa,
                            site->water.vapour_pressure_pa, stages, NULL, false, between_pa)) {
        return NAN;
    }
    return round((between_pa[0] - air_pa) / QLL_BETWEEN_STEP_PA) * QLL_BETWEEN_STEP_PA;
}

/* False if the set-points do not fall by a step at least. */
static bool split_in_three(const qll_searching *searching, double set_pa_gauge[QLL_THREE])
{
    const double highest =
        floor(highest_set_pa_gauge(searching) / QLL_BETWEEN_STEP_PA) * QLL_BETWEEN_STEP_PA;
    const double inlet_pa_gauge = searching->inlet_high_pa_gauge;
    set_pa_gauge[0] = fmin(first_of_split(searching, inlet_pa_gauge, 3), highest);
    set_pa_gauge[1] = first_of_split(searching, set_pa_gauge[0], 2);
    set_pa_gauge[2] = searching->site->set_pa_gauge;
    return set_pa_gauge[0] <= inlet_pa_gauge - QLL_BETWEEN_STEP_PA
           && set_pa_gauge[1] <= set_pa_gauge[0] - QLL_BETWEEN_STEP_PA
           && set_pa_gauge[2] <= set_pa_gauge[1] - QLL_BETWEEN_STEP_PA;
}

static void plan_places(const qll_searching *searching, const double set_pa_gauge[QLL_THREE],
                        place places[QLL_THREE])
{
    for (size_t k = 0; k < QLL_THREE; k++) {
        /* A first stage as in two; the others behind what the one before is set to. */
        const qll_split split = qll_split_at(searching, set_pa_gauge[k == 0 ? 0 : k - 1]);
        place *made = &places[k];
        made->is_first = k == 0;
        made->is_last = k + 1 == QLL_THREE;
        made->plan = made->is_first ? split.first_plan : split.second_plan;
        made->plan.set_pa_gauge = set_pa_gauge[k];
        made->plan.offset_most_pa = made->is_last ? QLL_OFFSET_MOST_PA : QLL_OFFSET_MOST_FIRST_PA;
        made->count = 0;
    }
}

/* Adds a stage to the front of its place unless it breaks a rule of its own. */
static qll_status look_at(qll_searching *searching, const place *at, const qll_stage_choice *choice,
                          qll_chain_room *room, qll_front *front)
{
    const qll_duty_points *points = &searching->points;
    const double before_pa = at->plan.set_inlet_pa_gauge + searching->site->barometric_pa;
    qll_stage_corners *corners = &room->corners[1];
    qll_tally_stage *of = NULL;
    if (qll_tally_stage_make(choice, searching->site, searching->arena, &of) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i <= searching->duty->scenario_count; i++) {
        corners->inlet_pa[i] = at->is_first ? room->corners[0].inlet_pa[i] : before_pa;
    }
    qll_stage_corners_solve(searching->duty, of->solver, choice->branch_count, corners);
    if (qll_corner_broken_by_stage(&searching->corners, &of->stage, corners) != QLL_RULE_COUNT) {
        return QLL_OK;
    }
    for (size_t i = 0; i < points->count; i++) {
        room->inlet_pa[i] = at->is_first ? points->points[i].inlet_pa : before_pa;
    }
    qll_tally_many(of, room->inlet_pa, room->flow_m3s, points->count, room->own);
    qll_front_member member = {.arrangement = {.stages = {*choice}, .stage_count = 1},
                               .objectives = {.price = qll_tally_price(choice)},
                               .part_count = choice->branch_count};
    for (size_t i = 0; i < points->count; i++) {
        qll_tally_add(&member.objectives, &room->own[i], points->points[i].weight);
    }
    if (!at->is_last) {
        member.objectives.unsteady = 0.0; /* the stages behind it make up for it */
    }
    qll_front_add(front, &member);
    return QLL_OK;
}

static double share_of(double value, double greatest)
{
    return greatest > 0.0 ? value / greatest : 0.0;
}

static qll_objectives greatest_of(const qll_front *front)
{
    qll_objectives most = {0.0, 0.0, 0.0, 0.0};
    for (size_t i = 0; i < front->count; i++) {
        most.noise = fmax(most.noise, front->objectives[i].noise);
        most.unsteady = fmax(most.unsteady, front->objectives[i].unsteady);
        most.wear = fmax(most.wear, front->objectives[i].wear);
        most.price = fmax(most.price, front->objectives[i].price);
    }
    return most;
}

/* Keeps those of the least sum of all objectives, each as a share of its greatest, noise counted twice
 * since it decides most (our choice); of equals those
 * that come first in the sorted front. */
static void keep_best(qll_front *front, place *at)
{
    double order[QLL_PLACE_MOST] = {0};
    qll_front_sort(front);
    const qll_objectives most = greatest_of(front);
    for (size_t i = 0; i < front->count; i++) {
        const qll_objectives *own = &front->members[i]->objectives;
        double sum = 2.0 * share_of(own->noise, most.noise) + share_of(own->unsteady, most.unsteady)
                     + share_of(own->wear, most.wear) + share_of(own->price, most.price);
        size_t to = at->count;
        if (to == QLL_PLACE_MOST && !(sum < order[to - 1])) {
            continue;
        }
        to -= to == QLL_PLACE_MOST ? 1 : 0;
        at->count = to + 1;
        for (; to > 0 && order[to - 1] > sum; to--) {
            order[to] = order[to - 1];
            at->choices[to] = at->choices[to - 1];
        }
        order[to] = sum;
        at->choices[to] = front->members[i]->arrangement.stages[0];
    }
}

static qll_status fill_place(qll_searching *searching, qll_chain_room *room, place *at)
{
    const qll_arena_mark whole = qll_arena_now(searching->arena);
    qll_front front = {.count = 0};
    qll_status status =
        qll_front_reserve(&front, qll_stage_choice_count(searching, &at->plan), searching->arena);
    qll_stage_walk walk = qll_stage_walk_begin(&searching->pool, searching->site, at->plan);
    qll_stage_choice choice;
    while (status == QLL_OK && qll_stage_walk_next(&walk, &choice)) {
        if (qll_handover_holds(&choice, &at->plan)) {
            qll_arena_mark mark = qll_arena_now(searching->arena);
            status = look_at(searching, at, &choice, room, &front);
            qll_arena_reset(searching->arena, mark);
        }
    }
    if (status == QLL_OK) {
        keep_best(&front, at);
    }
    qll_arena_reset(searching->arena, whole);
    return status;
}

qll_status qll_search_three_stages(qll_searching *searching)
{
    double set_pa_gauge[QLL_THREE];
    if (!qll_needs_three_stages(searching) || !split_in_three(searching, set_pa_gauge)) {
        return QLL_OK;
    }
    qll_chain_room room;
    place *places = qll_arena_take(searching->arena, QLL_THREE, sizeof *places);
    if (places == NULL || qll_chain_room_make(searching, &room) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    plan_places(searching, set_pa_gauge, places);
    qll_chain chain = {.link_count = QLL_THREE};
    for (size_t k = 0; k < QLL_THREE; k++) {
        qll_status status = fill_place(searching, &room, &places[k]);
        if (status != QLL_OK) {
            return status;
        }
        chain.links[k] = (qll_chain_link){places[k].choices, places[k].count};
    }
    qll_stage_corners_begin(&searching->corners, &room.corners[0]);
    return qll_chain_try(searching, &chain, &room);
}
