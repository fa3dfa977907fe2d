#include "signals/sound_frames.h"

#include <math.h>
#include <string.h>

#define QLL_FRAME_S      0.5
#define QLL_PEAKS        6
#define QLL_TONE_FROM_HZ 300.0
#define QLL_TONE_TO_HZ   9000.0
/* What is so little of the whole is rounding: 24 bits reach 144 dB down. */
#define QLL_ROUNDING     1e-14
/* A tone so far over what is around it is as clear as a tone can be: of several such the strongest is what people hear, and the
 * others may be no more than what few bits make of it (our assumption). */
#define QLL_CLEAR_HEIGHT 30.0
#define QLL_CLEAR_DB     20.0
/* Of the mains and of motors: harmonics to here, this near. */
#define QLL_COMB_TO_HZ   720.0
#define QLL_COMB_NEAR    0.015

double qll_sound_band_edge_hz(size_t edge)
{
    return 1000.0 * pow(10.0, 0.05 * ((double)edge - QLL_SOUND_BANDS_DOWN));
}

qll_status qll_sound_frames_open(double rate_hz, size_t most, qll_arena *arena,
                                 qll_sound_frames *frames)
{
    *frames = (qll_sound_frames){0};
    const size_t frame = qll_fourier_good_length((size_t)(QLL_FRAME_S * rate_hz));
    const qll_status status = qll_framing_make(frame, rate_hz, arena, &frames->framing);
    if (status != QLL_OK) {
        return status;
    }
    frames->bin_count = qll_fourier_bins(frame);
    frames->step_hz = rate_hz / (double)frame;
    for (size_t edge = 0; edge <= QLL_SOUND_BANDS; edge++) {
        frames->edge_hz[edge] = qll_sound_band_edge_hz(edge);
    }
    frames->hop_s = 0.5 * (double)frame / rate_hz;
    frames->room = 2 * most / frame + 1;
    frames->density = qll_arena_take(arena, frames->bin_count, sizeof *frames->density);
    frames->sum = qll_arena_take(arena, frames->bin_count + 1, sizeof *frames->sum);
    frames->mean = qll_arena_take(arena, frames->bin_count, sizeof *frames->mean);
    frames->bands = qll_arena_take(arena, frames->room, sizeof *frames->bands);
    frames->tones = qll_arena_take(arena, frames->room, sizeof *frames->tones);
    frames->sorted = qll_arena_take(arena, frames->room, sizeof *frames->sorted);
    return frames->density == NULL || frames->sum == NULL || frames->mean == NULL
                   || frames->bands == NULL || frames->tones == NULL || frames->sorted == NULL
               ? QLL_NO_MEMORY
               : QLL_OK;
}

static void take_bands(const qll_summed *spectrum, const double *edge_hz,
                       double bands[QLL_SOUND_BANDS])
{
    for (size_t b = 0; b < QLL_SOUND_BANDS; b++) {
        const bool is_within = edge_hz[b + 1] <= spectrum->step_hz * (double)(spectrum->count - 1);
        bands[b] = is_within ? qll_summed_power(spectrum, edge_hz[b], edge_hz[b + 1]) : (double)NAN;
    }
}

/* ---- tones ---- */

typedef struct peak {
    size_t bin;
    double height; /* density over the mean of its sixth octave */
    double density;
} peak;

/* Whether one of this clearness and strength stands before another; @p most: what is as clear as can be. */
static bool is_before(double clear, double strength, double other_clear, double other_strength,
                      double most)
{
    const bool is_both = clear >= most && other_clear >= most;
    return is_both ? strength > other_strength : clear > other_clear;
}

static bool is_higher(const peak *one, const peak *other)
{
    return is_before(one->height, one->density, other->height, other->density, QLL_CLEAR_HEIGHT);
}

static bool is_of_a_comb(double frequency_hz)
{
    if (frequency_hz >= (1.0 + QLL_COMB_NEAR) * QLL_COMB_TO_HZ) {
        return false;
    }
    for (int mains_hz = 50; mains_hz <= 60; mains_hz += 10) {
        const double k = floor(frequency_hz / mains_hz + 0.5);
        if (fabs(frequency_hz - k * mains_hz) <= QLL_COMB_NEAR * k * mains_hz) {
            return true;
        }
    }
    return false;
}

/* Puts @p found among the highest, unless a higher one is so near that both count as one. */
static void keep_peak(peak peaks[QLL_PEAKS], peak found, double step_hz)
{
    size_t place = QLL_PEAKS;
    if (!is_higher(&found, &peaks[QLL_PEAKS - 1])) {
        return;
    }
    const double least_hz = qll_tones_apart_hz((double)found.bin * step_hz);
    for (size_t i = 0; i < QLL_PEAKS; i++) {
        const double apart_hz = fabs((double)peaks[i].bin - (double)found.bin) * step_hz;
        if (peaks[i].height > 0.0 && apart_hz < least_hz) {
            if (!is_higher(&found, &peaks[i])) {
                return;
            }
            place = i;
            break;
        }
    }
    place = place == QLL_PEAKS ? QLL_PEAKS - 1 : place;
    for (; place > 0 && is_higher(&found, &peaks[place - 1]); place--) {
        peaks[place] = peaks[place - 1];
    }
    peaks[place] = found;
}

static void find_peaks(const qll_summed *spectrum, const double *edge_hz,
                       const double bands[QLL_SOUND_BANDS], peak peaks[QLL_PEAKS])
{
    memset(peaks, 0, QLL_PEAKS * sizeof *peaks);
    const double *density = spectrum->density;
    const double least = QLL_ROUNDING * spectrum->sum[spectrum->count] * spectrum->step_hz;
    for (size_t b = 0; b < QLL_SOUND_BANDS; b++) {
        const double from_hz = edge_hz[b], to_hz = edge_hz[b + 1];
        if (!(bands[b] > least) || to_hz < QLL_TONE_FROM_HZ || from_hz > QLL_TONE_TO_HZ) {
            continue;
        }
        const double mean = bands[b] / (to_hz - from_hz);
        const size_t last = (size_t)(to_hz / spectrum->step_hz);
        for (size_t k = (size_t)(from_hz / spectrum->step_hz) + 1; k <= last; k++) {
            if (density[k] > 3.0 * mean && density[k] >= density[k - 1]
                && density[k] > density[k + 1]) {
                keep_peak(peaks, (peak){k, density[k] / mean, density[k]}, spectrum->step_hz);
            }
        }
    }
}

static qll_frame_tone find_tone(const qll_summed *spectrum, const double *edge_hz,
                                const double bands[QLL_SOUND_BANDS])
{
    qll_frame_tone best = {NAN, -INFINITY};
    double strength = 0.0;
    peak peaks[QLL_PEAKS];
    find_peaks(spectrum, edge_hz, bands, peaks);
    for (size_t i = 0; i < QLL_PEAKS && peaks[i].height > 0.0; i++) {
        const double frequency_hz = (double)peaks[i].bin * spectrum->step_hz;
        const double excess_db =
            fmax(qll_tone_to_noise_db(spectrum, peaks[i].bin) - qll_tone_limit_db(frequency_hz),
                 qll_prominence_ratio_db(spectrum, frequency_hz)
                     - qll_prominence_limit_db(frequency_hz));
        if (is_before(excess_db, peaks[i].density, best.excess_db, strength, QLL_CLEAR_DB)
            && !is_of_a_comb(frequency_hz)) {
            best = (qll_frame_tone){frequency_hz, excess_db};
            strength = peaks[i].density;
        }
    }
    return best;
}

/* ---- all frames ---- */

/* Sums @p density up, and adds it to the mean. */
static qll_summed sum_up(qll_sound_frames *frames, const double *density)
{
    double sum = 0.0;
    frames->sum[0] = 0.0;
    for (size_t k = 0; k < frames->bin_count; k++) {
        sum += density[k];
        frames->sum[k + 1] = sum;
        frames->mean[k] += density[k];
    }
    return (qll_summed){frames->step_hz, frames->bin_count, density, frames->sum};
}

void qll_sound_frames_take(qll_sound_frames *frames, const double *samples, size_t count)
{
    const size_t frame = frames->framing.frame, hop = frame / 2;
    frames->count = (count - frame) / hop + 1;
    memset(frames->mean, 0, frames->bin_count * sizeof *frames->mean);
    for (size_t i = 0; i < frames->count; i++) {
        qll_framing_density(&frames->framing, samples + i * hop, frames->density);
        const qll_summed spectrum = sum_up(frames, frames->density);
        take_bands(&spectrum, frames->edge_hz, frames->bands[i]);
        frames->tones[i] = find_tone(&spectrum, frames->edge_hz, frames->bands[i]);
    }
    for (size_t k = 0; k < frames->bin_count; k++) {
        frames->mean[k] /= (double)frames->count;
    }
}

/* Moves the values so that the one of rank @p rank stands in its place, none before it greater and none behind it less: Hoare's
 * selection, in the form of Wirth (from memory). */
static double of_rank(double *values, ptrdiff_t count, ptrdiff_t rank)
{
    ptrdiff_t from = 0, to = count - 1;
    while (from < to) {
        const double pivot = values[rank];
        ptrdiff_t i = from, j = to;
        do {
            while (values[i] < pivot) {
                i += 1;
            }
            while (pivot < values[j]) {
                j -= 1;
            }
            if (i <= j) {
                const double moved = values[i];
                values[i] = values[j];
                values[j] = moved;
                i += 1;
                j -= 1;
            }
        } while (i <= j);
        from = j < rank ? i : from;
        to = rank < i ? j : to;
    }
    return values[rank];
}

double qll_sound_median(double *values, size_t count)
{
    if (count == 0) {
        return NAN;
    }
    const double upper = of_rank(values, (ptrdiff_t)count, (ptrdiff_t)(count / 2));
    if (count % 2 == 1) {
        return upper;
    }
    double lower = values[0];
    for (size_t i = 1; i < count / 2; i++) {
        lower = fmax(lower, values[i]);
    }
    return 0.5 * (lower + upper);
}

void qll_sound_band_medians(const qll_sound_frames *frames, double medians[QLL_SOUND_BANDS])
{
    for (size_t b = 0; b < QLL_SOUND_BANDS; b++) {
        for (size_t i = 0; i < frames->count; i++) {
            frames->sorted[i] = frames->bands[i][b];
        }
        medians[b] = qll_sound_median(frames->sorted, frames->count);
    }
}
