/* docs/theory/duty.md. */
#include "station/duty.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>

/* Flows below this share of the greatest design peak fall into the first class (our assumption). */
#define QLL_LEAST_SHARE 1e-4
/* Where all flows of a survey are one, classes still need a span: one decade (our assumption). */
#define QLL_LEAST_SPAN  0.1

/* Low, middle and high supply: half of the time near the middle (our assumption). */
enum {
    QLL_SUPPLY_COUNT = 3
};

static const double supply_weights[QLL_SUPPLY_COUNT] = {0.25, 0.5, 0.25};

/* What the builder fills; qll_duty shows it as const. */
typedef struct duty_grid {
    size_t class_count;
    double *flow, *time, *volume, *weight_time, *weight_volume;
    double *inlet, *inlet_static, *supply_static;
    double *edge;  /* upper edge of every class but the last */
    double *water; /* merged time share times flow */
} duty_grid;

static bool take(qll_arena *arena, double **array, size_t rows, size_t columns)
{
    *array = rows > SIZE_MAX / sizeof(double) / (columns + 1)
                 ? NULL
                 : qll_arena_take(arena, rows * columns, sizeof(double));
    return *array != NULL;
}

static bool take_grid(duty_grid *made, size_t scenario_count, size_t class_count, qll_arena *arena)
{
    made->class_count = class_count;
    return take(arena, &made->flow, class_count, 1)
           && take(arena, &made->time, class_count, scenario_count)
           && take(arena, &made->volume, class_count, scenario_count)
           && take(arena, &made->weight_time, class_count, 1)
           && take(arena, &made->weight_volume, class_count, 1)
           && take(arena, &made->inlet, class_count, QLL_SUPPLY_COUNT)
           && take(arena, &made->inlet_static, QLL_SUPPLY_COUNT, 1)
           && take(arena, &made->supply_static, QLL_SUPPLY_COUNT, 1)
           && take(arena, &made->edge, class_count, 1) && take(arena, &made->water, class_count, 1);
}

static void set_edges(const duty_grid *grid, double least_m3s, double peak_m3s)
{
    size_t span = grid->class_count - 1;
    for (size_t f = 0; f < span; f++) {
        grid->edge[f] = least_m3s * pow(peak_m3s / least_m3s, (double)(f + 1) / (double)span);
    }
    grid->edge[span - 1] = peak_m3s;
}

/* The class of a flow: the first whose upper edge is not below it; the peak and above: the last. */
static size_t class_of(const duty_grid *grid, double flow_m3s)
{
    size_t low = 0;
    size_t high = grid->class_count - 1;
    /* A peak that went through another computation may differ in its last bits. */
    if (flow_m3s >= grid->edge[high - 1] * (1.0 - 1e-12)) {
        return high;
    }
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (grid->edge[middle] >= flow_m3s) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    return low;
}

static void put_scenario(const duty_grid *grid, const qll_duty_scenario *scenario, size_t at,
                         double weight)
{
    double *time = grid->time + at * grid->class_count;
    double *volume = grid->volume + at * grid->class_count;
    double time_before = scenario->idle_share;
    double volume_before = 0.0;
    for (size_t i = 0; i < scenario->count; i++) {
        double flow_m3s = scenario->time_at_or_below[i].x;
        if (!(flow_m3s > 0.0)) {
            continue; /* no flow is the idle share */
        }
        double time_here = fmax(scenario->time_at_or_below[i].y - time_before, 0.0);
        double volume_here = fmax(scenario->volume_at_or_below[i].y - volume_before, 0.0);
        size_t f = class_of(grid, flow_m3s);
        time[f] += time_here;
        volume[f] += volume_here;
        grid->water[f] += weight * time_here * flow_m3s;
        grid->weight_time[f] += weight * time_here;
        grid->weight_volume[f] += weight * volume_here;
        time_before += time_here;
        volume_before += volume_here;
    }
}

static void set_flows(const duty_grid *grid, double least_m3s, double peak_m3s)
{
    for (size_t f = 0; f + 1 < grid->class_count; f++) {
        double low = f == 0 ? least_m3s : grid->edge[f - 1];
        double flow = grid->weight_time[f] > 0.0 ? grid->water[f] / grid->weight_time[f]
                                                 : sqrt(low * grid->edge[f]);
        grid->flow[f] = flow;
    }
    grid->flow[grid->class_count - 1] = peak_m3s;
}

static void set_supply(const duty_grid *grid, const qll_site *site)
{
    const qll_supply *supply = &site->supply;
    grid->supply_static[0] = supply->static_low_pa_gauge;
    grid->supply_static[1] = 0.5 * (supply->static_low_pa_gauge + supply->static_high_pa_gauge);
    grid->supply_static[2] = supply->static_high_pa_gauge;
    for (size_t s = 0; s < QLL_SUPPLY_COUNT; s++) {
        grid->inlet_static[s] = qll_site_inlet_pa(site, grid->supply_static[s], 0.0);
        for (size_t f = 0; f < grid->class_count; f++) {
            grid->inlet[s * grid->class_count + f] =
                qll_site_inlet_pa(site, grid->supply_static[s], grid->flow[f]);
        }
    }
}

/* The greatest design peak, and the smallest flow that has a share of time. */
static void find_span(const qll_duty_scenario *scenarios, size_t count, double *least_m3s,
                      double *peak_m3s)
{
    *least_m3s = INFINITY;
    *peak_m3s = 0.0;
    for (size_t s = 0; s < count; s++) {
        *peak_m3s = fmax(*peak_m3s, scenarios[s].peak_m3s);
        double before = scenarios[s].idle_share;
        for (size_t i = 0; i < scenarios[s].count; i++) {
            qll_point at = scenarios[s].time_at_or_below[i];
            if (at.x > 0.0 && at.y > before) {
                *least_m3s = fmin(*least_m3s, at.x);
                break;
            }
        }
    }
    *least_m3s = fmax(*least_m3s, QLL_LEAST_SHARE * *peak_m3s);
    *least_m3s = fmin(*least_m3s, QLL_LEAST_SPAN * *peak_m3s);
}

qll_status qll_duty_make(const qll_site *site, const qll_duty_scenario *scenarios,
                         size_t scenario_count, size_t class_count, qll_arena *arena,
                         qll_duty *duty)
{
    assert(scenario_count > 0 && class_count >= 2);
    duty_grid grid;
    if (!take_grid(&grid, scenario_count, class_count, arena)) {
        return QLL_NO_MEMORY;
    }
    double least_m3s = 0.0;
    double peak_m3s = 0.0;
    find_span(scenarios, scenario_count, &least_m3s, &peak_m3s);
    assert(peak_m3s > 0.0);
    set_edges(&grid, least_m3s, peak_m3s);
    double weight_sum = 0.0;
    for (size_t s = 0; s < scenario_count; s++) {
        weight_sum += scenarios[s].weight;
    }
    double idle_share = 0.0;
    for (size_t s = 0; s < scenario_count; s++) {
        double weight =
            weight_sum > 0.0 ? scenarios[s].weight / weight_sum : 1.0 / (double)scenario_count;
        put_scenario(&grid, &scenarios[s], s, weight);
        idle_share += weight * scenarios[s].idle_share;
    }
    set_flows(&grid, least_m3s, peak_m3s);
    set_supply(&grid, site);
    *duty = (qll_duty){.flow_count = class_count,
                       .flow_m3s = grid.flow,
                       .scenario_count = scenario_count,
                       .scenarios = scenarios,
                       .time_share = grid.time,
                       .volume_share = grid.volume,
                       .weight_time = grid.weight_time,
                       .weight_volume = grid.weight_volume,
                       .idle_share = idle_share,
                       .supply_count = QLL_SUPPLY_COUNT,
                       .supply_weight = supply_weights,
                       .supply_static_pa_gauge = grid.supply_static,
                       .inlet_pa = grid.inlet,
                       .inlet_static_pa = grid.inlet_static,
                       .peak_m3s = peak_m3s,
                       .service_flow_m3s = NAN};
    return QLL_OK;
}
