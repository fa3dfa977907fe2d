/* Equation numbers are those of docs/theory/stability.md. */
#include "physics/stability.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>

double qll_stability_load(double band_pa, const qll_stability_point *at)
{
    assert(at != NULL);
    return 0.5 * band_pa * (1 / at->drop_pa + 1 / at->outlet_pa_gauge);
}

double qll_stability_damping(double fraction, double load)
{
    return 0.5 * (sqrt(1 + 1 / (fraction * load)) - 1);
}

double qll_stability_fraction(double damping, double load)
{
    return 1 / (4 * damping * (1 + damping) * load);
}

double qll_stability_stiffer_spring(double damping, double band_ratio)
{
    double less = damping / sqrt(band_ratio);
    return damping * (1 + damping) / (less * (1 + less) * band_ratio);
}
