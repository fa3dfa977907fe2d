/* What a figure measures. */
#ifndef QUELL_BASE_KIND_H
#define QUELL_BASE_KIND_H

/** What a quantity measures. The SI unit of each stands behind it. */
typedef enum qll_kind {
    QLL_KIND_NUMBER,                 /* no unit */
    QLL_KIND_PRESSURE,               /* Pa; gauge or absolute, see qll_quantity */
    QLL_KIND_PRESSURE_DIFFERENCE,    /* Pa; a fall-off, a loss */
    QLL_KIND_FLOW,                   /* m3/s */
    QLL_KIND_MASS_FLOW,              /* kg/s */
    QLL_KIND_LENGTH,                 /* m; inch fractions and feet-inches too */
    QLL_KIND_VOLUME,                 /* m3 */
    QLL_KIND_VELOCITY,               /* m/s */
    QLL_KIND_TEMPERATURE,            /* degrees Celsius */
    QLL_KIND_TEMPERATURE_DIFFERENCE, /* K */
    QLL_KIND_FLOW_COEFFICIENT,       /* Kv in m3/h at 1 bar; Cv is converted */
    QLL_KIND_DENSITY,                /* kg/m3 */
    QLL_KIND_VISCOSITY,              /* Pa s, dynamic */
    QLL_KIND_MODULUS,                /* Pa, of elasticity */
    QLL_KIND_TIME,                   /* s */
    QLL_KIND_SPEED_OF_SOUND,         /* m/s */
    QLL_KIND_COUNT
} qll_kind;

#endif
