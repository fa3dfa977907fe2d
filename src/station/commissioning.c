#include "station/commissioning.h"

#include "base/customary.h"

#include <math.h>

/* Shares of the greatest flow at which fall-off is tested: what a building can run by hand. */
static const double test_shares[QLL_FALLOFF_TESTS] = {0.25, 0.5};

#define QLL_BAR_PA  1e5
#define QLL_LITRE_S 1e-3

/* The point nearest to a share of the greatest flow, never the one without flow. */
static const qll_operating_point *point_at(const qll_operating_point *points, size_t count,
                                           double share)
{
    double wanted = share * points[count - 1].flow_m3s;
    const qll_operating_point *nearest = &points[count - 1];
    for (size_t i = 1; i < count; i++) {
        if (fabs(points[i].flow_m3s - wanted) < fabs(nearest->flow_m3s - wanted)) {
            nearest = &points[i];
        }
    }
    return nearest;
}

static qll_falloff_test test_at(const qll_operating_point *point, double lockup_pa,
                                double barometric_pa)
{
    double least_pa = lockup_pa - QLL_FALLOFF_NORMAL * (lockup_pa - point->outlet_pa);
    double least_pa_gauge = least_pa - barometric_pa;
    return (qll_falloff_test){
        .flow_m3s = point->flow_m3s,
        .inlet_pa_gauge = point->inlet_pa - barometric_pa,
        .outlet_pa_gauge = point->outlet_pa - barometric_pa,
        .least_pa_gauge = least_pa_gauge < 0.0 ? 0.0 : least_pa_gauge, /* keeps NaN */
    };
}

qll_commissioning qll_commissioning_of(const qll_operating_point *points, size_t count,
                                       double barometric_pa, qll_unit_system units)
{
    static const qll_commissioning limits[] = {
        [QLL_UNITS_US] = {.set_tolerance_pa = 2.0 * QLL_PSI_PA,
                          .creep_tight_pa = 1.0 * QLL_PSI_PA,
                          .creep_leaks_pa = 5.0 * QLL_PSI_PA,
                          .creep_draw_low_m3s = 2.0 * QLL_GPM_M3S,
                          .creep_draw_high_m3s = 5.0 * QLL_GPM_M3S},
        [QLL_UNITS_SI] = {.set_tolerance_pa = 0.15 * QLL_BAR_PA,
                          .creep_tight_pa = 0.1 * QLL_BAR_PA,
                          .creep_leaks_pa = 0.35 * QLL_BAR_PA,
                          .creep_draw_low_m3s = 0.15 * QLL_LITRE_S,
                          .creep_draw_high_m3s = 0.3 * QLL_LITRE_S},
    };

    qll_commissioning made = limits[units];
    for (size_t i = 0; i < QLL_FALLOFF_TESTS; i++) {
        made.falloff[i] =
            test_at(point_at(points, count, test_shares[i]), points[0].outlet_pa, barometric_pa);
    }
    return made;
}
