#include "station/commissioning.h"

#include "base/customary.h"

#include <math.h>

/* Shares of the greatest flow at which fall-off is tested: what a building can run by hand. */
static const double test_shares[QLL_FALLOFF_TESTS] = {0.25, 0.5};

#define QLL_LITRE_S 1e-3

/* A flow of so much or more is read to the coarser step: whole gpm, 0.1 L/s; below to 1/4 gpm, 0.05 L/s (our
 * assumption). */
#define QLL_COARSE_US_M3S (8.0 * QLL_GPM_M3S)
#define QLL_COARSE_SI_M3S (0.5 * QLL_LITRE_S)

/* @p wanted_m3s as it is read; itself where that would be none, or more than the peak. */
static double readable_m3s(double wanted_m3s, double peak_m3s, qll_unit_system units)
{
    bool is_si = units == QLL_UNITS_SI;
    bool is_coarse = wanted_m3s >= (is_si ? QLL_COARSE_SI_M3S : QLL_COARSE_US_M3S);
    double fine_m3s = is_si ? 0.05 * QLL_LITRE_S : 0.25 * QLL_GPM_M3S;
    double coarse_m3s = is_si ? 0.1 * QLL_LITRE_S : QLL_GPM_M3S;
    double step_m3s = is_coarse ? coarse_m3s : fine_m3s;
    double rounded_m3s = step_m3s * round(wanted_m3s / step_m3s);
    return rounded_m3s > 0.0 && rounded_m3s <= peak_m3s ? rounded_m3s : wanted_m3s;
}

/* The station in the middle of its supply. */
typedef struct trial {
    const qll_station *station;
    const qll_site *site;
    qll_arena *arena;
} trial;

/* Outlet at @p flow_m3s with @p more_pa above the inlet that it leaves; that inlet too, both absolute. */
static qll_status run(const trial *of, double flow_m3s, double more_pa, double *inlet_pa,
                      double *outlet_pa)
{
    const qll_supply *supply = &of->site->supply;
    double static_pa_gauge = 0.5 * (supply->static_low_pa_gauge + supply->static_high_pa_gauge);
    qll_operating_point point;
    qll_arena_mark before = qll_arena_now(of->arena);
    *inlet_pa = qll_site_inlet_pa(of->site, static_pa_gauge, flow_m3s) + more_pa;
    qll_status status =
        qll_station_operate(of->station, of->site, *inlet_pa, flow_m3s, of->arena, &point);
    *outlet_pa = status == QLL_OK ? point.outlet_pa : (double)NAN;
    qll_arena_reset(of->arena, before);
    return status;
}

static qll_status make_test(const trial *of, double lockup_pa, qll_falloff_test *test)
{
    double barometric_pa = of->site->barometric_pa;
    double inlet_pa = NAN;
    double outlet_pa = NAN;
    double higher_pa = NAN;
    qll_status status = run(of, test->flow_m3s, 10.0 * QLL_PSI_PA, &inlet_pa, &higher_pa);
    if (status == QLL_OK) {
        status = run(of, test->flow_m3s, 0.0, &inlet_pa, &outlet_pa);
    }
    double least_pa = lockup_pa - QLL_FALLOFF_NORMAL * (lockup_pa - outlet_pa);
    double least_pa_gauge = least_pa - barometric_pa;
    test->inlet_pa_gauge = inlet_pa - barometric_pa;
    test->outlet_pa_gauge = outlet_pa - barometric_pa;
    test->least_pa_gauge = least_pa_gauge < 0.0 ? 0.0 : least_pa_gauge; /* keeps NaN */
    test->correction_pa_per_10psi = higher_pa - outlet_pa;
    return status;
}

qll_status qll_commissioning_make(const qll_station *station, const qll_site *site, double peak_m3s,
                                  double reach_m3s, qll_unit_system units, qll_arena *arena,
                                  qll_commissioning *tests)
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

    const trial of = {station, site, arena};
    const double most_m3s = fmin(peak_m3s, 2.0 * reach_m3s); /* the larger test is at half */
    double inlet_pa = NAN;
    double lockup_pa = NAN;
    *tests = limits[units];
    qll_status status = run(&of, 0.0, 0.0, &inlet_pa, &lockup_pa);
    for (size_t i = 0; i < QLL_FALLOFF_TESTS && status == QLL_OK; i++) {
        tests->falloff[i].flow_m3s = readable_m3s(test_shares[i] * most_m3s, peak_m3s, units);
        status = make_test(&of, lockup_pa, &tests->falloff[i]);
    }
    return status;
}
