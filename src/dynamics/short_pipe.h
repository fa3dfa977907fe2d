/* A pipe in one piece, for what is slow beside a wave's way through it: docs/theory/waves.md, eq. 7. */
#ifndef QUELL_DYNAMICS_SHORT_PIPE_H
#define QUELL_DYNAMICS_SHORT_PIPE_H

#include "dynamics/boundary.h"
#include "dynamics/friction.h"

typedef struct qll_short_pipe {
    double inertia_pa_s2_m3; /* rho L/A, over 0 */
    double room_m3_pa;       /* L A/(rho a^2): what its water and wall give way, over 0 */
    double rise_pa;          /* rho g (height of port 1 less that of port 0) */
    qll_friction friction;   /* of the whole pipe */
    /* state */
    double flow_m3s;                /* in its middle, from port 0 to port 1 */
    double end_m3s[QLL_PORTS_MOST]; /* into it, by port */
    double pressure_pa_gauge[QLL_PORTS_MOST];
} qll_short_pipe;

extern const qll_boundary_kind qll_short_pipe_kind;

#endif
