/* Flow through a hole, without the infinite slope that a root has at no pressure. */
#ifndef QUELL_DYNAMICS_ORIFICE_H
#define QUELL_DYNAMICS_ORIFICE_H

#include <math.h>

/* Below it flow is laminar for us, Pa. At 1 kPa it takes 5e-6 off the flow (our choice). */
#define QLL_ORIFICE_SOFT_PA 1e-2

/** Flow coefficient/sqrt(Pa) times the root of @p drop_pa with its sign, m3/s; @p slope gets its change per Pa. */
static inline double qll_orifice_m3s(double coefficient, double drop_pa, double *slope)
{
    const double size = fabs(drop_pa) + QLL_ORIFICE_SOFT_PA;
    const double root = sqrt(size);
    *slope = coefficient * (fabs(drop_pa) / 2 + QLL_ORIFICE_SOFT_PA) / (size * root);
    return coefficient * drop_pa / root;
}

#endif
