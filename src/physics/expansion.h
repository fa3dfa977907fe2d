/* Water heated behind a valve that lets none back: how much it grows, and what the pressure does. */
#ifndef QUELL_PHYSICS_EXPANSION_H
#define QUELL_PHYSICS_EXPANSION_H

#include <stdbool.h>
#include <stddef.h>

/**
 * Volume of water at @p hot_degc over its volume at @p cold_degc, both at @p pressure_pa
 * (absolute); NaN outside 0 to 100 degC. docs/theory/expansion.md, eq. 1.
 */
double qll_expansion_ratio(double cold_degc, double hot_degc, double pressure_pa);

typedef struct qll_heated {
    double volume_m3;
    double cold_degc, hot_degc;
    double pressure_pa; /* absolute, while cold */
} qll_heated;

/** Volume pushed out of a vessel by heating it, m3 (eq. 2); below 0 where it cools, NaN outside 0 to 100
 * degC. The vessel's own growth is left out, as most tables do: the safe side. */
double qll_expanded_m3(const qll_heated *heated);

/**
 * Diaphragm tank that takes @p expanded_m3, m3: Ve/(1 - P1/P2), absolute pressures (eq. 3).
 *
 * @param line_pa  at rest, equal to the tank's precharge: the no-flow outlet of the reducing valve
 * @param limit_pa highest permitted
 * @return NaN unless 0 < line_pa < limit_pa
 */
double qll_expansion_tank_m3(double expanded_m3, double line_pa, double limit_pa);

/**
 * What a diaphragm tank takes in while its water side rises from @p rest_pa to @p limit_pa, m3 per m3
 * of tank: P0/max(P0, Pr) - P0/P2, absolute pressures (eq. 3a); 1 over it is the tank per volume.
 * 0 where there is no room.
 *
 * @param precharge_pa of its air while the water side is empty
 */
double qll_expansion_tank_share(double precharge_pa, double rest_pa, double limit_pa);

/** A pipe or vessel full of water within a closed system. */
typedef struct qll_closed_part {
    double volume_m3;
    double temperature_degc; /* 0 to 100 */
    bool is_heated;          /* warms with the others that are; cold parts only stretch */
    double bore_m, wall_m;
    double modulus_pa, poisson, wall_expansion_per_k;
} qll_closed_part;

/** Heat that a kilogram of liquid water takes up per kelvin at constant pressure, J/(kg K): 4178 to 4218 between 0 and
 * 100 degC (IAPWS-95). */
#define QLL_WATER_HEAT_J_KG_K 4190.0

/** What the water of a part grows more than its vessel, per kelvin by which both warm, m3/K (eq. 4).
 * @p pressure_pa absolute. NaN outside 0 to 100 degC. */
double qll_closed_growth_m3_per_k(const qll_closed_part *part, double pressure_pa);

/** What its water and wall give way per pascal, m3/Pa (eq. 4 and 5); heat has time to even out. */
double qll_closed_room_m3_per_pa(const qll_closed_part *part, double pressure_pa);

/**
 * Pressure rise per kelvin by which the heated parts warm, Pa/K, the water compressed and every
 * wall stretched and expanded (eq. 4 and 5). @p pressure_pa absolute. A single part needs no
 * volume other than 1. Falls below 0 where the wall grows more than the water.
 *
 * @return NaN if a part makes no sense or there is none
 */
double qll_closed_rise_pa_per_k(const qll_closed_part *parts, size_t count, double pressure_pa);

#endif
