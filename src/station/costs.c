#include "station/costs.h"

#include <assert.h>
#include <math.h>

typedef enum cost_item {
    QLL_COST_BRANCH,
    QLL_COST_BESIDE,
    QLL_COST_DIRECT,
    QLL_COST_PILOT
} cost_item;

static double item_of(const qll_size_cost *of, cost_item item)
{
    switch (item) {
    case QLL_COST_BRANCH: return of->branch;
    case QLL_COST_BESIDE: return of->beside;
    case QLL_COST_DIRECT: return of->direct;
    case QLL_COST_PILOT: return of->pilot;
    }
    return NAN;
}

static double at_size(const qll_costs *costs, double nominal_m, cost_item item)
{
    assert(costs->size_count > 0);
    const qll_size_cost *sizes = costs->sizes;
    size_t i = 0;
    while (i < costs->size_count && sizes[i].nominal_m < nominal_m) {
        i++;
    }
    if (i == 0 || i == costs->size_count) {
        return item_of(&sizes[i == 0 ? 0 : i - 1], item);
    }
    double share =
        (nominal_m - sizes[i - 1].nominal_m) / (sizes[i].nominal_m - sizes[i - 1].nominal_m);
    double below = item_of(&sizes[i - 1], item);
    return below + share * (item_of(&sizes[i], item) - below);
}

double qll_costs_branch(const qll_costs *costs, double nominal_m)
{
    return at_size(costs, nominal_m, QLL_COST_BRANCH);
}

double qll_costs_valve(const qll_costs *costs, const qll_valve *valve)
{
    if (isfinite(valve->price)) {
        return valve->price;
    }
    return at_size(costs, valve->nominal_m,
                   valve->acting == QLL_ACTING_PILOT ? QLL_COST_PILOT : QLL_COST_DIRECT);
}

double qll_costs_part(const qll_costs *costs, const qll_valve *valve)
{
    return qll_costs_valve(costs, valve) + qll_costs_branch(costs, valve->nominal_m);
}

double qll_costs_beside(const qll_costs *costs, double pipe_m)
{
    return at_size(costs, isnan(pipe_m) ? 0.0 : pipe_m, QLL_COST_BESIDE);
}

double qll_costs_installed(const qll_costs *costs, const qll_station *station, double pipe_m)
{
    const double beside = qll_costs_beside(costs, pipe_m);
    double sum = costs->stage * (double)(station->stage_count - 1);
    for (size_t k = 0; k < station->stage_count; k++) {
        sum += beside * (double)(station->stages[k].branch_count - 1);
        for (size_t j = 0; j < station->stages[k].branch_count; j++) {
            sum += qll_costs_part(costs, station->stages[k].branches[j].valve);
        }
    }
    return sum;
}

double qll_costs_once(const qll_costs *costs, const qll_station *station)
{
    double dearest = 0.0;
    for (size_t k = 0; k < station->stage_count; k++) {
        for (size_t j = 0; j < station->stages[k].branch_count; j++) {
            dearest = fmax(dearest, qll_costs_part(costs, station->stages[k].branches[j].valve));
        }
    }
    return costs->visit + dearest;
}

double qll_costs_list_price(const qll_station *station)
{
    double sum = 0.0;
    for (size_t k = 0; k < station->stage_count; k++) {
        for (size_t j = 0; j < station->stages[k].branch_count; j++) {
            sum += station->stages[k].branches[j].valve->price;
        }
    }
    return sum;
}
