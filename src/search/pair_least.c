#include "search/pair_least.h"

#include <math.h>
#include <string.h>

qll_status qll_least_room_make(const qll_searching *searching, qll_least_room *room)
{
    const size_t count = searching->yardstick->duty->flow_count;
    qll_arena *arena = searching->arena;
    room->low = qll_arena_take(arena, count, sizeof *room->low);
    room->high = qll_arena_take(arena, count, sizeof *room->high);
    if (room->low == NULL || room->high == NULL) {
        return QLL_NO_MEMORY;
    }
    return qll_solver_room_make(2, 2 * searching->pool.knots_most, arena, &room->solver);
}

/* Whether outlet and drop of all its valves rise with the inlet. */
static bool rises(const qll_searching *searching, const qll_pick *pick)
{
    bool all = true;
    for (size_t j = 0; j < pick->count; j++) {
        const double effect = searching->pool.parts[pick->part[j]].branch.valve->inlet_effect;
        all = all && effect >= 0.0 && effect <= 1.0;
    }
    return all;
}

/* Behind two inlets at one flow; false where it is not known at both. */
static bool put_least(const qll_stage_ruler *ruler, double low_inlet_pa, double high_inlet_pa,
                      const qll_stage_point *low, const qll_stage_point *high, double flow_m3s,
                      double need_pa, double *row)
{
    if (isnan(low_inlet_pa) || isnan(high_inlet_pa) || !low->passes || !high->passes) {
        return false;
    }
    const qll_hazard_ends ends = {low_inlet_pa, high_inlet_pa, low->outlet_pa, high->outlet_pa};
    qll_hazard_least(ruler, &ends, flow_m3s, need_pa, row);
    return true;
}

/* The sums that peaks have at one node and at every other. */
static void add_peaks(const qll_stage_ruler *ruler, const qll_stage_place *place, size_t nodes,
                      qll_hazard_sums *sums)
{
    const qll_yardstick *yardstick = ruler->yardstick;
    const size_t rows = QLL_ROWS(ruler->branch_count);
    const double weight = qll_peak_weight(yardstick);
    for (size_t c = 0; c < yardstick->duty->scenario_count; c++) {
        const double low_pa = place->inlets.peak_pa[c * QLL_SUPPLY_LEVELS];
        const double high_pa = place->highest->peak_pa[c * QLL_SUPPLY_LEVELS];
        const double flow_m3s = yardstick->peak_m3s[c];
        const qll_stage_point low = qll_stage_solve(ruler->solver, low_pa, flow_m3s);
        const qll_stage_point high = qll_stage_solve(ruler->solver, high_pa, flow_m3s);
        double row[QLL_ROWS(QLL_BRANCHES_MOST)];
        if (!put_least(ruler, low_pa, high_pa, &low, &high, flow_m3s, yardstick->peak_need_pa[c],
                       row)) {
            continue;
        }
        for (size_t r = 0; r < rows; r++) {
            for (size_t k = 0; k < nodes && row[r] != 0.0; k++) {
                sums->at[r][k] += weight * row[r];
            }
        }
    }
}

double qll_peaks_least(const qll_searching *searching, const qll_stage_place *place,
                       const qll_pick *pick, qll_least_room *room)
{
    if (!rises(searching, pick)) {
        return 1.0;
    }
    qll_picked made;
    qll_pick_set(searching, place, pick, &room->solver, &made);
    qll_hazard_sums sums;
    memset(sums.at, 0, QLL_ROWS(pick->count) * sizeof sums.at[0]);
    add_peaks(&made.ruler, place, 1, &sums);
    return qll_survival_besides(&sums, made.rulers, pick->count, 0);
}

static void add_supply(const qll_stage_ruler *ruler, const qll_stage_place *place, size_t supply,
                       qll_least_room *room, qll_hazard_sums *sums)
{
    const qll_yardstick *yardstick = ruler->yardstick;
    const qll_duty *duty = yardstick->duty;
    const size_t rows = QLL_ROWS(ruler->branch_count);
    const size_t from = supply * duty->flow_count;
    const double *low_pa = &place->inlets.grid_pa[from];
    const double *high_pa = &place->highest->grid_pa[from];
    qll_hazard_row of_supply[QLL_ROWS(QLL_BRANCHES_MOST)];
    memset(of_supply, 0, rows * sizeof of_supply[0]);
    qll_stage_solve_many(ruler->solver, low_pa, duty->flow_m3s, duty->flow_count, room->low);
    qll_stage_solve_many(ruler->solver, high_pa, duty->flow_m3s, duty->flow_count, room->high);
    for (size_t f = 0; f < duty->flow_count; f++) {
        double row[QLL_ROWS(QLL_BRANCHES_MOST)];
        if (yardstick->unknowns->has_weight[f]
            && put_least(ruler, low_pa[f], high_pa[f], &room->low[f], &room->high[f],
                         duty->flow_m3s[f], yardstick->need_pa[from + f], row)) {
            qll_hazard_add(yardstick->unknowns, f, row, rows, of_supply);
        }
    }
    qll_hazard_merge(yardstick->unknowns, supply, of_supply, rows, sums);
}

void qll_pair_least(const qll_searching *searching, const qll_stage_place *place,
                    const qll_pick *pick, qll_least_room *room, double survival[QLL_NODES])
{
    const bool is_known = rises(searching, pick);
    qll_picked made;
    qll_pick_set(searching, place, pick, &room->solver, &made);
    qll_hazard_sums sums;
    memset(sums.at, 0, QLL_ROWS(pick->count) * sizeof sums.at[0]);
    if (is_known) {
        add_peaks(&made.ruler, place, QLL_NODES, &sums);
        for (size_t s = 0; s < searching->yardstick->duty->supply_count; s++) {
            add_supply(&made.ruler, place, s, room, &sums);
        }
    }
    for (size_t k = 0; k < QLL_NODES; k++) {
        survival[k] = qll_survival_besides(&sums, made.rulers, pick->count, k);
    }
}
