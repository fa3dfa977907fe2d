/* What a pipe loses at any flow, either way, in a form that a wave's step can solve. */
#ifndef QUELL_DYNAMICS_FRICTION_H
#define QUELL_DYNAMICS_FRICTION_H

#include "physics/pipe.h"

/** Loss of a whole pipe: (linear + square |q|) q, Pa at q m3/s. Neither is below 0. */
typedef struct qll_friction {
    double linear_pa_s_m3;
    double square_pa_s2_m6;
} qll_friction;

/**
 * The loss of @p run by Darcy and its fittings, exact at @p usual_m3s (over 0) and at a quarter of it
 * (there higher where Poiseuille's flow would lose more). docs/theory/waves.md, friction.
 *
 * @param off by how much it is off between the two at most, as a share; NULL = not wanted
 * @return NaN where qll_pipe_drop_pa() is
 */
qll_friction qll_friction_of(const qll_pipe_run *run, double usual_m3s, const qll_water *water,
                             double *off);

/** Loss at a flow, with its sign, Pa. */
static inline double qll_friction_pa(const qll_friction *friction, double flow_m3s)
{
    const double speed = flow_m3s < 0 ? -flow_m3s : flow_m3s;
    return (friction->linear_pa_s_m3 + friction->square_pa_s2_m6 * speed) * flow_m3s;
}

/**
 * The flow q at which impedance q + loss(q) = @p push_pa, m3/s: the one root.
 *
 * @param impedance_pa_s_m3 0 or more; with a loss of 0 it is over 0
 */
double qll_friction_flow_m3s(const qll_friction *friction, double impedance_pa_s_m3,
                             double push_pa);

#endif
