#include "signals/sound_envelope.h"

#include "signals/sound_frames.h"

#include <math.h>

#define QLL_STEP_S        0.001
#define QLL_THUMP_APART_S 0.3
/* A window so short that of blows which come singly most have none. */
#define QLL_WINDOW_STEPS  50
/* Kurtosis of noise that nothing but chance shapes. */
#define QLL_EVEN          3.0

qll_status qll_sound_envelope_open(double rate_hz, size_t most, qll_arena *arena,
                                   qll_sound_envelope *envelope)
{
    *envelope = (qll_sound_envelope){.rate_hz = rate_hz};
    envelope->hop = (size_t)(QLL_STEP_S * rate_hz + 0.5);
    envelope->step_s = (double)envelope->hop / rate_hz;
    envelope->room = most / envelope->hop + 1;
    qll_sound_rhythm_open(envelope);
    envelope->bands = qll_sound_bands_at(rate_hz);
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

/* Sums of the high band over a window or a second. */
typedef struct moments {
    double squares, fourths, most;
    size_t count;
} moments;

static void add_moments(const float (*squares)[QLL_ENVELOPE_BANDS], size_t count, moments *high)
{
    double sum = 0.0, fourths = 0.0, most = high->most;
    for (size_t j = 0; j < count; j++) {
        const double square = (double)squares[j][QLL_ENVELOPE_HIGH];
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
    float(*squares)[QLL_ENVELOPE_BANDS] = envelope->squares;
    qll_sound_bands_take(&envelope->bands, samples, envelope->hop, squares);
    float sums[QLL_ENVELOPE_BANDS] = {0};
    for (size_t j = 0; j < envelope->hop; j++) {
        for (size_t b = 0; b < QLL_ENVELOPE_BANDS; b++) {
            sums[b] += squares[j][b];
        }
    }
    for (size_t b = 0; b < QLL_ENVELOPE_BANDS; b++) {
        power[b] = (double)sums[b] / (double)envelope->hop;
    }
    add_moments((const float(*)[QLL_ENVELOPE_BANDS])squares, envelope->hop, high);
}

/* NaN of silence. */
static double kurtosis_of(const moments *of)
{
    const double mean = of->squares / (double)of->count;
    return mean > 0.0 ? of->fourths / (double)of->count / (mean * mean) : (double)NAN;
}

/* Ends a short window, whose kurtosis is the next to be sorted; it is part of the second. */
static void end_window(qll_sound_envelope *envelope, moments *window, moments *second)
{
    const double kurtosis = kurtosis_of(window);
    if (!isnan(kurtosis)) {
        envelope->sorted[envelope->window_count] = kurtosis;
        envelope->window_count += 1;
    }
    second->squares += window->squares;
    second->fourths += window->fourths;
    second->most = fmax(second->most, window->most);
    second->count += window->count;
    *window = (moments){0};
}

static void end_second(qll_sound_envelope *envelope, moments *second)
{
    const double kurtosis = kurtosis_of(second);
    if (!isnan(kurtosis)) {
        const double mean = second->squares / (double)second->count;
        envelope->seconds[0][envelope->second_count] = kurtosis;
        envelope->seconds[1][envelope->second_count] = 10.0 * log10(second->most / mean);
        envelope->second_count += 1;
    }
    *second = (moments){0};
}

void qll_sound_envelope_take(qll_sound_envelope *envelope, const double *samples, size_t count,
                             qll_sound_features *features)
{
    envelope->count = count / envelope->hop;
    envelope->second_count = envelope->window_count = 0;
    moments window = {0}, second = {0};
    for (size_t i = 0; i < envelope->count; i++) {
        step(envelope, samples + i * envelope->hop, &window, envelope->power[i]);
        if ((i + 1) % QLL_WINDOW_STEPS == 0) {
            end_window(envelope, &window, &second);
        }
        if ((double)second.count >= envelope->rate_hz) {
            end_second(envelope, &second);
        }
    }
    features->bursts = qll_sound_median(envelope->sorted, envelope->window_count) / QLL_EVEN;
    features->kurtosis = qll_sound_median(envelope->seconds[0], envelope->second_count);
    features->crest_db = qll_sound_median(envelope->seconds[1], envelope->second_count);
    qll_sound_rhythm(envelope, features);
    qll_sound_thumps(envelope, features);
    qll_sound_swing(envelope, features);
}
