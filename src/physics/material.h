/* Materials of pipe and vessel walls: what noise, expansion and surge need to know of them. */
#ifndef QUELL_PHYSICS_MATERIAL_H
#define QUELL_PHYSICS_MATERIAL_H

#include "base/text.h"

#include <stdbool.h>

typedef struct qll_material {
    const char *word; /* as data/pipes.csv names it: "copper" */
    bool is_metal;
    double modulus_pa; /* of elasticity, short-term */
    double poisson;
    double expansion_per_k; /* linear */
    double density_kg_m3;
    double sound_speed_m_s; /* longitudinal, in the wall: sqrt(E/density), rounded */
    double surge_pa_gauge;  /* that usual pipe of it takes in cold water: docs/theory/hammer.md */
    const char *source;
} qll_material;

/** The material called @p word, or NULL; layered pipe has no single set and is not listed. */
const qll_material *qll_material_find(qll_text word);

/** All of them, in a fixed order; @p count gets their number. */
const qll_material *qll_materials(size_t *count);

#endif
