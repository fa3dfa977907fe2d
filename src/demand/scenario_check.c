/* What the survey's reader has checked already, with places; a scenario may have no reader. */
#include "demand/day_model.h"
#include "demand/scenario.h"

#include <math.h>

static bool is_between(double value, double least, double most)
{
    return value >= least && value <= most;
}

static const char *fault_of_loads(const qll_scenario *scenario)
{
    size_t left = QLL_FIXTURE_COUNT_MAX;
    for (size_t i = 0; i < scenario->load_count; i++) {
        const qll_fixture_load *load = &scenario->loads[i];
        const size_t each = load->kind->part_count > 0 ? load->kind->part_count : 1;
        if (load->count > left / each) {
            return "a building has at most 1,000,000 fixtures";
        }
        left -= load->count * each;
        if ((size_t)load->occupancy >= QLL_OCCUPANCY_COUNT) {
            return "a fixture is private or public";
        }
        if (!isnan(load->flow_m3s) && !(load->flow_m3s > 0.0 && isfinite(load->flow_m3s))) {
            return "a fixture's flow is over 0";
        }
        if (!isnan(load->use_probability) && !is_between(load->use_probability, 0.0, 1.0)) {
            return "a use_probability is a number from 0 to 1";
        }
    }
    return NULL;
}

static const char *fault_of_continuous(const qll_scenario *scenario)
{
    for (size_t i = 0; i < scenario->continuous_count; i++) {
        const qll_continuous *flow = &scenario->continuous[i];
        if (!(flow->flow_m3s >= 0.0 && isfinite(flow->flow_m3s))
            || !is_between(flow->from_s, 0.0, QLL_DAY_S)
            || !is_between(flow->to_s, 0.0, QLL_DAY_S)) {
            return "a continuous flow is not negative and its hours lie between 00:00 and 24:00";
        }
    }
    return NULL;
}

static const char *fault_of_hours(const qll_scenario *scenario)
{
    double sum = 0.0;
    for (size_t h = 0; h < 24; h++) {
        sum += is_between(scenario->hourly[h], 0.0, 24.0 + 1e-9) ? scenario->hourly[h] : HUGE_VAL;
    }
    return scenario->has_hourly && !is_between(sum, 24.0 - 1e-6, 24.0 + 1e-6)
               ? "the hours of a day are 24 numbers of mean 1"
               : NULL;
}

/* Limits are our assumption. */
static const char *fault_of_day(const qll_scenario *scenario)
{
    if ((size_t)scenario->day >= QLL_DAY_KIND_COUNT) {
        return "the day is a weekday, a saturday or a sunday";
    }
    if (!is_between(scenario->day_volume_m3, 0.0, 10.0)) {
        return "a person's water is at most 10 m3 (2640 gal) a day";
    }
    if (!is_between(scenario->rate_cv, 0.0, 2.0)) {
        return "the variation of rates from day to day is a number from 0 to 2";
    }
    if (!is_between(scenario->hour_cv, 0.0, 3.0)
        || !is_between(scenario->building_hour_cv, 0.0, 1.0)) {
        return "the variation of rates from hour to hour is a number from 0 to 3";
    }
    if ((size_t)scenario->habits >= QLL_HABITS_COUNT
        || (size_t)scenario->outdoor >= QLL_OUTDOOR_COUNT
        || (size_t)scenario->season >= QLL_SEASON_COUNT) {
        return "habits, outdoor and season are among their words";
    }
    if (!is_between(scenario->break_share, 0.0, 1.0)
        || !(is_between(scenario->break_s, 60.0, 3600.0)
             || (scenario->break_s == 0.0 && scenario->break_share == 0.0))) {
        return "a break holds a share from 0 to 1 of an hour's uses and lasts 1 to 60 minutes";
    }
    const double pressures[] = {scenario->outlet_pa_gauge, scenario->reference_pa_gauge};
    for (size_t i = 0; i < 2; i++) {
        if (pressures[i] != 0.0 && !is_between(pressures[i], 6894.0, 2.1e6)) {
            return "pressures at outlets lie between 1 psi and 300 psi";
        }
    }
    return NULL;
}

static bool duration_rises(const qll_duration *duration)
{
    for (size_t i = 0; i < duration->count; i++) {
        const qll_duration_point *here = &duration->points[i];
        const bool is_first = i == 0;
        if (!is_between(here->flow_m3s, is_first ? 0.0 : here[-1].flow_m3s, HUGE_VAL)
            || !isfinite(here->flow_m3s)
            || !is_between(here->time_share, is_first ? 0.0 : here[-1].time_share, 1.0)
            || !is_between(here->volume_share, is_first ? 0.0 : here[-1].volume_share, 1.0)) {
            return false;
        }
    }
    return duration->count > 0 && duration->points[duration->count - 1].time_share == 1.0;
}

static const char *fault_of_log(const qll_metered *log)
{
    if (log == NULL) {
        return NULL;
    }
    if (!duration_rises(&log->duration) || !(log->duration.mean_m3s >= 0.0)
        || !is_between(log->duration.idle_share, 0.0, 1.0)) {
        return "the flow duration of a meter's log rises from 0 to 1";
    }
    if (log->peak_count == 0 || !(log->interval_s >= 0.0) || !(log->time_s > 0.0)) {
        return "a meter's log needs readings, their interval and a peak";
    }
    for (size_t i = 0; i < log->peak_count; i++) {
        const qll_metered_peak *peak = &log->peaks[i];
        if (!(peak->averaging_s > (i == 0 ? 0.0 : peak[-1].averaging_s))
            || !is_between(peak->flow_m3s, 0.0, HUGE_VAL) || !isfinite(peak->flow_m3s)) {
            return "the peaks of a meter's log are not negative and their averaging times rise";
        }
    }
    return NULL;
}

const char *qll_scenario_fault(const qll_scenario *scenario)
{
    if (!is_between(scenario->people, 0.0, QLL_PEOPLE_MAX)
        || !(isnan(scenario->homes) || is_between(scenario->homes, 0.0, QLL_PEOPLE_MAX))) {
        return "people and homes are numbers from 0 to 1,000,000";
    }
    if (!(scenario->quantile > 0.0 && scenario->quantile < 1.0)) {
        return "the quantile is a number over 0 and under 1, for example 0.99";
    }
    const char *fault = fault_of_loads(scenario);
    fault = fault == NULL ? fault_of_continuous(scenario) : fault;
    fault = fault == NULL ? fault_of_day(scenario) : fault;
    fault = fault == NULL ? fault_of_hours(scenario) : fault;
    return fault == NULL ? fault_of_log(scenario->metered) : fault;
}
