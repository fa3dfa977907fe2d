#include "physics/expansion.h"

#include "physics/water.h"

#include <assert.h>
#include <math.h>

static const double kelvin_at_0_degc = 273.15;

double qll_expansion_ratio(double cold_degc, double hot_degc, double pressure_pa)
{
    return qll_water_at(cold_degc, pressure_pa).density_kg_m3
           / qll_water_at(hot_degc, pressure_pa).density_kg_m3;
}

double qll_expanded_m3(const qll_heated *heated)
{
    assert(heated != NULL);
    return heated->volume_m3
           * (qll_expansion_ratio(heated->cold_degc, heated->hot_degc, heated->pressure_pa) - 1);
}

double qll_expansion_tank_m3(double expanded_m3, double line_pa, double limit_pa)
{
    if (!(line_pa > 0 && line_pa < limit_pa)) {
        return NAN;
    }
    return expanded_m3 / (1 - line_pa / limit_pa);
}

double qll_expansion_tank_share(double precharge_pa, double rest_pa, double limit_pa)
{
    if (!(precharge_pa > 0 && rest_pa > 0 && limit_pa > rest_pa && limit_pa > precharge_pa)) {
        return 0;
    }
    return precharge_pa / fmax(precharge_pa, rest_pa) - precharge_pa / limit_pa;
}

/* Isothermal: 1/K + T a^2/(rho cp). */
static double compressibility_per_pa(const qll_water *water)
{
    double kelvin = water->temperature_degc + kelvin_at_0_degc;
    double a = water->expansion_per_k;
    return 1 / water->bulk_modulus_pa
           + kelvin * a * a / (water->density_kg_m3 * QLL_WATER_HEAT_J_KG_K);
}

/* Growth of the inside of a thin tube with closed ends, per Pa. */
static double stretch_per_pa(const qll_closed_part *part)
{
    return part->bore_m / (part->modulus_pa * part->wall_m) * (1.25 - part->poisson);
}

double qll_closed_growth_m3_per_k(const qll_closed_part *part, double pressure_pa)
{
    const qll_water water = qll_water_at(part->temperature_degc, pressure_pa);
    return part->volume_m3 * (water.expansion_per_k - 3 * part->wall_expansion_per_k);
}

double qll_closed_room_m3_per_pa(const qll_closed_part *part, double pressure_pa)
{
    const qll_water water = qll_water_at(part->temperature_degc, pressure_pa);
    return part->volume_m3 * (compressibility_per_pa(&water) + stretch_per_pa(part));
}

double qll_closed_rise_pa_per_k(const qll_closed_part *parts, size_t count, double pressure_pa)
{
    assert(parts != NULL || count == 0);
    double grown_m3_per_k = 0;
    double room_m3_per_pa = 0;
    for (size_t i = 0; i < count; i++) {
        const qll_closed_part *part = &parts[i];
        if (!(part->volume_m3 > 0 && part->bore_m > 0 && part->wall_m > 0 && part->modulus_pa > 0
              && part->poisson >= 0 && part->poisson <= 0.5)) {
            return NAN;
        }
        grown_m3_per_k += part->is_heated ? qll_closed_growth_m3_per_k(part, pressure_pa) : 0;
        room_m3_per_pa += qll_closed_room_m3_per_pa(part, pressure_pa);
    }
    return count > 0 ? grown_m3_per_k / room_m3_per_pa : (double)NAN;
}
