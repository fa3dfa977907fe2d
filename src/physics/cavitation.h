/* Pressure ratios, cavitation indices, regimes, and how to split a drop over stages. */
#ifndef QUELL_PHYSICS_CAVITATION_H
#define QUELL_PHYSICS_CAVITATION_H

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

typedef enum qll_regime {
    QLL_REGIME_QUIET,      /* margin below 0.8 */
    QLL_REGIME_NEAR_ONSET, /* 0.8 to 1 */
    QLL_REGIME_AUDIBLE,    /* 1 to 1.3 */
    QLL_REGIME_DAMAGING,   /* above 1.3 */
    QLL_REGIME_CHOKED,     /* p1 - p2 at or above FL^2 (p1 - FF pv) */
    QLL_REGIME_COUNT
} qll_regime;

extern const char *const qll_regime_words[QLL_REGIME_COUNT];

typedef struct qll_cavitation_case {
    double inlet_pa, outlet_pa; /* absolute */
    double vapour_pressure_pa;
    double barometric_pa;
    double xfz; /* at 6 bar inlet, as IEC 60534-8-4 */
    double fl;
} qll_cavitation_case;

typedef struct qll_cavitation {
    double xf, sigma;                   /* qll_xf(), qll_sigma() */
    double ratio_gauge, ratio_absolute; /* qll_gauge_ratio(), qll_absolute_ratio() */
    double xfzp1;                       /* xfz scaled to this inlet */
    double margin;                      /* xf / xfzp1; above 1 it cavitates */
    qll_regime regime;
} qll_cavitation;

/* The ratios and indices of a drop, defined here and nowhere else. Pressures absolute. */

/** Inlet over outlet as gauges read them; NaN where the outlet is at or below atmosphere. */
static inline double qll_gauge_ratio(double inlet_pa, double outlet_pa, double barometric_pa)
{
    double outlet_pa_gauge = outlet_pa - barometric_pa;
    return outlet_pa_gauge > 0 ? (inlet_pa - barometric_pa) / outlet_pa_gauge : (double)NAN;
}

/** Inlet over outlet in absolute pressures. */
static inline double qll_absolute_ratio(double inlet_pa, double outlet_pa)
{
    return inlet_pa / outlet_pa;
}

/** xF = (p1 - p2)/(p1 - pv); 0 if the outlet is not below the inlet. */
static inline double qll_xf(double inlet_pa, double outlet_pa, double vapour_pressure_pa)
{
    double drop_pa = inlet_pa - outlet_pa;
    return (drop_pa < 0 ? 0 : drop_pa) / (inlet_pa - vapour_pressure_pa);
}

/** 1/xF = (p1 - pv)/(p1 - p2); NaN if the outlet is not below the inlet. */
static inline double qll_sigma(double inlet_pa, double outlet_pa, double vapour_pressure_pa)
{
    double drop_pa = inlet_pa - outlet_pa;
    return drop_pa > 0 ? (inlet_pa - vapour_pressure_pa) / drop_pa : (double)NAN;
}

/**
 * Indices and regime of one valve. docs/theory/cavitation.md.
 *
 * Where the case makes no sense (a NaN, an inlet at or below vapour pressure) the numbers are NaN
 * and the regime is the worst.
 */
qll_cavitation qll_cavitation_of(const qll_cavitation_case *given);

/** xFz of a single-path trim at @p kv_m3h, IEC 60534-8-4 eq. 3a with the Kv constants. */
static inline double qll_xfz_estimate(double kv_m3h, double fl, double fd)
{
    const double n34 = 1.0; /* for Kv; 1.17 for Cv */
    if (!(kv_m3h >= 0 && fl > 0 && fd > 0)) {
        return NAN;
    }
    return 0.90 / sqrt(1 + 3 * fd * sqrt(kv_m3h / (n34 * fl)));
}

/** (p1 / 6 bar)^0.125, by which xFz falls; p1 absolute, >= 0. Three square roots cost a tenth of a
 * power. */
static inline double qll_xfz_scale(double inlet_pa)
{
    return sqrt(sqrt(sqrt(inlet_pa * (1 / 6e5))));
}

/** xFzp1 = xFz (6 bar / p1)^0.125, p1 absolute. */
static inline double qll_xfz_scaled(double xfz, double inlet_pa)
{
    return inlet_pa > 0 ? xfz / qll_xfz_scale(inlet_pa) : (double)NAN;
}

/** The margin of qll_cavitation_of() alone, for who needs no more. */
static inline double qll_cavitation_margin(const qll_cavitation_case *given)
{
    double drop = given->inlet_pa - given->outlet_pa;
    double onset = (given->inlet_pa - given->vapour_pressure_pa) * given->xfz;
    if (!(onset > 0 && given->xfz > 0 && given->outlet_pa > 0 && given->vapour_pressure_pa >= 0)) {
        return NAN;
    }
    return (drop < 0 ? 0 : drop) * qll_xfz_scale(given->inlet_pa) / onset;
}

/**
 * Intermediate pressures (absolute) that give every stage the same margin xF/xFz, p^-0.125 scaling
 * ignored (xfz NULL = equal trims) or included (@p scaled).
 *
 * @param xfz        one per stage, at 6 bar inlet, > 0; or NULL
 * @param between_pa gets stages - 1 falling pressures
 * @return false if there is no such split: no stage, outlet not between vapour pressure and inlet
 */
bool qll_stage_split(double inlet_pa, double outlet_pa, double vapour_pressure_pa, size_t stages,
                     const double *xfz, bool scaled, double *between_pa);

#endif
