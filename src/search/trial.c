#include "search/trial.h"

#include "search/bound.h"

#include <assert.h>
#include <math.h>
#include <string.h>

qll_status qll_trial_room_make(const qll_searching *searching, qll_trial_room *room)
{
    const qll_duty *duty = searching->yardstick->duty;
    const size_t grid = duty->supply_count * duty->flow_count;
    qll_arena *arena = searching->arena;
    *room = (qll_trial_room){
        .outlet_pa = qll_arena_take(arena, grid, sizeof(double)),
        .peak_pa = qll_arena_take(arena, duty->scenario_count * QLL_SUPPLY_LEVELS, sizeof(double)),
        .points = qll_arena_take(arena, duty->flow_count, sizeof(qll_stage_point)),
    };
    bool has_all = room->outlet_pa != NULL && room->peak_pa != NULL && room->points != NULL;
    if (!has_all || qll_least_room_make(searching, &room->least) != QLL_OK) {
        return QLL_NO_MEMORY;
    }
    return qll_solver_room_make(QLL_BRANCHES_MOST, QLL_BRANCHES_MOST * searching->pool.knots_most,
                                arena, &room->solver);
}

void qll_trial_begin(const qll_searching *searching, const qll_pick *pick, qll_trial *trial)
{
    trial->pick = *pick;
    trial->is_dear = false;
    trial->is_early = false;
    trial->outlets_most_pa = NULL;
    trial->seconds = NULL;
    trial->second_count = 0;
    trial->placing = 0;
    trial->open_from = 0;
    trial->floor = 1.0;
    trial->gives_pa = INFINITY;
    trial->needs_pa = -INFINITY;
    trial->cost = searching->beside * (double)(pick->count - 1);
    trial->dearest = 0.0;
    for (size_t j = 0; j < pick->count; j++) {
        double cost = searching->pool.parts[pick->part[j]].cost;
        trial->cost += cost;
        trial->dearest = cost > trial->dearest ? cost : trial->dearest;
    }
}

/* A pick on its way: what its branches are here. */
typedef struct stage_run {
    qll_searching *searching;
    const qll_stage_place *place;
    const qll_rest_of_station *rest;
    const qll_lead *lead;
    qll_trial_room *room;
    qll_picked picked;
    double rests; /* chance that the outlet is not too high at rest */
} stage_run;

/* Ratings and hand-over: before anything is solved. */
static qll_practice broken_as_set(const stage_run *run, const qll_pick *pick)
{
    const qll_stage_place *place = run->place;
    const qll_searching *searching = run->searching;
    double rest_pa_gauge = place->inlets.rest_pa - searching->yardstick->site->barometric_pa;
    for (size_t j = 0; j < pick->count; j++) {
        if (!qll_part_is_rated(&searching->pool.parts[pick->part[j]], pick->set_pa_gauge[j],
                               rest_pa_gauge)) {
            return QLL_PRACTICE_RATING;
        }
    }
    double breach =
        qll_breach_of_handover(&run->picked.stage, place->low_pa_gauge, place->high_pa_gauge);
    return breach > QLL_PRACTICE_SLACK ? QLL_PRACTICE_HANDOVER : QLL_PRACTICE_COUNT;
}

/* Speeds at a peak; @p outlet_pa must not be NaN. */
static bool is_too_fast(const stage_run *run, double inlet_pa, double flow_m3s, double outlet_pa)
{
    const qll_stage_drop at =
        qll_stage_drop_of(run->picked.ruler.solver, inlet_pa, flow_m3s, outlet_pa);
    for (size_t j = 0; j < run->picked.stage.branch_count; j++) {
        const qll_branch_load load = qll_branch_load_of(run->picked.ruler.solver, j, &at);
        double speed_m_s = load.flow_m3s * run->picked.rulers[j].speed_per_flow;
        if (speed_m_s / QLL_SPEED_MOST_M_S - 1.0 > QLL_PRACTICE_SLACK) {
            return true;
        }
    }
    return false;
}

static bool is_too_low(const stage_run *run, double outlet_pa)
{
    double outlet_pa_gauge = outlet_pa - run->searching->yardstick->site->barometric_pa;
    for (size_t j = 0; j < run->picked.stage.branch_count; j++) {
        double set_pa_gauge = run->picked.branches[j].set_pa_gauge;
        double held_pa = set_pa_gauge < outlet_pa_gauge ? set_pa_gauge : outlet_pa_gauge;
        double own_pa = qll_valve_hysteresis_pa(run->picked.branches[j].valve);
        if (isnan(outlet_pa) || qll_breaks_pa(run->place->clear_pa_gauge - (held_pa - own_pa))) {
            return true;
        }
    }
    return false;
}

static qll_practice broken_at_peaks(const stage_run *run)
{
    const qll_yardstick *yardstick = run->searching->yardstick;
    const qll_stage_place *place = run->place;
    for (size_t c = 0; c < yardstick->duty->scenario_count; c++) {
        double flow_m3s = yardstick->peak_m3s[c];
        for (size_t s = 0; s < QLL_SUPPLY_LEVELS; s++) {
            size_t at = c * QLL_SUPPLY_LEVELS + s;
            double inlet_pa = place->inlets.peak_pa[at];
            qll_stage_point point = qll_stage_solve(run->picked.ruler.solver, inlet_pa, flow_m3s);
            bool passes = !isnan(inlet_pa) && point.passes;
            run->room->peak_pa[at] = passes ? point.outlet_pa : (double)NAN;
            if (s == 0 && place->is_last
                && qll_breaks_pa(yardstick->peak_hard_pa[c] - run->room->peak_pa[at])) {
                return QLL_PRACTICE_DELIVERY;
            }
            if (passes && is_too_fast(run, inlet_pa, flow_m3s, point.outlet_pa)) {
                return QLL_PRACTICE_SPEED;
            }
            if (s == QLL_SUPPLY_LEVELS / 2 && !place->is_last
                && is_too_low(run, run->room->peak_pa[at])) {
                return QLL_PRACTICE_ORDER;
            }
        }
    }
    return QLL_PRACTICE_COUNT;
}

/* Sums one supply from flow class @p from on; what lies before is the lead's. */
static void sum_supply(const stage_run *run, size_t supply, size_t from, qll_hazard_row *sums)
{
    const qll_yardstick *yardstick = run->searching->yardstick;
    const qll_duty *duty = yardstick->duty;
    const qll_trial_room *room = run->room;
    const size_t rows = QLL_ROWS(run->picked.stage.branch_count);
    const double *inlet_pa = &run->place->inlets.grid_pa[supply * duty->flow_count];
    const double *need_pa = &yardstick->need_pa[supply * duty->flow_count];
    double *outlet_pa = &room->outlet_pa[supply * duty->flow_count];
    qll_stage_solve_many(run->picked.ruler.solver, inlet_pa + from, duty->flow_m3s + from,
                         duty->flow_count - from, room->points);
    for (size_t f = from; f < duty->flow_count; f++) {
        const qll_stage_point *point = &room->points[f - from];
        outlet_pa[f] = isnan(inlet_pa[f]) || !point->passes ? (double)NAN : point->outlet_pa;
        if (yardstick->unknowns->has_weight[f]) {
            double row[QLL_ROWS(QLL_BRANCHES_MOST)];
            qll_hazard_point(&run->picked.ruler, inlet_pa[f], duty->flow_m3s[f], outlet_pa[f],
                             need_pa[f], row);
            qll_hazard_add(yardstick->unknowns, f, row, rows, sums);
        }
    }
}

/* First flow class of a supply at which the lead is not surely alone; 0 without one. */
static size_t alone_until(const stage_run *run, size_t supply)
{
    if (run->lead == NULL) {
        return 0;
    }
    assert(run->picked.branches[1].valve != NULL); /* a lead is the first of two */
    const double effect = run->picked.branches[1].valve->inlet_effect;
    return qll_lead_alone_until(run->searching, run->lead, supply, 0,
                                run->picked.branches[1].set_pa_gauge,
                                (qll_effects){effect, effect});
}

/* Adds what the lead does alone at one supply. */
static void add_alone(const stage_run *run, size_t supply, qll_hazard_row *sums)
{
    if (run->lead == NULL) {
        return;
    }
    const size_t count = run->searching->yardstick->duty->flow_count;
    const size_t row = supply * (count + 1) + alone_until(run, supply);
    qll_hazard_row *alone = &run->lead->room->prefix[row * QLL_LEAD_ROWS];
    for (size_t r = 0; r < QLL_LEAD_ROWS; r++) {
        for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
            sums[r][i] += alone[r][i];
        }
    }
}

/* One supply, the lead's part taken over. */
static void add_supply(const stage_run *run, size_t supply, qll_hazard_sums *sums)
{
    const qll_searching *searching = run->searching;
    const size_t count = searching->yardstick->duty->flow_count;
    const size_t rows = QLL_ROWS(run->picked.stage.branch_count);
    qll_hazard_row of_supply[QLL_ROWS(QLL_BRANCHES_MOST)];
    memset(of_supply, 0, rows * sizeof of_supply[0]);
    const size_t from = alone_until(run, supply);
    if (run->lead != NULL) {
        add_alone(run, supply, of_supply);
        memcpy(&run->room->outlet_pa[supply * count], &run->lead->room->outlet_pa[supply * count],
               from * sizeof(double));
    }
    sum_supply(run, supply, from, of_supply);
    qll_hazard_merge(searching->yardstick->unknowns, supply, of_supply, rows, sums);
}

/* Whether it is wanted if so much of it survives. */
static bool is_wanted(const stage_run *run, const qll_trial *trial, const double *survival)
{
    qll_half_bound of = qll_half_bound_with(survival, trial->cost, trial->dearest);
    of.gives_pa = trial->gives_pa;
    return qll_searching_wants(run->searching, run->rest, &of, run->rests);
}

/* Fills the survival of what has been summed; true if even that is too dear. */
static bool is_too_dear(const stage_run *run, const qll_hazard_sums *sums, qll_trial *trial)
{
    qll_survival(sums, run->picked.rulers, run->picked.stage.branch_count, QLL_HEARS_ALL, 1.0,
                 trial->survival);
    const qll_rest_of_station *rest = run->rest;
    if (rest == NULL) {
        return false;
    }
    return !is_wanted(run, trial, trial->survival);
}

/* Whether the pair would be too dear if so much survived of what both its valves do. */
static bool is_dear_with(const stage_run *run, const double besides[QLL_NODES], qll_trial *trial)
{
    double survival[QLL_NODES];
    for (size_t k = 0; k < QLL_NODES; k++) {
        survival[k] = besides[k] * run->room->hint->survival[k];
    }
    return !is_wanted(run, trial, survival);
}

/* Adds what both do at least to one supply's sums. */
static void add_least(const stage_run *run, size_t supply, qll_hazard_sums *sums)
{
    qll_hazard_merge(run->searching->yardstick->unknowns, supply, run->room->hint->sums[supply],
                     QLL_ROWS(2), sums);
}

/* Whether the pair is too dear by its peaks and what it does over its duty at least. */
static bool is_dear_in_sum(const stage_run *run, const qll_hazard_sums *peaks, qll_trial *trial)
{
    const qll_pair_hint *hint = run->room->hint;
    qll_hazard_sums sums;
    memcpy(sums.at, peaks->at, QLL_ROWS(2) * sizeof sums.at[0]);
    for (size_t s = 0; s < QLL_SUPPLY_LEVELS; s++) {
        add_least(run, s, &sums);
    }
    qll_survival(&sums, run->picked.rulers, 2, QLL_HEARS_ALL, 1.0, trial->survival);
    for (size_t k = 0; k < QLL_NODES; k++) {
        trial->survival[k] *= hint->hunting[k];
    }
    return !is_wanted(run, trial, trial->survival);
}

/* Whether the pair is too dear by its peaks, then by what else it does at least where both its valves are open, and by
 * what is known of it before it is solved over its duty. */
static bool is_dear_early(const stage_run *run, const qll_hazard_sums *peaks, qll_trial *trial)
{
    const qll_pair_hint *hint = run->room->hint;
    if (run->rest == NULL || hint == NULL) {
        return false;
    }
    if (hint->sums != NULL) {
        return is_dear_in_sum(run, peaks, trial);
    }
    double besides[QLL_NODES];
    const double share =
        qll_survival_besides(peaks, run->picked.rulers, run->picked.stage.branch_count, 0);
    for (size_t k = 0; k < QLL_NODES; k++) {
        besides[k] = share;
    }
    if (is_dear_with(run, besides, trial)) {
        return true;
    }
    if (run->place->ends.low_pa == NULL || !qll_pick_rises(run->searching, &trial->pick)) {
        return false;
    }
    qll_pair_least_of(&run->picked, &run->place->ends, hint->open_from, peaks, &run->room->least,
                      besides);
    return is_dear_with(run, besides, trial);
}

/* The same after the middle supply: of the others what the lead does alone, and both at least. */
static bool is_dear_after_middle(const stage_run *run, const qll_hazard_sums *sums,
                                 qll_trial *trial)
{
    const size_t rows = QLL_ROWS(run->picked.stage.branch_count);
    const qll_least_room *least = &run->room->least;
    qll_hazard_sums more;
    memcpy(more.at, sums->at, rows * sizeof more.at[0]);
    const bool has_sums = run->room->hint != NULL && run->room->hint->sums != NULL;
    for (size_t s = 0; s < QLL_SUPPLY_LEVELS && has_sums; s++) {
        if (s != QLL_SUPPLY_LEVELS / 2) {
            add_least(run, s, &more);
        }
    }
    for (size_t s = 0; s < QLL_SUPPLY_LEVELS && least->has_flows; s++) {
        qll_hazard_row of_supply[QLL_ROWS(QLL_BRANCHES_MOST)];
        memcpy(of_supply, least->of_flows, rows * sizeof of_supply[0]);
        if (s != QLL_SUPPLY_LEVELS / 2) {
            add_alone(run, s, of_supply);
            qll_hazard_merge(run->searching->yardstick->unknowns, s, of_supply, rows, &more);
        }
    }
    return is_too_dear(run, &more, trial);
}

/* The middle supply weighs as much as both others: after it most that fall have fallen. */
static void sum_all(const stage_run *run, qll_trial *trial)
{
    static const size_t order[QLL_SUPPLY_LEVELS] = {1, 0, 2};
    qll_hazard_sums sums;
    memset(sums.at, 0, QLL_ROWS(run->picked.stage.branch_count) * sizeof sums.at[0]);
    qll_hazard_add_peaks(&run->picked.ruler, run->place->inlets.peak_pa, run->room->peak_pa,
                         QLL_SUPPLY_LEVELS, &sums);
    run->room->least.has_flows = false;
    trial->is_dear = is_dear_early(run, &sums, trial);
    trial->is_early =
        run->room->is_early && run->room->hint != NULL && run->room->hint->sums != NULL;
    if (trial->is_dear || trial->is_early) {
        return;
    }
    for (size_t i = 0; i < QLL_SUPPLY_LEVELS; i++) {
        add_supply(run, order[i], &sums);
        trial->is_dear = i == 0 && run->rest != NULL && is_dear_after_middle(run, &sums, trial);
        if (trial->is_dear) {
            return;
        }
    }
    trial->is_dear = is_too_dear(run, &sums, trial);
}

static qll_practice try_all(stage_run *run, qll_trial *trial)
{
    const qll_yardstick *yardstick = run->searching->yardstick;
    qll_practice broken = broken_as_set(run, &trial->pick);
    broken = broken < QLL_PRACTICE_COUNT ? broken : broken_at_peaks(run);
    if (broken < QLL_PRACTICE_COUNT) {
        return broken;
    }
    double rest_pa =
        qll_stage_solve(run->picked.ruler.solver, run->place->inlets.rest_pa, 0.0).outlet_pa;
    if (run->place->is_last && qll_breaks_pa(rest_pa - yardstick->rest_most_pa)) {
        return QLL_PRACTICE_STATIC;
    }
    if (!run->place->is_last && !isnan(run->room->peak_pa[0])) {
        trial->gives_pa = run->room->peak_pa[0];
    }
    run->rests = run->place->is_last ? 1.0 - qll_rest_chance(yardstick, rest_pa) : 1.0;
    sum_all(run, trial);
    run->searching->counts.measured += trial->is_dear || run->room->is_early ? 0 : 1;
    run->searching->counts.bounded += trial->is_dear ? 1 : 0;
    trial->outlets = (qll_inlets){
        .grid_pa = run->room->outlet_pa, .peak_pa = run->room->peak_pa, .rest_pa = rest_pa};
    return QLL_PRACTICE_COUNT;
}

qll_practice qll_trial_make(qll_searching *searching, const qll_stage_place *place,
                            const qll_pick *pick, const qll_rest_of_station *rest,
                            const qll_lead *lead, qll_trial_room *room, qll_trial *trial)
{
    stage_run run;
    memset(&run, 0, sizeof run);
    run.searching = searching;
    run.place = place;
    run.rest = rest;
    run.lead = lead;
    run.room = room;
    qll_trial_begin(searching, pick, trial);
    qll_pick_set(searching, place, pick, &room->solver, &run.picked);
    run.picked.ruler.hunting =
        qll_stage_hunting(&run.picked.stage, place->low_pa_gauge, place->high_pa_gauge);
    return try_all(&run, trial);
}
