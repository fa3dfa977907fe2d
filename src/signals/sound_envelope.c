#include "signals/sound_envelope.h"

#include "signals/sound_frames.h"

#include <math.h>

#define QLL_PI            3.14159265358979323846
#define QLL_STEP_S        0.001
#define QLL_THUMP_APART_S 0.3
/* Under this a filter's state is silence: what is left of it would only slow the machine down. */
#define QLL_SILENCE       1e-100

static const double from_hz[QLL_ENVELOPE_BANDS] = {150, 600, 2000, 80};
static const double to_hz[QLL_ENVELOPE_BANDS] = {600, 2000, 8000, 1200};

/* Butterworth's second order by the bilinear transform, up from or down to an edge. */
static void make_section(qll_sections *sections, size_t band, double edge_hz, double rate_hz,
                         bool is_up)
{
    const double k = tan(QLL_PI * fmin(edge_hz, 0.45 * rate_hz) / rate_hz);
    const double whole = 1.0 + sqrt(2.0) * k + k * k;
    sections->b0[band] = (is_up ? 1.0 : k * k) / whole;
    sections->b1[band] = (is_up ? -2.0 : 2.0) * sections->b0[band];
    sections->a1[band] = 2.0 * (k * k - 1.0) / whole;
    sections->a2[band] = (1.0 - sqrt(2.0) * k + k * k) / whole;
}

qll_status qll_sound_envelope_open(double rate_hz, size_t most, qll_arena *arena,
                                   qll_sound_envelope *envelope)
{
    *envelope = (qll_sound_envelope){.rate_hz = rate_hz};
    envelope->hop = (size_t)(QLL_STEP_S * rate_hz + 0.5);
    envelope->step_s = (double)envelope->hop / rate_hz;
    envelope->room = most / envelope->hop + 1;
    envelope->length = qll_fourier_good_length(2 * envelope->room);
    for (size_t band = 0; band < QLL_ENVELOPE_BANDS; band++) {
        make_section(&envelope->up, band, from_hz[band], rate_hz, true);
        make_section(&envelope->down, band, to_hz[band], rate_hz, false);
    }
    const size_t seconds = (size_t)((double)most / rate_hz) + 2;
    const size_t bins = qll_fourier_bins(envelope->length);
    const size_t thumps = (size_t)((double)most / rate_hz / QLL_THUMP_APART_S) + 2;
    envelope->power = qll_arena_take(arena, envelope->room, sizeof *envelope->power);
    envelope->work = qll_arena_take(arena, envelope->length, sizeof *envelope->work);
    envelope->sorted = qll_arena_take(arena, envelope->room, sizeof *envelope->sorted);
    envelope->bins.re = qll_arena_take(arena, bins, sizeof *envelope->bins.re);
    envelope->bins.im = qll_arena_take(arena, bins, sizeof *envelope->bins.im);
    envelope->seconds[0] = qll_arena_take(arena, seconds, sizeof **envelope->seconds);
    envelope->seconds[1] = qll_arena_take(arena, seconds, sizeof **envelope->seconds);
    envelope->squares = qll_arena_take(arena, envelope->hop, sizeof *envelope->squares);
    envelope->thumps = qll_arena_take(arena, thumps, sizeof *envelope->thumps);
    if (envelope->power == NULL || envelope->work == NULL || envelope->sorted == NULL
        || envelope->bins.re == NULL || envelope->bins.im == NULL || envelope->seconds[0] == NULL
        || envelope->seconds[1] == NULL || envelope->thumps == NULL || envelope->squares == NULL) {
        return QLL_NO_MEMORY;
    }
    return qll_fourier_plan(envelope->length, arena, &envelope->fourier);
}

/* Sections of two bands, which a compiler puts side by side into one register each. */
typedef struct pair {
    double b0[2], b1[2], a1[2], a2[2], s1[2], s2[2];
} pair;

static pair pair_of(const qll_sections *of, size_t first)
{
    pair two;
    for (size_t b = 0; b < 2; b++) {
        two.b0[b] = of->b0[first + b];
        two.b1[b] = of->b1[first + b];
        two.a1[b] = of->a1[first + b];
        two.a2[b] = of->a2[first + b];
        two.s1[b] = of->s1[first + b];
        two.s2[b] = of->s2[first + b];
    }
    return two;
}

static double hushed(double state)
{
    return fabs(state) < QLL_SILENCE ? 0.0 : state;
}

static void keep_pair(const pair *two, size_t first, qll_sections *of)
{
    for (size_t b = 0; b < 2; b++) {
        of->s1[first + b] = hushed(two->s1[b]);
        of->s2[first + b] = hushed(two->s2[b]);
    }
}

static inline void pass(pair *two, double values[2])
{
    double out[2];
    for (size_t b = 0; b < 2; b++) {
        out[b] = two->b0[b] * values[b] + two->s1[b];
    }
    for (size_t b = 0; b < 2; b++) {
        two->s1[b] = two->b1[b] * values[b] - two->a1[b] * out[b] + two->s2[b];
    }
    for (size_t b = 0; b < 2; b++) {
        two->s2[b] = two->b0[b] * values[b] - two->a2[b] * out[b];
    }
    values[0] = out[0];
    values[1] = out[1];
}

/* The samples of a step through two bands: squares gets two for each. */
static void filter_pair(qll_sound_envelope *envelope, size_t first, const double *samples,
                        double (*squares)[2])
{
    pair up = pair_of(&envelope->up, first), down = pair_of(&envelope->down, first);
    for (size_t j = 0; j < envelope->hop; j++) {
        double values[2] = {samples[j], samples[j]};
        pass(&up, values);
        pass(&down, values);
        squares[j][0] = values[0] * values[0];
        squares[j][1] = values[1] * values[1];
    }
    keep_pair(&up, first, &envelope->up);
    keep_pair(&down, first, &envelope->down);
}

/* Sums of the high band over a second. */
typedef struct moments {
    double squares, fourths, most;
    size_t count;
} moments;

static void add_moments(const double (*squares)[2], size_t count, moments *high)
{
    double sum = 0.0, fourths = 0.0, most = high->most;
    for (size_t j = 0; j < count; j++) {
        const double square = squares[j][QLL_ENVELOPE_HIGH % 2];
        sum += square;
        fourths += square * square;
        most = square > most ? square : most;
    }
    high->squares += sum;
    high->fourths += fourths;
    high->most = most;
    high->count += count;
}

static void step(qll_sound_envelope *envelope, const double *samples, moments *high,
                 double power[QLL_ENVELOPE_BANDS])
{
    double(*squares)[2] = envelope->squares;
    for (size_t first = 0; first < QLL_ENVELOPE_BANDS; first += 2) {
        filter_pair(envelope, first, samples, squares);
        double sums[2] = {0};
        for (size_t j = 0; j < envelope->hop; j++) {
            sums[0] += squares[j][0];
            sums[1] += squares[j][1];
        }
        power[first] = sums[0] / (double)envelope->hop;
        power[first + 1] = sums[1] / (double)envelope->hop;
        if (first == QLL_ENVELOPE_HIGH) {
            add_moments((const double(*)[2])squares, envelope->hop, high);
        }
    }
}

static void end_second(qll_sound_envelope *envelope, moments *high)
{
    const double mean = high->squares / (double)high->count;
    if (mean > 0.0) {
        envelope->seconds[0][envelope->second_count] =
            high->fourths / (double)high->count / (mean * mean);
        envelope->seconds[1][envelope->second_count] = 10.0 * log10(high->most / mean);
        envelope->second_count += 1;
    }
    *high = (moments){0};
}

void qll_sound_envelope_take(qll_sound_envelope *envelope, const double *samples, size_t count,
                             qll_sound_features *features)
{
    envelope->count = count / envelope->hop;
    envelope->second_count = 0;
    moments high = {0};
    for (size_t i = 0; i < envelope->count; i++) {
        step(envelope, samples + i * envelope->hop, &high, envelope->power[i]);
        if ((double)high.count >= envelope->rate_hz) {
            end_second(envelope, &high);
        }
    }
    features->kurtosis = qll_sound_median(envelope->seconds[0], envelope->second_count);
    features->crest_db = qll_sound_median(envelope->seconds[1], envelope->second_count);
    qll_sound_rhythm(envelope, features);
    qll_sound_thumps(envelope, features);
    qll_sound_swing(envelope, features);
}
