/* Runs of steady flow: what the outlet is at each flow, and whether it jumps. */
#include "numeric/robust.h"
#include "signals/pressure_state.h"

#include <math.h>

#define QLL_RUN_LEAST_MS    ((int64_t)20 * 1000)
#define QLL_RUN_FLOW_M3S    2e-5
#define QLL_RUN_WITHIN_M3S  1e-5
#define QLL_RUN_SLACK       0.12
#define QLL_RUN_EDGE_MS     ((int64_t)3 * 1000)
#define QLL_RUN_INTERVAL_MS ((int64_t)10 * 1000)
#define QLL_RUN_VALUES      ((size_t)64) /* that medians are taken of */
/* An outlier this large is a jump (our assumption: 10 noises of a gauge). */
#define QLL_JUMP_PA         8000.0

size_t qll_run_end(const qll_series *series, size_t from, double slack)
{
    const double *flow = series->value[QLL_CHANNEL_FLOW];
    const int64_t *at_ms = series->at_ms;
    const int64_t gap_ms = QLL_GAP_TIMES * series->interval_ms;
    if (from == series->count || !(flow[from] > QLL_RUN_FLOW_M3S)) {
        return from;
    }
    double sum = flow[from];
    double count = 1.0;
    size_t to = from + 1;
    for (; to < series->count; to++) {
        /* All times the number of values, as that spares a division. */
        const double off = fabs(flow[to] * count - sum);
        if (at_ms[to] - at_ms[to - 1] > gap_ms || !(flow[to] > QLL_RUN_FLOW_M3S)
            || !(off <= QLL_RUN_WITHIN_M3S * count || off <= slack * sum)) {
            break;
        }
        sum += flow[to];
        count += 1.0;
    }
    return to;
}

static double median_of(qll_pressure_state *state, const double *values, size_t from, size_t to)
{
    if (values == NULL) {
        return (double)NAN;
    }
    const size_t step = (to - from) / QLL_RUN_VALUES + 1;
    size_t count = 0;
    for (size_t i = from; i < to; i += step) {
        if (!isnan(values[i])) {
            state->scratch[count] = values[i];
            count += 1;
        }
    }
    return qll_median(state->scratch, count);
}

static void count_jumps(qll_pressure_state *state, const qll_series *series, size_t from, size_t to)
{
    const double *raw = series->value[QLL_CHANNEL_OUTLET];
    const double *cleaned = series->cleaned[QLL_CHANNEL_OUTLET];
    qll_air *air = &state->air;
    long long found = 0;
    for (size_t i = from; i < to; i++) {
        const qll_tile *tile = qll_tile_at(series, i);
        if (tile != NULL && tile->is_as_read) {
            i += QLL_TILE_VALUES - 1;
            continue;
        }
        const double jump = raw[i] - cleaned[i];
        if (fabs(jump) >= QLL_JUMP_PA) {
            air->up += jump > 0.0 ? 1 : 0;
            air->down += jump < 0.0 ? 1 : 0;
            air->size_pa += fabs(jump);
            air->first_ms = air->first_ms == 0 ? series->at_ms[i] : air->first_ms;
            air->last_ms = series->at_ms[i];
            found += 1;
        }
    }
    air->run_s += (double)((int64_t)(to - from) * series->interval_ms) / 1000.0;
    qll_pressure_keep(state, series, QLL_PRESSURE_WORD_AIR, (double)found, from, to);
}

static void take_run(qll_pressure_state *state, const qll_series *series, size_t from, size_t to)
{
    const size_t edge = (size_t)(QLL_RUN_EDGE_MS / series->interval_ms);
    if (to - from < 2 * edge + 2) {
        return;
    }
    const size_t first = from + edge;
    const size_t end = to - edge;
    const qll_steady_run run = {
        .start_ms = series->at_ms[from],
        .length_s = (double)((int64_t)(to - from) * series->interval_ms) / 1000.0,
        .flow_m3s = median_of(state, series->value[QLL_CHANNEL_FLOW], first, end),
        .inlet_pa = median_of(state, series->cleaned[QLL_CHANNEL_INLET], first, end),
        .outlet_pa = median_of(state, series->cleaned[QLL_CHANNEL_OUTLET], first, end),
    };
    if (isnan(run.outlet_pa)) {
        return;
    }
    count_jumps(state, series, first, end);
    qll_pressure_keep(state, series, QLL_PRESSURE_WORD_FALL_OFF, run.flow_m3s,
                      from > 60 ? from - 60 : 0, to);
    state->run_total += 1.0;
    if (qll_thin(&state->run_thinning, state->runs, sizeof *state->runs, &state->run_count)) {
        state->runs[state->run_count] = run;
        state->run_count += 1;
    }
}

size_t qll_pressure_runs(qll_pressure_state *state, const qll_series *series, bool is_last)
{
    const double *flow = series->value[QLL_CHANNEL_FLOW];
    if (flow == NULL || series->interval_ms > QLL_RUN_INTERVAL_MS) {
        return series->count;
    }
    for (size_t from = 0; from < series->count;) {
        if (!(flow[from] > QLL_RUN_FLOW_M3S)) {
            const qll_tile *tile = qll_tile_at(series, from);
            from += tile != NULL && tile->flow_most_m3s <= QLL_RUN_FLOW_M3S ? QLL_TILE_VALUES : 1;
            continue;
        }
        const size_t to = qll_run_end(series, from, QLL_RUN_SLACK);
        if (to == series->count && !is_last && from >= series->count / 2) {
            return from;
        }
        const int64_t length_ms = (int64_t)(to - from) * series->interval_ms;
        state->flowing_s += (double)length_ms / 1000.0;
        if (length_ms >= QLL_RUN_LEAST_MS) {
            take_run(state, series, from, to);
        }
        from = to > from ? to : from + 1;
    }
    return series->count;
}
