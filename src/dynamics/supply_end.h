/* The main as a boundary: its pressure falls as water is drawn, and rises as it is pushed back. */
#ifndef QUELL_DYNAMICS_SUPPLY_END_H
#define QUELL_DYNAMICS_SUPPLY_END_H

#include "dynamics/boundary.h"
#include "physics/supply.h"

#include "quell/arena.h"

typedef struct qll_supply_end {
    const qll_supply_stretch *stretches; /* of its curve */
    size_t stretch_count;
    double static_pa_gauge; /* of the moment */
} qll_supply_end;

extern const qll_boundary_kind qll_supply_end_kind;

/** The end of a main whose static stands at @p static_pa_gauge; what it points at lives in @p arena. False without memory. */
bool qll_supply_end_make(const qll_supply *supply, double static_pa_gauge, qll_arena *arena,
                         qll_supply_end *end);

#endif
