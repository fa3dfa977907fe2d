#include "station/unknowns.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* Means of the quarters and of the fifths of the standard normal distribution. */
static const double own_deviates[QLL_OWN_NODES] = {-1.2711, -0.3247, 0.3247, 1.2711};
static const double demand_deviates[QLL_DEMAND_NODES] = {-1.3998, -0.5319, 0.0, 0.5319, 1.3998};

#define QLL_DEMAND_LN_SIGMA 0.35
/* What is left of it where the volume's own range is known: how many people there are, and how far this
 * building is from its like (our choice: with the range of homes it makes 0.35). */
#define QLL_PEOPLE_LN_SIGMA 0.30
/* A class that weighs less at every node is left out: less than a cent of any station (our choice). */
#define QLL_WEIGHT_LEAST    1e-6

static const double supply_chance[QLL_SUPPLY_NODES] = {0.25, 0.5, 0.25};
static const double supply_lean[QLL_SUPPLY_NODES][QLL_SUPPLY_LEVELS] = {
    {0.45, 0.50, 0.05}, {0.25, 0.50, 0.25}, {0.05, 0.50, 0.45}};

/* Puts @p weight to the classes round a flow whose logarithm is @p ln_flow. */
static void spread(const double *ln_flows, size_t count, double ln_flow, double weight, size_t node,
                   double (*weights)[QLL_DEMAND_NODES])
{
    if (ln_flow <= ln_flows[0]) {
        weights[0][node] += weight;
        return;
    }
    size_t at = 1;
    while (at < count && ln_flows[at] < ln_flow) {
        at++;
    }
    if (at == count) {
        weights[count - 1][node] += weight;
        return;
    }
    double share = (ln_flow - ln_flows[at - 1]) / (ln_flows[at] - ln_flows[at - 1]);
    weights[at - 1][node] += weight * (1.0 - share);
    weights[at][node] += weight * share;
}

/* Of all scenarios by their weights: each its people's, and the range of its volume where that is a
 * table's default. */
static double demand_ln_sigma(const qll_duty *duty)
{
    double sum = 0.0;
    double weights = 0.0;
    for (size_t s = 0; s < duty->scenario_count; s++) {
        const qll_duty_scenario *scenario = &duty->scenarios[s];
        const double sigma = scenario->volume_ln_sigma > 0.0
                                 ? hypot(QLL_PEOPLE_LN_SIGMA, scenario->volume_ln_sigma)
                                 : QLL_DEMAND_LN_SIGMA;
        sum += scenario->weight * sigma;
        weights += scenario->weight;
    }
    return weights > 0.0 ? sum / weights : QLL_DEMAND_LN_SIGMA;
}

/* @p spread_by: 1 as it is thought to lie, 0 all in the middle. */
static qll_status make(const qll_duty *duty, double demand_factor, double spread_by,
                       qll_arena *arena, qll_unknowns *made)
{
    assert(duty->supply_count == QLL_SUPPLY_LEVELS);
    const size_t count = duty->flow_count;
    double(*weights)[QLL_DEMAND_NODES] = qll_arena_take(arena, count, sizeof *weights);
    double *ln_flows = qll_arena_take(arena, count, sizeof *ln_flows);
    bool *has_weight = qll_arena_take(arena, count, sizeof *has_weight);
    if (weights == NULL || ln_flows == NULL || has_weight == NULL) {
        return QLL_NO_MEMORY;
    }
    memset(weights, 0, count * sizeof *weights);
    for (size_t f = 0; f < count; f++) {
        ln_flows[f] = log(duty->flow_m3s[f]);
    }
    const double ln_sigma = spread_by * demand_ln_sigma(duty);
    const double flowing = 1.0 - duty->idle_share;
    const double per_flowing = flowing > 0.0 ? 1.0 / flowing : 0.0;
    for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
        double moved = log(demand_factor) + ln_sigma * demand_deviates[i];
        for (size_t f = 0; f < count; f++) {
            double weight = 0.5 * (duty->weight_time[f] * per_flowing + duty->weight_volume[f]);
            if (weight > 0.0) {
                spread(ln_flows, count, ln_flows[f] + moved, weight, i, weights);
            }
        }
    }
    for (size_t f = 0; f < count; f++) {
        has_weight[f] = false;
        for (size_t i = 0; i < QLL_DEMAND_NODES; i++) {
            has_weight[f] = has_weight[f] || weights[f][i] > QLL_WEIGHT_LEAST;
        }
    }
    *made = (qll_unknowns){.flow_count = count, .flow_weight = weights, .has_weight = has_weight};
    for (size_t n = 0; n < QLL_SUPPLY_NODES; n++) {
        const double *lean = supply_lean[spread_by > 0.0 ? n : QLL_SUPPLY_NODES / 2];
        memcpy(made->supply_weight[n], lean, sizeof supply_lean[n]);
    }
    for (size_t d = 0; d < QLL_OWN_NODES; d++) {
        made->own_deviate[d] = spread_by * own_deviates[d];
    }
    for (size_t k = 0; k < QLL_NODES; k++) {
        made->chance[k] = supply_chance[k / QLL_DEMAND_NODES] / QLL_DEMAND_NODES;
    }
    return QLL_OK;
}

qll_status qll_unknowns_make(const qll_duty *duty, double demand_factor, qll_arena *arena,
                             qll_unknowns *made)
{
    return make(duty, demand_factor, 1.0, arena, made);
}

qll_status qll_unknowns_nominal(const qll_duty *duty, qll_arena *arena, qll_unknowns *made)
{
    return make(duty, 1.0, 0.0, arena, made);
}
