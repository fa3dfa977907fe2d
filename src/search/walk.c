#include "search/walk.h"

#include "base/customary.h"
#include "search/bound.h"

#include <math.h>
#include <string.h>

qll_status qll_walk_room_make(const qll_searching *searching, qll_walk_room *room)
{
    const size_t count = searching->pool.count;
    room->seconds = qll_arena_take(searching->arena, count, sizeof *room->seconds);
    room->alike = qll_arena_take(searching->arena, count, sizeof *room->alike);
    room->alike_allowed = qll_arena_take(searching->arena, searching->pool.size_count,
                                         QLL_HUNTING_STEPS * sizeof *room->alike_allowed);
    if (room->seconds == NULL || room->alike == NULL || room->alike_allowed == NULL
        || qll_seconds_room_make(searching, &room->tables) != QLL_OK
        || qll_pair_room_make(searching, QLL_SET_SECOND_COUNT, &room->pairs) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_status status = qll_lead_room_make(searching, &room->lead);
    return status == QLL_OK ? qll_trial_room_make(searching, &room->trial) : status;
}

typedef struct walking {
    const qll_walk *walk;
    qll_walk_room *room;
    qll_searching *searching;
    const qll_stage_place *place;
    qll_lead lead;
    qll_seconds tables;
    double rest_pa_gauge; /* what comes at rest, at least */
    double
        rests; /* chance that the lead's outlet is not too high at rest; a second valve only raises it */
} walking;

/* Most that a stage of the lead may cost, which survives so at most (NULL = not known). */
static double allows(const walking *at, const double *survival, double dearest)
{
    const qll_half_bound of = qll_half_bound_with(survival, 0.0, dearest);
    return qll_searching_allows(at->searching, at->walk->rest, &of, at->rests);
}

static qll_inlets lead_outlets(const walking *at)
{
    return (qll_inlets){.grid_pa = at->room->lead.outlet_pa,
                        .peak_pa = at->room->lead.peak_pa,
                        .rest_pa = at->lead.rest_pa};
}

/* The lead by itself is a stage of one valve. */
static qll_status hand_over_single(walking *at)
{
    qll_searching *searching = at->searching;
    qll_trial trial;
    qll_pick pick = {.count = 1};
    pick.part[0] = at->lead.index;
    pick.set_pa_gauge[0] = at->lead.set_pa_gauge;
    qll_trial_begin(searching, &pick, &trial);
    searching->counts.measured += at->place->highest == NULL ? 1 : 0;
    qll_lead_survival(searching, &at->lead, -(double)INFINITY, trial.survival);
    if (at->place->highest != NULL) {
        const double peaks = qll_peaks_least(searching, at->place, &pick, &at->room->trial.least);
        for (size_t k = 0; k < QLL_NODES; k++) {
            trial.survival[k] *= peaks;
        }
    }
    trial.outlets = lead_outlets(at);
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

/* Set-points that are apart as they must be, and by how much at the worse end. */
static bool hands_over(const walking *at, const qll_second_figures *second, double set_pa_gauge,
                       double *narrowest_pa)
{
    const qll_stage_place *place = at->place;
    const qll_part *first = at->lead.part;
    const double slack_pa = 1e-6 * QLL_PSI_PA;
    const double least_pa = first->hysteresis_pa + second->hysteresis_pa;
    const double most_pa = QLL_HANDOVER_TRAVEL * first->branch.law->full_falloff_pa;
    const double effect = first->branch.valve->inlet_effect - second->inlet_effect;
    const double apart_pa = at->lead.set_pa_gauge - set_pa_gauge;
    const double low_pa = apart_pa + effect * (place->low_pa_gauge - place->set_inlet_pa_gauge);
    const double high_pa = apart_pa + effect * (place->high_pa_gauge - place->set_inlet_pa_gauge);
    *narrowest_pa = low_pa < high_pa ? low_pa : high_pa;
    const double widest_pa = low_pa < high_pa ? high_pa : low_pa;
    return *narrowest_pa > 0.0 && *narrowest_pa >= least_pa - slack_pa
           && widest_pa <= most_pa + slack_pa;
}

static qll_status try_pair(walking *at, size_t index, size_t set)
{
    qll_searching *searching = at->searching;
    qll_pick pick = {.count = 2};
    pick.part[0] = at->lead.index;
    pick.part[1] = index;
    pick.set_pa_gauge[0] = at->lead.set_pa_gauge;
    pick.set_pa_gauge[1] = qll_set_pa_gauge(at->place, set);
    qll_trial trial;
    qll_practice broken = qll_trial_make(searching, at->place, &pick, at->walk->rest, &at->lead,
                                         &at->room->trial, &trial);
    if (broken < QLL_PRACTICE_COUNT) {
        searching->counts.by_practice[broken] += 1;
        return QLL_OK;
    }
    return trial.is_dear ? QLL_OK : at->walk->sink(at->walk->context, &trial);
}

/* What is known of all pairs of the lead at one set-point of the second. */
typedef struct pairing {
    size_t set;
    double alone[QLL_NODES]; /* survives of what the lead does surely alone */
    double open_share[QLL_NODES];
    double *floors;   /* [size of the second] qll_peaks_floor() */
    size_t open_from; /* the second is shut at flow classes below */
    size_t count;     /* second valves listed */
} pairing;

/* Pairs of the lead with seconds of one size at one set-point, by what the lead does alone, what hunts least and the
 * floor of the peaks. */
static qll_status hand_over_size(walking *at, const pairing *pairs, qll_second *seconds,
                                 size_t count)
{
    float hunting = seconds[0].hunting;
    float gives_pa = seconds[0].gives_pa;
    float needs_pa = seconds[0].needs_pa;
    for (size_t i = 1; i < count; i++) {
        hunting = seconds[i].hunting < hunting ? seconds[i].hunting : hunting;
        gives_pa = seconds[i].gives_pa > gives_pa ? seconds[i].gives_pa : gives_pa;
        needs_pa = seconds[i].needs_pa < needs_pa ? seconds[i].needs_pa : needs_pa;
    }
    for (size_t i = 0; i < count; i++) {
        seconds[i].hunting -= hunting;
    }
    qll_pick pick = {.count = 2};
    pick.part[0] = at->lead.index;
    pick.part[1] = seconds[0].part;
    pick.set_pa_gauge[0] = at->lead.set_pa_gauge;
    pick.set_pa_gauge[1] = qll_set_pa_gauge(at->place, pairs->set);
    qll_trial trial;
    qll_trial_begin(at->searching, &pick, &trial);
    trial.outlets = lead_outlets(at);
    trial.seconds = seconds;
    trial.second_count = count;
    memcpy(trial.survival, pairs->alone, sizeof trial.survival);
    memcpy(trial.open_share, pairs->open_share, sizeof trial.open_share);
    trial.open_from = pairs->open_from;
    trial.gives_pa = (double)gives_pa;
    trial.needs_pa = (double)needs_pa;
    trial.floor = pairs->floors[at->searching->pool.parts[seconds[0].part].size];
    qll_survival_hunting((double)hunting, trial.open_share, trial.survival);
    for (size_t k = 0; k < QLL_NODES; k++) {
        trial.survival[k] *= trial.floor;
    }
    return at->walk->sink(at->walk->context, &trial);
}

/* Those listed, size by size, each the cheapest first. */
static qll_status hand_over_seconds(walking *at, const pairing *pairs)
{
    const qll_pool *pool = &at->searching->pool;
    const qll_second *all = at->room->seconds;
    qll_second *alike = at->room->alike;
    for (size_t size = 0; size < pool->size_count && pairs->count > 0; size++) {
        size_t count = 0;
        for (size_t i = 0; i < pairs->count; i++) {
            if (pool->parts[all[i].part].size == size) {
                alike[count++] = all[i];
            }
        }
        qll_status status = count > 0 ? hand_over_size(at, pairs, alike, count) : QLL_OK;
        if (status != QLL_OK) {
            return status;
        }
    }
    return QLL_OK;
}

static bool is_allowed(const walking *at, const double *survival, double cost, double dearest,
                       qll_allowance *kept)
{
    const double moved = 1.2;
    const double limit = qll_searching_limit(at->searching);
    if (limit != kept->limit || dearest > moved * kept->dearest) {
        *kept = (qll_allowance){
            .limit = limit, .dearest = dearest, .most = allows(at, survival, dearest)};
    }
    return cost < kept->most;
}

/* The same of all seconds of one size that hunt about as much: by the floor of their peaks and the least hunting. */
static bool is_allowed_alike(const walking *at, size_t index, double hunting, const pairing *pairs)
{
    const qll_part *second = &at->searching->pool.parts[index];
    const double first_cost = at->lead.part->cost;
    const double cost = at->searching->beside + first_cost + second->cost;
    const double dearest = fmax(first_cost, second->cost);
    const size_t step = (size_t)(hunting * (QLL_HUNTING_STEPS - 1));
    qll_allowance *kept = &at->room->alike_allowed[second->size * QLL_HUNTING_STEPS + step];
    const double moved = 1.2;
    const double limit = qll_searching_limit(at->searching);
    if (limit != kept->limit || dearest > moved * kept->dearest) {
        double survival[QLL_NODES];
        memcpy(survival, pairs->alone, sizeof survival);
        qll_survival_hunting((double)step / (QLL_HUNTING_STEPS - 1), pairs->open_share, survival);
        for (size_t k = 0; k < QLL_NODES; k++) {
            survival[k] *= pairs->floors[second->size];
        }
        *kept = (qll_allowance){
            .limit = limit, .dearest = dearest, .most = allows(at, survival, dearest)};
    }
    return cost < kept->most;
}

static bool may_stand_second(const walking *at, const qll_second_figures *second)
{
    const qll_part *first = at->lead.part;
    return second->kv_m3h >= at->searching->larger_least * first->branch.valve->kv_m3h
           && second->rank >= first->rank;
}

/* A pair by what it does at least, then in full. What survives of it so far is known, and of hunting. */
static qll_status try_second(walking *at, size_t index, const pairing *pairs, qll_half_bound *of,
                             const double survival[QLL_NODES])
{
    qll_searching *searching = at->searching;
    const qll_part *part = &searching->pool.parts[index];
    const double set_pa_gauge = qll_set_pa_gauge(at->place, pairs->set);
    const qll_pair_case pair = {
        .searching = searching,
        .lead = &at->lead,
        .part = index,
        .set = pairs->set,
        .set_pa_gauge = set_pa_gauge,
        .chatters = qll_branch_chatters(
            part->branch.valve, at->place->set_inlet_pa_gauge - set_pa_gauge, set_pa_gauge)};
    qll_pair_sums sums[QLL_SUPPLY_LEVELS];
    qll_pair_hint hint = {.survival = survival, .open_from = pairs->open_from};
    double hunting[QLL_NODES], at_most[QLL_NODES];
    if (qll_pair_sums_least(&pair, &at->room->pairs, sums)) {
        qll_pair_sums_survival(&pair, sums, at_most);
        for (size_t k = 0; k < QLL_NODES; k++) {
            hunting[k] = survival[k] / pairs->alone[k];
            at_most[k] *= hunting[k] * pairs->floors[part->size];
        }
        hint.sums = sums;
        hint.hunting = hunting;
        of->survival = at_most;
        if (!qll_searching_wants(searching, at->walk->rest, of, at->rests)) {
            searching->counts.bounded += 1;
            return QLL_OK;
        }
    }
    at->room->trial.hint = &hint;
    qll_status status = try_pair(at, index, pairs->set);
    at->room->trial.hint = NULL;
    (void)qll_searching_looks(searching, QLL_LOOKS_PER_TRIAL);
    return status;
}

/* A second valve that nothing speaks against so far. */
static qll_status take_second(walking *at, size_t index, double hunting, pairing *pairs)
{
    qll_searching *searching = at->searching;
    if (!is_allowed_alike(at, index, hunting, pairs)) {
        searching->counts.bounded += 1;
        return QLL_OK;
    }
    if (qll_second_is_fast(&at->tables, index, pairs->set)) {
        searching->counts.by_practice[QLL_PRACTICE_SPEED] += 1;
        return QLL_OK;
    }
    const double first_cost = at->lead.part->cost;
    const double second_cost = searching->pool.parts[index].cost;
    double survival[QLL_NODES], with_peaks[QLL_NODES];
    memcpy(survival, pairs->alone, sizeof survival);
    qll_survival_hunting(hunting, pairs->open_share, survival);
    for (size_t k = 0; k < QLL_NODES; k++) {
        with_peaks[k] = survival[k] * pairs->floors[searching->pool.parts[index].size];
    }
    qll_half_bound of = qll_half_bound_with(
        with_peaks, searching->beside + first_cost + second_cost, fmax(first_cost, second_cost));
    of.gives_pa = qll_second_gives_pa(&at->tables, index, pairs->set);
    of.needs_pa = qll_second_needs_pa(&at->tables, index, pairs->set);
    if (!qll_searching_wants(searching, at->walk->rest, &of, at->rests)) {
        searching->counts.bounded += 1;
        return QLL_OK;
    }
    if (at->walk->by_lead) {
        const double rounded = 1.0 - 1e-6; /* down, whatever a float makes of it */
        at->room->seconds[pairs->count] =
            (qll_second){.part = (uint32_t)index,
                         .hunting = (float)(rounded * hunting),
                         .gives_pa = (float)of.gives_pa + 1.0F, /* whatever a float makes of it */
                         .needs_pa = (float)of.needs_pa - 1.0F};
        pairs->count += 1;
        return QLL_OK;
    }
    return try_second(at, index, pairs, &of, survival);
}

static void forget_allowed(const walking *at)
{
    for (size_t i = 0; i < at->searching->pool.size_count * QLL_HUNTING_STEPS; i++) {
        at->room->alike_allowed[i] = (qll_allowance){.dearest = -INFINITY};
    }
}

/* All second valves at one set-point, the cheapest first. */
static qll_status walk_seconds(walking *at, size_t set)
{
    qll_searching *searching = at->searching;
    const qll_second_figures *figures = at->room->tables.figures;
    const qll_part *first = at->lead.part;
    const double set_pa_gauge = qll_set_pa_gauge(at->place, set);
    pairing pairs = {.set = set, .floors = at->room->tables.floors};
    qll_lead_survival(searching, &at->lead, set_pa_gauge, pairs.alone);
    qll_lead_both_open(searching, &at->lead, set_pa_gauge, pairs.open_share);
    pairs.open_from =
        qll_lead_alone_anywhere(searching, &at->lead, set_pa_gauge, searching->pool.effects);
    qll_allowance kept = {.dearest = -INFINITY};
    forget_allowed(at);
    for (size_t i = 0; i < searching->pool.count && !searching->stopped; i++) {
        const qll_second_figures *second = &figures[i];
        const double cost = searching->beside + first->cost + second->cost;
        if (!is_allowed(at, pairs.alone, cost, fmax(first->cost, second->cost), &kept)) {
            searching->counts.bounded += searching->pool.count - i;
            break;
        }
        double gap_pa;
        if (!may_stand_second(at, second)) {
            continue;
        }
        if (!second->is_rated[set]) {
            searching->counts.by_practice[QLL_PRACTICE_RATING] += 1;
            continue;
        }
        if (!hands_over(at, second, set_pa_gauge, &gap_pa)) {
            searching->counts.by_practice[QLL_PRACTICE_HANDOVER] += 1;
            continue;
        }
        if (!qll_second_carries(&at->tables, i, set)) {
            continue;
        }
        const double hunting =
            qll_hunting_severity(first->hysteresis_pa + second->hysteresis_pa, gap_pa);
        qll_status status = take_second(at, i, hunting, &pairs);
        if (status != QLL_OK) {
            return status;
        }
    }
    return hand_over_seconds(at, &pairs);
}

/* Set-points of second valves beside a lead at @p set that are worth a walk; returns how many. */
static size_t list_seconds(walking *at, size_t set, size_t seconds[QLL_OFFSET_COUNT])
{
    qll_searching *searching = at->searching;
    const qll_part *part = at->lead.part;
    double least = searching->beside + part->cost + part->least_larger;
    if (at->walk->branches_most < 2 || !qll_lead_rests(searching, &at->lead)
        || !(least < allows(at, NULL, part->cost))) {
        return 0;
    }
    size_t count = 0;
    for (size_t i = 0; i < (set == QLL_SET_WANTED ? QLL_OFFSET_COUNT : 1); i++) {
        size_t second = set == QLL_SET_WANTED ? QLL_SET_BELOW + i : QLL_SET_WANTED;
        if (qll_lead_is_too_fast(searching, &at->lead, qll_set_pa_gauge(at->place, second))) {
            searching->counts.by_practice[QLL_PRACTICE_SPEED] += 1;
            continue;
        }
        seconds[count] = second;
        count += 1;
    }
    return count;
}

/* The lead at one set-point, alone and as the first of pairs. */
static qll_status walk_lead(walking *at, size_t index, size_t set)
{
    qll_searching *searching = at->searching;
    const qll_part *part = &searching->pool.parts[index];
    double set_pa_gauge = qll_set_pa_gauge(at->place, set);
    if (!qll_part_is_rated(part, set_pa_gauge, at->rest_pa_gauge)) {
        searching->counts.by_practice[QLL_PRACTICE_RATING] += 1;
        return QLL_OK;
    }
    qll_lead_begin(searching, at->place, index, set_pa_gauge, &at->room->lead, &at->lead);
    at->rests = 1.0;
    if (at->place->is_last && part->branch.valve->inlet_effect >= 0.0) {
        at->rests = 1.0 - qll_rest_chance(searching->yardstick, at->lead.rest_pa);
    }
    qll_practice broken = qll_lead_broken(searching, &at->lead);
    const bool is_single = set == QLL_SET_WANTED && broken == QLL_PRACTICE_COUNT;
    if (set == QLL_SET_WANTED && !is_single) {
        searching->counts.by_practice[broken] += 1;
    }
    size_t seconds[QLL_OFFSET_COUNT];
    const size_t count = list_seconds(at, set, seconds);
    if (!is_single && count == 0) {
        return QLL_OK;
    }
    qll_lead_solve(searching, &at->lead);
    qll_seconds_of_lead(&at->tables);
    qll_pair_room_of_lead(&at->room->pairs);
    qll_status status = is_single ? hand_over_single(at) : QLL_OK;
    for (size_t i = 0; i < count && status == QLL_OK; i++) {
        status = walk_seconds(at, seconds[i]);
    }
    return status;
}

qll_status qll_walk_stage(const qll_walk *walk, qll_walk_room *room)
{
    qll_searching *searching = walk->searching;
    walking at = {.walk = walk,
                  .room = room,
                  .searching = searching,
                  .place = walk->place,
                  .rest_pa_gauge =
                      walk->place->inlets.rest_pa - searching->yardstick->site->barometric_pa,
                  .rests = 1.0};
    const qll_pool *pool = &searching->pool;
    if (pool->count == 0) {
        return QLL_OK;
    }
    at.tables = (qll_seconds){searching, walk->place, &at.lead, &room->tables};
    qll_seconds_begin(&at.tables);
    qll_pair_room_begin(searching, walk->place, &room->pairs);
    const size_t sets = walk->branches_most > 1 && walk->place->is_last ? QLL_SET_COUNT : 1;
    for (size_t i = 0; i < pool->count && !searching->stopped; i++) {
        const double cost = pool->parts[i].cost;
        if (walk->leads != NULL && !walk->leads[i]) {
            continue;
        }
        at.rests = 1.0;
        const double most = allows(&at, NULL, cost);
        if (!(cost < most)) {
            break;
        }
        for (size_t set = 0; set < sets; set++) {
            bool is_second_only = set > QLL_SET_WANTED && set < QLL_SET_ABOVE;
            bool alone_too = set == QLL_SET_WANTED;
            if (is_second_only
                || !(alone_too || searching->beside + cost + pool->parts[i].least_larger < most)) {
                continue;
            }
            qll_status status = walk_lead(&at, i, set);
            if (status != QLL_OK) {
                return status;
            }
        }
        if (walk->tells_progress
            && !qll_searching_goes_on(searching, (double)(i + 1) / (double)pool->count)) {
            break;
        }
    }
    return QLL_OK;
}
