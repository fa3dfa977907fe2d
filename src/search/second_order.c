/* The second stages of a split in the order in which they are tried: those that promise least noise,
 * departure, wear and price first, so that the front soon beats most of the others. */
#include "search/split.h"

#include <math.h>

/* Heaviest flow classes that are looked at, each behind the middle of what first stages give. */
#define QLL_GLANCE_GROUPS 12

static qll_status glance(const qll_searching *searching, const qll_split *split,
                         qll_second_choice *second)
{
    qll_arena_mark mark = qll_arena_now(searching->arena);
    qll_tally_stage *of = NULL;
    qll_status status =
        qll_tally_stage_make(&second->choice, searching->site, searching->arena, &of);
    second->glance = (qll_objectives){.price = qll_tally_price(&second->choice)};
    for (size_t g = 0; g < split->group_count && g < QLL_GLANCE_GROUPS && status == QLL_OK; g++) {
        const qll_flow_group *group = &split->groups[g];
        double inlet_pa = 0.5 * (group->low_pa + group->high_pa);
        qll_tally_term term = qll_tally_at(of, inlet_pa, group->flow_m3s);
        qll_tally_add(&second->glance, &term, group->weight);
    }
    qll_arena_reset(searching->arena, mark);
    return status;
}

static double share_of(double value, double greatest)
{
    return greatest > 0.0 ? value / greatest : 0.0;
}

static void set_order(qll_second_choice *seconds, size_t count)
{
    qll_objectives most = {0.0, 0.0, 0.0, 0.0};
    for (size_t i = 0; i < count; i++) {
        most.noise = fmax(most.noise, seconds[i].glance.noise);
        most.unsteady = fmax(most.unsteady, seconds[i].glance.unsteady);
        most.wear = fmax(most.wear, seconds[i].glance.wear);
        most.price = fmax(most.price, seconds[i].glance.price);
    }
    for (size_t i = 0; i < count; i++) {
        const qll_objectives *glance = &seconds[i].glance;
        seconds[i].order =
            share_of(glance->noise, most.noise) + share_of(glance->unsteady, most.unsteady)
            + share_of(glance->wear, most.wear) + share_of(glance->price, most.price);
    }
}

qll_status qll_split_seconds(qll_searching *searching, const qll_stage_plan *plan,
                             const qll_split *split, qll_second_choice ***ordered, size_t *count)
{
    const size_t room = qll_stage_choice_count(searching, plan);
    qll_second_choice *seconds = qll_arena_take(searching->arena, room, sizeof *seconds);
    /* NOLINTNEXTLINE(bugprone-sizeof-expression): pointers are meant */
    qll_second_choice **order = qll_arena_take(searching->arena, room, sizeof *order);
    if (seconds == NULL || order == NULL) {
        return QLL_NO_MEMORY;
    }
    qll_stage_walk walk = qll_stage_walk_begin(&searching->pool, searching->site, *plan);
    *count = 0;
    while (*count < room && qll_stage_walk_next(&walk, &seconds[*count].choice)) {
        seconds[*count].lead = walk.valves[0];
        qll_status status = glance(searching, split, &seconds[*count]);
        if (status != QLL_OK) {
            return status;
        }
        *count += 1;
    }
    set_order(seconds, *count);
    for (size_t i = 0; i < *count; i++) {
        size_t at = i;
        while (at > 0 && order[at - 1]->order > seconds[i].order) {
            order[at] = order[at - 1];
            at--;
        }
        order[at] = &seconds[i];
    }
    *ordered = order;
    return QLL_OK;
}
