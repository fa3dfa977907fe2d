#include "dynamics/supply_end.h"

#include "numeric/root.h"

#include <math.h>

/* On top of the curve, which may be flat: 1 kPa at 1 m3/s, so that the flow is a function of pressure. */
static const double steepness_pa_s_m3 = 1e3;

typedef struct wanted {
    const qll_supply_end *end;
    double drop_pa;
} wanted;

static double drop_at(const qll_supply_end *end, double flow_m3s)
{
    return end->static_pa_gauge
           - qll_supply_pressure_pa_gauge(end->supply, end->static_pa_gauge, flow_m3s)
           + steepness_pa_s_m3 * flow_m3s;
}

static double off_at(double flow_m3s, void *context)
{
    const wanted *w = context;
    return drop_at(w->end, flow_m3s) - w->drop_pa;
}

/* The flow at which the curve has fallen by @p drop_pa, over 0. */
static double flow_for(const qll_supply_end *end, double drop_pa)
{
    double high_m3s = end->supply->test[end->supply->count - 1].x;
    const double most_m3s = drop_pa / steepness_pa_s_m3;
    while (high_m3s < most_m3s && drop_at(end, high_m3s) < drop_pa) {
        high_m3s = 2 * high_m3s + 1e-6;
    }
    high_m3s = fmin(high_m3s, most_m3s);
    wanted w = {.end = end, .drop_pa = drop_pa};
    const qll_root root = qll_root_find(0, high_m3s, 1e-15 * high_m3s + 1e-300, off_at, &w);
    return root.converged ? root.value : high_m3s;
}

static void through(const void *state, const qll_instant *now, const double *pressure_pa,
                    qll_through *answer)
{
    (void)now; /* the main knows no time */
    const qll_supply_end *end = state;
    const double drop_pa = end->static_pa_gauge - pressure_pa[0];
    const double size_pa = fabs(drop_pa);
    const double flow_m3s = size_pa > 0 ? flow_for(end, size_pa) : 0;
    const double beside_m3s = flow_m3s * (1 + 1e-6) + 1e-12;
    const double steep =
        (drop_at(end, beside_m3s) - drop_at(end, flow_m3s)) / (beside_m3s - flow_m3s);
    answer->flow_m3s[0] = drop_pa > 0 ? -flow_m3s : flow_m3s;
    answer->slope[0][0] = 1 / fmax(steep, steepness_pa_s_m3);
}

const qll_boundary_kind qll_supply_end_kind = {
    .port_count = 1,
    .through = through,
};
