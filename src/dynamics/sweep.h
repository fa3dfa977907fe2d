/* One step of the waves within one pipe: docs/theory/waves.md, eq. 3 to 5 and 11. */
#ifndef QUELL_DYNAMICS_SWEEP_H
#define QUELL_DYNAMICS_SWEEP_H

#include "dynamics/friction.h"

#include <stdbool.h>
#include <stddef.h>

/** What all cells of a pipe have in common; made by qll_cells_of(). */
typedef struct qll_cells {
    size_t count;             /* at least 1; it has one section more, 0 and count being its ends */
    double impedance_pa_s_m3; /* Z */
    double step_s;
    qll_friction friction; /* of one cell */
    /* of eq. 4: w = d (one - |d| (two - |d| three)), where |d| is at most push_most_pa */
    double one, two, three;
    double push_most_pa;
} qll_cells;

qll_cells qll_cells_of(size_t count, double impedance_pa_s_m3, double step_s,
                       qll_friction friction);

/** Waves that leave each section: F = P + Z q downstream, G = P - Z q upstream, P = p + rho g z. */
typedef struct qll_waves {
    double *forward, *backward; /* cells + 1 of each */
} qll_waves;

/**
 * Inner sections from @p before to @p after, which do not overlap; the ends of @p after are left as they are. No
 * section is held up by vapor.
 *
 * @return false where that was not right: friction was too much for eq. 4, or P fell below @p least_pa
 */
bool qll_sweep_plain(const qll_cells *cells, qll_waves before, qll_waves after, double least_pa);

/** Where vapor may be: P below which a section does not fall, at the pipe's two ends; straight between. */
typedef struct qll_vapour_line {
    double first_pa, last_pa;
} qll_vapour_line;

/** The greatest and least of twice P so far, by section. */
typedef struct qll_envelope {
    double *twice_high, *twice_low;
} qll_envelope;

/**
 * The same by the root of the friction and with vapor.
 *
 * @param cavity_m3 of each section, in and out; only inner ones are looked at
 * @param envelope  takes the inner sections in; NULL = not wanted
 * @return the room of all cavities afterwards, m3
 */
double qll_sweep_careful(const qll_cells *cells, qll_waves before, qll_waves after,
                         qll_vapour_line vapour, double *cavity_m3, qll_envelope *envelope);

/** Takes the inner sections of a plain sweep in. */
void qll_sweep_envelope(const qll_cells *cells, qll_waves waves, qll_envelope *envelope);

#endif
