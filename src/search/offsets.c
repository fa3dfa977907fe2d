/* Offsets in stations of two stages: those left over with the offsets by rule are tried at all the
 * others. docs/theory/search.md, section 1. */
#include "search/chain.h"
#include "search/split.h"

/* Where one stage keeps the ratio rule, two are not what a building needs. */
static bool one_stage_keeps_the_ratio(const qll_searching *searching)
{
    const qll_site *site = searching->site;
    return searching->inlet_high_pa_gauge <= site->limits.ratio_max * site->set_pa_gauge;
}

/* The stage itself, then its valves at the other offsets at which they hand over. */
static size_t list_offsets_of(const qll_searching *searching, const qll_stage_choice *choice,
                              qll_stage_plan plan, qll_stage_choice made[QLL_OFFSETS_MOST])
{
    plan.all_offsets = true;
    size_t count = qll_stage_choice_offsets(choice, &plan, searching->site, made);
    size_t kept = 1; /* the one by rule */
    for (size_t i = 1; i < count; i++) {
        if (qll_handover_holds(&made[i], &plan)) {
            made[kept] = made[i];
            kept += 1;
        }
    }
    return kept;
}

/* One stage of @p arrangement at all its offsets, the other as it stands. */
static qll_status try_offsets(qll_searching *searching, const qll_arrangement *arrangement,
                              size_t stage, qll_chain_room *room)
{
    qll_stage_choice moved[QLL_OFFSETS_MOST];
    const qll_stage_choice *stages = arrangement->stages;
    const qll_split split = qll_split_at(searching, stages[0].branches[0].set_pa_gauge);
    const qll_stage_plan plan = stage == 0 ? split.first_plan : split.second_plan;
    const size_t count = list_offsets_of(searching, &stages[stage], plan, moved);
    qll_chain chain = {
        .links = {{&stages[0], 1}, {&stages[1], 1}}, .link_count = 2, .first_is_known = true};
    chain.links[stage] = (qll_chain_link){moved, count};
    return qll_chain_try(searching, &chain, room);
}

/* All two-stage members of the front as it stands; a copy, since it changes under way. */
static qll_status copy_front(const qll_searching *searching, qll_arrangement **found,
                             size_t *found_count)
{
    const qll_front *front = &searching->front;
    *found = qll_arena_take(searching->arena, front->count, sizeof **found);
    *found_count = 0;
    if (*found == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < front->count; i++) {
        if (front->members[i]->arrangement.stage_count == 2) {
            (*found)[*found_count] = front->members[i]->arrangement;
            *found_count += 1;
        }
    }
    return QLL_OK;
}

static qll_status search_stage(qll_searching *searching, size_t stage, qll_chain_room *room)
{
    qll_arrangement *found = NULL;
    size_t count = 0;
    qll_status status = copy_front(searching, &found, &count);
    for (size_t i = 0; i < count && status == QLL_OK; i++) {
        status = try_offsets(searching, &found[i], stage, room);
        double share = (double)(i + 1) / (double)count;
        if (!qll_searching_goes_on(searching, QLL_OFFSETS_MOST, share)) {
            break;
        }
    }
    return status;
}

qll_status qll_search_offsets(qll_searching *searching)
{
    qll_chain_room room;
    if (one_stage_keeps_the_ratio(searching)) {
        return QLL_OK;
    }
    if (qll_chain_room_make(searching, &room) != QLL_OK) {
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
