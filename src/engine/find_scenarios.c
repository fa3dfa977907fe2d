/* Figures of the demands: how seldom a flow is passed, and what changes with the tenant. */
#include "engine/find.h"

static const double quantile_shares[QLL_FLOW_QUANTILES] = {0.5, 0.75, 0.9, 0.95, 0.99, 0.999};

static const double seldom_share = 0.99;

qll_status qll_find_scenarios(const qll_demand *demands, size_t count, qll_arena *arena,
                              const qll_scenario_figures **figures)
{
    qll_scenario_figures *made = qll_arena_take(arena, count, sizeof *made);
    if (made == NULL) {
        return QLL_NO_MEMORY;
    }
    const double low_m3s = qll_demand_low_flow_m3s(demands, count);
    for (size_t i = 0; i < count; i++) {
        const qll_duration *duration = &demands[i].day.duration;
        made[i] = (qll_scenario_figures){
            .seldom_more_m3s = qll_duration_quantile(duration, seldom_share),
            .change = qll_demand_change_of(&demands[0], &demands[i], low_m3s),
        };
        for (size_t k = 0; k < QLL_FLOW_QUANTILES; k++) {
            double flow_m3s = qll_duration_quantile(duration, quantile_shares[k]);
            made[i].quantiles[k] =
                (qll_flow_quantile){quantile_shares[k], flow_m3s, flow_m3s / demands[i].peak_m3s};
        }
    }
    *figures = made;
    return QLL_OK;
}
