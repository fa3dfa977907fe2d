/* A heater that warms up: its water grows into whatever gives way. */
#ifndef QUELL_DYNAMICS_WARMING_H
#define QUELL_DYNAMICS_WARMING_H

#include "dynamics/boundary.h"
#include "physics/expansion.h"

typedef struct qll_warming {
    qll_closed_part vessel; /* its temperature is the state; is_heated counts as true */
    double power_w;         /* while it warms, 0 or more */
    double begins_s;        /* when it starts to */
    double hot_degc;        /* at which it stops */
    double barometric_pa;
    double pressure_pa_gauge; /* state */
} qll_warming;

extern const qll_boundary_kind qll_warming_kind;

#endif
