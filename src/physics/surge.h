/* Water hammer in two closed forms: how fast a pressure wave runs, and how high it stands. */
#ifndef QUELL_PHYSICS_SURGE_H
#define QUELL_PHYSICS_SURGE_H

/** How a pipe is held along its axis, which sets the constant c1 of the wave speed. */
typedef enum qll_anchoring {
    QLL_ANCHORED_JOINTS,     /* expansion joints throughout: 1 */
    QLL_ANCHORED_THROUGHOUT, /* held against movement: 1 - nu^2 */
    QLL_ANCHORED_UPSTREAM,   /* at its upstream end only: 1.25 - nu */
    QLL_ANCHORING_COUNT
} qll_anchoring;

/* "joints", "throughout", "upstream" */
extern const char *const qll_anchoring_words[QLL_ANCHORING_COUNT];

typedef struct qll_surge_pipe {
    double bore_m, wall_m;
    double modulus_pa, poisson; /* of the wall */
    qll_anchoring anchoring;
} qll_surge_pipe;

/** c1 of a thin wall; NaN outside Poisson's ratio 0 to 0.5. docs/theory/surge.md, eq. 2. */
double qll_anchoring_factor(qll_anchoring anchoring, double poisson);

/**
 * Speed of a pressure wave in a thin-walled pipe full of liquid, m/s; NaN for a pipe or liquid that
 * makes no sense. docs/theory/surge.md, eq. 1. Checked by tests/reference/surge.csv.
 */
double qll_wave_speed_m_s(const qll_surge_pipe *pipe, double bulk_modulus_pa, double density_kg_m3);

/** Joukowsky: rise when a flow loses @p velocity_change_m_s at once, rho a dv, Pa. */
double qll_surge_pa(double density_kg_m3, double wave_speed_m_s, double velocity_change_m_s);

#endif
