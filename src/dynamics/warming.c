#include "dynamics/warming.h"

#include "physics/water.h"

#include <math.h>

/* Properties of water are asked within what they are known for, Pa absolute. */
static const double least_pa = 1e3;
static const double most_pa = 1e7;

static double absolute_pa(const qll_warming *heater)
{
    return fmin(fmax(heater->pressure_pa_gauge + heater->barometric_pa, least_pa), most_pa);
}

/* Temperature at the end of the step. */
static double degc_after(const qll_warming *heater, const qll_instant *now)
{
    const double warms_s = fmin(now->step_s, now->time_s - heater->begins_s);
    const double degc = heater->vessel.temperature_degc;
    if (isinf(now->step_s) || !(warms_s > 0) || degc >= heater->hot_degc) {
        return degc;
    }
    const qll_water water = qll_water_at(degc, absolute_pa(heater));
    const double heat_j_k = water.density_kg_m3 * QLL_WATER_HEAT_J_KG_K * heater->vessel.volume_m3;
    return fmin(heater->hot_degc, degc + heater->power_w * warms_s / heat_j_k);
}

/* What it gives way per pressure and grows in the step, at the middle of the step's temperatures. */
static void through(const void *state, const qll_instant *now, const double *pressure_pa,
                    qll_through *answer)
{
    const qll_warming *heater = state;
    if (isinf(now->step_s)) {
        return;
    }
    const double degc = degc_after(heater, now);
    qll_closed_part vessel = heater->vessel;
    const double warms_k = degc - vessel.temperature_degc;
    vessel.temperature_degc += warms_k / 2;
    const double grows_m3 = warms_k * qll_closed_growth_m3_per_k(&vessel, absolute_pa(heater));
    const double room_m3_pa = qll_closed_room_m3_per_pa(&vessel, absolute_pa(heater));
    answer->flow_m3s[0] =
        (room_m3_pa * (pressure_pa[0] - heater->pressure_pa_gauge) - grows_m3) / now->step_s;
    answer->slope[0][0] = room_m3_pa / now->step_s;
}

static void accept(void *state, const qll_instant *now, const double *pressure_pa)
{
    qll_warming *heater = state;
    heater->vessel.temperature_degc = degc_after(heater, now);
    heater->pressure_pa_gauge = pressure_pa[0];
}

const qll_boundary_kind qll_warming_kind = {
    .port_count = 1,
    .through = through,
    .accept = accept,
};
