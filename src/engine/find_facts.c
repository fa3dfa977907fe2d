/* What a survey with a station tells of a case: docs/theory/diagnosis.md 2. */
#include "base/customary.h"
#include "engine/diagnose.h"
#include "station/operate.h"

#include <math.h>

/* A fall-off that gauges can hardly read tells nothing by its ratio: 1 psi (our assumption). */
#define QLL_FALLOFF_READ_PA QLL_PSI_PA
/* People hear what is there for so much of the time that water runs (our assumption): the design peak is hardly ever. */
#define QLL_BUSY_SHARE      0.99

/* The flow that is not exceeded for that share of the time with flow, in the busiest scenario. */
static double busy_flow_m3s(const qll_duty *duty)
{
    double busy = 0.0;
    for (size_t s = 0; s < duty->scenario_count; s++) {
        const double *time = &duty->time_share[s * duty->flow_count];
        const double flowing = 1.0 - duty->scenarios[s].idle_share;
        double seen = 0.0;
        size_t f = 0;
        while (f + 1 < duty->flow_count && seen + time[f] < QLL_BUSY_SHARE * flowing) {
            seen += time[f];
            f += 1;
        }
        busy = fmax(busy, duty->flow_m3s[f]);
    }
    return busy;
}

static double highest_velocity_m_s(const qll_station *station, const qll_operating_point *point)
{
    double highest = 0.0;
    for (size_t s = 0; s < station->stage_count; s++) {
        for (size_t b = 0; b < station->stages[s].branch_count; b++) {
            highest = fmax(highest, point->branches[s][b].velocity_m_s);
        }
    }
    return highest;
}

static qll_status find_velocity(qll_asked *asked, const qll_checked *checked, qll_case_facts *facts)
{
    const qll_site *site = &checked->prepared.survey.site;
    const qll_duty *duty = &checked->duty;
    const double flow_m3s = busy_flow_m3s(duty);
    const double standing = duty->supply_static_pa_gauge[duty->supply_count / 2];
    qll_operating_point point;
    const qll_status status =
        qll_station_operate(&checked->station, site, qll_site_inlet_pa(site, standing, flow_m3s),
                            flow_m3s, asked->arena, &point);
    if (status == QLL_OK) {
        facts->velocity_m_s = highest_velocity_m_s(&checked->station, &point);
    }
    return status;
}

/* Fall-off that was measured over what the station does at that flow and inlet. */
static qll_status find_falloff(qll_asked *asked, const qll_checked *checked, const qll_case *of,
                               qll_case_facts *facts)
{
    const qll_site *site = &checked->prepared.survey.site;
    const qll_gauge_reading *still = qll_case_reading(of, QLL_GAUGE_OUTLET, false);
    const qll_gauge_reading *flowing = qll_case_reading(of, QLL_GAUGE_OUTLET, true);
    const qll_gauge_reading *inlet = qll_case_reading(of, QLL_GAUGE_INLET, true);
    if (still == NULL || flowing == NULL) {
        return QLL_OK;
    }
    const qll_duty *duty = &checked->duty;
    const double standing = duty->supply_static_pa_gauge[duty->supply_count / 2];
    const double inlet_pa = inlet != NULL ? inlet->pressure_pa_gauge + site->barometric_pa
                                          : qll_site_inlet_pa(site, standing, flowing->flow_m3s);
    qll_operating_point at_rest;
    qll_operating_point running;
    qll_status status =
        qll_station_operate(&checked->station, site, inlet_pa, 0.0, asked->arena, &at_rest);
    status = status == QLL_OK ? qll_station_operate(&checked->station, site, inlet_pa,
                                                    flowing->flow_m3s, asked->arena, &running)
                              : status;
    if (status != QLL_OK) {
        return status;
    }
    const double expected = at_rest.outlet_pa - running.outlet_pa;
    const double measured = still->pressure_pa_gauge - flowing->pressure_pa_gauge;
    if (expected >= QLL_FALLOFF_READ_PA) {
        facts->falloff_ratio = fmax(measured, 0.0) / expected;
    }
    return QLL_OK;
}

static double low_flow_share(const qll_time_shares *shares)
{
    const double flowing = 1.0 - shares->idle;
    return flowing > 0.0 ? shares->below_stable / flowing : (double)NAN;
}

qll_status qll_find_facts(qll_asked *asked, const qll_checked *checked, const qll_case *of,
                          qll_case_facts *facts)
{
    const qll_assessment *assessment = &checked->assessment;
    for (size_t i = 0; i < assessment->verdict_count; i++) {
        const qll_verdict *verdict = &assessment->verdicts[i];
        facts->ratio = verdict->rule == QLL_RULE_RATIO ? verdict->value : facts->ratio;
    }
    facts->low_flow_share = low_flow_share(&assessment->shares);
    const qll_status status = find_velocity(asked, checked, facts);
    return status == QLL_OK ? find_falloff(asked, checked, of, facts) : status;
}
