#include "demand/demand.h"

#include "demand/day_model.h"
#include "demand/peaks.h"

#include <math.h>

/* Estimates differ when they are further from the chosen one than this share of it (our
 * assumption). */
#define QLL_DISAGREEMENT_SHARE (1.0 / 3.0)

static bool refuse(const qll_peaks *all, qll_problems *problems, qll_code code, const char *says)
{
    qll_writer writer = qll_writer_new(all->arena);
    qll_write_format(&writer, "scenario \"%s\": %s", all->scenario->name, says);
    const qll_text text = qll_writer_text(&writer);
    return qll_problems_add(
        problems, (qll_problem){.code = code, .text = text.bytes == NULL ? says : text.bytes});
}

/* ---- the choice ---- */

/* Where fixture units do not apply: what was measured, else what is computed for those fixtures. */
static qll_peak_method first_without_code(const qll_peaks *all)
{
    if (all->applies[QLL_PEAK_METERED]) {
        return QLL_PEAK_METERED;
    }
    return all->applies[QLL_PEAK_SIMULTANEOUS_USE] ? QLL_PEAK_SIMULTANEOUS_USE
                                                   : QLL_PEAK_PULSE_MODEL;
}

/* The method of the design peak; QLL_PEAK_METHOD_COUNT with a problem if there is none. */
static qll_peak_method choose(const qll_peaks *all, qll_problems *problems)
{
    const qll_peak_method asked = all->scenario->peak_method;
    qll_writer writer = qll_writer_new(all->arena);
    if (asked != QLL_PEAK_METHOD_COUNT) {
        if (all->applies[asked]) {
            return asked;
        }
        qll_write_format(&writer, "the design peak cannot be found by %s: %s",
                         qll_peak_method_words[asked], all->reasons[asked]);
        const char *says = qll_writer_text(&writer).bytes;
        refuse(all, problems, QLL_CODE_CONTRADICTION, says == NULL ? "" : says);
        return QLL_PEAK_METHOD_COUNT;
    }
    if (all->applies[QLL_PEAK_FIXTURE_UNITS_IPC]) {
        return QLL_PEAK_FIXTURE_UNITS_IPC;
    }
    const qll_peak_method next = first_without_code(all);
    qll_write_format(&writer,
                     "scenario \"%s\": the design peak is that of %s, which is no code figure, "
                     "because %s",
                     all->scenario->name,
                     next == QLL_PEAK_METERED ? "the meter's log" : qll_peak_method_words[next],
                     all->reasons[QLL_PEAK_FIXTURE_UNITS_IPC]);
    const char *says = qll_writer_text(&writer).bytes;
    qll_problems_add(problems, (qll_problem){.code = QLL_CODE_MISSING_KEY,
                                             .level = QLL_WARNING,
                                             .text = says == NULL ? "" : says});
    return next;
}

static qll_status list_estimates(const qll_peaks *all, qll_peak_method method, qll_demand *demand)
{
    qll_peak_estimate *list = qll_arena_take(all->arena, QLL_PEAK_METHOD_COUNT, sizeof *list);
    if (list == NULL || all->no_memory) {
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

static qll_status greatest_continuous(const qll_scenario *scenario, qll_arena *arena,
                                      double *flow_m3s)
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

static void warn(const qll_scenario *scenario, qll_writer *writer, qll_problems *problems)
{
    qll_writer text = qll_writer_new(writer->arena);
    const char *says = qll_writer_text(writer).bytes;
    qll_write_format(&text, "scenario \"%s\": %s", scenario->name, says == NULL ? "" : says);
    (void)qll_problems_add(
        problems, (qll_problem){.code = QLL_CODE_OUT_OF_RANGE,
                                .level = QLL_WARNING,
                                .text = says == NULL ? NULL : qll_writer_text(&text).bytes});
}

/* What a log can only say in part. */
static void warn_of_log(const qll_scenario *scenario, qll_arena *arena, qll_problems *problems)
{
    const qll_metered *log = scenario->metered;
    if (log->interval_s > QLL_RESOLVED_S) {
        qll_writer writer = qll_writer_new(arena);
        qll_write_format(&writer,
                         "the log's readings are %.6g s apart; they hide the peak, and how often "
                         "flow is low or none: log at 1 min or finer",
                         log->interval_s);
        warn(scenario, &writer, problems);
    }
    if (log->time_s < QLL_DAY_S) {
        qll_writer writer = qll_writer_new(arena);
        qll_write_format(&writer,
                         "the log holds %.3g h and is taken for the whole day: log a week, with "
                         "its nights and its weekend",
                         log->time_s / 3600.0);
        warn(scenario, &writer, problems);
    }
}

/* A log takes the place of the computed day; what it does not tell is not made up. */
static void take_log(const qll_metered *log, qll_demand *demand)
{
    qll_pulse_day *day = &demand->day;
    *day = (qll_pulse_day){.duration = log->duration,
                           .none_share = log->duration.idle_share,
                           .volume_m3 = log->duration.mean_m3s * QLL_DAY_S,
                           .shape_source = log->name};
    for (size_t h = 0; h < 24; h++) {
        day->hours[h] = (qll_pulse_hour){.busy_count = (double)NAN,
                                         .mean_m3s = log->hours[h].mean_m3s,
                                         .deviation_m3s = (double)NAN,
                                         .none_share = (double)NAN,
                                         .quantile_m3s = (double)NAN};
    }
    demand->is_metered = true;
}

qll_status qll_demand_of(const qll_scenario *scenario, qll_arena *arena, qll_demand *demand,
                         qll_problems *problems)
{
    *demand = (qll_demand){.scenario = scenario};
    qll_peaks all = {.scenario = scenario, .arena = arena};
    const char *fault = qll_scenario_fault(scenario);
    if (fault != NULL) {
        (void)refuse(&all, problems, QLL_CODE_OUT_OF_RANGE, fault);
        return QLL_REFUSED;
    }
    qll_status status = greatest_continuous(scenario, arena, &all.continuous_m3s);
    if (status == QLL_OK) {
        demand->continuous_peak_m3s = all.continuous_m3s;
        status = estimate_all(&all, demand);
    }
    if (status != QLL_OK) {
        return status;
    }
    const qll_peak_method method = all.no_memory ? QLL_PEAK_PULSE_MODEL : choose(&all, problems);
    if (method == QLL_PEAK_METHOD_COUNT) {
        return QLL_REFUSED;
    }
    status = list_estimates(&all, method, demand);
    if (status == QLL_OK && demand->peak_m3s <= 0.0) {
        (void)refuse(&all, problems, QLL_CODE_EMPTY_LIST,
                     scenario->metered == NULL
                         ? "nothing draws water; give people, fixtures or a continuous flow"
                         : "nothing flows in the meter's log");
        return QLL_REFUSED;
    }
    if (status == QLL_OK && scenario->metered != NULL) {
        take_log(scenario->metered, demand);
        warn_of_log(scenario, arena, problems);
    }
    return status == QLL_OK ? find_disagreements(arena, demand) : status;
}
