/* Flows that run by the clock, as stretches of the day. */
#include "demand/day_model.h"
#include "demand/demand.h"

#include <math.h>

static bool runs_at(const qll_continuous *flow, double time_s)
{
    if (flow->from_s == flow->to_s) {
        return true;
    }
    if (flow->from_s < flow->to_s) {
        return time_s >= flow->from_s && time_s < flow->to_s;
    }
    return time_s >= flow->from_s || time_s < flow->to_s;
}

/* The first start or stop after @p time_s, but not after @p end_s. */
static double next_cut(const qll_scenario *scenario, double time_s, double end_s)
{
    double cut = end_s;
    for (size_t i = 0; i < scenario->continuous_count; i++) {
        const double edges[] = {scenario->continuous[i].from_s, scenario->continuous[i].to_s};
        for (size_t e = 0; e < 2; e++) {
            cut = edges[e] > time_s ? fmin(cut, edges[e]) : cut;
        }
    }
    return cut;
}

qll_status qll_steady_day(const qll_scenario *scenario, qll_arena *arena,
                          const qll_steady **stretches, size_t *count)
{
    /* Every start and stop cuts at most one stretch in two. */
    qll_steady *list = qll_arena_take(arena, 24 + 2 * scenario->continuous_count, sizeof *list);
    if (list == NULL) {
        return QLL_NO_MEMORY;
    }
    *count = 0;
    const double break_s = scenario->break_share > 0.0 ? scenario->break_s : 0.0;
    for (size_t hour = 0; hour < 24; hour++) {
        const double end_s = QLL_HOUR_S * (double)(hour + 1);
        double time_s = QLL_HOUR_S * (double)hour;
        while (time_s < end_s) {
            const double cut_s = next_cut(scenario, time_s, end_s);
            double flow_m3s = 0.0;
            for (size_t i = 0; i < scenario->continuous_count; i++) {
                const qll_continuous *flow = &scenario->continuous[i];
                flow_m3s += runs_at(flow, time_s) ? flow->flow_m3s : 0.0;
            }
            const double left_s = QLL_HOUR_S * (double)hour + break_s - time_s;
            list[*count] = (qll_steady){.hour = hour,
                                        .duration_s = cut_s - time_s,
                                        .break_s = fmax(0.0, fmin(left_s, cut_s - time_s)),
                                        .flow_m3s = flow_m3s};
            *count += 1;
            time_s = cut_s;
        }
    }
    *stretches = list;
    return QLL_OK;
}

qll_status qll_continuous_peak(const qll_scenario *scenario, qll_arena *arena, double *flow_m3s)
{
    const qll_steady *stretches;
    size_t count;
    const qll_status status = qll_steady_day(scenario, arena, &stretches, &count);
    *flow_m3s = 0.0;
    for (size_t i = 0; status == QLL_OK && i < count; i++) {
        *flow_m3s = fmax(*flow_m3s, stretches[i].flow_m3s);
    }
    return status;
}
