#include "search/peaks_least.h"

#include <math.h>
#include <string.h>

/* The one or two valves of a pick as a stage; it points into itself. */
typedef struct picked {
    qll_branch branches[2];
    qll_branch_ruler rulers[2];
    qll_stage stage;
    qll_stage_ruler ruler;
} picked;

/* False where outlets need not rise with the inlet. */
static bool begin(const qll_searching *searching, const qll_stage_place *place,
                  const qll_pick *pick, qll_solver_room *room, picked *made)
{
    const qll_site *site = searching->yardstick->site;
    const qll_branch_curve *curves[2];
    for (size_t j = 0; j < pick->count; j++) {
        const qll_part *part = &searching->pool.parts[pick->part[j]];
        const double effect = part->branch.valve->inlet_effect;
        if (!(effect >= 0.0 && effect <= 1.0)) {
            return false;
        }
        qll_part_set(place, part, pick->set_pa_gauge[j], &made->branches[j], &made->rulers[j]);
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
    return true;
}

double qll_peaks_least(const qll_searching *searching, const qll_stage_place *place,
                       const qll_pick *pick, qll_solver_room *room)
{
    const qll_yardstick *yardstick = searching->yardstick;
    picked made;
    if (pick->count > 2 || !begin(searching, place, pick, room, &made)) {
        return 1.0;
    }
    const size_t rows = QLL_ROWS(pick->count);
    const double weight = qll_peak_weight(yardstick);
    qll_hazard_sums sums;
    memset(sums.at, 0, rows * sizeof sums.at[0]);
    for (size_t c = 0; c < yardstick->duty->scenario_count; c++) {
        const double low_pa = place->inlets.peak_pa[c * QLL_SUPPLY_LEVELS];
        const double high_pa = place->highest->peak_pa[c * QLL_SUPPLY_LEVELS];
        const double flow_m3s = yardstick->peak_m3s[c];
        const qll_stage_point low = qll_stage_solve(made.ruler.solver, low_pa, flow_m3s);
        const qll_stage_point high = qll_stage_solve(made.ruler.solver, high_pa, flow_m3s);
        if (isnan(low_pa) || isnan(high_pa) || !low.passes || !high.passes) {
            continue;
        }
        const qll_hazard_ends ends = {low_pa, high_pa, low.outlet_pa, high.outlet_pa};
        double row[QLL_ROWS(2)];
        qll_hazard_least(&made.ruler, &ends, flow_m3s, yardstick->peak_need_pa[c], row);
        for (size_t r = 0; r < rows; r++) {
            sums.at[r][0] += weight * row[r];
        }
    }
    return qll_survival_peaks(&sums, made.rulers, pick->count);
}
