/* What a figure measures. */
#ifndef QUELL_BASE_KIND_H
#define QUELL_BASE_KIND_H

/* The columns stand straight. */
/* clang-format off */
/** X(NAME, SI unit, what a key in that unit ends in, what it is called, how one is written). Pressures
 * are gauge here; see qll_quantity for those that are not. A flow coefficient is Kv at 1 bar. */
#define QLL_KIND_LIST(X)                                                                           \
    X(NUMBER,                 "1",        "",          "a number without unit",    "2.5")          \
    X(PRESSURE,               "Pa gauge", "_pa_gauge", "a pressure",               "95 psi")       \
    X(PRESSURE_DIFFERENCE,    "Pa",       "_pa",       "a pressure difference",    "8 psi")        \
    X(FLOW,                   "m3/s",     "_m3s",      "a flow",                   "12 gpm")       \
    X(MASS_FLOW,              "kg/s",     "_kg_s",     "a mass flow",              "1.5 kg/s")     \
    X(LENGTH,                 "m",        "_m",        "a length",                 "1-1/2 in")     \
    X(VOLUME,                 "m3",       "_m3",       "a volume",                 "119 gal")      \
    X(VELOCITY,               "m/s",      "_m_s",      "a velocity",               "6 ft/s")       \
    X(TEMPERATURE,            "degC",     "_degc",     "a temperature",            "55 degF")      \
    X(TEMPERATURE_DIFFERENCE, "K",        "_k",        "a temperature difference", "10 degF")      \
    X(FLOW_COEFFICIENT,       "m3/h",     "_m3h",      "a flow coefficient",       "18 m3/h")      \
    X(DENSITY,                "kg/m3",    "_kg_m3",    "a density",                "999.1 kg/m3")  \
    X(VISCOSITY,              "Pa s",     "_pa_s",     "a viscosity",              "1.1 mPa.s")    \
    X(MODULUS,                "Pa",       "_pa",       "a modulus of elasticity",  "17000 ksi")    \
    X(TIME,                   "s",        "_s",        "a time",                   "30 min")       \
    X(SPEED_OF_SOUND,         "m/s",      "_m_s",      "a speed of sound",         "1480 m/s")     \
    X(MASS,                   "kg",       "_kg",       "a mass",                   "0.3 lb")       \
    X(SPRING_RATE,            "N/m",      "_n_m",      "a spring rate",            "340 lbf/in")   \
    X(DAMPING,                "N s/m",    "_n_s_m",    "a damping rate",           "12 N.s/m")

/* clang-format on */

/** What a quantity measures. */
typedef enum qll_kind {
#define QLL_KIND_NAME(name, ...) QLL_KIND_##name,
    QLL_KIND_LIST(QLL_KIND_NAME)
#undef QLL_KIND_NAME
    QLL_KIND_COUNT
} qll_kind;

#endif
