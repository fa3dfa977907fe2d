#include "search/crossing.h"

#include "search/bound.h"

#include <math.h>
#include <string.h>

static double dearer(double a, double b)
{
    return a > b ? a : b;
}

/* A first stage and what was made of it when it was first tried. */
typedef struct crossing {
    const qll_half *first;
    qll_half_known known;
    double limit_pa_gauge; /* no set-point of the second stage lies above */
    qll_trial before;
    qll_stage_place place; /* behind it */
    bool has_before;
    qll_status status;
} crossing;

/* The second stage behind its first one, exactly; the outlets of the first stand in its room. Returns the rule it
 * breaks. */
static qll_practice try_both(qll_split *at, qll_split_room *room, const crossing *with,
                             const qll_pick *second)
{
    qll_searching *searching = at->searching;
    const double stage = searching->yardstick->site->costs->stage;
    const qll_half *first = with->first;
    qll_rest_of_station rest = {.cost = first->cost + stage, .dearest = first->dearest};
    memcpy(rest.survival, with->before.survival, sizeof rest.survival);
    qll_trial trial;
    qll_practice broken =
        qll_trial_make(searching, &with->place, second, &rest, NULL, &room->second, &trial);
    if (broken < QLL_PRACTICE_COUNT) {
        searching->counts.by_practice[broken] += 1;
        return broken;
    }
    if (trial.is_dear) {
        return broken;
    }
    double survives = 1.0 - qll_searching_chance(searching, trial.survival, with->before.survival);
    qll_whole whole = {
        .stage_count = 2,
        .stages = {first->pick, *second},
        .set_inlet_pa_gauge = {at->first.set_inlet_pa_gauge, at->second.set_inlet_pa_gauge}};
    whole.installed = first->cost + trial.cost + stage;
    qll_searching_put(searching, &whole, dearer(first->dearest, trial.dearest), survives,
                      trial.outlets.rest_pa);
    return broken;
}

/* Whether a bound says that nothing behind this first stage is wanted of @p second, stages that share a bound or the
 * least of a block of them. */
static bool is_out(qll_split *at, const crossing *with, const qll_half *second)
{
    qll_searching *searching = at->searching;
    if (qll_breaks_pa(second->highest_pa_gauge - with->limit_pa_gauge)) {
        searching->counts.by_practice[QLL_PRACTICE_ORDER] += 1;
        return true;
    }
    if (!qll_withstands(second->rated_pa_gauge, with->first->rest_pa_gauge)) {
        searching->counts.by_practice[QLL_PRACTICE_RATING] += 1;
        return true;
    }
    const double limit = qll_searching_limit(searching);
    const qll_half_bound bound = qll_half_bound_of(second);
    bool is_dear = !(qll_half_cost(&with->known, &bound, limit) < limit);
    searching->counts.bounded += is_dear ? 1 : 0;
    return is_dear;
}

/* False if the first stage is none by the last bit. */
static bool has_before(qll_split *at, qll_split_room *room, crossing *with)
{
    if (!with->has_before) {
        with->has_before = qll_trial_make(at->searching, &at->first, &with->first->pick, NULL, NULL,
                                          &room->first, &with->before)
                           == QLL_PRACTICE_COUNT;
        with->place = at->second;
        with->place.inlets = with->before.outlets;
        with->place.highest = NULL;
        with->place.ends = room->behind;
        qll_place_ends(at->searching->yardstick->duty, &with->place);
    }
    return with->has_before;
}

/* What survives of a pair at most, less what both its valves do while both are open. */
static void beside_both(const qll_alike *alike, const qll_second *other, double survival[QLL_NODES])
{
    memcpy(survival, alike->alone, sizeof alike->alone);
    qll_survival_hunting((double)other->hunting, alike->open_share, survival);
}

/* Whether one of those that share a bound is too dear by its cost and @p least, the chance of a callback that they share:
 * then so are all that are dearer. */
static bool is_too_dear(const qll_split *at, const crossing *with, const qll_half *second,
                        const qll_second *other, double least)
{
    const qll_searching *searching = at->searching;
    const qll_part *parts = searching->pool.parts;
    const double other_cost = parts[other->part].cost;
    const double installed =
        with->known.cost + searching->beside + parts[second->pick.part[0]].cost + other_cost;
    const double dearest = dearer(dearer(with->known.dearest, second->dearest), other_cost);
    return !(qll_searching_expected(searching, installed, dearest, least)
             < qll_searching_limit(searching));
}

/* One of those that share a bound; false if it is out. @p least is the chance of a callback that they share. */
static bool is_wanted(qll_split *at, const crossing *with, const qll_half *second,
                      const qll_second *other, double least)
{
    qll_searching *searching = at->searching;
    const qll_part *parts = searching->pool.parts;
    const double other_cost = parts[other->part].cost;
    const double limit = qll_searching_limit(searching);
    if ((double)other->needs_pa > with->known.gives_pa) {
        return false;
    }
    double survival[QLL_NODES];
    qll_half_bound bound = {.cost =
                                searching->beside + parts[second->pick.part[0]].cost + other_cost,
                            .dearest = dearer(second->dearest, other_cost),
                            .chance = least,
                            .survival = other->known == NULL ? survival : other->known->survival,
                            .gives_pa = INFINITY,
                            .needs_pa = (double)other->needs_pa};
    if (other->known == NULL) {
        beside_both(second->alike, other, survival);
        for (size_t k = 0; k < QLL_NODES; k++) {
            survival[k] *= second->alike->floor;
        }
    }
    return qll_half_cost(&with->known, &bound, limit) < limit;
}

/* The peaks of a pair are looked at when it is first asked for. QLL_OK or QLL_NO_MEMORY. */
static qll_status look_at_peaks(qll_split *at, qll_split_room *room, qll_alike *alike,
                                const qll_pick *pick, qll_second *other)
{
    alike->look_count += 1;
    other->known = qll_arena_take(at->searching->arena, 1, sizeof *other->known);
    if (other->known == NULL) {
        return QLL_NO_MEMORY;
    }
    *other->known = (qll_pair_known){.short_pa = -INFINITY};
    const double peaks = qll_peaks_least(at->searching, &at->second, pick, &room->least);
    beside_both(alike, other, other->known->survival);
    for (size_t k = 0; k < QLL_NODES; k++) {
        other->known->survival[k] *= peaks;
    }
    return QLL_OK;
}

/* All that it does beyond its lead. */
static void look_at_all(qll_split *at, qll_split_room *room, qll_alike *alike, const qll_pick *pick,
                        const qll_second *other)
{
    alike->look_count += 1;
    double besides[QLL_NODES];
    qll_pair_least(at->searching, &at->second, pick, alike->open_from, &room->least, besides);
    beside_both(alike, other, other->known->survival);
    for (size_t k = 0; k < QLL_NODES; k++) {
        other->known->survival[k] *= besides[k];
    }
}

/* Whether its ratings and what was seen of it behind other first stages speak for trying it behind this one. */
static bool may_follow(qll_split *at, const crossing *with, const qll_second *other)
{
    qll_searching *searching = at->searching;
    const qll_part *part = &searching->pool.parts[other->part];
    if (!qll_withstands(part->branch.valve->inlet_max_pa_gauge, with->first->rest_pa_gauge)) {
        searching->counts.by_practice[QLL_PRACTICE_RATING] += 1;
        return false;
    }
    if (other->known != NULL && other->known->short_pa > with->first->peak_pa) {
        searching->counts.by_practice[QLL_PRACTICE_DELIVERY] += 1;
        return false;
    }
    return true;
}

/* A pair whose outlets rise with the inlet (B5) and that is short at a peak is short behind less as well. */
static void remember_short(const qll_split *at, const qll_split_room *room, const crossing *with,
                           qll_pair_known *known)
{
    const double need_pa = at->searching->yardstick->peak_hard_pa[0];
    if (qll_split_rises(at) && qll_breaks_pa(need_pa - room->second.peak_pa[0])) {
        const double solved_pa = 1.0; /* far above what a solver leaves */
        known->short_pa = fmax(known->short_pa, with->first->peak_pa - solved_pa);
    }
}

/* So many are tried in vain before all that a pair does beyond its lead is bounded, which takes as long as two tries. */
#define QLL_TRIES_BEFORE_ALL 1

/* One of those that share a bound, by what is known of it, and by more where that does not fell it. */
static bool is_left(qll_split *at, qll_split_room *room, crossing *with, qll_half *second,
                    const qll_pick *pick, qll_second *other, double least)
{
    if (!may_follow(at, with, other)) {
        return false;
    }
    bool wants = is_wanted(at, with, second, other, least);
    if (wants && other->known == NULL) {
        with->status = look_at_peaks(at, room, second->alike, pick, other);
        wants = with->status == QLL_OK && is_wanted(at, with, second, other, least);
    }
    if (wants && other->known->tries == QLL_TRIES_BEFORE_ALL) {
        look_at_all(at, room, second->alike, pick, other);
        wants = is_wanted(at, with, second, other, least);
    }
    at->searching->counts.bounded += wants ? 0 : 1;
    if (wants) {
        other->known->tries += 1;
    }
    return wants;
}

/* What survives of stages that share a bound is no more than the most that any of them is now known to. */
static void sharpen(const qll_split *at, qll_half *second)
{
    const qll_alike *alike = second->alike;
    double most[QLL_NODES] = {0.0};
    for (size_t j = 0; j < alike->second_count; j++) {
        const qll_pair_known *known = alike->seconds[j].known;
        for (size_t k = 0; k < QLL_NODES; k++) {
            const double here = known == NULL ? alike->alone[k] * alike->floor : known->survival[k];
            most[k] = here > most[k] ? here : most[k];
        }
    }
    memcpy(second->survival, most, sizeof most);
    second->chance = qll_searching_chance(at->searching, second->survival, NULL);
}

/* One of those that share a bound, or a single valve; false if nothing is to go on. */
static bool cross_one(qll_split *at, qll_split_room *room, crossing *with, const qll_half *second,
                      const qll_pick *pick, const qll_second *other)
{
    if (!has_before(at, room, with)) {
        return false;
    }
    double beside[QLL_NODES];
    qll_pair_hint hint = {.survival = beside};
    if (other != NULL) {
        beside_both(second->alike, other, beside);
        hint.open_from = second->alike->open_from;
        room->second.hint = &hint;
    }
    const qll_practice broken = try_both(at, room, with, pick);
    room->second.hint = NULL;
    if (broken == QLL_PRACTICE_DELIVERY && other != NULL) {
        remember_short(at, room, with, other->known);
    }
    return qll_searching_looks(at->searching, QLL_LOOKS_PER_TRIAL);
}

/* Stages that share a bound; false if nothing is to go on. */
static bool cross_alike(qll_split *at, qll_split_room *room, crossing *with, qll_half *second)
{
    const qll_alike *alike = second->alike; /* NULL = one valve */
    const size_t look_count = alike == NULL ? 0 : alike->look_count;
    const double least = dearer(second->chance, qll_half_chance(&with->known, second->survival));
    const size_t count = alike == NULL ? 1 : alike->second_count;
    for (size_t j = 0; j < count; j++) {
        qll_pick pick = second->pick;
        qll_second *other = alike == NULL ? NULL : &alike->seconds[j];
        if (other != NULL) {
            pick.part[1] = other->part;
        }
        if (other != NULL && is_too_dear(at, with, second, other, least)) {
            at->searching->counts.bounded += count - j;
            break;
        }
        if (other != NULL && !is_left(at, room, with, second, &pick, other, least)) {
            if (with->status != QLL_OK) {
                return false;
            }
            continue;
        }
        if (!cross_one(at, room, with, second, &pick, other)) {
            return false;
        }
    }
    if (alike != NULL && alike->look_count > look_count) {
        sharpen(at, second);
    }
    return true;
}

static bool cross_block(qll_split *at, qll_split_room *room, crossing *with, const qll_block *block,
                        bool skips_singles)
{
    for (size_t i = block->from; i < block->to; i++) {
        qll_half *second = &at->seconds.items[i];
        if ((skips_singles && second->pick.count == 1) || is_out(at, with, second)) {
            continue;
        }
        if (!cross_alike(at, room, with, second)) {
            return false;
        }
    }
    return qll_searching_looks(at->searching, block->to - block->from);
}

/* Every second stage that may matter behind one first stage. */
static qll_status cross_first(qll_split *at, qll_split_room *room, const qll_blocks *blocks,
                              const qll_half *first, bool skips_singles)
{
    const qll_rest_of_station rest = qll_rest_costing(at->searching->yardstick->site->costs->stage);
    const qll_half_bound of = qll_half_bound_of(first);
    crossing with = {.first = first,
                     .known = qll_half_know(at->searching, &rest, &of),
                     .limit_pa_gauge = first->held_pa_gauge - QLL_CLEAR_PA};
    size_t i = 0;
    while (i < blocks->count) {
        const qll_block *block = &blocks->items[i];
        if ((skips_singles && block->least.pick.count == 1) || is_out(at, &with, &block->least)) {
            i = block->past;
            continue;
        }
        i += 1;
        if (block->past == i && !cross_block(at, room, &with, block, skips_singles)) {
            break;
        }
    }
    return with.status;
}

qll_status qll_split_cross(qll_split *at, qll_split_room *room, bool skips_singles)
{
    qll_blocks blocks;
    qll_blocks in_order; /* cheap ones that seldom call somebody back come first */
    if (qll_blocks_make(at->searching, &at->firsts, &in_order) != QLL_OK
        || qll_blocks_make(at->searching, &at->seconds, &blocks) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < at->firsts.count; i++) {
        const qll_half *first = &at->firsts.items[i];
        if (cross_first(at, room, &blocks, first, skips_singles && first->pick.count == 1)
            != QLL_OK) {
            return QLL_NO_MEMORY;
        }
        bool tells = i % 64 == 63;
        if (at->searching->stopped
            || (tells
                && !qll_searching_goes_on(at->searching, (double)i / (double)at->firsts.count))) {
            break;
        }
    }
    return QLL_OK;
}
