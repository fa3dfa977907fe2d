#include "demand/change.h"

#include <math.h>

#define QLL_CHANGE_SHARE 0.99
/* Share of full flow at which a direct acting valve is taken to become unstable. */
#define QLL_LOW_SHARE    0.1

static qll_demand_figures figures_of(const qll_demand *demand, double flow_m3s)
{
    const qll_duration *duration = &demand->day.duration;
    return (qll_demand_figures){
        .peak_m3s = demand->peak_m3s,
        .mean_m3s = duration->mean_m3s,
        .quantile_m3s = qll_duration_quantile(duration, QLL_CHANGE_SHARE),
        .idle_share = duration->idle_share,
        .below_share = qll_duration_time_share(duration, flow_m3s),
    };
}

static double ratio(double after, double before)
{
    return before > 0.0 ? after / before : (double)NAN;
}

double qll_demand_low_flow_m3s(const qll_demand *demands, size_t count)
{
    double greatest = 0.0;
    for (size_t i = 0; i < count; i++) {
        greatest = fmax(greatest, demands[i].peak_m3s);
    }
    return QLL_LOW_SHARE * greatest;
}

qll_demand_change qll_demand_change_of(const qll_demand *before, const qll_demand *after,
                                       double flow_m3s)
{
    const qll_demand_figures old = figures_of(before, flow_m3s);
    const qll_demand_figures now = figures_of(after, flow_m3s);
    return (qll_demand_change){.before = old,
                               .after = now,
                               .peak_ratio = ratio(now.peak_m3s, old.peak_m3s),
                               .mean_ratio = ratio(now.mean_m3s, old.mean_m3s),
                               .quantile_ratio = ratio(now.quantile_m3s, old.quantile_m3s),
                               .below_rise = now.below_share - old.below_share};
}
