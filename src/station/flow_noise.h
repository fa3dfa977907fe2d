/* How loud the flow alone makes a valve, without cavitation: docs/theory/station_noise.md, 6. A search
 * asks for millions, so what depends on the pipe alone is a table. */
#ifndef QUELL_STATION_FLOW_NOISE_H
#define QUELL_STATION_FLOW_NOISE_H

#include "station/station.h"

/* Peaks from 1 Hz to 1 MHz, 32 to the factor e: straight lines between are off by less than 0.01 dB. */
#define QLL_SHAPE_PER_E 32
#define QLL_SHAPE_ROOM  (14 * QLL_SHAPE_PER_E + 1)

/** What a pipe lets out of the flow's noise, by the peak of its spectrum. */
typedef struct qll_noise_shape {
    const qll_noise_path *path;
    double most; /* of all values */
    double value[QLL_SHAPE_ROOM];
} qll_noise_shape;

void qll_noise_shape_make(const qll_noise_path *path, qll_noise_shape *shape);

/** One valve in its pipe. */
typedef struct qll_flow_noise {
    const qll_noise_shape *shape; /* NULL: not known, nothing is heard */
    double energy_per;            /* energy over q dp^1.5 and the shape */
    double peak_per;              /* peak over sqrt(Kv) xFzp1^-1.5 (p1 - pv)^-0.57 sqrt(dp) */
} qll_flow_noise;

/** @p shape is that of the branch's path, or NULL. */
qll_flow_noise qll_flow_noise_of(const qll_branch *branch, const qll_water *water,
                                 const qll_noise_shape *shape);

/** The most that a valve could sound at this flow and drop: cheap. 10^(dB(A)/10). */
static inline double qll_flow_noise_most(const qll_flow_noise *of, double flow_m3s, double drop_pa)
{
    return of->shape == NULL
               ? 0.0
               : of->energy_per * flow_m3s * drop_pa * sqrt(drop_pa) * of->shape->most;
}

/**
 * 10^(L/10) of the A-weighted level 1 m from the pipe.
 *
 * @param drop_pa      own drop, at most the choked one
 * @param per_head     (p1 - pv)^-0.57
 * @param xfzp1        onset of cavitation at this inlet
 */
double qll_flow_noise_energy(const qll_flow_noise *of, double flow_m3s, double drop_pa,
                             double kv_m3h, double xfzp1, double per_head);

#endif
