#include "search/trying.h"

#include <math.h>

void qll_trying_begin(const qll_walk *walk, qll_walk_room *room, qll_trying *made)
{
    qll_searching *searching = walk->searching;
    *made = (qll_trying){.walk = walk,
                         .room = room,
                         .searching = searching,
                         .place = walk->place,
                         .rest_pa_gauge = walk->place->inlets.rest_pa
                                          - searching->yardstick->site->barometric_pa,
                         .rests = 1.0};
    made->tables = (qll_seconds){searching, walk->place, &made->lead, &room->tables};
    room->trial.is_early = walk->is_early;
    qll_seconds_begin(&made->tables);
    qll_pair_room_begin(searching, walk->place, &room->pairs);
}

void qll_trying_lead(qll_trying *at, size_t index, double set_pa_gauge)
{
    qll_searching *searching = at->searching;
    const qll_valve *valve = searching->pool.parts[index].branch.valve;
    qll_lead_begin(searching, at->place, index, set_pa_gauge, &at->room->lead, &at->lead);
    at->rests = 1.0;
    if (at->place->is_last && valve->inlet_effect >= 0.0) {
        at->rests = 1.0 - qll_rest_chance(searching->yardstick, at->lead.rest_pa);
    }
}

void qll_trying_solve(qll_trying *at)
{
    qll_lead_solve(at->searching, &at->lead);
    qll_seconds_of_lead(&at->tables);
    qll_pair_room_of_lead(&at->room->pairs);
}

qll_inlets qll_trying_outlets(const qll_trying *at)
{
    return (qll_inlets){.grid_pa = at->room->lead.outlet_pa,
                        .peak_pa = at->room->lead.peak_pa,
                        .rest_pa = at->lead.rest_pa};
}

qll_status qll_try_single(qll_trying *at)
{
    qll_searching *searching = at->searching;
    qll_trial trial;
    qll_pick pick = {.count = 1};
    pick.part[0] = at->lead.index;
    pick.set_pa_gauge[0] = at->lead.set_pa_gauge;
    qll_trial_begin(searching, &pick, &trial);
    searching->counts.measured += at->place->highest == NULL && !at->walk->is_early ? 1 : 0;
    qll_lead_survival(searching, &at->lead, -(double)INFINITY, trial.survival);
    if (at->place->highest != NULL) {
        const double peaks = qll_peaks_least(searching, at->place, &pick, &at->room->trial.least);
        for (size_t k = 0; k < QLL_NODES; k++) {
            trial.survival[k] *= peaks;
        }
    }
    trial.outlets = qll_trying_outlets(at);
    if (!at->place->is_last && !isnan(trial.outlets.peak_pa[0])) {
        trial.gives_pa = trial.outlets.peak_pa[0];
    }
    trial.needs_pa = qll_lead_needs_pa(&at->tables);
    qll_half_bound of = qll_half_bound_with(trial.survival, trial.cost, trial.dearest);
    of.gives_pa = trial.gives_pa;
    of.needs_pa = trial.needs_pa;
    if (!qll_searching_wants(searching, at->walk->rest, &of, at->rests)) {
        searching->counts.bounded += 1;
        return QLL_OK;
    }
    return at->walk->sink(at->walk->context, &trial);
}

void qll_pairing_begin(const qll_trying *at, size_t set, size_t placing, qll_pairing *made)
{
    qll_searching *searching = at->searching;
    const double set_pa_gauge = qll_set_pa_gauge(at->place, set);
    *made = (qll_pairing){.set = set, .placing = placing, .floors = at->room->tables.floors};
    qll_lead_survival(searching, &at->lead, set_pa_gauge, made->alone);
    qll_lead_both_open(searching, &at->lead, set_pa_gauge, made->open_share);
    made->open_from =
        qll_lead_alone_anywhere(searching, &at->lead, set_pa_gauge, searching->pool.effects);
}

qll_pair_case qll_pairing_case(const qll_trying *at, size_t index, const qll_pairing *pairs)
{
    const double set_pa_gauge = qll_set_pa_gauge(at->place, pairs->set);
    return (qll_pair_case){.searching = at->searching,
                           .lead = &at->lead,
                           .part = index,
                           .set = pairs->set,
                           .set_pa_gauge = set_pa_gauge,
                           .open_from = pairs->open_from,
                           .chatters = qll_branch_chatters(
                               at->searching->pool.parts[index].branch.valve,
                               at->place->set_inlet_pa_gauge - set_pa_gauge, set_pa_gauge)};
}

static qll_status try_pair(qll_trying *at, const qll_pair_case *pair)
{
    qll_searching *searching = at->searching;
    qll_pick pick = {.count = 2};
    pick.part[0] = at->lead.index;
    pick.part[1] = pair->part;
    pick.set_pa_gauge[0] = at->lead.set_pa_gauge;
    pick.set_pa_gauge[1] = pair->set_pa_gauge;
    qll_trial trial;
    qll_practice broken = qll_trial_make(searching, at->place, &pick, at->walk->rest, &at->lead,
                                         &at->room->trial, &trial);
    if (broken < QLL_PRACTICE_COUNT) {
        searching->counts.by_practice[broken] += 1;
        return QLL_OK;
    }
    if (trial.is_dear) {
        return QLL_OK;
    }
    if (trial.is_early) {
        qll_pair_outlets(pair, &at->room->pairs, at->room->trial.outlet_pa,
                         at->room->most_outlet_pa);
        trial.outlets_most_pa = at->room->most_outlet_pa;
    }
    return at->walk->sink(at->walk->context, &trial);
}

/* What else is known of a pair. */
typedef struct besides_sums {
    const double *hunting; /* [QLL_NODES] what survives of it at most */
    const double *peaks;   /* qll_pair_peaks() */
    double floor;          /* qll_peaks_floor() */
} besides_sums;

/* Whether a pair is too dear by its sums. */
static bool is_summed_out(const qll_trying *at, const qll_pair_case *pair,
                          qll_pair_sums sums[QLL_SUPPLY_LEVELS], const besides_sums *besides,
                          qll_half_bound *of)
{
    double at_most[QLL_NODES];
    qll_pair_sums_survival(pair, sums, besides->peaks, at_most);
    for (size_t k = 0; k < QLL_NODES; k++) {
        at_most[k] *= besides->hunting[k] * besides->floor;
    }
    of->survival = at_most;
    const bool is_out = !qll_searching_wants(at->searching, at->walk->rest, of, at->rests);
    at->searching->counts.bounded += is_out ? 1 : 0;
    return is_out;
}

qll_status qll_try_second(qll_trying *at, size_t index, const qll_pairing *pairs,
                          qll_half_bound *of, const double survival[QLL_NODES])
{
    qll_searching *searching = at->searching;
    const double floor = pairs->floors[searching->pool.parts[index].size];
    const qll_pair_case pair = qll_pairing_case(at, index, pairs);
    if (qll_pair_take(&pair, &at->room->pairs) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    double peaks[QLL_ROWS(2)];
    qll_pair_peaks(&pair, &at->room->pairs, peaks);
    qll_pair_sums sums[QLL_SUPPLY_LEVELS];
    qll_pair_hint hint = {.survival = survival, .open_from = pairs->open_from};
    double hunting[QLL_NODES];
    for (size_t k = 0; k < QLL_NODES; k++) {
        hunting[k] = survival[k] / pairs->alone[k];
    }
    const besides_sums besides = {.hunting = hunting, .peaks = peaks, .floor = floor};
    if (qll_pair_sums_alone(&pair, &at->room->pairs, sums)) {
        /* The middle supply weighs as much as both others: after it most that fall have fallen. */
        const size_t middle = QLL_SUPPLY_LEVELS / 2;
        qll_pair_sums_add(&pair, middle, &at->room->pairs, sums[middle]);
        if (is_summed_out(at, &pair, sums, &besides, of)) {
            return QLL_OK;
        }
        for (size_t s = 0; s < QLL_SUPPLY_LEVELS; s++) {
            if (s != middle) {
                qll_pair_sums_add(&pair, s, &at->room->pairs, sums[s]);
            }
        }
        if (is_summed_out(at, &pair, sums, &besides, of)) {
            return QLL_OK;
        }
        hint.sums = sums;
        hint.hunting = hunting;
    }
    at->room->trial.hint = &hint;
    qll_status status = try_pair(at, &pair);
    at->room->trial.hint = NULL;
    (void)qll_searching_looks(searching, QLL_LOOKS_PER_TRIAL);
    return status;
}
