#include "search/lead.h"

#include "search/foretold.h"

#include <math.h>
#include <string.h>

/* Rows that a bound over an interval of inlets may keep, beside noise, wear and chatter, which only
 * grow with the inlet of one valve (docs/theory/search.md, B5). */
static void keep_what_grows(double *row)
{
    row[QLL_ROW_STARVED] = 0.0;
    for (size_t d = 0; d < QLL_OWN_NODES; d++) {
        row[qll_row_cavitation(0) + d] = 0.0;
    }
}

static void keep_wear(double *row)
{
    double wear = row[QLL_ROW_WEAR];
    memset(row, 0, QLL_LEAD_ROWS * sizeof *row);
    row[QLL_ROW_WEAR] = wear;
}

qll_status qll_lead_room_make(const qll_searching *searching, qll_lead_room *room)
{
    const qll_duty *duty = searching->yardstick->duty;
    const size_t grid = duty->supply_count * duty->flow_count;
    const size_t peaks = duty->scenario_count * QLL_SUPPLY_LEVELS;
    qll_arena *arena = searching->arena;
    *room = (qll_lead_room){
        .outlet_pa = qll_arena_take(arena, grid, sizeof(double)),
        .highest_pa = qll_arena_take(arena, grid, sizeof(double)),
        .prefix = qll_arena_take(arena, duty->supply_count * (duty->flow_count + 1),
                                 QLL_LEAD_ROWS * sizeof(qll_hazard_row)),
        .peak_pa = qll_arena_take(arena, peaks, sizeof(double)),
        .hard_m3s = qll_arena_take(arena, duty->scenario_count, sizeof(double)),
        .points = qll_arena_take(arena, duty->flow_count, sizeof(qll_stage_point)),
    };
    bool has_all = room->outlet_pa != NULL && room->highest_pa != NULL && room->prefix != NULL
                   && room->peak_pa != NULL && room->hard_m3s != NULL && room->points != NULL;
    return has_all ? qll_solver_room_make(1, searching->pool.knots_most, arena, &room->solver)
                   : QLL_NO_MEMORY;
}

/* The branch and ruler of a part at a set-point. */
static void set_part(const qll_stage_place *place, const qll_part *part, double set_pa_gauge,
                     qll_branch *branch, qll_branch_ruler *ruler)
{
    *branch = part->branch;
    branch->set_pa_gauge = set_pa_gauge;
    *ruler = part->ruler;
    ruler->chatters = qll_branch_chatters(part->branch.valve,
                                          place->set_inlet_pa_gauge - set_pa_gauge, set_pa_gauge);
}

void qll_pick_set(const qll_searching *searching, const qll_stage_place *place,
                  const qll_pick *pick, qll_solver_room *room, qll_picked *made)
{
    const qll_site *site = searching->yardstick->site;
    const qll_branch_curve *curves[QLL_BRANCHES_MOST];
    for (size_t j = 0; j < pick->count; j++) {
        const qll_part *part = &searching->pool.parts[pick->part[j]];
        set_part(place, part, pick->set_pa_gauge[j], &made->branches[j], &made->rulers[j]);
        curves[j] = &part->curve;
    }
    made->stage = (qll_stage){.branches = made->branches,
                              .branch_count = pick->count,
                              .set_inlet_pa_gauge = place->set_inlet_pa_gauge};
    made->ruler = (qll_stage_ruler){.yardstick = searching->yardstick,
                                    .solver = qll_stage_solver_in(room, &made->stage, &site->water,
                                                                  site->barometric_pa, curves),
                                    .branches = made->rulers,
                                    .branch_count = pick->count,
                                    .is_last = place->is_last};
}

static double inlet_most_pa(const qll_stage_place *place, size_t at)
{
    return place->highest == NULL ? place->inlets.grid_pa[at] : place->highest->grid_pa[at];
}

double qll_part_hard_m3s(const qll_searching *searching, const qll_stage_place *place,
                         const qll_part *part, double set_pa_gauge, size_t scenario)
{
    const qll_site *site = searching->yardstick->site;
    const qll_valve *valve = part->branch.valve;
    const qll_inlets *high = place->highest == NULL ? &place->inlets : place->highest;
    /* Before another stage: what keeps clear of that one at the middle supply. */
    const size_t at = scenario * QLL_SUPPLY_LEVELS + (place->is_last ? 0 : QLL_SUPPLY_LEVELS / 2);
    const double low_pa = place->inlets.peak_pa[at];
    const double high_pa = high->peak_pa[at];
    const double least_pa = place->is_last ? searching->yardstick->peak_hard_pa[scenario]
                                           : place->clear_pa_gauge + site->barometric_pa;
    const double outlet_pa = least_pa - QLL_PRESSURE_SLACK_PA; /* as the rules are judged */
    if (!(high_pa > outlet_pa)) {
        return 0.0;
    }
    const double set_inlet_pa = place->set_inlet_pa_gauge + site->barometric_pa;
    double moved_pa = valve->inlet_effect * (high_pa - set_inlet_pa);
    if (low_pa != high_pa && !isnan(low_pa)) {
        moved_pa = fmax(moved_pa, valve->inlet_effect * (low_pa - set_inlet_pa));
    }
    double falloff_pa = set_pa_gauge + site->barometric_pa + moved_pa - outlet_pa;
    double driving_pa = fmin(high_pa - outlet_pa, qll_part_choked_pa(searching, part, high_pa));
    return qll_branch_curve_at(&part->curve, falloff_pa).c * sqrt(driving_pa);
}

/* Whether drop and outlet rise with the inlet: docs/theory/search.md, B5. */
static bool grows(const qll_lead *lead)
{
    const double effect = lead->part->branch.valve->inlet_effect;
    return effect >= 0.0 && effect <= 1.0;
}

/* What the lead gives at the most: INFINITY where that is not known. */
static void solve_highest(const qll_searching *searching, const qll_lead *lead, size_t supply)
{
    const qll_duty *duty = searching->yardstick->duty;
    const size_t from = supply * duty->flow_count;
    const double *inlet_pa = &lead->place->highest->grid_pa[from];
    double *highest_pa = &lead->room->highest_pa[from];
    qll_stage_solve_many(lead->picked.ruler.solver, inlet_pa, duty->flow_m3s, duty->flow_count,
                         lead->room->points);
    for (size_t f = 0; f < duty->flow_count; f++) {
        const qll_stage_point *point = &lead->room->points[f];
        bool is_known = grows(lead) && !isnan(inlet_pa[f]);
        double outlet_pa = point->passes ? point->outlet_pa : -(double)INFINITY;
        highest_pa[f] = is_known ? outlet_pa : (double)INFINITY;
    }
}

static void solve_supply(qll_searching *searching, const qll_lead *lead, size_t supply)
{
    const qll_yardstick *yardstick = searching->yardstick;
    const qll_duty *duty = yardstick->duty;
    const size_t from = supply * duty->flow_count;
    const double *inlet_pa = &lead->place->inlets.grid_pa[from];
    const bool is_bound = lead->place->highest != NULL;
    qll_hazard_row *prefix = &lead->room->prefix[supply * (duty->flow_count + 1) * QLL_LEAD_ROWS];
    memset(prefix, 0, QLL_LEAD_ROWS * sizeof *prefix);
    qll_stage_solve_many(lead->picked.ruler.solver, inlet_pa, duty->flow_m3s, duty->flow_count,
                         lead->room->points);
    for (size_t f = 0; f < duty->flow_count; f++) {
        const qll_stage_point *point = &lead->room->points[f];
        double outlet_pa = isnan(inlet_pa[f]) || !point->passes ? (double)NAN : point->outlet_pa;
        lead->room->outlet_pa[from + f] = outlet_pa;
        memcpy(prefix + QLL_LEAD_ROWS, prefix, QLL_LEAD_ROWS * sizeof *prefix);
        prefix += QLL_LEAD_ROWS;
        if (!yardstick->unknowns->has_weight[f] || (is_bound && isnan(outlet_pa))) {
            continue;
        }
        double row[QLL_LEAD_ROWS];
        qll_hazard_point(&lead->picked.ruler, inlet_pa[f], duty->flow_m3s[f], outlet_pa,
                         yardstick->need_pa[from + f], row);
        if (is_bound && grows(lead)) {
            keep_what_grows(row);
        } else if (is_bound) {
            keep_wear(row);
        }
        qll_hazard_add(yardstick->unknowns, f, row, QLL_LEAD_ROWS, prefix);
    }
}

static void solve_peaks(qll_searching *searching, const qll_lead *lead)
{
    const qll_yardstick *yardstick = searching->yardstick;
    const qll_stage_place *place = lead->place;
    const qll_inlets *high = place->highest == NULL ? &place->inlets : place->highest;
    for (size_t c = 0; c < yardstick->duty->scenario_count; c++) {
        for (size_t s = 0; s < QLL_SUPPLY_LEVELS; s++) {
            size_t at = c * QLL_SUPPLY_LEVELS + s;
            qll_stage_point point = qll_stage_solve(lead->picked.ruler.solver, high->peak_pa[at],
                                                    yardstick->peak_m3s[c]);
            bool passes = !isnan(high->peak_pa[at]) && point.passes;
            lead->room->peak_pa[at] = passes ? point.outlet_pa : (double)NAN;
        }
        lead->room->hard_m3s[c] =
            qll_part_hard_m3s(searching, place, lead->part, lead->set_pa_gauge, c);
    }
}

void qll_lead_begin(qll_searching *searching, const qll_stage_place *place, size_t index,
                    double set_pa_gauge, qll_lead_room *room, qll_lead *lead)
{
    const qll_part *part = &searching->pool.parts[index];
    *lead = (qll_lead){
        .place = place, .part = part, .index = index, .set_pa_gauge = set_pa_gauge, .room = room};
    const qll_pick alone = {.count = 1, .part = {index}, .set_pa_gauge = {set_pa_gauge}};
    qll_pick_set(searching, place, &alone, &room->solver, &lead->picked);
    solve_peaks(searching, lead);
    lead->rest_pa = NAN;
    if (!isnan(place->inlets.rest_pa)) {
        lead->rest_pa =
            qll_stage_solve(lead->picked.ruler.solver, place->inlets.rest_pa, 0.0).outlet_pa;
    }
}

/* Whether the same comes at a supply as at the first one; both ends of what comes, so that what is made of either is. */
static bool is_like_first(const qll_duty *duty, const qll_stage_place *place, size_t supply)
{
    const size_t row = supply * duty->flow_count;
    const size_t size = duty->flow_count * sizeof(double);
    return supply > 0 && place->highest != NULL
           && memcmp(place->inlets.grid_pa, place->inlets.grid_pa + row, size) == 0
           && memcmp(place->highest->grid_pa, place->highest->grid_pa + row, size) == 0;
}

static void copy_first(const qll_duty *duty, const qll_lead_room *room, size_t supply)
{
    const size_t row = supply * duty->flow_count;
    const size_t sums = (duty->flow_count + 1) * QLL_LEAD_ROWS;
    memcpy(room->outlet_pa + row, room->outlet_pa, duty->flow_count * sizeof *room->outlet_pa);
    memcpy(room->highest_pa + row, room->highest_pa, duty->flow_count * sizeof *room->highest_pa);
    memcpy(room->prefix + supply * sums, room->prefix, sums * sizeof *room->prefix);
}

void qll_lead_solve(qll_searching *searching, qll_lead *lead)
{
    const qll_duty *duty = searching->yardstick->duty;
    searching->counts.leads += 1;
    for (size_t s = 0; s < duty->supply_count; s++) {
        if (is_like_first(duty, lead->place, s)) {
            copy_first(duty, lead->room, s);
            continue;
        }
        solve_supply(searching, lead, s);
        if (lead->place->highest != NULL) {
            solve_highest(searching, lead, s);
        }
    }
}

/* Inlet at which nothing is moved, absolute. */
static double set_inlet_pa(const qll_searching *searching, const qll_stage_place *place)
{
    return place->set_inlet_pa_gauge + searching->yardstick->site->barometric_pa;
}

/* The highest that another set-point may stand at one point, absolute. */
static double highest_set_pa(const qll_searching *searching, const qll_stage_place *place,
                             size_t at, double set_pa_gauge, qll_effects effects)
{
    const double still_pa = set_inlet_pa(searching, place);
    const double moved_pa = fmax(qll_effects_most_pa(effects, place->inlets.grid_pa[at] - still_pa),
                                 qll_effects_most_pa(effects, inlet_most_pa(place, at) - still_pa));
    return set_pa_gauge + searching->yardstick->site->barometric_pa + moved_pa;
}

/* The lowest that any valve of the pool, so set, may stand at one point, absolute. */
static double lowest_set_pa(const qll_searching *searching, const qll_stage_place *place, size_t at,
                            double set_pa_gauge)
{
    const qll_effects effects = searching->pool.effects;
    const double still_pa = set_inlet_pa(searching, place);
    const double moved_pa =
        fmin(qll_effects_least_pa(effects, place->inlets.grid_pa[at] - still_pa),
             qll_effects_least_pa(effects, inlet_most_pa(place, at) - still_pa));
    return set_pa_gauge + searching->yardstick->site->barometric_pa + moved_pa;
}

/* Whether any valve of the pool, so set, is surely open beside the lead at one point. */
static bool is_beside(const qll_searching *searching, const qll_lead *lead, size_t at,
                      double set_pa_gauge)
{
    const double *outlet_pa =
        lead->place->highest == NULL ? lead->room->outlet_pa : lead->room->highest_pa;
    return !isnan(lead->place->inlets.grid_pa[at])
           && !(outlet_pa[at] >= lowest_set_pa(searching, lead->place, at, set_pa_gauge));
}

/* Severity of one point at every demand node, of one supply at every shared node. */
static void add_point(const qll_unknowns *unknowns, size_t flow, double severity,
                      double sums[QLL_DEMAND_NODES])
{
    for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
        sums[i] += severity * unknowns->flow_weight[flow][i];
    }
}

static void add_supply(const qll_unknowns *unknowns, size_t supply,
                       const double sums[QLL_DEMAND_NODES], double all[QLL_NODES])
{
    for (size_t k = 0; k < QLL_NODES; k++) {
        all[k] +=
            unknowns->supply_weight[k / QLL_DEMAND_NODES][supply] * sums[k % QLL_DEMAND_NODES];
    }
}

void qll_lead_both_open(const qll_searching *searching, const qll_lead *lead,
                        double other_set_pa_gauge, double open_share[QLL_NODES])
{
    const qll_unknowns *unknowns = searching->yardstick->unknowns;
    const qll_duty *duty = searching->yardstick->duty;
    memset(open_share, 0, QLL_NODES * sizeof *open_share);
    for (size_t s = 0; s < duty->supply_count; s++) {
        double sums[QLL_DEMAND_NODES] = {0.0};
        for (size_t f = 0; f < duty->flow_count; f++) {
            if (unknowns->has_weight[f]
                && is_beside(searching, lead, s * duty->flow_count + f, other_set_pa_gauge)) {
                add_point(unknowns, f, 1.0, sums);
            }
        }
        add_supply(unknowns, s, sums, open_share);
    }
}

bool qll_lead_is_too_fast(const qll_searching *searching, const qll_lead *lead,
                          double other_set_pa_gauge)
{
    const qll_yardstick *yardstick = searching->yardstick;
    const qll_placed placed = {lead->place, lead->part, lead->set_pa_gauge};
    for (size_t i = 0; i < yardstick->duty->scenario_count * QLL_SUPPLY_LEVELS; i++) {
        double inlet_pa = lead->place->inlets.peak_pa[i];
        const double change_pa = inlet_pa - set_inlet_pa(searching, lead->place);
        double outlet_pa = other_set_pa_gauge + searching->yardstick->site->barometric_pa
                           + qll_effects_most_pa(searching->pool.effects, change_pa);
        if (isnan(inlet_pa) || lead->place->highest != NULL || !(inlet_pa > outlet_pa)) {
            continue;
        }
        double flow_m3s = qll_placed_m3s(searching, &placed, inlet_pa, outlet_pa);
        flow_m3s = fmin(flow_m3s, yardstick->peak_m3s[i / QLL_SUPPLY_LEVELS]);
        if (flow_m3s * lead->picked.rulers[0].speed_per_flow > QLL_FASTEST_M_S) {
            return true;
        }
    }
    return false;
}

size_t qll_lead_alone_until(const qll_searching *searching, const qll_lead *lead, size_t supply,
                            size_t from, double other_set_pa_gauge, qll_effects effects)
{
    const size_t count = searching->yardstick->duty->flow_count;
    const size_t row = supply * count;
    size_t low = from;
    while (low < count) {
        double most_pa =
            highest_set_pa(searching, lead->place, row + low, other_set_pa_gauge, effects);
        if (!(lead->room->outlet_pa[row + low] >= most_pa)) {
            break;
        }
        low++;
    }
    return low;
}

size_t qll_lead_alone_anywhere(const qll_searching *searching, const qll_lead *lead,
                               double other_set_pa_gauge, qll_effects effects)
{
    size_t least = searching->yardstick->duty->flow_count;
    for (size_t s = 0; s < searching->yardstick->duty->supply_count; s++) {
        const size_t until =
            qll_lead_alone_until(searching, lead, s, 0, other_set_pa_gauge, effects);
        least = until < least ? until : least;
    }
    return least;
}

void qll_lead_survival(const qll_searching *searching, const qll_lead *lead,
                       double other_set_pa_gauge, double survival[QLL_NODES])
{
    const qll_yardstick *yardstick = searching->yardstick;
    const size_t count = yardstick->duty->flow_count;
    qll_hazard_sums sums;
    memset(sums.at, 0, QLL_LEAD_ROWS * sizeof sums.at[0]);
    const bool is_whole = other_set_pa_gauge == -(double)INFINITY;
    for (size_t s = 0; s < yardstick->duty->supply_count; s++) {
        size_t until = is_whole ? count
                                : qll_lead_alone_until(searching, lead, s, 0, other_set_pa_gauge,
                                                       searching->pool.effects);
        qll_hazard_merge(yardstick->unknowns, s,
                         &lead->room->prefix[(s * (count + 1) + until) * QLL_LEAD_ROWS],
                         QLL_LEAD_ROWS, &sums);
    }
    if (is_whole && lead->place->highest == NULL) {
        qll_hazard_add_peaks(&lead->picked.ruler, lead->place->inlets.peak_pa, lead->room->peak_pa,
                             QLL_SUPPLY_LEVELS, &sums);
    }
    qll_survival(&sums, lead->picked.rulers, 1, QLL_HEARS_ALL, 1.0, survival);
}

/* NaN if either is. */
static double least_of(double a, double b)
{
    return a < b ? a : (b <= a ? b : a + b);
}

bool qll_lead_rests(const qll_searching *searching, const qll_lead *lead)
{
    /* Behind several first stages the least inlet is known; only a set-point that rises with it rests lowest there. */
    const bool is_known =
        lead->place->highest == NULL || lead->part->branch.valve->inlet_effect >= 0.0;
    return !lead->place->is_last || !is_known
           || !qll_breaks_pa(lead->rest_pa - searching->yardstick->rest_most_pa);
}

qll_practice qll_lead_broken(const qll_searching *searching, const qll_lead *lead)
{
    const qll_yardstick *yardstick = searching->yardstick;
    const double barometric_pa = yardstick->site->barometric_pa;
    const qll_stage_place *place = lead->place;
    if (!qll_part_is_rated(lead->part, lead->set_pa_gauge, place->inlets.rest_pa - barometric_pa)) {
        return QLL_PRACTICE_RATING;
    }
    for (size_t c = 0; c < yardstick->duty->scenario_count; c++) {
        const double *peak_pa = &lead->room->peak_pa[c * QLL_SUPPLY_LEVELS];
        double speed_m_s = yardstick->peak_m3s[c] * lead->picked.rulers[0].speed_per_flow;
        bool passes = !isnan(peak_pa[0]) || !isnan(peak_pa[1]) || !isnan(peak_pa[2]);
        if (passes && speed_m_s / QLL_SPEED_MOST_M_S - 1.0 > QLL_PRACTICE_SLACK) {
            return QLL_PRACTICE_SPEED;
        }
        if (place->is_last && qll_breaks_pa(yardstick->peak_hard_pa[c] - peak_pa[0])) {
            return QLL_PRACTICE_DELIVERY;
        }
        double held_pa =
            least_of(lead->set_pa_gauge, peak_pa[1] - barometric_pa) - lead->part->hysteresis_pa;
        if (!place->is_last && qll_breaks_pa(place->clear_pa_gauge - held_pa)) {
            return QLL_PRACTICE_ORDER;
        }
    }
    return qll_lead_rests(searching, lead) ? QLL_PRACTICE_COUNT : QLL_PRACTICE_STATIC;
}
