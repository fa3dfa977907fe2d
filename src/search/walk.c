#include "search/walk.h"

#include "base/customary.h"
#include "search/bound.h"

#include <math.h>
#include <string.h>

const double qll_offsets_pa[QLL_OFFSET_COUNT] = {
    3.0 * QLL_PSI_PA, 4.0 * QLL_PSI_PA, 6.0 * QLL_PSI_PA, 8.0 * QLL_PSI_PA, 10.0 * QLL_PSI_PA};

/* Set-points of a place: the wanted one, then each offset below it and each above. A pair has its large
 * valve at the wanted pressure and the small one above it, or the small one at the wanted pressure. */
enum {
    QLL_SET_WANTED = 0,
    QLL_SET_BELOW = 1,
    QLL_SET_ABOVE = 1 + QLL_OFFSET_COUNT,
    QLL_SET_COUNT = 1 + 2 * QLL_OFFSET_COUNT,
    /* A second valve stands at the wanted pressure or below it. */
    QLL_SET_SECOND_COUNT = QLL_SET_ABOVE,
};

static double set_pa_gauge_of(const qll_stage_place *place, size_t set)
{
    if (set >= QLL_SET_ABOVE) {
        return place->wanted_pa_gauge + qll_offsets_pa[set - QLL_SET_ABOVE];
    }
    return set == QLL_SET_WANTED ? place->wanted_pa_gauge
                                 : place->wanted_pa_gauge - qll_offsets_pa[set - QLL_SET_BELOW];
}

qll_status qll_walk_room_make(const qll_searching *searching, qll_walk_room *room)
{
    size_t scenarios = searching->yardstick->duty->scenario_count;
    size_t figures = QLL_SET_SECOND_COUNT * scenarios;
    room->hard_m3s =
        qll_arena_take(searching->arena, searching->pool.count, figures * sizeof *room->hard_m3s);
    room->seconds = qll_arena_take(searching->arena, searching->pool.count, sizeof *room->seconds);
    if (room->hard_m3s == NULL || room->seconds == NULL) {
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
    double rest_pa_gauge; /* what comes at rest, at least */
    double
        rests; /* chance that the lead's outlet is not too high at rest; a second valve only raises it */
} walking;

static double *hard_of(const walking *at, size_t set, size_t scenario)
{
    size_t scenarios = at->searching->yardstick->duty->scenario_count;
    return &at->room->hard_m3s[(set * scenarios + scenario) * at->searching->pool.count];
}

static void fill_hard(const walking *at)
{
    const qll_searching *searching = at->searching;
    for (size_t set = 0; set < QLL_SET_SECOND_COUNT; set++) {
        double set_pa_gauge = set_pa_gauge_of(at->place, set);
        for (size_t c = 0; c < searching->yardstick->duty->scenario_count; c++) {
            double *row = hard_of(at, set, c);
            for (size_t i = 0; i < searching->pool.count; i++) {
                row[i] = qll_part_hard_m3s(searching, at->place, &searching->pool.parts[i],
                                           set_pa_gauge, c);
            }
        }
    }
}

/* Most that a stage of the lead may cost, which survives so at most (NULL = not known). */
static double allows(const walking *at, const double *survival, double dearest)
{
    return qll_searching_allows(at->searching, at->walk->rest, survival, at->rests, dearest);
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
    trial.outlets = lead_outlets(at);
    if (!(trial.cost < allows(at, trial.survival, trial.dearest))) {
        searching->counts.bounded += 1;
        return QLL_OK;
    }
    return at->walk->sink(at->walk->context, &trial);
}

/* Set-points that are apart as they must be, and how much they hunt. */
static bool hands_over(const walking *at, const qll_part *second, double set_pa_gauge,
                       double *hunting)
{
    const qll_stage_place *place = at->place;
    const qll_part *first = at->lead.part;
    const double inlets[] = {place->low_pa_gauge, place->high_pa_gauge};
    const double slack_pa = 1e-6 * QLL_PSI_PA;
    double least_pa = first->hysteresis_pa + second->hysteresis_pa;
    double most_pa = QLL_HANDOVER_TRAVEL * first->branch.law->full_falloff_pa;
    double effect = first->branch.valve->inlet_effect - second->branch.valve->inlet_effect;
    double narrowest_pa = INFINITY;
    for (size_t i = 0; i < 2; i++) {
        double gap_pa =
            at->lead.set_pa_gauge - set_pa_gauge + effect * (inlets[i] - place->set_inlet_pa_gauge);
        if (!(gap_pa > 0.0 && gap_pa >= least_pa - slack_pa && gap_pa <= most_pa + slack_pa)) {
            return false;
        }
        narrowest_pa = fmin(narrowest_pa, gap_pa);
    }
    *hunting = qll_hunting_severity(least_pa, narrowest_pa);
    return true;
}

/* Whether both together can carry every peak: at the least outlet that is fit, and at 15 ft/s. */
static bool can_carry(const walking *at, size_t index, size_t set)
{
    const qll_yardstick *yardstick = at->searching->yardstick;
    const qll_part *second = &at->searching->pool.parts[index];
    const double slack = 1.0 + 1e-9;
    double area_m2 = at->lead.part->area_m2 + second->area_m2;
    for (size_t c = 0; c < yardstick->duty->scenario_count; c++) {
        double peak_m3s = yardstick->peak_m3s[c];
        if (peak_m3s > slack * QLL_SPEED_MOST_M_S * area_m2) {
            at->searching->counts.by_practice[QLL_PRACTICE_SPEED] += 1;
            return false;
        }
        double together_m3s = at->room->lead.hard_m3s[c] + hard_of(at, set, c)[index];
        if (peak_m3s > slack * together_m3s) {
            at->searching->counts
                .by_practice[at->place->is_last ? QLL_PRACTICE_DELIVERY : QLL_PRACTICE_ORDER] += 1;
            return false;
        }
    }
    return true;
}

static qll_status try_pair(walking *at, size_t index, size_t set)
{
    qll_searching *searching = at->searching;
    qll_pick pick = {.count = 2};
    pick.part[0] = at->lead.index;
    pick.part[1] = index;
    pick.set_pa_gauge[0] = at->lead.set_pa_gauge;
    pick.set_pa_gauge[1] = set_pa_gauge_of(at->place, set);
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
    size_t count; /* second valves listed */
} pairing;

/* All pairs of the lead at one set-point of the second, by what the lead does alone and what hunts least. */
static qll_status hand_over_seconds(walking *at, const pairing *pairs)
{
    const size_t count = pairs->count;
    if (count == 0) {
        return QLL_OK;
    }
    qll_second *seconds = at->room->seconds;
    float hunting = seconds[0].hunting;
    for (size_t i = 1; i < count; i++) {
        hunting = seconds[i].hunting < hunting ? seconds[i].hunting : hunting;
    }
    for (size_t i = 0; i < count; i++) {
        seconds[i].hunting -= hunting;
    }
    qll_pick pick = {.count = 2};
    pick.part[0] = at->lead.index;
    pick.part[1] = seconds[0].part;
    pick.set_pa_gauge[0] = at->lead.set_pa_gauge;
    pick.set_pa_gauge[1] = set_pa_gauge_of(at->place, pairs->set);
    qll_trial trial;
    qll_trial_begin(at->searching, &pick, &trial);
    trial.outlets = lead_outlets(at);
    trial.seconds = seconds;
    trial.second_count = count;
    memcpy(trial.survival, pairs->alone, sizeof trial.survival);
    memcpy(trial.open_share, pairs->open_share, sizeof trial.open_share);
    qll_survival_hunting((double)hunting, trial.open_share, trial.survival);
    return at->walk->sink(at->walk->context, &trial);
}

/* What a stage may cost, kept while neither the limit nor its dearest part has moved much. */
typedef struct allowance {
    double limit, dearest, most;
} allowance;

static bool is_allowed(const walking *at, const double *survival, double cost, double dearest,
                       allowance *kept)
{
    const double moved = 1.03;
    const double limit = qll_searching_limit(at->searching);
    if (limit != kept->limit || dearest > moved * kept->dearest) {
        *kept =
            (allowance){.limit = limit, .dearest = dearest, .most = allows(at, survival, dearest)};
    }
    return cost < kept->most;
}

static bool may_stand_second(const walking *at, const qll_part *second)
{
    const qll_part *first = at->lead.part;
    return second->rank >= first->rank
           && second->branch.valve->kv_m3h
                  >= at->searching->larger_least * first->branch.valve->kv_m3h;
}

/* A second valve that nothing speaks against so far. */
static qll_status take_second(walking *at, size_t index, double hunting, pairing *pairs)
{
    qll_searching *searching = at->searching;
    const double first_cost = at->lead.part->cost;
    const double second_cost = searching->pool.parts[index].cost;
    double survival[QLL_NODES];
    memcpy(survival, pairs->alone, sizeof survival);
    qll_survival_hunting(hunting, pairs->open_share, survival);
    if (!qll_searching_wants(searching, at->walk->rest, survival, at->rests,
                             searching->beside + first_cost + second_cost,
                             fmax(first_cost, second_cost))) {
        searching->counts.bounded += 1;
        return QLL_OK;
    }
    if (at->walk->by_lead) {
        const double rounded = 1.0 - 1e-6; /* down, whatever a float makes of it */
        at->room->seconds[pairs->count] =
            (qll_second){.part = (uint32_t)index, .hunting = (float)(rounded * hunting)};
        pairs->count += 1;
        return QLL_OK;
    }
    at->lead.pair_survival = survival;
    qll_status status = try_pair(at, index, pairs->set);
    at->lead.pair_survival = NULL;
    (void)qll_searching_looks(searching, QLL_LOOKS_PER_TRIAL);
    return status;
}

/* All second valves at one set-point, the cheapest first. */
static qll_status walk_seconds(walking *at, size_t set)
{
    qll_searching *searching = at->searching;
    const qll_part *parts = searching->pool.parts;
    const qll_part *first = at->lead.part;
    const double set_pa_gauge = set_pa_gauge_of(at->place, set);
    pairing pairs = {.set = set};
    qll_lead_survival(searching, &at->lead, set_pa_gauge, pairs.alone);
    qll_lead_both_open(searching, &at->lead, set_pa_gauge, pairs.open_share);
    allowance kept = {.dearest = -INFINITY};
    for (size_t i = 0; i < searching->pool.count && !searching->stopped; i++) {
        const double cost = searching->beside + first->cost + parts[i].cost;
        if (!is_allowed(at, pairs.alone, cost, fmax(first->cost, parts[i].cost), &kept)) {
            searching->counts.bounded += searching->pool.count - i;
            break;
        }
        double hunting = 0.0;
        if (!may_stand_second(at, &parts[i])) {
            continue;
        }
        if (!qll_part_is_rated(&parts[i], set_pa_gauge, at->rest_pa_gauge)) {
            searching->counts.by_practice[QLL_PRACTICE_RATING] += 1;
            continue;
        }
        if (!hands_over(at, &parts[i], set_pa_gauge, &hunting)) {
            searching->counts.by_practice[QLL_PRACTICE_HANDOVER] += 1;
            continue;
        }
        qll_status status = can_carry(at, i, set) ? take_second(at, i, hunting, &pairs) : QLL_OK;
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
        if (qll_lead_is_too_fast(searching, &at->lead, set_pa_gauge_of(at->place, second))) {
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
    double set_pa_gauge = set_pa_gauge_of(at->place, set);
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
    fill_hard(&at);
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
