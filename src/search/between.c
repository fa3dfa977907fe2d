#include "search/between.h"

#include "physics/cavitation.h"

#include <math.h>

static double highest_pa(const qll_yardstick *yardstick)
{
    return yardstick->duty->inlet_static_pa[QLL_SUPPLY_LEVELS - 1];
}

bool qll_between_equal(const qll_yardstick *yardstick, double held_pa_gauge,
                       double *between_pa_gauge)
{
    const qll_site *site = yardstick->site;
    const double high_pa = highest_pa(yardstick);
    const double set_pa = held_pa_gauge + site->barometric_pa;
    double middle_pa = NAN;
    if (!(high_pa > set_pa)
        || !qll_stage_split(high_pa, set_pa, site->water.vapour_pressure_pa, 2, NULL, false,
                            &middle_pa)) {
        return false;
    }
    *between_pa_gauge =
        round((middle_pa - site->barometric_pa) / QLL_BETWEEN_STEP_PA) * QLL_BETWEEN_STEP_PA;
    return true;
}

size_t qll_between_pressures(const qll_yardstick *yardstick, double held_pa_gauge,
                             double between_pa_gauge[QLL_BETWEEN_MOST])
{
    const qll_site *site = yardstick->site;
    double equal_pa_gauge;
    if (!qll_between_equal(yardstick, held_pa_gauge, &equal_pa_gauge)) {
        return 0;
    }
    const double high_pa_gauge = highest_pa(yardstick) - site->barometric_pa;
    const double least_pa_gauge = held_pa_gauge + QLL_BETWEEN_STEP_PA;
    const double most_pa_gauge = high_pa_gauge - QLL_BETWEEN_STEP_PA;
    const double middle_step = round(equal_pa_gauge / QLL_BETWEEN_STEP_PA);
    size_t count = 0;
    for (int i = 0; i <= 2 * QLL_BETWEEN_STEPS; i++) {
        int step = i % 2 == 1 ? -(i + 1) / 2 : i / 2; /* 0, -1, 1, -2, 2 */
        double pa_gauge = (middle_step + step) * QLL_BETWEEN_STEP_PA;
        if (pa_gauge >= least_pa_gauge && pa_gauge <= most_pa_gauge
            && qll_keeps_ratio(site, high_pa_gauge, pa_gauge)
            && qll_keeps_ratio(site, pa_gauge, held_pa_gauge)) {
            between_pa_gauge[count] = pa_gauge;
            count += 1;
        }
    }
    return count;
}

bool qll_between_many(const qll_searching *searching, size_t stages,
                      double between_pa_gauge[QLL_STAGES_MOST])
{
    const qll_site *site = searching->yardstick->site;
    double split_pa[QLL_STAGES_MOST];
    if (!qll_stage_split(highest_pa(searching->yardstick), site->set_pa_gauge + site->barometric_pa,
                         site->water.vapour_pressure_pa, stages, NULL, false, split_pa)) {
        return false;
    }
    double before_pa_gauge = highest_pa(searching->yardstick) - site->barometric_pa;
    for (size_t i = 0; i + 1 < stages; i++) {
        between_pa_gauge[i] =
            round((split_pa[i] - site->barometric_pa) / QLL_BETWEEN_STEP_PA) * QLL_BETWEEN_STEP_PA;
        if (!qll_keeps_ratio(site, before_pa_gauge, between_pa_gauge[i])) {
            return false;
        }
        before_pa_gauge = between_pa_gauge[i];
    }
    return qll_keeps_ratio(site, before_pa_gauge, site->set_pa_gauge);
}
