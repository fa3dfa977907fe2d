/* Air behind a membrane or piston: an arrester, an air chamber, an expansion tank. */
#ifndef QUELL_DYNAMICS_AIR_CHAMBER_H
#define QUELL_DYNAMICS_AIR_CHAMBER_H

#include "dynamics/boundary.h"

typedef struct qll_air_chamber {
    double volume_m3;     /* of its air while it holds no water */
    double precharge_pa;  /* absolute, then */
    double barometric_pa; /* outside */
    double power;         /* n of p V^n in a quick change; 1.2 is usual, 1 to 1.4 */
    /* state */
    double air_m3;
    double air_pa; /* absolute */
    double flow_m3s;
} qll_air_chamber;

#define QLL_AIR_POWER 1.2 /* between isothermal and adiabatic (from memory) */

/** An air chamber without water. */
qll_air_chamber qll_air_chamber_of(double volume_m3, double precharge_pa, double barometric_pa);

extern const qll_boundary_kind qll_air_chamber_kind;

#endif
