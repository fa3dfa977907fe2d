/* Oscillation while the flow stands still: hunting of a valve, or of the supply. */
#include "numeric/lomb_scargle.h"
#include "signals/pressure_span.h"
#include "signals/pressure_state.h"

#include <math.h>
#include <string.h>

#define QLL_HUNT_VALUES      ((size_t)80)
#define QLL_HUNT_PIECE       ((size_t)256)
#define QLL_HUNT_SLACK       0.3 /* hunting moves the flow too */
#define QLL_HUNT_EDGE_MS     ((int64_t)3 * 1000)
#define QLL_HUNT_LEAST_PA    3000.0
#define QLL_HUNT_LEAST_HZ    0.02
#define QLL_HUNT_MOST_HZ     1.5 /* what is faster is chatter, or the shadow of it in averages */
#define QLL_HUNT_CYCLES      8.0
#define QLL_HUNT_OVER_DB     10.0
/* Over what lies at half its frequency: a step makes a slope, and no peak. */
#define QLL_HUNT_TIMES       4.0
/* Of all that moves: noise and slugs of air have peaks by chance, but these hold little of it. */
#define QLL_HUNT_SHARE       0.4
#define QLL_HUNT_INLET       0.5 /* of the outlet's swing: then the supply swings */
#define QLL_HUNT_INTERVAL_MS ((int64_t)2000)
/* Rows quicker than this are averaged for a second look, as a frame of theirs holds too little of a slow swing. */
#define QLL_HUNT_SLOW_MS     ((int64_t)500)
/* Uneven times: this share of neighbors further than 0.3 of an interval from one. */
#define QLL_UNEVEN_SHARE     0.05
#define QLL_UNEVEN_EXPLAINS  0.3
#define QLL_UNEVEN_ALARM     0.01

bool qll_hunt_begin(qll_hunt *hunt, int64_t interval_ms, qll_arena *arena)
{
    const double rate_hz = 1000.0 / (double)interval_ms;
    bool good = true;
    size_t frame = QLL_HUNT_PIECE / 4;
    for (size_t f = 0; f < 3; f++, frame *= 2) {
        good = good && qll_framing_make(frame, rate_hz, arena, &hunt->frames[f]) == QLL_OK;
    }
    hunt->averaged = QLL_HUNT_SLOW_MS >= 2 * interval_ms && interval_ms > 0
                         ? (size_t)(QLL_HUNT_SLOW_MS / interval_ms)
                         : 1;
    frame = QLL_HUNT_PIECE / 4;
    for (size_t f = 0; f < 3; f++, frame *= 2) {
        good = good
               && qll_framing_make(frame, rate_hz / (double)hunt->averaged, arena,
                                   &hunt->slow_frames[f])
                      == QLL_OK;
    }
    hunt->slow = qll_arena_take(arena, 2 * QLL_HUNT_PIECE * 8, sizeof *hunt->slow);
    hunt->residual = qll_arena_take(arena, 2 * QLL_HUNT_PIECE * 8, sizeof *hunt->residual);
    hunt->density = qll_arena_take(arena, QLL_HUNT_PIECE, sizeof *hunt->density);
    hunt->sum = qll_arena_take(arena, 2 * QLL_HUNT_PIECE, sizeof *hunt->sum);
    return good && hunt->slow != NULL && hunt->residual != NULL && hunt->density != NULL
           && hunt->sum != NULL;
}

/* ---- what is left without level, trend and inlet ---- */

/* Solves the symmetric system of three by elimination; what cannot be told gets 0. */
static void solve(double a[3][4])
{
    for (int i = 0; i < 3; i++) {
        if (!(fabs(a[i][i]) > 1e-12)) {
            a[i][3] = 0.0;
            continue;
        }
        for (int j = 0; j < 3; j++) {
            const double times = j == i ? 0.0 : a[j][i] / a[i][i];
            for (int k = i; k < 4 && j != i; k++) {
                a[j][k] -= times * a[i][k];
            }
        }
    }
    for (int i = 0; i < 3; i++) {
        a[i][3] = fabs(a[i][i]) > 1e-12 ? a[i][3] / a[i][i] : 0.0;
    }
}

/* Least squares of @p values on [1, t, beside]; what is left, and its rms. */
static double detrend(const double *values, const double *beside, size_t count, double *left)
{
    double means[2] = {0.0, 0.0};
    for (size_t i = 0; i < count; i++) {
        means[0] += values[i] / (double)count;
        means[1] += beside == NULL ? 0.0 : beside[i] / (double)count;
    }
    double a[3][4] = {{0}};
    for (size_t i = 0; i < count; i++) {
        const double x[3] = {1.0, (double)i / (double)count - 0.5,
                             beside == NULL ? 0.0 : (beside[i] - means[1]) / 1000.0};
        for (int j = 0; j < 3; j++) {
            for (int k = 0; k < 3; k++) {
                a[j][k] += x[j] * x[k] / (double)count;
            }
            a[j][3] += x[j] * (values[i] - means[0]) / (double)count;
        }
    }
    solve(a);
    double square = 0.0;
    for (size_t i = 0; i < count; i++) {
        left[i] = values[i] - means[0] - a[0][3] - a[1][3] * ((double)i / (double)count - 0.5);
        left[i] -= beside == NULL ? 0.0 : a[2][3] * (beside[i] - means[1]) / 1000.0;
        square += left[i] * left[i];
    }
    return sqrt(square / (double)count);
}

/* ---- the peak ---- */

typedef struct peak {
    bool stands;
    double frequency_hz, rms_pa;
    size_t bin;
} peak;

static double median_density(const double *density, size_t from, size_t to, double *scratch)
{
    memcpy(scratch, density + from, (to - from) * sizeof *density);
    /* Few values: the middle one by counting. */
    for (size_t i = 1; i < to - from; i++) {
        const double held = scratch[i];
        size_t at = i;
        for (; at > 0 && scratch[at - 1] > held; at--) {
            scratch[at] = scratch[at - 1];
        }
        scratch[at] = held;
    }
    return scratch[(to - from) / 2];
}

static void average_density(qll_framing *framing, const double *values, size_t count,
                            double *density, double *sum)
{
    const size_t bins = framing->frame / 2 + 1;
    size_t frames = 0;
    memset(sum, 0, bins * sizeof *sum);
    for (size_t from = 0; from + framing->frame <= count; from += framing->frame / 2) {
        qll_framing_density(framing, values + from, density);
        for (size_t k = 0; k < bins; k++) {
            sum[k] += density[k];
        }
        frames += 1;
    }
    for (size_t k = 0; k < bins; k++) {
        sum[k] /= (double)frames; /* one at least: a piece has more values than its frame */
    }
}

static double band_rms(const double *density, size_t bins, size_t bin, double step_hz)
{
    double sum = 0.0;
    for (size_t k = bin > 2 ? bin - 2 : 0; k <= bin + 2 && k < bins; k++) {
        sum += density[k] * step_hz;
    }
    return sqrt(sum);
}

static peak find_peak(qll_hunt *hunt, const qll_framing *framing, size_t count, double all_pa)
{
    const size_t bins = framing->frame / 2 + 1;
    const double step_hz = framing->rate_hz / (double)framing->frame;
    const double least_hz =
        fmax(QLL_HUNT_LEAST_HZ, QLL_HUNT_CYCLES * framing->rate_hz / (double)count);
    const double *density = hunt->sum;
    peak found = {0};
    for (size_t k = (size_t)ceil(least_hz / step_hz);
         k + 1 < bins && (double)k * step_hz <= QLL_HUNT_MOST_HZ; k++) {
        if (k > 0 && density[k] > density[found.bin == 0 ? k - 1 : found.bin]) {
            found.bin = k;
        }
    }
    if (found.bin == 0) {
        return found;
    }
    double below = 0.0;
    size_t below_count = 0;
    for (size_t k = 1; k < bins; k++) {
        if ((double)k >= 0.4 * (double)found.bin && (double)k <= 0.6 * (double)found.bin) {
            below += density[k];
            below_count += 1;
        }
    }
    const double floor_density = median_density(density, 1, bins, hunt->density);
    found.frequency_hz = (double)found.bin * step_hz;
    found.rms_pa = band_rms(density, bins, found.bin, step_hz);
    found.stands =
        density[found.bin] >= pow(10.0, QLL_HUNT_OVER_DB / 10.0) * floor_density
        && density[found.bin] >= density[found.bin - 1]
        && (below_count == 0 || density[found.bin] >= QLL_HUNT_TIMES * below / (double)below_count)
        && found.rms_pa >= QLL_HUNT_LEAST_PA
        && found.rms_pa * found.rms_pa >= QLL_HUNT_SHARE * all_pa * all_pa;
    return found;
}

/* ---- uneven times ---- */

static bool is_uneven(const qll_series *series, size_t from, size_t to)
{
    size_t off = 0;
    for (size_t i = from + 1; i < to; i++) {
        const int64_t apart_ms = series->at_ms[i] - series->at_ms[i - 1] - series->interval_ms;
        off += (apart_ms < 0 ? -apart_ms : apart_ms) * 10 > series->interval_ms * 3 ? 1U : 0U;
    }
    return (double)off > QLL_UNEVEN_SHARE * (double)(to - from);
}

static peak find_uneven(qll_hunt *hunt, const qll_series *series, size_t from, size_t count,
                        double rms_pa)
{
    double time_s[QLL_HUNT_PIECE];
    count = count < QLL_HUNT_PIECE ? count : QLL_HUNT_PIECE;
    for (size_t i = 0; i < count; i++) {
        time_s[i] = (double)(series->at_ms[from + i] - series->at_ms[from]) / 1000.0;
    }
    const double length_s = time_s[count - 1];
    const double least_hz = fmax(QLL_HUNT_LEAST_HZ, QLL_HUNT_CYCLES / length_s);
    const double most_hz = 0.5 * (double)(count - 1) / length_s;
    peak found = {0};
    double best = 0.0;
    const double step_hz = 0.5 / length_s;
    for (size_t k = 0; least_hz + (double)k * step_hz < most_hz; k++) {
        const double tried_hz = least_hz + (double)k * step_hz;
        const double share = qll_lomb_scargle(time_s, hunt->residual, count, tried_hz);
        if (share > best) {
            best = share;
            found.frequency_hz = tried_hz;
        }
    }
    found.rms_pa = rms_pa * sqrt(best);
    found.stands = best >= QLL_UNEVEN_EXPLAINS && found.rms_pa >= QLL_HUNT_LEAST_PA
                   && qll_lomb_scargle_false_alarm(best, count, (most_hz - least_hz) * length_s)
                          < QLL_UNEVEN_ALARM;
    return found;
}

/* ---- pieces ---- */

/* What is looked at. */
typedef struct piece {
    const double *outlet, *inlet; /* inlet: NULL where it is not known */
    size_t count;
    qll_framing *framing;
} piece;

static qll_framing *frame_for(qll_framing *frames, size_t count)
{
    return &frames[count >= 256 ? 2 : count >= 128 ? 1 : 0];
}

/* By what detrend() left of it. */
static peak find_even(qll_hunt *hunt, const piece *of, double rms_pa)
{
    average_density(of->framing, hunt->residual, of->count, hunt->density, hunt->sum);
    return find_peak(hunt, of->framing, of->count, rms_pa);
}

static const double *average_of(const double *values, size_t count, size_t each, double *averages)
{
    for (size_t i = 0; i < count; i++) {
        averages[i] = qll_span_of(values + i * each, each).sum / (double)each;
    }
    return averages;
}

/* The same piece by averages, so that a frame of as many holds more of a slow swing. */
static piece slower(qll_hunt *hunt, const piece *of)
{
    const size_t each = hunt->averaged, count = of->count / each;
    double *slow_inlet = hunt->slow + QLL_HUNT_PIECE * 8;
    return (piece){.outlet = average_of(of->outlet, count, each, hunt->slow),
                   .inlet =
                       of->inlet == NULL ? NULL : average_of(of->inlet, count, each, slow_inlet),
                   .count = count,
                   .framing = frame_for(hunt->slow_frames, count)};
}

/* Does the inlet swing as much? */
static bool is_supply(qll_hunt *hunt, const piece *of, const peak *found)
{
    const double *inlet = of->inlet;
    qll_framing *framing = of->framing;
    const size_t count = of->count;
    if (inlet == NULL || found->bin == 0) {
        return false;
    }
    const size_t bins = framing->frame / 2 + 1;
    double *left = hunt->residual + QLL_HUNT_PIECE * 8;
    (void)detrend(inlet, NULL, count, left);
    average_density(framing, left, count, hunt->density, hunt->sum + QLL_HUNT_PIECE);
    const double rms_pa = band_rms(hunt->sum + QLL_HUNT_PIECE, bins, found->bin,
                                   framing->rate_hz / (double)framing->frame);
    return rms_pa >= QLL_HUNT_INLET * found->rms_pa;
}

static bool are_known(const double *values, size_t count)
{
    return values == NULL || !isnan(qll_span_of(values, count).sum);
}

/* Does a piece move at all? What is left once level, trend and inlet are taken off is never more than without its level. */
static bool moves(const double *values, size_t count)
{
    const double mean = qll_span_of(values, count).sum / (double)count;
    double even = 0.0;
    double odd = 0.0;
    for (size_t i = 0; i + 1 < count; i += 2) {
        even += (values[i] - mean) * (values[i] - mean);
        odd += (values[i + 1] - mean) * (values[i + 1] - mean);
    }
    const double last = count % 2 == 1 ? values[count - 1] - mean : 0.0;
    return even + odd + last * last >= 0.99 * QLL_HUNT_LEAST_PA * QLL_HUNT_LEAST_PA * (double)count;
}

/* Where there is no flow channel any piece is looked at, and a neighbor must hum alike: draw-offs do not. */
static bool has_company(qll_hunt *hunt, const qll_series *series, const peak *found)
{
    const double before_hz = hunt->last_frequency_hz;
    hunt->last_frequency_hz = found->stands ? found->frequency_hz : 0.0;
    return series->value[QLL_CHANNEL_FLOW] != NULL
           || fabs(before_hz - found->frequency_hz) <= 0.1 * found->frequency_hz;
}

static void look_at(qll_pressure_state *state, const qll_series *series, size_t from, size_t to)
{
    qll_hunt *hunt = &state->hunt;
    size_t count = to - from;
    count = count < QLL_HUNT_PIECE * 8 ? count : QLL_HUNT_PIECE * 8;
    const double *outlet = series->value[QLL_CHANNEL_OUTLET] + from;
    const double *inlet = series->value[QLL_CHANNEL_INLET];
    inlet = inlet == NULL ? NULL : inlet + from;
    const double length_s = (double)((int64_t)count * series->interval_ms) / 1000.0;
    if (count < QLL_HUNT_VALUES || !are_known(outlet, count)) {
        return;
    }
    hunt->looked_s += length_s;
    if (!moves(outlet, count)) {
        hunt->last_frequency_hz = 0.0;
        return;
    }
    inlet = are_known(inlet, count) ? inlet : NULL;
    const double rms_pa = detrend(outlet, inlet, count, hunt->residual);
    if (rms_pa < QLL_HUNT_LEAST_PA) {
        hunt->last_frequency_hz = 0.0;
        return;
    }
    piece at = {outlet, inlet, count, frame_for(hunt->frames, count)};
    peak found;
    if (is_uneven(series, from, from + count)) {
        found = find_uneven(hunt, series, from, count, rms_pa);
    } else {
        found = find_even(hunt, &at, rms_pa);
        if (!found.stands && hunt->averaged > 1 && count / hunt->averaged >= QLL_HUNT_VALUES) {
            at = slower(hunt, &at);
            found = find_even(hunt, &at, detrend(at.outlet, at.inlet, at.count, hunt->residual));
        }
    }
    if (!has_company(hunt, series, &found) || !found.stands) {
        return;
    }
    if (is_supply(hunt, &at, &found)) {
        hunt->supply_s += length_s;
        return;
    }
    hunt->run_count += 1;
    hunt->seen_s += length_s;
    hunt->cycles += length_s * found.frequency_hz;
    hunt->first_ms = hunt->first_ms == 0 ? series->at_ms[from] : hunt->first_ms;
    hunt->last_ms = series->at_ms[to - 1];
    if (found.rms_pa > hunt->best_rms_pa) {
        hunt->best_rms_pa = found.rms_pa;
        hunt->frequency_hz = found.frequency_hz;
    }
    /* As many readings as show its swings: about ten of them. */
    const size_t shown =
        (size_t)(10.0 / found.frequency_hz * 1000.0 / (double)series->interval_ms) + 1;
    qll_pressure_keep(state, series, QLL_PRESSURE_WORD_HUNTING, found.rms_pa, from,
                      from + (shown < count ? shown : count));
}

static size_t look_at_pieces(qll_pressure_state *state, const qll_series *series, bool is_last)
{
    size_t from = 0;
    while (from + QLL_HUNT_PIECE <= series->count) {
        const int64_t length_ms = series->at_ms[from + QLL_HUNT_PIECE - 1] - series->at_ms[from];
        if (length_ms < 2 * (int64_t)QLL_HUNT_PIECE * series->interval_ms
            && series->at_ms[from] > state->hunt_done_ms) {
            look_at(state, series, from, from + QLL_HUNT_PIECE);
            state->hunt_done_ms = series->at_ms[from];
        }
        from += QLL_HUNT_PIECE / 2;
    }
    return is_last ? series->count : from;
}

size_t qll_pressure_hunt(qll_pressure_state *state, const qll_series *series, bool is_last)
{
    const double *flow = series->value[QLL_CHANNEL_FLOW];
    if (series->interval_ms > QLL_HUNT_INTERVAL_MS) {
        return series->count;
    }
    if (flow == NULL) {
        return look_at_pieces(state, series, is_last);
    }
    const size_t edge = (size_t)(QLL_HUNT_EDGE_MS / series->interval_ms);
    for (size_t from = 0; from < series->count;) {
        const qll_tile *tile = qll_tile_at(series, from);
        if (tile != NULL && tile->flow_most_m3s <= 0.0) {
            from += QLL_TILE_VALUES;
            continue;
        }
        const size_t to = flow[from] > 0.0 ? qll_run_end(series, from, QLL_HUNT_SLACK) : from;
        if (to == series->count && !is_last && from >= series->count / 2) {
            return from;
        }
        if (to > from && to - from >= QLL_HUNT_VALUES + 2 * edge) {
            look_at(state, series, from + edge, to - edge);
        }
        from = to > from ? to : from + 1;
    }
    return series->count;
}
