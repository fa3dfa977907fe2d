#include "dynamics/check_valve.h"

#include "dynamics/orifice.h"

#include <stdbool.h>

static void through(const void *state, const qll_instant *now, const double *pressure_pa,
                    qll_through *answer)
{
    const qll_check_valve *valve = state; /* it has no mass */
    const double drop_pa = pressure_pa[0] - pressure_pa[1] - valve->opens_pa;
    const bool is_early = valve->from_s > 0 && !(now->time_s > valve->from_s);
    if (drop_pa <= 0 || is_early) {
        return;
    }
    double slope = 0;
    const double flow_m3s = qll_orifice_m3s(valve->coefficient, drop_pa, &slope);
    *answer = (qll_through){.flow_m3s = {flow_m3s, -flow_m3s},
                            .slope = {{slope, -slope}, {-slope, slope}}};
}

const qll_boundary_kind qll_check_valve_kind = {
    .port_count = 2,
    .through = through,
};
