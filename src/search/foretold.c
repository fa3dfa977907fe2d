#include "search/foretold.h"

#include "base/customary.h"

#include <math.h>

static double set_at_pa(const qll_searching *searching, const qll_placed *of, double inlet_pa)
{
    const double barometric_pa = searching->yardstick->site->barometric_pa;
    const double change_pa = inlet_pa - (of->place->set_inlet_pa_gauge + barometric_pa);
    return of->set_pa_gauge + barometric_pa + of->part->branch.valve->inlet_effect * change_pa;
}

double qll_part_choked_pa(const qll_searching *searching, const qll_part *part, double inlet_pa)
{
    const qll_site *site = searching->yardstick->site;
    const qll_branch *branch = &part->branch;
    const double recovery = branch->recovery > 0.0 ? branch->recovery : branch->valve->fl;
    const double drop_pa =
        recovery * recovery
        * (inlet_pa - qll_valve_ff(&site->water) * site->water.vapour_pressure_pa);
    return fmax(drop_pa, 0.0);
}

double qll_placed_m3s(const qll_searching *searching, const qll_placed *of, double inlet_pa,
                      double outlet_pa)
{
    if (!(inlet_pa > outlet_pa)) {
        return 0.0;
    }
    const double falloff_pa = set_at_pa(searching, of, inlet_pa) - outlet_pa;
    const double driving_pa =
        fmin(inlet_pa - outlet_pa, qll_part_choked_pa(searching, of->part, inlet_pa));
    return qll_branch_curve_at(&of->part->curve, falloff_pa).c * sqrt(driving_pa);
}

/* Steps of halving: far below what a bound leaves. */
#define QLL_REACH_STEPS 40

/* Outlets within a hair of each other, behind the lower of which it passes more than so much and behind the higher no
 * more; both -INFINITY where it never passes more. */
typedef struct reach {
    double low_pa, high_pa;
} reach;

static reach reach_of(const qll_searching *searching, const qll_placed *of, double inlet_pa,
                      double flow_m3s)
{
    double low_pa = searching->yardstick->site->water.vapour_pressure_pa;
    double high_pa = fmin(set_at_pa(searching, of, inlet_pa), inlet_pa);
    if (!(high_pa > low_pa) || !(qll_placed_m3s(searching, of, inlet_pa, low_pa) > flow_m3s)) {
        return (reach){-INFINITY, -INFINITY};
    }
    for (size_t i = 0; i < QLL_REACH_STEPS; i++) {
        const double middle_pa = 0.5 * (low_pa + high_pa);
        const bool is_more = qll_placed_m3s(searching, of, inlet_pa, middle_pa) > flow_m3s;
        low_pa = is_more ? middle_pa : low_pa;
        high_pa = is_more ? high_pa : middle_pa;
    }
    return (reach){low_pa, high_pa};
}

double qll_placed_fast_pa(const qll_searching *searching, const qll_placed *of, double inlet_pa,
                          double flow_m3s)
{
    const double most_m3s = QLL_FASTEST_M_S * of->part->area_m2;
    return most_m3s < flow_m3s ? reach_of(searching, of, inlet_pa, most_m3s).low_pa
                               : -(double)INFINITY;
}

double qll_placed_reach_pa(const qll_searching *searching, const qll_placed *of, double inlet_pa,
                           double flow_m3s)
{
    return reach_of(searching, of, inlet_pa, flow_m3s).high_pa;
}

/* Wear times velocity is a parabola from 8 ft/s on and nothing below: convex, so the mean of the water's is least where
 * all runs alike. */
double qll_peaks_floor(const qll_searching *searching, double area_m2)
{
    const qll_yardstick *yardstick = searching->yardstick;
    double wear = 0.0;
    for (size_t c = 0; c < yardstick->duty->scenario_count; c++) {
        const double over = yardstick->peak_m3s[c] / area_m2 - QLL_WEAR_FROM_M_S;
        const double span = QLL_FASTEST_M_S - QLL_WEAR_FROM_M_S;
        wear += qll_peak_weight(yardstick) * fmin(fmax(over / span, 0.0), 1.0);
    }
    return 1.0 - qll_complaint_chance(wear);
}
