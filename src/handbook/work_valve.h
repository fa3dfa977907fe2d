/* Inputs that the calculations about valves share. */
#ifndef QUELL_HANDBOOK_WORK_VALVE_H
#define QUELL_HANDBOOK_WORK_VALVE_H

#include "handbook/work.h"

typedef struct qll_work_pressures {
    double inlet_pa, outlet_pa; /* absolute */
    qll_water water;
} qll_work_pressures;

/** The inputs "inlet" and "outlet", and water at that inlet. */
qll_work_pressures qll_work_pressures_read(qll_calc_work *work);

/** Puts "density" and "vapour_pressure", where they are given, in place of water's. */
void qll_work_fluid_read(qll_calc_work *work, qll_water *water);

/** The input "fl". */
double qll_work_fl(qll_calc_work *work);

/** The input "fd". */
double qll_work_fd(qll_calc_work *work);

/** "kv" or "cv", whichever is given, as it is given; @p is_cv tells which. */
double qll_work_coefficient(qll_calc_work *work, bool *is_cv);

/** The bore or other length of @p key within 1 mm to 2 m; NaN if it is not given. */
double qll_work_length_or_none(qll_calc_work *work, const char *key);

/* A globe-type trim of unknown make (IEC 60534-2-1, typical factors: globe, parabolic plug). */
#define QLL_INPUT_FL                                                                      \
    {                                                                                     \
        .key = "fl", .kind = QLL_KIND_NUMBER, .fallback = "0.9", .help = QLL_TEXT_HELP_FL \
    }
#define QLL_INPUT_FD                                                                       \
    {                                                                                      \
        .key = "fd", .kind = QLL_KIND_NUMBER, .fallback = "0.46", .help = QLL_TEXT_HELP_FD \
    }
#define QLL_INPUT_COEFFICIENT                                                   \
    {.key = "kv", .kind = QLL_KIND_FLOW_COEFFICIENT, .help = QLL_TEXT_HELP_KV}, \
    {                                                                           \
        .key = "cv", .kind = QLL_KIND_NUMBER, .help = QLL_TEXT_HELP_CV          \
    }
#define QLL_INPUT_INLET_OUTLET                                        \
    {.key = "inlet",                                                  \
     .kind = QLL_KIND_PRESSURE,                                       \
     .required = true,                                                \
     .help = QLL_TEXT_HELP_BEFORE_VALVE},                             \
    {                                                                 \
        .key = "outlet", .kind = QLL_KIND_PRESSURE, .required = true, \
        .help = QLL_TEXT_HELP_BEHIND_VALVE                            \
    }
/* The fluid: water at a temperature, or given by its properties. */
#define QLL_INPUT_FLUID                                                              \
    QLL_INPUT_TEMPERATURE,                                                           \
        {.key = "density", .kind = QLL_KIND_DENSITY, .help = QLL_TEXT_HELP_INSTEAD}, \
        {.key = "vapour_pressure",                                                   \
         .kind = QLL_KIND_PRESSURE,                                                  \
         .help = QLL_TEXT_HELP_ABSOLUTE_INSTEAD,                                     \
         .example = "1.7 kPa abs"},                                                  \
        QLL_INPUT_BAROMETRIC

#endif
