/* Properties of liquid water, 0 to 100 degrees Celsius. */
#ifndef QUELL_PHYSICS_WATER_H
#define QUELL_PHYSICS_WATER_H

/* Kv = 1 means 1 m3/h of water of this density at 1 bar (IEC 60534-2-1; water at 15 degC). */
#define QLL_REFERENCE_DENSITY_KG_M3 999.1033
/* Standard gravity, ISO 80000-3. */
#define QLL_GRAVITY_M_S2            9.80665
/* Critical pressure of water (IAPWS). */
#define QLL_WATER_CRITICAL_PA       22.064e6

typedef struct qll_water {
    double temperature_degc;
    double density_kg_m3;
    double viscosity_pa_s;
    double vapour_pressure_pa;
    double sound_speed_m_s;
    double bulk_modulus_pa; /* isentropic */
    double expansion_per_k; /* thermal, by volume */
} qll_water;

/**
 * Water at @p temperature_degc (0 to 100) and @p pressure_pa (absolute, up to 10 MPa).
 * All members NaN outside that range. Sources and accuracy: docs/theory/water.md.
 */
qll_water qll_water_at(double temperature_degc, double pressure_pa);

/** Standard atmosphere at @p elevation_m above sea level (ISO 2533 / ICAO, troposphere), Pa; NaN outside
 * -2000 to 11000 m. */
double qll_barometric_pa(double elevation_m);

#endif
