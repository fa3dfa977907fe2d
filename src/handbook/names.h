/* What calculations, their steps and their figures are called in code; what people read of each is in
 * src/wording. */
#ifndef QUELL_HANDBOOK_NAMES_H
#define QUELL_HANDBOOK_NAMES_H

/** The calculations, in the order in which they are listed. */
/* clang-format off */
#define QLL_CALC_LIST(X)                                                                           \
    X(VELOCITY) X(FRICTION) X(FRICTION_FACTOR) X(VALVE_COEFFICIENT) X(VALVE_FLOW) X(CAVITATION)    \
    X(NOISE) X(STAGE_SPLIT) X(PARALLEL_SPLIT) X(EXPANSION_TANK) X(CLOSED_RISE) X(SEAT_LEAK) X(WAVE_SPEED)       \
    X(SURGE) X(STRAINER) X(FIXTURE_UNITS) X(SIMULTANEOUS_USE) X(WATER)

/* clang-format on */

typedef enum qll_calc_id {
#define QLL_CALC_NAME(name) QLL_CALC_##name,
    QLL_CALC_LIST(QLL_CALC_NAME)
#undef QLL_CALC_NAME
    QLL_CALC_COUNT
} qll_calc_id;

/** The steps: one formula each. */
/* clang-format off */
#define QLL_CALC_STEP_LIST(X)                                                                      \
    X(VELOCITY) X(REYNOLDS) X(FACTOR_LAMINAR) X(FACTOR_BETWEEN) X(FACTOR_TURBULENT) X(PIPE_DROP)   \
    X(SCREEN_OPEN) X(SCREEN_DROP) X(EXPANDED) X(TANK) X(CLOSED_RISE) X(SEAT_LEAK) X(VALVES_SHARE) X(WAVE_SPEED) \
    X(SURGE) X(CRITICAL_RATIO) X(REDUCERS) X(CHOKED_DROP) X(VALVE_REYNOLDS) X(COEFFICIENT)         \
    X(VALVE_FLOW) X(CAVITATION) X(CAVITATION_SCALED) X(STAGES_TRIMS) X(STAGES_EQUAL)               \
    X(NOISE_RATIO) X(NOISE_JET) X(NOISE_POWER) X(NOISE_INSIDE) X(NOISE_PEAKS) X(NOISE_WALL)        \
    X(NOISE_BANDS) X(NOISE_OVERALL) X(UNITS_CURVE) X(CONVOLVED)

/* clang-format on */

typedef enum qll_calc_step_id {
#define QLL_CALC_STEP_NAME(name) QLL_CALC_STEP_##name,
    QLL_CALC_STEP_LIST(QLL_CALC_STEP_NAME)
#undef QLL_CALC_STEP_NAME
    QLL_CALC_STEP_COUNT
} qll_calc_step_id;

/** What a calculation or a step finds: X(NAME, key of a result). A figure that only a step shows has a key
 * too, which no answer prints. */
/* clang-format off */
#define QLL_CALC_FIGURE_LIST(X)                                                                    \
    X(VELOCITY, "velocity_m_s") X(BORE, "bore_m") X(DROP, "drop_pa") X(REYNOLDS, "reynolds")       \
    X(FRICTION_FACTOR, "friction_factor") X(RATIO_TO_CLEAN, "ratio_to_clean")                     \
    X(CLEAN_DROP, "clean_drop_pa") X(DENSITY, "density_kg_m3") X(VISCOSITY, "viscosity_pa_s")      \
    X(VAPOUR_PRESSURE, "vapour_pressure_pa") X(SOUND_SPEED, "sound_speed_m_s")                    \
    X(BULK_MODULUS, "bulk_modulus_pa") X(KV, "kv_m3h") X(CV, "cv") X(CHOKED, "choked") X(FF, "ff") \
    X(CHOKED_DROP, "choked_drop_pa") X(FP, "fp") X(FLP, "flp") X(REDUCER_LOSS, "reducer_loss")    \
    X(REYNOLDS_VALVE, "reynolds_valve") X(FR, "fr") X(FLOW_REGIME, "flow_regime")                  \
    X(FLOW, "flow_m3s") X(EXPANDED, "expanded_m3") X(TANK, "tank_m3")                             \
    X(RISE_PER_DEGREE, "rise_pa_per_k") X(RISE, "rise_pa") X(OUTLET, "outlet_pa_gauge")            \
    X(WAVE_SPEED, "wave_speed_m_s") X(SURGE, "surge_pa") X(XF, "xf") X(SIGMA, "sigma")            \
    X(RATIO_GAUGE, "ratio_gauge") X(RATIO_ABSOLUTE, "ratio_absolute") X(XFZP1, "xfzp1")           \
    X(MARGIN, "margin") X(REGIME, "regime") X(BETWEEN, "intermediate_pa_gauge")                    \
    X(LEVEL, "level_dba") X(LEVEL_LOW, "level_low_dba") X(LEVEL_HIGH, "level_high_dba")           \
    X(XFZ, "xfz") X(CRITICAL_DROP, "critical_drop_pa") X(JET, "jet_m")                            \
    X(JET_VELOCITY, "jet_velocity_m_s") X(STREAM_POWER, "stream_power_w")                          \
    X(EFFICIENCY_TURBULENT, "efficiency_turbulent")                                                \
    X(EFFICIENCY_CAVITATING, "efficiency_cavitating") X(SOUND_POWER, "sound_power_w")             \
    X(INSIDE, "inside_db") X(STROUHAL, "strouhal") X(PEAK_TURBULENT, "peak_turbulent_hz")         \
    X(PEAK_CAVITATING, "peak_cavitating_hz") X(RING, "ring_hz") X(RING_LOSS, "ring_loss_db")       \
    X(SPREAD, "spread_db") X(LOSS_TURBULENT, "loss_turbulent_db")                                 \
    X(LOSS_CAVITATING, "loss_cavitating_db") X(BANDS, "bands") X(CENTRE, "centre_hz")             \
    X(EXTERNAL, "external_db") X(FLOW_BUSY, "flow_busy_m3s") X(IDLE, "idle_share")                 \
    X(MEAN, "mean_m3s") X(DEVIATION, "deviation_m3s") X(NORMAL, "normal_m3s")                      \
    X(ROUNDING, "rounding_m3s") X(OPEN_SHARE, "open_share") X(FREE_SHARE, "free_share")           \
    X(GROWTH, "growth") X(FIRST_BETWEEN, "first_between_pa_gauge") X(RUNNING, "running")           \
    X(DROPS, "drops_per_second") X(DROPS_GOOD, "good_drops_per_second")        \
    X(DROPS_BAD, "bad_drops_per_second")

/* clang-format on */

typedef enum qll_calc_figure_id {
#define QLL_CALC_FIGURE_NAME(name, key) QLL_CALC_FIGURE_##name,
    QLL_CALC_FIGURE_LIST(QLL_CALC_FIGURE_NAME)
#undef QLL_CALC_FIGURE_NAME
    QLL_CALC_FIGURE_COUNT
} qll_calc_figure_id;

#endif
