/* Least flow at which a reducing valve throttles steadily, and how it moves with the pressures. */
#ifndef QUELL_PHYSICS_STABILITY_H
#define QUELL_PHYSICS_STABILITY_H

#include <math.h>

/**
 * A linear model of a direct-acting valve against an outlet pipe of any length, with a stiff inlet
 * (docs/theory/stability.md; our own derivation). Its mass and damping are on no data sheet, so it is
 * never used to predict: it only scales what a sheet states. NaN in, NaN out.
 */
typedef struct qll_stability_point {
    double drop_pa;         /* over the valve, > 0 */
    double outlet_pa_gauge; /* > 0 */
} qll_stability_point;

/** gB = B/2 (1/drop + 1/outlet): drop and load against the fall-off at full travel @p band_pa. */
double qll_stability_load(double band_pa, const qll_stability_point *at);

/**
 * Damping ratio of the moving parts that belongs to a least stable flow of @p fraction of the flow
 * at full opening, under @p load: 1/2 (-1 + sqrt(1 + 1/(fraction load))).
 */
double qll_stability_damping(double fraction, double load);

/** The inverse: 1/(4 damping (1 + damping) load). Above 1 no flow is steady. */
double qll_stability_fraction(double damping, double load);

/**
 * What the least stable flow grows with: sqrt(drop) / (1/drop + 1/outlet). Its ratio between two
 * points is that of the least stable flows of one valve. 0 where there is no drop or no pressure
 * behind it.
 */
static inline double qll_stability_measure(double drop_pa, double outlet_pa_gauge)
{
    if (drop_pa <= 0 || outlet_pa_gauge <= 0) {
        return 0;
    }
    return sqrt(drop_pa) * drop_pa * outlet_pa_gauge / (drop_pa + outlet_pa_gauge);
}

/**
 * The same ratio with @p band_ratio times the fall-off at full travel. With the damping ratio kept
 * (another valve of the same build) it is 1/band_ratio; by a stiffer spring alone the damping ratio
 * falls with the root of the stiffness, and less is won.
 *
 * @param damping at the smaller band, from qll_stability_damping()
 */
double qll_stability_stiffer_spring(double damping, double band_ratio);

#endif
