#include "station/setting.h"

#include <math.h>

/* See setting.h: steady, and still close to the set-point. */
#define QLL_SETTING_FLOW_FACTOR 2.0

qll_setting qll_setting_of(const qll_station *station, const qll_site *site, double peak_m3s,
                           size_t stage, size_t branch)
{
    const qll_stage *of = &station->stages[stage];
    const qll_branch *valve = &of->branches[branch];
    double inlet_pa = of->set_inlet_pa_gauge + site->barometric_pa;
    double outlet_pa = valve->set_pa_gauge + site->barometric_pa;
    qll_stability_point sheet = qll_valve_stability_reference(valve->valve);
    double stable_m3s = valve->valve->flow_min_m3s
                        * qll_stability_measure(inlet_pa - outlet_pa, valve->set_pa_gauge)
                        / qll_stability_measure(sheet.drop_pa, sheet.outlet_pa_gauge);
    qll_setting setting = {
        .flow_m3s = fmin(QLL_SETTING_FLOW_FACTOR * stable_m3s, peak_m3s),
        .set_pa_gauge = valve->set_pa_gauge,
        .lockup_pa_gauge = valve->set_pa_gauge + valve->valve->lockup_rise_pa,
    };
    double kv_m3h =
        qll_valve_kv_m3h(setting.flow_m3s, inlet_pa, outlet_pa, valve->valve->fl, &site->water);
    double falloff_pa = valve->law->full_falloff_pa;
    if (kv_m3h > valve->valve->kv_m3h) {
        setting.flow_m3s =
            qll_valve_flow_m3s(valve->valve->kv_m3h, inlet_pa, fmax(outlet_pa - falloff_pa, 0.0),
                               valve->valve->fl, &site->water);
    } else {
        falloff_pa = qll_curve_inverse(valve->law->kv_of_falloff, kv_m3h);
    }
    setting.reading_pa_gauge = valve->set_pa_gauge - falloff_pa;
    return setting;
}
