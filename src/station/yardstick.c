/* What outlets need and bear, worked out once per site: docs/theory/recommendation.md, 1 and 4. */
#include "base/customary.h"
#include "station/hazard.h"

#include <math.h>

/* What the street cannot give is not the valve's fault: below what it does give by so much somebody
 * begins to miss it, and by so much a station is not fit. */
#define QLL_STREET_SOFT_PA (3.0 * QLL_PSI_PA)
#define QLL_STREET_HARD_PA (5.0 * QLL_PSI_PA)

/* dB(A) at 1 m from which people hear it; docs/theory/recommendation.md, 4. */
static const double heard_from_dba[QLL_PEOPLE_COUNT] = {40.0, 55.0, 75.0};

double qll_site_need_pa_gauge(const qll_site *site, double flow_m3s)
{
    if (site->outlet_count == 0) {
        return site->set_pa_gauge - qll_site_falloff_pa(site);
    }
    double most = -INFINITY;
    for (size_t i = 0; i < site->outlet_count; i++) {
        most = fmax(most, qll_outlet_wants_pa_gauge(site, &site->outlets[i], flow_m3s));
    }
    return most;
}

static double need_pa(const qll_site *site, double need_pa_gauge, double inlet_pa, double less_pa)
{
    const double street_pa = fmin(site->set_pa_gauge + site->barometric_pa, inlet_pa) - less_pa;
    return fmin(need_pa_gauge + site->barometric_pa, street_pa);
}

double qll_site_hard_pa(const qll_site *site, double need_pa_gauge, double inlet_pa)
{
    return need_pa(site, need_pa_gauge, inlet_pa, QLL_STREET_HARD_PA);
}

static void fill_points(const qll_site *site, const qll_duty *duty, double *needs)
{
    for (size_t f = 0; f < duty->flow_count; f++) {
        double need_pa_gauge = qll_site_need_pa_gauge(site, duty->flow_m3s[f]);
        for (size_t s = 0; s < duty->supply_count; s++) {
            size_t at = s * duty->flow_count + f;
            needs[at] = need_pa(site, need_pa_gauge, duty->inlet_pa[at], QLL_STREET_SOFT_PA);
        }
    }
}

qll_status qll_yardstick_make(const qll_site *site, const qll_duty *duty,
                              const qll_unknowns *unknowns, qll_arena *arena, qll_yardstick *made)
{
    const size_t scenarios = duty->scenario_count;
    double *needs = qll_arena_take(arena, duty->flow_count * duty->supply_count, sizeof *needs);
    double *peaks = qll_arena_take(arena, scenarios, (3 + QLL_SUPPLY_LEVELS) * sizeof *peaks);
    if (needs == NULL || peaks == NULL) {
        return QLL_NO_MEMORY;
    }
    fill_points(site, duty, needs);
    double *inlets = peaks + scenarios;
    double *peak_needs = inlets + scenarios * QLL_SUPPLY_LEVELS;
    double *hard = peak_needs + scenarios;
    for (size_t c = 0; c < scenarios; c++) {
        peaks[c] = duty->scenarios[c].peak_m3s;
        for (size_t s = 0; s < QLL_SUPPLY_LEVELS; s++) {
            inlets[c * QLL_SUPPLY_LEVELS + s] =
                qll_site_inlet_pa(site, duty->supply_static_pa_gauge[s], peaks[c]);
        }
        double inlet_pa = inlets[c * QLL_SUPPLY_LEVELS];
        double need_pa_gauge = qll_site_need_pa_gauge(site, peaks[c]);
        peak_needs[c] = need_pa(site, need_pa_gauge, inlet_pa, QLL_STREET_SOFT_PA);
        hard[c] = need_pa(site, need_pa_gauge, inlet_pa, QLL_STREET_HARD_PA);
    }
    *made = (qll_yardstick){
        .site = site,
        .duty = duty,
        .unknowns = unknowns,
        .energy_from = pow(10.0, heard_from_dba[site->people] / 10.0),
        .need_pa = needs,
        .peak_m3s = peaks,
        .peak_inlet_pa = inlets,
        .peak_need_pa = peak_needs,
        .peak_hard_pa = hard,
        .pipe_m = site->header == NULL ? site->pipe_limit_m : site->header->nominal_m,
        .rest_most_pa =
            site->static_max_pa_gauge + site->barometric_pa - qll_site_lowest_column_pa(site),
    };
    return QLL_OK;
}
