#include "demand/demand.h"

#include "demand/day_model.h"
#include "demand/peaks.h"

#include <math.h>

/* Estimates differ when they are further from the chosen one than this share of it (our
 * assumption). */
#define QLL_DISAGREEMENT_SHARE (1.0 / 3.0)

static qll_status refuse(qll_peaks *all, qll_demand *demand, qll_remark why)
{
    demand->refusal = qll_peaks_remark(all, why);
    return QLL_REFUSED;
}

/* ---- the choice ---- */

/* The method of the design peak: the one asked for, else the code's, or what was measured where that is
 * more; QLL_PEAK_METHOD_COUNT if there is neither. Warns where the peak is not a whole code figure. */
static qll_peak_method choose(qll_peaks *all, qll_remarks *warnings)
{
    const qll_peak_method asked = all->scenario->peak_method;
    const bool has_log = all->applies[QLL_PEAK_METERED];
    qll_peak_method method = asked;
    qll_remark warning = {.id = QLL_REMARK_COUNT};
    if (asked == QLL_PEAK_METHOD_COUNT && all->applies[QLL_PEAK_FIXTURE_UNITS_IPC]) {
        const double code_m3s = all->estimates[QLL_PEAK_FIXTURE_UNITS_IPC].peak_m3s;
        const double log_m3s = has_log ? all->estimates[QLL_PEAK_METERED].peak_m3s : 0.0;
        method = log_m3s > code_m3s ? QLL_PEAK_METERED : QLL_PEAK_FIXTURE_UNITS_IPC;
        warning =
            (qll_remark){.id = method == QLL_PEAK_METERED ? QLL_REMARK_LOG_ABOVE : QLL_REMARK_COUNT,
                         .code = QLL_CODE_CONTRADICTION,
                         .figures = {log_m3s, code_m3s}};
    } else if (asked == QLL_PEAK_METHOD_COUNT && has_log) {
        method = QLL_PEAK_METERED;
        warning = (qll_remark){.id = QLL_REMARK_NO_CODE_LOG,
                               .code = QLL_CODE_MISSING_KEY,
                               .because = all->reasons[QLL_PEAK_FIXTURE_UNITS_IPC]};
    }
    if (method == QLL_PEAK_FIXTURE_UNITS_IPC && all->beyond_code != NULL) {
        warning = *all->beyond_code;
    }
    if (warning.id != QLL_REMARK_COUNT) {
        qll_peaks_note(all, warnings, warning);
    }
    return method;
}

static qll_status list_estimates(const qll_peaks *all, qll_peak_method method, qll_demand *demand)
{
    qll_peak_estimate *list = qll_arena_take(all->arena, QLL_PEAK_METHOD_COUNT, sizeof *list);
    if (list == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t m = 0; m < QLL_PEAK_METHOD_COUNT; m++) {
        if (!all->applies[m]) {
            continue;
        }
        if (m == method) {
            demand->chosen = demand->estimate_count;
            demand->peak_m3s = all->estimates[m].peak_m3s;
        }
        list[demand->estimate_count] = all->estimates[m];
        demand->estimate_count += 1;
    }
    demand->estimates = list;
    return QLL_OK;
}

static qll_status estimate_all(qll_peaks *all, qll_demand *demand)
{
    qll_status status = qll_pulse_day_exact(all->scenario, all->arena, &demand->day);
    if (status == QLL_OK) {
        status = qll_estimate_units(all);
    }
    if (status == QLL_OK) {
        status = qll_estimate_use(all, &demand->simultaneous);
    }
    if (status == QLL_OK) {
        status = qll_estimate_din(all);
    }
    if (status == QLL_OK) {
        status = qll_estimate_per_fixture(all);
    }
    if (status == QLL_OK) {
        qll_estimate_loading(all, demand->loading);
        qll_estimate_day(all, &demand->day);
        status = qll_estimate_metered(all, &demand->resolved);
    }
    return status;
}

static qll_status find_disagreements(qll_arena *arena, qll_demand *demand)
{
    qll_disagreement *list = qll_arena_take(arena, demand->estimate_count, sizeof *list);
    if (list == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < demand->estimate_count; i++) {
        const double ratio = demand->estimates[i].peak_m3s / demand->peak_m3s;
        if (fabs(ratio - 1.0) > QLL_DISAGREEMENT_SHARE) {
            list[demand->disagreement_count] = (qll_disagreement){.estimate = i, .ratio = ratio};
            demand->disagreement_count += 1;
        }
    }
    demand->disagreements = list;
    return QLL_OK;
}

/* What a log can only say in part. */
static void warn_of_log(qll_peaks *all, qll_remarks *warnings)
{
    const qll_metered *log = all->scenario->metered;
    if (log->interval_s > QLL_RESOLVED_S) {
        qll_peaks_note(all, warnings,
                       (qll_remark){.id = QLL_REMARK_LOG_COARSE,
                                    .code = QLL_CODE_OUT_OF_RANGE,
                                    .figures = {log->interval_s}});
    }
    if (log->time_s < QLL_DAY_S) {
        qll_peaks_note(all, warnings,
                       (qll_remark){.id = QLL_REMARK_LOG_SHORT,
                                    .code = QLL_CODE_OUT_OF_RANGE,
                                    .figures = {log->time_s}});
    }
}

/* A log takes the place of the computed day; what it does not tell is not made up. */
static void take_log(const qll_metered *log, qll_demand *demand)
{
    qll_pulse_day *day = &demand->day;
    *day = (qll_pulse_day){.duration = log->duration,
                           .none_share = log->idle_unknown ? (double)NAN : log->duration.idle_share,
                           .volume_m3 = log->duration.mean_m3s * QLL_DAY_S,
                           .shape_source = {QLL_TEXT_VALUE, {qll_as_is(log->name)}}};
    for (size_t h = 0; h < 24; h++) {
        day->hours[h] = (qll_pulse_hour){.busy_count = (double)NAN,
                                         .mean_m3s = log->hours[h].mean_m3s,
                                         .deviation_m3s = (double)NAN,
                                         .none_share = (double)NAN,
                                         .quantile_m3s = (double)NAN,
                                         .flow_mean_m3s = log->hours[h].mean_m3s};
    }
    demand->is_metered = true;
}

/* No peak can be found, or not the way the survey asks for. */
static qll_status refuse_method(qll_peaks *all, qll_demand *demand, qll_peak_method method)
{
    const qll_scenario *scenario = all->scenario;
    if (method != QLL_PEAK_METHOD_COUNT) {
        return refuse(all, demand,
                      (qll_remark){.id = QLL_REMARK_METHOD_FAILS,
                                   .code = QLL_CODE_CONTRADICTION,
                                   .method = method,
                                   .because = all->reasons[method]});
    }
    if (scenario->people <= 0.0 && all->continuous_m3s <= 0.0
        && !qll_scenario_has_fixtures(scenario)) {
        return refuse(all, demand,
                      (qll_remark){.id = QLL_REMARK_NOTHING_DRAWS, .code = QLL_CODE_EMPTY_LIST});
    }
    return refuse(all, demand,
                  (qll_remark){.id = QLL_REMARK_PEAK_NEEDED,
                               .code = QLL_CODE_MISSING_KEY,
                               .because = all->reasons[QLL_PEAK_FIXTURE_UNITS_IPC]});
}

/* docs/theory/pulse.md and design: no flow, no fixture open, only the leak. */
static void tell_nothings_apart(qll_demand *demand)
{
    const qll_pulse_day *day = &demand->day;
    demand->no_flow_share = day->duration.idle_share;
    if (demand->is_metered && demand->scenario->metered->idle_unknown) {
        demand->no_flow_share = NAN;
    }
    demand->no_fixture_open_share = demand->is_metered ? (double)NAN : day->none_share;
    demand->leak_only_share =
        demand->is_metered ? (double)NAN : day->weep_share * (1.0 - day->no_leak_share);
}

static const qll_remark *find_remarks(qll_peaks *all, const qll_demand *demand)
{
    const qll_counted *counted = &all->scenario->counted;
    qll_remarks remarks = {0};
    qll_remark_clock(all, demand, &remarks);
    if (counted->key != NULL && counted->people != all->scenario->people) {
        qll_peaks_note(
            all, &remarks,
            (qll_remark){.id = QLL_REMARK_PEOPLE_GIVEN,
                         .name = counted->key,
                         .figures = {all->scenario->people, counted->count, counted->people}});
    }
    return remarks.first;
}

/* Takes the estimate of the design's method and whatever the log says. */
static qll_status take_choice(qll_peaks *all, qll_demand *demand)
{
    const qll_scenario *scenario = all->scenario;
    qll_remarks warnings = {0};
    const qll_peak_method method = choose(all, &warnings);
    demand->warnings = warnings.first;
    if (method == QLL_PEAK_METHOD_COUNT || !all->applies[method]) {
        return refuse_method(all, demand, method);
    }
    const qll_status status = list_estimates(all, method, demand);
    if (status == QLL_OK && demand->peak_m3s <= 0.0) {
        return refuse(all, demand,
                      (qll_remark){.id = scenario->metered == NULL ? QLL_REMARK_NOTHING_DRAWS
                                                                   : QLL_REMARK_NOTHING_FLOWS,
                                   .code = QLL_CODE_EMPTY_LIST});
    }
    if (status != QLL_OK) {
        return status;
    }
    demand->remarks = find_remarks(all, demand);
    qll_remark_proportion(all, &warnings);
    if (scenario->metered != NULL) {
        take_log(scenario->metered, demand);
        warn_of_log(all, &warnings);
    }
    tell_nothings_apart(demand);
    demand->warnings = warnings.first;
    return QLL_OK;
}

qll_status qll_demand_of(const qll_scenario *scenario, qll_arena *arena, qll_demand *demand)
{
    *demand = (qll_demand){.scenario = scenario};
    qll_peaks all = {.scenario = scenario, .arena = arena};
    const size_t refused = qll_arena_refused(arena);
    const qll_said fault = qll_scenario_fault(scenario);
    if (fault.id != QLL_TEXT_NONE) {
        return refuse(
            &all, demand,
            (qll_remark){.id = QLL_REMARK_FAULT, .code = QLL_CODE_OUT_OF_RANGE, .table = fault});
    }
    qll_status status = qll_continuous_peak(scenario, arena, &all.continuous_m3s);
    if (status == QLL_OK) {
        demand->continuous_peak_m3s = all.continuous_m3s;
        status = qll_scenario_apart(scenario, arena, &all.apart, &all.groups);
    }
    if (status == QLL_OK) {
        status = estimate_all(&all, demand);
    }
    if (status == QLL_OK) {
        status = take_choice(&all, demand);
    }
    if (status == QLL_OK) {
        status = find_disagreements(arena, demand);
    }
    return qll_arena_refused(arena) == refused ? status : QLL_NO_MEMORY;
}
