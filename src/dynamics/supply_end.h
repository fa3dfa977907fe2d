/* The main as a boundary: its pressure falls as water is drawn, and rises as it is pushed back. */
#ifndef QUELL_DYNAMICS_SUPPLY_END_H
#define QUELL_DYNAMICS_SUPPLY_END_H

#include "dynamics/boundary.h"
#include "physics/supply.h"

typedef struct qll_supply_end {
    const qll_supply *supply;
    double static_pa_gauge; /* of the moment */
} qll_supply_end;

extern const qll_boundary_kind qll_supply_end_kind;

#endif
