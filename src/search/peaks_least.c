#include "search/peaks_least.h"

#include <math.h>
#include <string.h>

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

double qll_peaks_least(const qll_searching *searching, const qll_stage_place *place,
                       const qll_pick *pick, qll_solver_room *room)
{
    if (!rises(searching, pick)) {
        return 1.0;
    }
    qll_picked made;
    qll_pick_set(searching, place, pick, room, &made);
    const qll_yardstick *yardstick = searching->yardstick;
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
        double row[QLL_ROWS(QLL_BRANCHES_MOST)];
        qll_hazard_least(&made.ruler, &ends, flow_m3s, yardstick->peak_need_pa[c], row);
        for (size_t r = 0; r < rows; r++) {
            sums.at[r][0] += weight * row[r];
        }
    }
    return qll_survival_peaks(&sums, made.rulers, pick->count);
}
