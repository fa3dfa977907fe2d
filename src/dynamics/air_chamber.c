#include "dynamics/air_chamber.h"

#include <math.h>
#include <stdbool.h>

/* In steps this long air has its surroundings' temperature (our assumption). */
static const double slow_s = 1;
/* Weight of the flow at the end of a quick step: nearly second order, and what rings dies out. */
static const double end_weight = 0.55;
/* Air never gets below it, whatever pressure is on trial, Pa absolute. */
static const double least_pa = 1;

qll_air_chamber qll_air_chamber_of(double volume_m3, double precharge_pa, double barometric_pa)
{
    return (qll_air_chamber){.volume_m3 = volume_m3,
                             .precharge_pa = precharge_pa,
                             .barometric_pa = barometric_pa,
                             .power = QLL_AIR_POWER,
                             .air_m3 = volume_m3,
                             .air_pa = precharge_pa};
}

static bool is_slow(const qll_instant *now)
{
    return now->step_s >= slow_s;
}

/* Air at the end of the step, m3: it is at the water's pressure unless it has driven all water out. */
static double air_at_m3(const qll_air_chamber *chamber, const qll_instant *now, double pressure_pa)
{
    const double absolute_pa = fmax(pressure_pa + chamber->barometric_pa, least_pa);
    const double air_m3 =
        is_slow(now) ? chamber->volume_m3 * chamber->precharge_pa / absolute_pa
                     : chamber->air_m3 * pow(chamber->air_pa / absolute_pa, 1 / chamber->power);
    return fmin(chamber->volume_m3, air_m3);
}

static void through(const void *state, const qll_instant *now, const double *pressure_pa,
                    qll_through *answer)
{
    const qll_air_chamber *chamber = state;
    if (isinf(now->step_s)) {
        return;
    }
    const double weight = is_slow(now) ? 1 : end_weight;
    const double power = is_slow(now) ? 1 : chamber->power;
    const double air_m3 = air_at_m3(chamber, now, pressure_pa[0]);
    const double mean_m3s = (chamber->air_m3 - air_m3) / now->step_s;
    const double absolute_pa = pressure_pa[0] + chamber->barometric_pa;
    const bool gives = air_m3 < chamber->volume_m3 && absolute_pa > least_pa;
    answer->flow_m3s[0] = (mean_m3s - (1 - weight) * chamber->flow_m3s) / weight;
    answer->slope[0][0] = gives ? air_m3 / (power * absolute_pa * now->step_s * weight) : 0;
}

static void accept(void *state, const qll_instant *now, const double *pressure_pa)
{
    qll_air_chamber *chamber = state;
    qll_through answer = {0};
    through(state, now, pressure_pa, &answer);
    const double air_m3 = air_at_m3(chamber, now, pressure_pa[0]);
    /* Its own pressure, which is not the water's where it has driven all water out. */
    chamber->air_pa = is_slow(now)
                          ? chamber->precharge_pa * chamber->volume_m3 / air_m3
                          : chamber->air_pa * pow(chamber->air_m3 / air_m3, chamber->power);
    chamber->air_m3 = air_m3;
    chamber->flow_m3s = answer.flow_m3s[0];
}

const qll_boundary_kind qll_air_chamber_kind = {
    .port_count = 1,
    .through = through,
    .accept = accept,
};
