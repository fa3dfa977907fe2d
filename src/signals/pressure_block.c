/* A block of the copies: cleaned, counted, looked at; and the readings that findings rest on. */
#include "numeric/robust.h"
#include "signals/pressure_state.h"

#include <math.h>
#include <string.h>

/* Seconds are cleaned; of rows further apart a single one may be a draw-off. */
#define QLL_CLEANED_MS   ((int64_t)2000)
#define QLL_HAMPEL_HALF  ((size_t)5)
#define QLL_HAMPEL_TIMES 3.0
#define QLL_HAMPEL_PA    4000.0
/* Differences that a block's noise is taken from. */
#define QLL_NOISE_PAIRS  ((size_t)4096)
/* An outlet over its inlet by more, most of the time, has changed places with it. */
#define QLL_SWAPPED_PA   20000.0

/* Pairs of averages become one. */
static void widen_whole(qll_pressure_state *state)
{
    const size_t room = QLL_WHOLE_POINTS;
    for (size_t c = 0; c < 3; c++) {
        for (size_t k = 0; k < room; k++) {
            const bool half = k < room / 2;
            state->whole_sum[c][k] =
                half ? state->whole_sum[c][2 * k] + state->whole_sum[c][2 * k + 1] : 0.0;
            state->whole_count[c][k] =
                half ? state->whole_count[c][2 * k] + state->whole_count[c][2 * k + 1] : 0;
        }
    }
    state->whole_width_ms *= 2;
}

/* The whole log in at most twice as many averages as are shown: when they are full, pairs become one. */
static void add_to_whole(qll_pressure_state *state, const qll_series *series, size_t from)
{
    static const qll_channel shown[3] = {QLL_CHANNEL_INLET, QLL_CHANNEL_OUTLET, QLL_CHANNEL_FLOW};
    const size_t room = QLL_WHOLE_POINTS;
    for (size_t i = from; i < series->count;) {
        size_t at = (size_t)((series->at_ms[i] - state->first_ms) / state->whole_width_ms);
        while (at >= room) {
            widen_whole(state);
            at /= 2;
        }
        const int64_t end_ms = state->first_ms + (int64_t)(at + 1) * state->whole_width_ms;
        size_t to = i;
        while (to < series->count && series->at_ms[to] < end_ms) {
            to += 1;
        }
        for (size_t c = 0; c < 3; c++) {
            const double *values = series->value[shown[c]];
            double sum = 0.0;
            uint32_t known = 0;
            for (size_t k = i; values != NULL && k < to; k++) {
                sum += isnan(values[k]) ? 0.0 : values[k];
                known += isnan(values[k]) ? 0U : 1U;
            }
            state->whole_sum[c][at] += sum;
            state->whole_count[c][at] += known;
        }
        i = to;
    }
}

/* ---- a block of the slow copy ---- */

static void find_noise(qll_pressure_state *state, const double *outlet, size_t count)
{
    const size_t step = count / QLL_NOISE_PAIRS + 1;
    double *apart = state->scratch;
    size_t found = 0;
    for (size_t i = step; i < count; i += step) {
        const double difference = outlet[i] - outlet[i - 1];
        if (!isnan(difference)) {
            apart[found] = difference;
            found += 1;
        }
    }
    if (found > 16) {
        state->noise_pa = qll_mad_sigma(apart, found, apart + found) / sqrt(2.0);
        state->noise_sum += state->noise_pa;
        state->noise_count += 1;
    }
}

static void clean(qll_pressure_state *state, size_t channel)
{
    const double *values = state->slow.value[channel];
    const size_t count = state->slow.count;
    memcpy(state->cleaned[channel], values, count * sizeof *values);
    if (state->slow.interval_ms > QLL_CLEANED_MS) {
        return;
    }
    /* What is unknown parts what is cleaned. */
    for (size_t from = 0; from < count;) {
        size_t to = from;
        while (to < count && !isnan(values[to])
               && (to == from
                   || state->slow.at_ms[to] - state->slow.at_ms[to - 1]
                          <= QLL_GAP_TIMES * state->slow.interval_ms)) {
            to += 1;
        }
        (void)qll_hampel(values + from, to - from, QLL_HAMPEL_HALF, QLL_HAMPEL_TIMES, QLL_HAMPEL_PA,
                         state->cleaned[channel] + from, state->scratch);
        from = to > from ? to : from + 1;
    }
}

static void count_classes(qll_pressure_state *state, size_t channel, size_t from)
{
    const double *values = state->cleaned[channel];
    for (size_t i = from; i < state->slow.count; i++) {
        if (!isnan(values[i])) {
            const double class = (values[i] - QLL_CHANNEL_LEAST_PA) / QLL_CLASS_PA;
            const size_t at = class > 0.0 ? (size_t) class : 0;
            state->classes[channel][at < QLL_CLASS_COUNT ? at : QLL_CLASS_COUNT - 1] += 1;
            state->class_total[channel] += 1;
        }
    }
}

static void count_swapped(qll_pressure_state *state, size_t from)
{
    const double *inlet = state->cleaned[QLL_CHANNEL_INLET];
    const double *outlet = state->cleaned[QLL_CHANNEL_OUTLET];
    long long over = 0;
    long long both = 0;
    for (size_t i = from; i < state->slow.count; i++) {
        const double apart = outlet[i] - inlet[i];
        over += apart > QLL_SWAPPED_PA ? 1 : 0;
        both += isnan(apart) ? 0 : 1;
    }
    state->swapped_s += (double)over;
    state->both_s += (double)both;
}

void qll_pressure_block(qll_pressure_state *state, bool is_last)
{
    qll_copy *slow = &state->slow;
    qll_series series = {
        .at_ms = slow->at_ms, .count = slow->count, .interval_ms = slow->interval_ms};
    if (slow->count == 0) {
        return;
    }
    if (slow->value[QLL_CHANNEL_OUTLET] != NULL) {
        find_noise(state, slow->value[QLL_CHANNEL_OUTLET], slow->count);
    }
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        series.value[c] = series.cleaned[c] = slow->value[c];
        if (c <= QLL_CHANNEL_OUTLET && slow->value[c] != NULL) {
            clean(state, c);
            series.cleaned[c] = state->cleaned[c];
            count_classes(state, c, state->known);
        }
    }
    if (state->cleaned[0] != NULL && state->cleaned[1] != NULL) {
        count_swapped(state, state->known);
    }
    add_to_whole(state, &series, state->known);
    size_t keep = slow->count;
    if (slow->value[QLL_CHANNEL_OUTLET] != NULL) {
        const size_t rest = qll_pressure_rest(state, &series, is_last);
        const size_t run = qll_pressure_runs(state, &series, is_last);
        const size_t hunt =
            state->middle.room == 0 ? qll_pressure_hunt(state, &series, is_last) : slow->count;
        keep = rest < run ? rest : run;
        keep = hunt < keep ? hunt : keep;
    }
    keep = is_last ? slow->count : keep;
    slow->count -= keep;
    state->known = slow->count;
    memmove(slow->at_ms, slow->at_ms + keep, slow->count * sizeof *slow->at_ms);
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        if (slow->value[c] != NULL) {
            memmove(slow->value[c], slow->value[c] + keep, slow->count * sizeof *slow->value[c]);
        }
    }
}

void qll_pressure_middle(qll_pressure_state *state, bool is_last)
{
    qll_copy *middle = &state->middle;
    qll_series series = {
        .at_ms = middle->at_ms, .count = middle->count, .interval_ms = middle->interval_ms};
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        series.value[c] = series.cleaned[c] = middle->value[c];
    }
    size_t keep = middle->count;
    if (middle->value[QLL_CHANNEL_OUTLET] != NULL && middle->count > 0) {
        keep = qll_pressure_hunt(state, &series, is_last);
    }
    middle->count -= keep;
    memmove(middle->at_ms, middle->at_ms + keep, middle->count * sizeof *middle->at_ms);
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        if (middle->value[c] != NULL) {
            memmove(middle->value[c], middle->value[c] + keep,
                    middle->count * sizeof *middle->value[c]);
        }
    }
}

qll_pressure_stretch qll_pressure_whole(const qll_pressure_state *state)
{
    qll_pressure_stretch whole = {.from_unix_s = (double)state->first_ms / 1000.0,
                                  .to_unix_s =
                                      (double)(state->last_ms + state->facts.interval_ms) / 1000.0};
    const size_t used = (size_t)((state->last_ms - state->first_ms) / state->whole_width_ms) + 1;
    const size_t step = used > QLL_STRETCH_POINTS ? 2 : 1;
    for (size_t k = 0; k < used; k += step) {
        double *const to[3] = {whole.inlet_pa, whole.outlet_pa, whole.flow_m3s};
        for (size_t c = 0; c < 3; c++) {
            const bool has_second = step == 2 && k + 1 < used;
            const double sum =
                state->whole_sum[c][k] + (has_second ? state->whole_sum[c][k + 1] : 0.0);
            const double n = (double)state->whole_count[c][k]
                             + (has_second ? (double)state->whole_count[c][k + 1] : 0.0);
            to[c][whole.count] = n > 0.0 ? sum / n : (double)NAN;
        }
        whole.count += 1;
    }
    return whole;
}
