#include "dynamics/short_pipe.h"

#include <math.h>

/* At rest inertia says nothing; a pipe without friction then loses so much of its impedance times the flow at
 * least, so that it still has one. */
static const double rest_share = 1e-8;

static double impedance_of(const qll_short_pipe *pipe, const qll_instant *now)
{
    const double least = rest_share * sqrt(pipe->inertia_pa_s2_m3 / pipe->room_m3_pa);
    return isinf(now->step_s) ? fmax(0, least - pipe->friction.linear_pa_s_m3)
                              : pipe->inertia_pa_s2_m3 / now->step_s;
}

/* Backward Euler: inertia q'/dt + friction = push. */
static double flow_at(const qll_short_pipe *pipe, const qll_instant *now, const double *pressure_pa)
{
    const double impedance = impedance_of(pipe, now);
    const double kept_pa = isinf(now->step_s) ? 0 : impedance * pipe->flow_m3s;
    return qll_friction_flow_m3s(&pipe->friction, impedance,
                                 pressure_pa[0] - pressure_pa[1] - pipe->rise_pa + kept_pa);
}

static void through(const void *state, const qll_instant *now, const double *pressure_pa,
                    qll_through *answer)
{
    const qll_short_pipe *pipe = state;
    const double flow_m3s = flow_at(pipe, now, pressure_pa);
    const double slope = 1
                         / (impedance_of(pipe, now) + pipe->friction.linear_pa_s_m3
                            + 2 * pipe->friction.square_pa_s2_m6 * fabs(flow_m3s));
    const double gives = pipe->room_m3_pa / 2 / now->step_s;
    for (int port = 0; port < 2; port++) {
        const double rise_pa = pressure_pa[port] - pipe->pressure_pa_gauge[port];
        answer->flow_m3s[port] = (port == 0 ? flow_m3s : -flow_m3s) + gives * rise_pa;
        answer->slope[port][port] = slope + gives;
        answer->slope[port][1 - port] = -slope;
    }
}

static void accept(void *state, const qll_instant *now, const double *pressure_pa)
{
    qll_short_pipe *pipe = state;
    qll_through ended = {0};
    through(state, now, pressure_pa, &ended);
    pipe->flow_m3s = flow_at(pipe, now, pressure_pa);
    for (int port = 0; port < 2; port++) {
        pipe->end_m3s[port] = ended.flow_m3s[port];
        pipe->pressure_pa_gauge[port] = pressure_pa[port];
    }
}

const qll_boundary_kind qll_short_pipe_kind = {
    .port_count = 2,
    .through = through,
    .accept = accept,
};
