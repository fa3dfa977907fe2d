/* Windows without flow: does the outlet rise, how soon, how far, and past the inlet? */
#include "numeric/robust.h"
#include "signals/pressure_state.h"

#include <math.h>
#include <string.h>

#define QLL_REST_FLOW_M3S    5e-6
#define QLL_REST_LEAST_MS    ((int64_t)660 * 1000)
#define QLL_SETTLE_MS        ((int64_t)60 * 1000)
#define QLL_START_MS         ((int64_t)60 * 1000) /* what its start is the median of */
#define QLL_EARLY_MS         ((int64_t)1800 * 1000)
#define QLL_LATE_FROM_MS     ((int64_t)3600 * 1000)
#define QLL_LATE_TO_MS       ((int64_t)7200 * 1000)
#define QLL_LATE_LEAST_MS    ((int64_t)4500 * 1000)
#define QLL_STEEP_MS         ((int64_t)60 * 1000)
#define QLL_TOP_MS           ((int64_t)30 * 1000)
/* Rows further apart show no window. */
#define QLL_REST_INTERVAL_MS ((int64_t)60 * 1000)
/* Below this share of a limit a slope is not looked at closer. */
#define QLL_ROUGH_SHARE      0.3
/* Without a flow channel: what may change in 5 s, and under what the outlet is not at rest. */
#define QLL_STILL_PA         4000.0
#define QLL_STILL_SIGMAS     5.0
#define QLL_STILL_MS         ((int64_t)5000)

/* Where values [from, to) reach @p after_ms behind @p start_ms. */
static size_t place_of(const qll_series *series, size_t from, size_t to, int64_t at_ms)
{
    while (from < to) {
        const size_t middle = from + (to - from) / 2;
        if (series->at_ms[middle] < at_ms) {
            from = middle + 1;
        } else {
            to = middle;
        }
    }
    return from;
}

static double median_of(qll_pressure_state *state, const double *values, size_t from, size_t to)
{
    if (values == NULL || to <= from) {
        return (double)NAN;
    }
    size_t count = 0;
    for (size_t i = from; i < to; i++) {
        if (!isnan(values[i])) {
            state->scratch[count] = values[i];
            count += 1;
        }
    }
    return qll_median(state->scratch, count);
}

static double mean_of(const double *values, size_t from, size_t to)
{
    double sum = 0.0;
    for (size_t i = from; i < to; i++) {
        sum += values[i];
    }
    return sum / (double)(to - from);
}

/* Average of the last third less that of the first, over the time between their middles. */
static double rough_slope(const qll_series *series, const double *values, size_t from, size_t to)
{
    const size_t third = (to - from) / 3;
    if (values == NULL || third == 0) {
        return (double)NAN;
    }
    const double rise = mean_of(values, to - third, to) - mean_of(values, from, from + third);
    const size_t half = third / 2;
    const double time_s =
        (double)(series->at_ms[to - 1 - half] - series->at_ms[from + half]) / 1000.0;
    return rise / time_s;
}

/* Theil-Sen slope over groups, and the trend of their averages. */
static double slope_of(qll_pressure_state *state, const qll_series *series, const double *values,
                       size_t from, size_t to, double *z)
{
    double x[QLL_SLOPE_GROUPS];
    double y[QLL_SLOPE_GROUPS];
    const size_t count = to - from < QLL_SLOPE_GROUPS ? to - from : QLL_SLOPE_GROUPS;
    for (size_t g = 0; g < count; g++) {
        const size_t first = from + (to - from) * g / count;
        const size_t end = from + (to - from) * (g + 1) / count;
        x[g] = (double)(series->at_ms[first] + series->at_ms[end - 1] - 2 * series->at_ms[from])
               / 2000.0;
        y[g] = mean_of(values, first, end);
    }
    *z = qll_mann_kendall(y, count, state->scratch).z;
    return qll_theil_sen(x, y, count, 0.0, state->scratch);
}

typedef struct slopes {
    double outlet, inlet, z;
} slopes;

static slopes slopes_of(qll_pressure_state *state, const qll_series *series, size_t from, size_t to,
                        double limit_pa_s)
{
    const double *outlet = series->cleaned[QLL_CHANNEL_OUTLET];
    slopes of = {.outlet = rough_slope(series, outlet, from, to),
                 .inlet = rough_slope(series, series->cleaned[QLL_CHANNEL_INLET], from, to)};
    if (of.outlet > QLL_ROUGH_SHARE * limit_pa_s) {
        of.outlet = slope_of(state, series, outlet, from, to, &of.z);
    }
    return of;
}

/* Greatest average of 30 s of the outlet, and of what it is over the inlet. */
static void find_tops(const qll_series *series, size_t from, size_t to, qll_rest_window *window)
{
    const double *outlet = series->cleaned[QLL_CHANNEL_OUTLET];
    const double *inlet = series->cleaned[QLL_CHANNEL_INLET];
    const size_t width = (size_t)(QLL_TOP_MS / series->interval_ms) + 1;
    window->top_pa = -(double)INFINITY;
    window->over_pa = inlet == NULL ? (double)NAN : -(double)INFINITY;
    inlet = inlet == NULL ? outlet : inlet;
    for (size_t i = from; i + width <= to; i += width) {
        /* Two sums side by side take no longer than one. */
        double sum = 0.0;
        double inlet_sum = 0.0;
        for (size_t k = i; k < i + width; k++) {
            sum += outlet[k];
            inlet_sum += inlet[k];
        }
        const double average = sum / (double)width;
        const double over = average - inlet_sum / (double)width;
        window->top_pa = average > window->top_pa ? average : window->top_pa;
        window->over_pa = over > window->over_pa ? over : window->over_pa;
    }
}

/* Greatest rise from the average of a minute to that of the next. */
static double steepest_of(const qll_series *series, const double *values, size_t from, size_t to)
{
    const size_t width = (size_t)(QLL_STEEP_MS / series->interval_ms) + 1;
    const double apart_s = (double)((int64_t)width * series->interval_ms) / 1000.0;
    double steepest = 0.0;
    double before = (double)NAN;
    for (size_t i = from; i + width <= to; i += width) {
        const double average = mean_of(values, i, i + width);
        steepest = fmax(steepest, (average - before) / apart_s);
        before = average;
    }
    return steepest;
}

static void take_window(qll_pressure_state *state, const qll_series *series, size_t from, size_t to)
{
    const double *inlet = series->cleaned[QLL_CHANNEL_INLET];
    const double *outlet = series->cleaned[QLL_CHANNEL_OUTLET];
    const int64_t start_ms = series->at_ms[from];
    const int64_t end_ms = series->at_ms[to - 1] + series->interval_ms;
    const size_t settled = place_of(series, from, to, start_ms + QLL_SETTLE_MS);
    const size_t started = place_of(series, from, to, start_ms + QLL_SETTLE_MS + QLL_START_MS);
    const size_t early = place_of(series, from, to, start_ms + QLL_SETTLE_MS + QLL_EARLY_MS);
    const size_t last = place_of(series, from, to, end_ms - QLL_START_MS);
    if (early < settled + 6 || last >= to) {
        return;
    }
    qll_rest_window window = {.start_ms = start_ms,
                              .end_ms = end_ms,
                              .late = (double)NAN,
                              .late_inlet = (double)NAN,
                              .late_z = (double)NAN};
    window.inlet_pa = median_of(state, inlet, settled, started > settled ? started : settled + 1);
    window.outlet_pa = median_of(state, outlet, settled, started > settled ? started : settled + 1);
    window.end_inlet_pa = median_of(state, inlet, last, to);
    window.end_outlet_pa = median_of(state, outlet, last, to);
    find_tops(series, settled, to, &window);
    window.steepest = steepest_of(series, outlet, settled, to);
    const slopes first = slopes_of(state, series, settled, early, QLL_EARLY_LEAST_PA_S);
    window.early = first.outlet;
    window.early_inlet = first.inlet;
    window.early_z = first.z;
    if (end_ms - start_ms >= QLL_LATE_LEAST_MS) {
        const size_t late = place_of(series, from, to, start_ms + QLL_LATE_FROM_MS);
        const size_t late_end = place_of(series, from, to, start_ms + QLL_LATE_TO_MS);
        const slopes second = slopes_of(state, series, late, late_end, QLL_LATE_LEAST_PA_S);
        window.late = second.outlet;
        window.late_inlet = second.inlet;
        window.late_z = second.z;
    }
    state->window_total += 1.0;
    state->window_s += (double)(end_ms - start_ms) / 1000.0;
    const double rise_pa = window.end_outlet_pa - window.outlet_pa;
    qll_pressure_keep(state, series, QLL_PRESSURE_WORD_CREEP, rise_pa, from, to);
    qll_pressure_keep(state, series, QLL_PRESSURE_WORD_THERMAL_EXPANSION,
                      window.top_pa - window.outlet_pa, from, to);
    qll_pressure_keep(state, series, QLL_PRESSURE_WORD_LOCK_UP, window.outlet_pa, from, to);
    if (qll_thin(&state->window_thinning, state->windows, sizeof *state->windows,
                 &state->window_count)) {
        state->windows[state->window_count] = window;
        state->window_count += 1;
    }
    state->air.rest_s += (double)(end_ms - start_ms - QLL_SETTLE_MS) / 1000.0;
    for (size_t i = settled; i < to; i++) {
        const qll_tile *tile = qll_tile_at(series, i);
        if (tile != NULL && tile->is_as_read) {
            i += QLL_TILE_VALUES - 1;
        } else {
            state->air.at_rest += series->value[QLL_CHANNEL_OUTLET][i] != outlet[i] ? 1 : 0;
        }
    }
}

/* ---- where the windows are ---- */

typedef struct rest_rule {
    const qll_series *series;
    size_t apart;    /* values in 5 s */
    double still_pa; /* what may change in them */
    double least_pa; /* under it the outlet is not at rest */
} rest_rule;

static rest_rule rule_of(qll_pressure_state *state, const qll_series *series)
{
    rest_rule rule = {.series = series};
    if (series->value[QLL_CHANNEL_FLOW] != NULL) {
        return rule;
    }
    const double *outlet = series->cleaned[QLL_CHANNEL_OUTLET];
    rule.apart = (size_t)((QLL_STILL_MS + series->interval_ms - 1) / series->interval_ms);
    rule.still_pa = fmax(QLL_STILL_PA, QLL_STILL_SIGMAS * state->noise_pa);
    rule.least_pa = median_of(state, outlet, 0, series->count) - rule.still_pa;
    return rule;
}

static bool is_at_rest(const rest_rule *rule, size_t i, size_t from)
{
    const qll_series *series = rule->series;
    const double *flow = series->value[QLL_CHANNEL_FLOW];
    const double *outlet = series->cleaned[QLL_CHANNEL_OUTLET];
    if (isnan(outlet[i])
        || (i > from
            && series->at_ms[i] - series->at_ms[i - 1] > QLL_GAP_TIMES * series->interval_ms)) {
        return false;
    }
    if (flow != NULL) {
        return flow[i] <= QLL_REST_FLOW_M3S;
    }
    return outlet[i] >= rule->least_pa
           && (i < from + rule->apart
               || fabs(outlet[i] - outlet[i - rule->apart]) <= rule->still_pa);
}

/* Where the stretch ends that begins at @p from, all at rest; @p from itself if it is not. */
static size_t rest_end(const rest_rule *rule, size_t from)
{
    const qll_series *series = rule->series;
    const bool has_flow = series->value[QLL_CHANNEL_FLOW] != NULL;
    for (size_t to = from; to < series->count;) {
        const qll_tile *tile = has_flow ? qll_tile_at(series, to) : NULL;
        if (tile != NULL && tile->is_whole && tile->flow_most_m3s <= QLL_REST_FLOW_M3S) {
            to += QLL_TILE_VALUES;
        } else if (is_at_rest(rule, to, from)) {
            to += 1;
        } else {
            return to;
        }
    }
    return series->count;
}

size_t qll_pressure_rest(qll_pressure_state *state, const qll_series *series, bool is_last)
{
    if (series->interval_ms > QLL_REST_INTERVAL_MS) {
        return series->count;
    }
    const rest_rule rule = rule_of(state, series);
    for (size_t from = 0; from < series->count;) {
        const size_t to = rest_end(&rule, from);
        if (to == series->count && to > from && !is_last && from >= series->count / 2) {
            return from;
        }
        if (to > from
            && series->at_ms[to - 1] + series->interval_ms - series->at_ms[from]
                   >= QLL_REST_LEAST_MS) {
            take_window(state, series, from, to);
        }
        from = to > from ? to : from + 1;
    }
    return series->count;
}
