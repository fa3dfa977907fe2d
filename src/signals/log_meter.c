/* What the meter itself does to the figures: it counts in steps, and it may settle slowly
 * (docs/theory/flow_log.md). */
#include "signals/log_reader.h"

#include <math.h>

/* Share of the flowing time that must be whole multiples of a step. */
#define QLL_STEP_TIME_SHARE 0.98
#define QLL_STEP_SLACK      0.02 /* of a step */
/* A step is coarse when it is over the mean flow and the greatest flow holds no more of them. */
#define QLL_COARSE_STEPS    4.5
/* A mean of fewer steps is not resolved. */
#define QLL_RESOLVED_STEPS  4.0
/* Alone among so many intervals a step's flow is a count and no load. */
#define QLL_ALONE_INTERVALS 4.0
#define QLL_ALONE_SHARE     0.6

/* The least flow of the log, if nearly all others are whole multiples of it; else NaN. */
static double least_multiple_m3s(const qll_flow_log_result *result)
{
    double step_m3s = (double)NAN;
    double before = 0.0;
    double flowing = 0.0;
    double fitting = 0.0;
    for (size_t i = 0; i < result->point_count; i++) {
        const qll_log_point *point = &result->points[i];
        const double time = point->time_share - before;
        before = point->time_share;
        if (point->flow_m3s <= 0.0) {
            continue;
        }
        step_m3s = isnan(step_m3s) ? point->flow_m3s : step_m3s;
        const double steps = point->flow_m3s / step_m3s;
        flowing += time;
        fitting += fabs(steps - round(steps)) <= QLL_STEP_SLACK ? time : 0.0;
    }
    return fitting >= QLL_STEP_TIME_SHARE * flowing ? step_m3s : (double)NAN;
}

/* Does a flow never last? Then its rows are counts that fell into single intervals. */
static bool is_alone(const qll_flow_log_result *result)
{
    for (size_t w = 0; w < QLL_LOG_PEAKS; w++) {
        const qll_log_peak *peak = &result->peaks[w];
        if (peak->window_s >= QLL_ALONE_INTERVALS * result->interval_s
            && isfinite(peak->rolling_m3s)) {
            return peak->rolling_m3s <= QLL_ALONE_SHARE * result->max_m3s;
        }
    }
    return false;
}

static double step_of(const qll_records *records, const qll_flow_log_result *result)
{
    if (result->kind == QLL_LOG_KIND_PULSES) {
        return result->quantum_m3s;
    }
    if (result->kind == QLL_LOG_KIND_REGISTER && records->register_step > 0.0) {
        return records->register_step * records->rule.factor / result->interval_s;
    }
    if (result->kind == QLL_LOG_KIND_FLOW || result->kind == QLL_LOG_KIND_VOLUME) {
        return is_alone(result) ? least_multiple_m3s(result) : (double)NAN;
    }
    return (double)NAN;
}

/* No idle share and no peak from single counts; the flow duration is that of whole hours. */
static bool leave_coarse_out(const qll_records *records, qll_arena *arena,
                             qll_flow_log_result *result)
{
    for (size_t w = 0; w < QLL_LOG_PEAKS; w++) {
        qll_log_peak *peak = &result->peaks[w];
        const double least_m3s =
            QLL_RESOLVED_STEPS * result->step_m3s * result->interval_s / peak->window_s;
        if (!(peak->rolling_m3s >= least_m3s)) {
            peak->rolling_m3s = peak->block_m3s = peak->zero_share = (double)NAN;
        }
    }
    result->idle_share = (double)NAN;
    return qll_statistics_hours(&records->statistics, arena, result);
}

bool qll_log_meter_of(const qll_records *records, qll_arena *arena, qll_flow_log_result *result)
{
    const double step_m3s = step_of(records, result);
    const bool matters = step_m3s > result->mean_m3s && result->max_m3s > 0.0;
    result->step_m3s = matters ? step_m3s : (double)NAN;
    result->has_coarse_step = matters && result->max_m3s <= QLL_COARSE_STEPS * step_m3s;
    result->damping_s = qll_damping_time_s(records->damping);
    return !result->has_coarse_step || leave_coarse_out(records, arena, result);
}
