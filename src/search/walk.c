#include "search/trying.h"

#include <math.h>
#include <string.h>

qll_status qll_walk_room_make(const qll_searching *searching, qll_walk_room *room)
{
    const size_t count = searching->pool.count;
    room->seconds = qll_arena_take(searching->arena, count, sizeof *room->seconds);
    room->alike_allowed = qll_arena_take(searching->arena, searching->pool.size_count,
                                         QLL_HUNTING_STEPS * sizeof *room->alike_allowed);
    const qll_duty *duty = searching->yardstick->duty;
    room->most_outlet_pa = qll_arena_take(searching->arena, duty->supply_count * duty->flow_count,
                                          sizeof *room->most_outlet_pa);
    if (room->seconds == NULL || room->alike_allowed == NULL || room->most_outlet_pa == NULL
        || qll_seconds_room_make(searching, &room->tables) != QLL_OK
        || qll_pair_room_make(searching, QLL_SET_SECOND_COUNT, &room->pairs) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    qll_status status = qll_lead_room_make(searching, &room->lead);
    return status == QLL_OK ? qll_trial_room_make(searching, &room->trial) : status;
}

/* Most that a stage of the lead may cost, which survives so at most (NULL = not known). */
static double allows(const qll_trying *at, const double *survival, double dearest)
{
    const qll_half_bound of = qll_half_bound_with(survival, 0.0, dearest);
    return qll_searching_allows(at->searching, at->walk->rest, &of, at->rests);
}

/* Pairs of the lead with seconds of one size at one set-point, by what the lead does alone, what hunts least and the
 * floor of the peaks. */
static qll_status hand_over_size(qll_trying *at, const qll_pairing *pairs)
{
    qll_second *seconds = at->room->seconds;
    const size_t count = pairs->count;
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
    trial.outlets = qll_trying_outlets(at);
    trial.seconds = seconds;
    trial.second_count = count;
    trial.placing = pairs->placing;
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

/* What a stage may cost is asked anew for a dearest part that costs so many times what it was asked for. */
#define QLL_DEARER 1.2

/* What a stage may cost whose second is of one size, hunts so much at least and costs so much or more, by the floor of its
 * peaks. */
static const qll_allowance *allowed_of(const qll_trying *at, size_t size, double second_cost,
                                       double hunting, const qll_pairing *pairs)
{
    const double first_cost = at->lead.part->cost;
    const double dearest = first_cost > second_cost ? first_cost : second_cost;
    const size_t step = (size_t)(hunting * (QLL_HUNTING_STEPS - 1));
    qll_allowance *kept = &at->room->alike_allowed[size * QLL_HUNTING_STEPS + step];
    const double limit = qll_searching_limit(at->searching);
    if (limit != kept->limit || dearest > QLL_DEARER * kept->dearest) {
        double survival[QLL_NODES];
        memcpy(survival, pairs->alone, sizeof survival);
        qll_survival_hunting((double)step / (QLL_HUNTING_STEPS - 1), pairs->open_share, survival);
        for (size_t k = 0; k < QLL_NODES; k++) {
            survival[k] *= pairs->floors[size];
        }
        *kept = (qll_allowance){
            .limit = limit, .dearest = dearest, .most = allows(at, survival, dearest)};
    }
    return kept;
}

/* Whether such a second may stand there. */
static bool is_allowed(const qll_trying *at, size_t size, double second_cost, double hunting,
                       const qll_pairing *pairs)
{
    const double cost = at->searching->beside + at->lead.part->cost + second_cost;
    return cost < allowed_of(at, size, second_cost, hunting, pairs)->most;
}

/* What survives of its peaks at most, beside what the lead does alone. QLL_OK or QLL_NO_MEMORY. */
static qll_status look_up_peaks(qll_trying *at, size_t index, const qll_pairing *pairs,
                                double *survives)
{
    *survives = pairs->floors[at->searching->pool.parts[index].size];
    if (at->walk->by_lead) {
        return QLL_OK;
    }
    const qll_pair_case pair = qll_pairing_case(at, index, pairs);
    if (qll_pair_take(&pair, &at->room->pairs) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    double row[QLL_ROWS(2)];
    qll_pair_peaks(&pair, &at->room->pairs, row);
    *survives *= qll_pair_peaks_survival(&pair, row);
    return QLL_OK;
}

/* A second valve that nothing speaks against so far. */
static qll_status take_second(qll_trying *at, size_t index, double hunting, qll_pairing *pairs)
{
    qll_searching *searching = at->searching;
    const qll_part *part = &searching->pool.parts[index];
    if (!is_allowed(at, part->size, part->cost, hunting, pairs)) {
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
    double peaks;
    if (look_up_peaks(at, index, pairs, &peaks) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    for (size_t k = 0; k < QLL_NODES; k++) {
        with_peaks[k] = survival[k] * peaks;
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
    return qll_try_second(at, index, pairs, &of, survival);
}

static void forget_allowed(const qll_trying *at)
{
    for (size_t i = 0; i < at->searching->pool.size_count * QLL_HUNTING_STEPS; i++) {
        at->room->alike_allowed[i] = (qll_allowance){.dearest = -INFINITY};
    }
}

/* What a second valve that is taken counts among looks at bounds: more than it mostly takes, as tables are made for it when it
 * is taken first. */
#define QLL_LOOKS_PER_SECOND 50

/* Second valves of one size at one set-point, the cheapest first. */
static qll_status walk_size(qll_trying *at, size_t size, qll_pairing *pairs)
{
    qll_searching *searching = at->searching;
    const qll_part *first = at->lead.part;
    const size_t set = pairs->set;
    const size_t to = at->room->tables.size_from[size + 1];
    const double others_cost = searching->beside + first->cost;
    qll_allowance allowed = {.dearest = -INFINITY};
    pairs->count = 0;
    for (size_t i = at->room->tables.size_from[size]; i < to && !searching->stopped; i++) {
        const qll_second_figures *second = &at->room->tables.figures[i];
        if (second->cost > QLL_DEARER * allowed.dearest) {
            allowed = *allowed_of(at, size, second->cost, 0.0, pairs);
        }
        if (!(others_cost + second->cost < allowed.most)) {
            searching->counts.bounded += to - i;
            break;
        }
        double gap_pa;
        if (!qll_second_may_stand(&at->tables, second)) {
            continue;
        }
        if (!second->is_rated[set]) {
            searching->counts.by_practice[QLL_PRACTICE_RATING] += 1;
            continue;
        }
        if (!qll_second_hands_over(&at->tables, second, set, &gap_pa)) {
            searching->counts.by_practice[QLL_PRACTICE_HANDOVER] += 1;
            continue;
        }
        if (!qll_second_carries(&at->tables, second->part, set)) {
            continue;
        }
        const double hunting =
            qll_hunting_severity(first->hysteresis_pa + second->hysteresis_pa, gap_pa);
        qll_status status = take_second(at, second->part, hunting, pairs);
        if (status != QLL_OK) {
            return status;
        }
        (void)qll_searching_looks(searching, QLL_LOOKS_PER_SECOND);
    }
    return pairs->count > 0 ? hand_over_size(at, pairs) : QLL_OK;
}

/* All second valves at one set-point; the lesser opens first, so none is of a smaller size. */
static qll_status walk_seconds(qll_trying *at, size_t set, size_t placing)
{
    qll_searching *searching = at->searching;
    qll_pairing pairs;
    qll_pairing_begin(at, set, placing, &pairs);
    forget_allowed(at);
    for (size_t size = at->lead.part->size; size < searching->pool.size_count; size++) {
        qll_status status = qll_marks_has(at->walk->left, at->lead.index, placing, size)
                                ? walk_size(at, size, &pairs)
                                : QLL_OK;
        if (status != QLL_OK) {
            return status;
        }
    }
    return QLL_OK;
}

/* Set-points of second valves beside a lead at @p set that are worth a walk; returns how many. */
static size_t list_seconds(qll_trying *at, size_t set, size_t seconds[QLL_OFFSET_COUNT])
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
        if (!qll_marks_has_any(at->walk->left, at->lead.index, qll_placing_of(set, second))) {
            continue;
        }
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
static qll_status walk_lead(qll_trying *at, size_t index, size_t set)
{
    qll_searching *searching = at->searching;
    const qll_part *part = &searching->pool.parts[index];
    double set_pa_gauge = qll_set_pa_gauge(at->place, set);
    if (!qll_marks_has_lead(at->walk->left, index, set)) {
        return QLL_OK;
    }
    if (!qll_part_is_rated(part, set_pa_gauge, at->rest_pa_gauge)) {
        searching->counts.by_practice[QLL_PRACTICE_RATING] += 1;
        return QLL_OK;
    }
    qll_trying_lead(at, index, set_pa_gauge);
    qll_practice broken = qll_lead_broken(searching, &at->lead);
    const bool is_single = set == QLL_SET_WANTED && broken == QLL_PRACTICE_COUNT
                           && qll_marks_has(at->walk->left, index, QLL_SET_WANTED, 0);
    if (set == QLL_SET_WANTED && broken < QLL_PRACTICE_COUNT) {
        searching->counts.by_practice[broken] += 1;
    }
    size_t seconds[QLL_OFFSET_COUNT];
    const size_t count = list_seconds(at, set, seconds);
    if (!is_single && count == 0) {
        return QLL_OK;
    }
    qll_trying_solve(at);
    qll_status status = is_single ? qll_try_single(at) : QLL_OK;
    for (size_t i = 0; i < count && status == QLL_OK; i++) {
        status = walk_seconds(at, seconds[i], qll_placing_of(set, seconds[i]));
    }
    return status;
}

qll_status qll_walk_stage(const qll_walk *walk, qll_walk_room *room)
{
    qll_searching *searching = walk->searching;
    const qll_pool *pool = &searching->pool;
    if (pool->count == 0) {
        return QLL_OK;
    }
    qll_trying at;
    qll_trying_begin(walk, room, &at);
    const size_t sets = walk->branches_most > 1 && walk->place->is_last ? QLL_SET_COUNT : 1;
    for (size_t i = 0; i < pool->count && !searching->stopped; i++) {
        const double cost = pool->parts[i].cost;
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
