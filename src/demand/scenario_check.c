/* What the survey's reader has checked already, with places; a scenario may have no reader. */
#include "base/customary.h"
#include "demand/day_model.h"
#include "demand/scenario.h"

#include <math.h>

/* Limits are our assumption. */
static const double day_volume_most_m3 = 10.0;
static const double outlet_least_pa = 1.0 * QLL_PSI_PA;
static const double outlet_most_pa = 300.0 * QLL_PSI_PA;
/* What a unit's rounding may add. */
static const double rounding = 1e-3;

static qll_said none(void)
{
    return (qll_said){.id = QLL_TEXT_NONE};
}

static qll_said fault(qll_text_id id)
{
    return (qll_said){.id = id};
}

static bool is_between(double value, double least, double most)
{
    return value >= least && value <= most;
}

static qll_said fault_of_loads(const qll_scenario *scenario)
{
    size_t left = QLL_FIXTURE_COUNT_MAX;
    for (size_t i = 0; i < scenario->load_count; i++) {
        const qll_fixture_load *load = &scenario->loads[i];
        const size_t each = load->kind->part_count > 0 ? load->kind->part_count : 1;
        if (load->count > left / each) {
            return fault(QLL_TEXT_FAULT_FIXTURES);
        }
        left -= load->count * each;
        if ((size_t)load->occupancy >= QLL_OCCUPANCY_COUNT) {
            return fault(QLL_TEXT_FAULT_OCCUPANCY);
        }
        if (!isnan(load->flow_m3s) && !(load->flow_m3s > 0.0 && isfinite(load->flow_m3s))) {
            return fault(QLL_TEXT_FAULT_FIXTURE_FLOW);
        }
        if (!isnan(load->use_probability) && !is_between(load->use_probability, 0.0, 1.0)) {
            return fault(QLL_TEXT_FAULT_PROBABILITY);
        }
    }
    return none();
}

static qll_said fault_of_continuous(const qll_scenario *scenario)
{
    for (size_t i = 0; i < scenario->continuous_count; i++) {
        const qll_continuous *flow = &scenario->continuous[i];
        if (!(flow->flow_m3s >= 0.0 && isfinite(flow->flow_m3s))
            || !is_between(flow->from_s, 0.0, QLL_DAY_S)
            || !is_between(flow->to_s, 0.0, QLL_DAY_S)) {
            return fault(QLL_TEXT_FAULT_CONTINUOUS);
        }
    }
    return none();
}

static qll_said fault_of_hours(const qll_scenario *scenario)
{
    double sum = 0.0;
    for (size_t h = 0; h < 24; h++) {
        sum += is_between(scenario->hourly[h], 0.0, 24.0 + 1e-9) ? scenario->hourly[h] : HUGE_VAL;
    }
    return scenario->has_hourly && !is_between(sum, 24.0 - 1e-6, 24.0 + 1e-6)
               ? fault(QLL_TEXT_FAULT_HOURS)
               : none();
}

static qll_said fault_of_day(const qll_scenario *scenario)
{
    if ((size_t)scenario->day >= QLL_DAY_KIND_COUNT) {
        return fault(QLL_TEXT_FAULT_DAY);
    }
    if (!is_between(scenario->day_volume_m3, 0.0, day_volume_most_m3)) {
        return (qll_said){QLL_TEXT_FAULT_DAY_VOLUME,
                          {qll_as_quantity(day_volume_most_m3, QLL_KIND_VOLUME)}};
    }
    if (!is_between(scenario->rate_cv, 0.0, 2.0)) {
        return fault(QLL_TEXT_FAULT_RATES);
    }
    if (!is_between(scenario->hour_cv, 0.0, 3.0)
        || !is_between(scenario->building_hour_cv, 0.0, 1.0)) {
        return fault(QLL_TEXT_FAULT_HOUR_RATES);
    }
    if ((size_t)scenario->habits >= QLL_HABITS_COUNT
        || (size_t)scenario->outdoor >= QLL_OUTDOOR_COUNT
        || (size_t)scenario->season >= QLL_SEASON_COUNT) {
        return fault(QLL_TEXT_FAULT_WORDS);
    }
    if (!is_between(scenario->break_share, 0.0, 1.0)
        || !(is_between(scenario->break_s, 60.0, 3600.0)
             || (scenario->break_s == 0.0 && scenario->break_share == 0.0))) {
        return fault(QLL_TEXT_FAULT_BREAK);
    }
    const double pressures[] = {scenario->outlet_pa_gauge, scenario->reference_pa_gauge};
    for (size_t i = 0; i < 2; i++) {
        if (pressures[i] != 0.0
            && !is_between(pressures[i], (1.0 - rounding) * outlet_least_pa,
                           (1.0 + rounding) * outlet_most_pa)) {
            return (qll_said){QLL_TEXT_FAULT_OUTLETS,
                              {qll_as_quantity(outlet_least_pa, QLL_KIND_PRESSURE),
                               qll_as_quantity(outlet_most_pa, QLL_KIND_PRESSURE)}};
        }
    }
    return none();
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

static qll_said fault_of_log(const qll_metered *log)
{
    if (log == NULL) {
        return none();
    }
    if (!duration_rises(&log->duration) || !(log->duration.mean_m3s >= 0.0)
        || !is_between(log->duration.idle_share, 0.0, 1.0)) {
        return fault(QLL_TEXT_FAULT_DURATION);
    }
    if (log->peak_count == 0 || !(log->interval_s >= 0.0) || !(log->time_s > 0.0)) {
        return fault(QLL_TEXT_FAULT_READINGS);
    }
    for (size_t i = 0; i < log->peak_count; i++) {
        const qll_metered_peak *peak = &log->peaks[i];
        if (!(peak->averaging_s > (i == 0 ? 0.0 : peak[-1].averaging_s))
            || !is_between(peak->flow_m3s, 0.0, HUGE_VAL) || !isfinite(peak->flow_m3s)) {
            return fault(QLL_TEXT_FAULT_LOG_PEAKS);
        }
    }
    return none();
}

qll_said qll_scenario_fault(const qll_scenario *scenario)
{
    if (!is_between(scenario->people, 0.0, QLL_PEOPLE_MAX)
        || !(isnan(scenario->homes) || is_between(scenario->homes, 0.0, QLL_PEOPLE_MAX))) {
        return fault(QLL_TEXT_FAULT_PEOPLE);
    }
    if (!(scenario->quantile > 0.0 && scenario->quantile < 1.0)) {
        return fault(QLL_TEXT_FAULT_QUANTILE);
    }
    qll_said found = fault_of_loads(scenario);
    found = found.id == QLL_TEXT_NONE ? fault_of_continuous(scenario) : found;
    found = found.id == QLL_TEXT_NONE ? fault_of_day(scenario) : found;
    found = found.id == QLL_TEXT_NONE ? fault_of_hours(scenario) : found;
    return found.id == QLL_TEXT_NONE ? fault_of_log(scenario->metered) : found;
}
