/* A hundred rows a second and more: waves of hammer, and chatter. */
#include "numeric/lomb_scargle.h"
#include "numeric/robust.h"
#include "signals/pressure_state.h"

#include <math.h>
#include <string.h>

#define QLL_FAST_HZ       95.0 /* 100 by a clock that is 5 % off */
#define QLL_HEARS_HZ      475.0
#define QLL_WAVE_PA       100e3
#define QLL_BASE_TENTHS   ((size_t)11)
#define QLL_REFRACTORY_S  1.0
#define QLL_RING_S        1.0
/* Rows are kept for so long: half a baseline, a wave, its ring, and what led up to it. */
#define QLL_KEPT_S        4.0
/* A wave of one row at so many a second is none. */
#define QLL_GLITCH_HZ     190.0
#define QLL_RING_LEAST_HZ 2.0
#define QLL_RING_MOST_HZ  100.0
#define QLL_RING_ROWS     ((size_t)512)

#define QLL_CHATTER_FRAME    ((size_t)256)
#define QLL_CHATTER_LEAST_HZ 5.0
#define QLL_CHATTER_MOST_HZ  300.0
#define QLL_CHATTER_OVER     10.0 /* 10 dB */
#define QLL_CHATTER_PA       3000.0
#define QLL_HUM_WITHIN_BINS  1.0
#define QLL_REST_M3S         5e-6
/* After a wave its ring is no chatter. */
#define QLL_RINGS_MS         ((int64_t)3000)
#define QLL_MINUTE_MS        ((int64_t)60000)

bool qll_fast_begin(qll_fast *fast, int64_t interval_ms, qll_arena *arena)
{
    const double rate_hz = 1000.0 / (double)interval_ms;
    *fast = (qll_fast){.on = rate_hz >= QLL_FAST_HZ,
                       .hears = rate_hz >= QLL_HEARS_HZ,
                       .rate_hz = rate_hz,
                       .room = (size_t)(QLL_KEPT_S * rate_hz),
                       .tenth_rows = (size_t)(rate_hz / 10.0)};
    fast->ring = qll_arena_take(arena, fast->room, sizeof *fast->ring);
    fast->ring_ms = qll_arena_take(arena, fast->room, sizeof *fast->ring_ms);
    bool good = fast->ring != NULL && fast->ring_ms != NULL;
    if (fast->hears) {
        const size_t bins = QLL_CHATTER_FRAME / 2 + 1;
        fast->second = qll_arena_take(arena, (size_t)rate_hz, sizeof *fast->second);
        fast->density = qll_arena_take(arena, 3 * bins, sizeof *fast->density);
        good = good && fast->second != NULL && fast->density != NULL
               && qll_framing_make(QLL_CHATTER_FRAME, rate_hz, arena, &fast->framing) == QLL_OK;
    }
    return good;
}

/* ---- waves ---- */

static double row(const qll_fast *fast, uint64_t i)
{
    return fast->ring[i % fast->room];
}

static double ring_hz(const qll_fast *fast, uint64_t from, double base)
{
    double time_s[QLL_RING_ROWS];
    double values[QLL_RING_ROWS];
    const size_t rows = (size_t)(QLL_RING_S * fast->rate_hz);
    const size_t step = rows / QLL_RING_ROWS + 1;
    size_t count = 0;
    for (size_t i = 0; i < rows && from + i < fast->taken && count < QLL_RING_ROWS; i += step) {
        time_s[count] = (double)i / fast->rate_hz;
        values[count] = row(fast, from + i) - base;
        count += 1;
    }
    const double most_hz = fmin(QLL_RING_MOST_HZ, 0.4 * fast->rate_hz / (double)step);
    double best = 0.0;
    double found_hz = (double)NAN;
    for (size_t k = 0; QLL_RING_LEAST_HZ + 0.5 * (double)k <= most_hz; k++) {
        const double tried_hz = QLL_RING_LEAST_HZ + 0.5 * (double)k;
        const double share = qll_lomb_scargle(time_s, values, count, tried_hz);
        if (share > best) {
            best = share;
            found_hz = tried_hz;
        }
    }
    return best >= 0.3 ? found_hz : (double)NAN;
}

static void keep_wave(qll_pressure_state *state, uint64_t from, uint64_t to)
{
    qll_stretch_kept *kept = &state->kept[QLL_PRESSURE_WORD_HAMMER];
    qll_fast *fast = &state->fast;
    kept->score = fast->peak_pa;
    const uint64_t rows = to - from;
    const size_t count = rows < QLL_STRETCH_POINTS ? (size_t)rows : QLL_STRETCH_POINTS;
    kept->stretch = (qll_pressure_stretch){
        .from_unix_s = (double)fast->ring_ms[from % fast->room] / 1000.0,
        .to_unix_s = (double)fast->ring_ms[(to - 1) % fast->room] / 1000.0,
        .count = count,
    };
    for (size_t p = 0; p < count; p++) {
        /* Of the rows of a point the one that stands out most: an average would hide the peak. */
        const uint64_t first = from + rows * p / count;
        const uint64_t end = from + rows * (p + 1) / count;
        double shown = row(fast, first);
        for (uint64_t i = first; i < end; i++) {
            shown = row(fast, i) > shown ? row(fast, i) : shown;
        }
        kept->stretch.inlet_pa[p] = kept->stretch.flow_m3s[p] = (double)NAN;
        kept->stretch.outlet_pa[p] = shown;
    }
}

/* A wave that begins at row @p first over @p base; all rows of its second are there. */
static void take_wave(qll_pressure_state *state, uint64_t first, double base)
{
    qll_fast *fast = &state->fast;
    const uint64_t end = first + (uint64_t)(QLL_RING_S * fast->rate_hz);
    uint64_t peak = first;
    size_t over = 0;
    for (uint64_t i = first; i < end; i++) {
        const double off = fabs(row(fast, i) - base);
        over += off > QLL_WAVE_PA ? 1U : 0U;
        peak = off > fabs(row(fast, peak) - base) ? i : peak;
    }
    fast->quiet_until = end;
    if (over < 2 && fast->rate_hz >= QLL_GLITCH_HZ) {
        fast->glitch_count += 1;
        return;
    }
    const double peak_pa = fabs(row(fast, peak) - base);
    fast->wave_count += 1;
    fast->first_ms = fast->wave_count == 1 ? fast->ring_ms[first % fast->room] : fast->first_ms;
    fast->last_ms = fast->ring_ms[first % fast->room];
    if (peak_pa <= fast->peak_pa) {
        return;
    }
    const uint64_t oldest = fast->taken > fast->room ? fast->taken - fast->room : 0;
    uint64_t low = peak;
    while (low > oldest && fabs(row(fast, low) - base) > 0.1 * peak_pa) {
        low -= 1;
    }
    uint64_t high = low;
    double steepest = 0.0;
    while (high < peak && fabs(row(fast, high) - base) < 0.9 * peak_pa) {
        high += 1;
        steepest = fmax(steepest, fabs(row(fast, high) - row(fast, high - 1)));
    }
    fast->peak_pa = peak_pa;
    fast->peak_ms = fast->ring_ms[peak % fast->room];
    fast->rise_s = (double)(high - low) / fast->rate_hz;
    fast->steepest_pa_s = steepest * fast->rate_hz;
    fast->ring_hz = ring_hz(fast, peak, base);
    const uint64_t lead = (uint64_t)(0.2 * fast->rate_hz);
    keep_wave(state, first > oldest + lead ? first - lead : oldest, end);
}

/* The tenth in the middle of the last eleven against the median of their averages; a wave's second must have passed, so it
 * is looked at ten tenths later. */
static void look_at_tenth(qll_pressure_state *state, uint64_t tenth)
{
    qll_fast *fast = &state->fast;
    double around[QLL_BASE_TENTHS];
    memcpy(around, fast->tenth_mean, sizeof around);
    const double base = qll_median(around, QLL_BASE_TENTHS);
    const size_t at = (size_t)(tenth % QLL_BASE_TENTHS);
    if (fast->tenth_most[at] - base <= QLL_WAVE_PA && base - fast->tenth_least[at] <= QLL_WAVE_PA) {
        return;
    }
    for (size_t i = 0; i < fast->tenth_rows; i++) {
        const uint64_t at_row = tenth * fast->tenth_rows + i;
        if (at_row >= fast->quiet_until && fabs(row(fast, at_row) - base) > QLL_WAVE_PA) {
            fast->wave_row = at_row;
            fast->wave_base = base;
            fast->has_wave = true;
            fast->quiet_until = at_row + (uint64_t)(QLL_REFRACTORY_S * fast->rate_hz);
            return;
        }
    }
}

static void close_tenth(qll_pressure_state *state)
{
    qll_fast *fast = &state->fast;
    const size_t at = (size_t)(fast->tenths % QLL_BASE_TENTHS);
    fast->tenth_mean[at] = fast->tenth_sum / (double)fast->tenth_rows;
    fast->tenth_most[at] = fast->open_most;
    fast->tenth_least[at] = fast->open_least;
    fast->tenths += 1;
    fast->tenth_sum = 0.0;
    fast->tenth_count = 0;
    if (fast->tenths - fast->first_tenth >= QLL_BASE_TENTHS) {
        look_at_tenth(state, fast->tenths - 1 - QLL_BASE_TENTHS / 2);
    }
}

void qll_fast_gap(qll_fast *fast)
{
    if (fast->on) {
        /* The next row begins a tenth, a second and a baseline of its own. */
        const uint64_t rest = fast->tenth_count == 0 ? 0 : fast->tenth_rows - fast->tenth_count;
        for (uint64_t i = 0; i < rest; i++) {
            fast->ring[fast->taken % fast->room] = 0.0;
            fast->ring_ms[fast->taken % fast->room] = fast->last_ms;
            fast->taken += 1;
        }
        fast->tenths += fast->tenth_count == 0 ? 0 : 1;
        fast->tenth_sum = 0.0;
        fast->tenth_count = 0;
        fast->first_tenth = fast->tenths;
        fast->has_wave = false;
        fast->second_count = 0;
    }
}

/* ---- chatter ---- */

static double rms_of(const double *values, size_t count)
{
    double mean = 0.0;
    double square = 0.0;
    for (size_t i = 0; i < count; i++) {
        mean += values[i] / (double)count;
    }
    for (size_t i = 0; i < count; i++) {
        square += (values[i] - mean) * (values[i] - mean) / (double)count;
    }
    return sqrt(square);
}

static bool is_hum(double frequency_hz, double step_hz)
{
    return fabs(frequency_hz - 50.0) <= QLL_HUM_WITHIN_BINS * step_hz
           || fabs(frequency_hz - 60.0) <= QLL_HUM_WITHIN_BINS * step_hz;
}

static void keep_chatter(qll_pressure_state *state, double amplitude_pa)
{
    qll_stretch_kept *kept = &state->kept[QLL_PRESSURE_WORD_CHATTER];
    const qll_fast *fast = &state->fast;
    if (amplitude_pa <= kept->score) {
        return;
    }
    kept->score = amplitude_pa;
    const size_t count =
        fast->second_count < QLL_STRETCH_POINTS ? fast->second_count : QLL_STRETCH_POINTS;
    kept->stretch.count = count;
    kept->stretch.from_unix_s = (double)fast->second_ms / 1000.0;
    kept->stretch.to_unix_s = kept->stretch.from_unix_s + (double)count / fast->rate_hz;
    for (size_t p = 0; p < count; p++) {
        kept->stretch.inlet_pa[p] = kept->stretch.flow_m3s[p] = (double)NAN;
        kept->stretch.outlet_pa[p] = fast->second[p];
    }
}

static void hear(qll_pressure_state *state, double frequency_hz, double amplitude_pa, bool at_rest)
{
    qll_fast *fast = &state->fast;
    const double step_hz = fast->rate_hz / (double)QLL_CHATTER_FRAME;
    if (is_hum(frequency_hz, step_hz) && at_rest) {
        fast->hum_rest_s += 1.0;
        return;
    }
    if (fast->second_ms - fast->minute_ms > QLL_MINUTE_MS) {
        fast->minute_ms = fast->second_ms;
        fast->minute_s = 0.0;
    }
    fast->minute_s += 1.0;
    fast->best_minute_s = fmax(fast->best_minute_s, fast->minute_s);
    fast->heard_s += 1.0;
    fast->heard_first_ms = fast->heard_first_ms == 0 ? fast->second_ms : fast->heard_first_ms;
    fast->heard_last_ms = fast->second_ms;
    if (amplitude_pa > fast->chatter_pa) {
        fast->chatter_pa = amplitude_pa;
        fast->chatter_hz = frequency_hz;
    }
    fast->hum_like_s += is_hum(frequency_hz, step_hz) ? 1.0 : 0.0;
    keep_chatter(state, amplitude_pa);
}

/* One second: a peak that stands over the rest of the band. */
static void look_at_second(qll_pressure_state *state)
{
    qll_fast *fast = &state->fast;
    if (rms_of(fast->second, fast->second_count) < QLL_CHATTER_PA
        || (fast->wave_count > 0 && fast->second_ms - fast->last_ms < QLL_RINGS_MS)) {
        return;
    }
    const size_t bins = QLL_CHATTER_FRAME / 2 + 1;
    const double step_hz = fast->rate_hz / (double)QLL_CHATTER_FRAME;
    double *sum = fast->density + bins;
    double *sorted = fast->density + 2 * bins;
    size_t frames = 0;
    memset(sum, 0, bins * sizeof *sum);
    for (size_t at = 0; at + QLL_CHATTER_FRAME <= fast->second_count; at += QLL_CHATTER_FRAME / 2) {
        qll_framing_density(&fast->framing, fast->second + at, fast->density);
        for (size_t k = 0; k < bins; k++) {
            sum[k] += fast->density[k];
        }
        frames += 1;
    }
    const size_t least = (size_t)ceil(QLL_CHATTER_LEAST_HZ / step_hz);
    const size_t most = (size_t)(fmin(QLL_CHATTER_MOST_HZ, 0.4 * fast->rate_hz) / step_hz);
    size_t peak = least;
    for (size_t k = least; k <= most && k < bins; k++) {
        sum[k] /= (double)frames;
        sorted[k - least] = sum[k];
        peak = sum[k] > sum[peak] ? k : peak;
    }
    const double middle = qll_median(sorted, most - least + 1);
    double square = 0.0;
    for (size_t k = peak > least + 2 ? peak - 2 : least; k <= peak + 2 && k <= most; k++) {
        square += sum[k] * step_hz;
    }
    if (sum[peak] >= QLL_CHATTER_OVER * middle && sqrt(square) >= QLL_CHATTER_PA) {
        const bool at_rest =
            fast->flow_count > 0 && fast->second_flow <= QLL_REST_M3S * (double)fast->flow_count;
        hear(state, (double)peak * step_hz, sqrt(2.0 * square), at_rest);
    }
}

void qll_fast_take(qll_pressure_state *state, const int64_t *at_ms, const double *outlet,
                   const double *flow, size_t count)
{
    qll_fast *fast = &state->fast;
    const size_t second_rows = (size_t)fast->rate_hz;
    for (size_t i = 0; i < count; i++) {
        /* A value that is unknown is as the one before. */
        const double value = isnan(outlet[i]) ? fast->before_pa : outlet[i];
        fast->before_pa = value;
        fast->ring[fast->taken % fast->room] = value;
        fast->ring_ms[fast->taken % fast->room] = at_ms[i];
        fast->taken += 1;
        fast->open_most =
            fast->tenth_count == 0 || value > fast->open_most ? value : fast->open_most;
        fast->open_least =
            fast->tenth_count == 0 || value < fast->open_least ? value : fast->open_least;
        fast->tenth_sum += value;
        fast->tenth_count += 1;
        if (fast->tenth_count == fast->tenth_rows) {
            close_tenth(state);
        }
        if (fast->has_wave
            && fast->taken >= fast->wave_row + (uint64_t)(QLL_RING_S * fast->rate_hz) + 1) {
            fast->has_wave = false;
            take_wave(state, fast->wave_row, fast->wave_base);
        }
        if (!fast->hears) {
            continue;
        }
        if (fast->second_count == 0) {
            fast->second_ms = at_ms[i];
            fast->second_flow = 0.0;
            fast->flow_count = 0;
        }
        fast->second[fast->second_count] = value;
        fast->second_count += 1;
        if (flow != NULL && !isnan(flow[i])) {
            fast->second_flow += flow[i];
            fast->flow_count += 1;
        }
        if (fast->second_count == second_rows) {
            look_at_second(state);
            fast->second_count = 0;
        }
    }
}
