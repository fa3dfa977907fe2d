/* A block of the copies: cleaned, counted, looked at; and the readings that findings rest on. */
#include "numeric/robust.h"
#include "signals/pressure_state.h"

#include <math.h>
#include <string.h>

/* Differences that a block's noise is taken from. */
#define QLL_NOISE_PAIRS ((size_t)4096)

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
    qll_pressure_tiles(state, true);
    for (size_t c = 0; c < QLL_CHANNEL_COUNT; c++) {
        series.value[c] = series.cleaned[c] = slow->value[c];
        if (c <= QLL_CHANNEL_OUTLET && slow->value[c] != NULL) {
            series.cleaned[c] = state->cleaned[c];
        }
    }
    series.tiles = state->tiles;
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
    state->tiled = 0;
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
