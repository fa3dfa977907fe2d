/* Trims of many holes and of several stages, and sources that sound together. */
#include "physics/noise_parts.h"

#include <assert.h>
#include <math.h>

double qll_level_sum_db(const double *levels_db, size_t count)
{
    assert(levels_db != NULL || count == 0);
    double energy = 0;
    for (size_t i = 0; i < count; i++) {
        energy += pow(10, levels_db[i] / 10);
    }
    return energy == 0 ? -(double)INFINITY : 10 * log10(energy);
}

double qll_xfz_holes(double hole_count, double hole_m, double fl)
{
    if (!(hole_count >= 1 && hole_m > 0 && fl > 0)) {
        return NAN;
    }
    return 1 / sqrt(4.5 + 1650 * hole_count * hole_m * hole_m / fl);
}

bool qll_noise_stage_inlets(double inlet_pa, double outlet_pa, const double *coefficients,
                            size_t count, double *inlets_pa)
{
    assert(coefficients != NULL && inlets_pa != NULL);
    double sum = 0;
    for (size_t i = 0; i < count; i++) {
        if (!(coefficients[i] > 0)) {
            return false;
        }
        sum += 1 / (coefficients[i] * coefficients[i]);
    }
    double pressure_pa = inlet_pa;
    for (size_t i = 0; i < count; i++) {
        inlets_pa[i] = pressure_pa;
        pressure_pa -= (inlet_pa - outlet_pa) / (coefficients[i] * coefficients[i]) / sum;
    }
    return count > 0;
}

double qll_noise_last_stage_drop_pa(double inlet_pa, double outlet_pa, double vapour_pressure_pa,
                                    double xfzp1)
{
    return fmin(inlet_pa - outlet_pa, xfzp1 * (inlet_pa - vapour_pressure_pa));
}

double qll_noise_last_stage_seat_m(double coefficient, qll_coefficient_form form)
{
    assert(form < QLL_FORM_COUNT);
    const double mm_m = 0.001;
    return 5.2 * sqrt(qll_noise_n34[form] * coefficient) * mm_m;
}

double qll_fd_holes(double hole_count)
{
    return hole_count >= 1 ? 1 / sqrt(hole_count) : (double)NAN;
}
