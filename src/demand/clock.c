/* Flows that run by the clock beside the peak: a code adds them whenever they run. */
#include "demand/day_model.h"
#include "demand/peaks.h"

#include <math.h>

/* A flow that is less than this of the design peak is not worth a sentence (our assumption). */
#define QLL_CLOCK_SHARE 0.1

/* The hour in which people draw most, flows by the clock left aside; 24 if nobody draws. */
static size_t busiest_hour(const qll_pulse_day *day)
{
    size_t busiest = 24;
    double most_m3s = 0.0;
    for (size_t h = 0; h < 24; h++) {
        if (day->hours[h].mean_m3s > most_m3s) {
            most_m3s = day->hours[h].mean_m3s;
            busiest = h;
        }
    }
    return busiest;
}

/* Does the flow run at any time of that hour? */
static bool meets(const qll_continuous *flow, size_t hour)
{
    const double start_s = QLL_HOUR_S * (double)hour;
    const double end_s = start_s + QLL_HOUR_S;
    if (flow->from_s < flow->to_s) {
        return flow->from_s < end_s && flow->to_s > start_s;
    }
    return flow->from_s < end_s || flow->to_s > start_s;
}

/* The greatest sum of all continuous flows but one. */
static double peak_without_m3s(qll_peaks *all, size_t left_out)
{
    const qll_scenario *scenario = all->scenario;
    const size_t count = scenario->continuous_count;
    qll_continuous *others = qll_arena_take(all->arena, count, sizeof *others);
    if (others == NULL) {
        return 0.0;
    }
    qll_scenario rest = *scenario;
    rest.continuous = others;
    rest.continuous_count = 0;
    for (size_t i = 0; i < count; i++) {
        if (i != left_out) {
            others[rest.continuous_count] = scenario->continuous[i];
            rest.continuous_count += 1;
        }
    }
    double most_m3s = 0.0;
    return qll_continuous_peak(&rest, all->arena, &most_m3s) == QLL_OK ? most_m3s : 0.0;
}

static bool adds_continuous(qll_peak_method method)
{
    return method != QLL_PEAK_GIVEN && method != QLL_PEAK_METERED && method != QLL_PEAK_PULSE_MODEL;
}

void qll_remark_clock(qll_peaks *all, const qll_demand *demand, qll_remarks *remarks)
{
    const size_t hour = busiest_hour(&demand->day);
    if (hour == 24 || demand->estimate_count == 0
        || !adds_continuous(demand->estimates[demand->chosen].method)) {
        return;
    }
    for (size_t i = 0; i < all->scenario->continuous_count; i++) {
        const qll_continuous *flow = &all->scenario->continuous[i];
        if (flow->flow_m3s < QLL_CLOCK_SHARE * demand->peak_m3s) {
            continue;
        }
        const double without_m3s =
            demand->peak_m3s - all->continuous_m3s + peak_without_m3s(all, i);
        const bool is_met = meets(flow, hour);
        qll_peaks_note(all, remarks,
                       (qll_remark){.id = is_met ? QLL_REMARK_CLOCK_MEETS : QLL_REMARK_CLOCK_APART,
                                    .name = flow->name,
                                    .figures = {flow->flow_m3s, QLL_HOUR_S * (double)hour,
                                                demand->peak_m3s, without_m3s}});
    }
}
