/* Whether blows come in an even rhythm: the autocorrelation of the envelope. docs/theory/sound.md, 7. */
#include "signals/sound_envelope.h"

#include <math.h>
#include <string.h>

#define QLL_SLOW_S         0.4 /* what changes more slowly is no rhythm */
#define QLL_MOST_HZ        70.0
#define QLL_LEAST_HZ       6.0
/* How far a mains' frequency strays: 0.2 Hz of 50 (what a grid allows itself at rest, from memory) and the phone's clock; a line of
 * ten seconds is not thinner than the least. */
#define QLL_MAINS_SHARE    0.005
#define QLL_MAINS_LEAST_HZ 0.4
/* A share of the strongest from which on a shorter period is the one. */
#define QLL_SAME_STRENGTH  0.9
/* The greatest share of a band that a tone above it may leave there, for the band's rhythm not to be the tone's. */
#define QLL_LEAKS          0.1

/* Where the bands of a rhythm end. */
static const double upper_hz[] = {600.0, 2000.0, 8000.0};

void qll_sound_rhythm_open(qll_sound_envelope *envelope)
{
    envelope->shortest = (size_t)ceil(1.0 / QLL_MOST_HZ / envelope->step_s);
    envelope->longest = (size_t)(1.0 / QLL_LEAST_HZ / envelope->step_s);
    /* The dip behind the longest lag lies half a lag beyond: so much silence behind the envelope keeps its end from its beginning. */
    envelope->length =
        qll_fourier_good_length(envelope->room + envelope->longest + envelope->longest / 2 + 1);
}

/* The envelope of a band over two steps, less its running mean, to work; the rest of work is zero. */
static void put_envelope(qll_sound_envelope *envelope, size_t band)
{
    double *work = envelope->work, *levels = envelope->sorted;
    const size_t count = envelope->count;
    for (size_t i = 0; i < count; i++) {
        const double before = envelope->power[i == 0 ? 0 : i - 1][band];
        levels[i] = log(fmax(0.5 * (before + envelope->power[i][band]), 1e-30));
    }
    const size_t half = (size_t)(0.5 * QLL_SLOW_S / envelope->step_s);
    double sum = 0.0;
    size_t from = 0, to = 0;
    for (size_t i = 0; i < count; i++) {
        for (; to < count && to <= i + half; to++) {
            sum += levels[to];
        }
        for (; from + half < i; from++) {
            sum -= levels[from];
        }
        work[i] = levels[i] - sum / (double)(to - from);
    }
    memset(work + count, 0, (envelope->length - count) * sizeof *work);
}

static bool is_mains(double hz, double mains_hz)
{
    const double times = fmax(1.0, floor(hz / mains_hz + 0.5));
    return fabs(hz - times * mains_hz) <= fmax(QLL_MAINS_SHARE * hz, QLL_MAINS_LEAST_HZ);
}

/* The autocorrelation of work in its place, as far as it is looked at: lag 0 would be 1 with the mains' hum, which is taken off. False
 * of silence. */
static bool correlate(qll_sound_envelope *envelope)
{
    double *work = envelope->work;
    double whole = 0.0;
    for (size_t i = 0; i < envelope->count; i++) {
        whole += work[i] * work[i];
    }
    qll_fourier_forward(envelope->fourier, work, envelope->bins);
    const qll_complexes bins = envelope->bins;
    const double step_hz = 1.0 / ((double)envelope->length * envelope->step_s);
    for (size_t k = 0; k < qll_fourier_bins(envelope->length); k++) {
        const double hz = (double)k * step_hz;
        const double power = bins.re[k] * bins.re[k] + bins.im[k] * bins.im[k];
        bins.re[k] = is_mains(hz, 50.0) || is_mains(hz, 60.0) ? 0.0 : power;
        bins.im[k] = 0.0;
    }
    qll_fourier_inverse(envelope->fourier, bins, work);
    if (!(whole > 0.0)) {
        return false;
    }
    for (size_t lag = 0; lag <= envelope->longest + envelope->longest / 2; lag++) {
        work[lag] *= (double)envelope->count / (double)(envelope->count - lag) / whole;
    }
    return true;
}

static double least(const double *values, size_t from, size_t to)
{
    double low = values[from];
    for (size_t i = from + 1; i <= to; i++) {
        low = fmin(low, values[i]);
    }
    return low;
}

/* How far the autocorrelation at @p lag stands above its dips on either side. */
static double strength_at(const double *correlation, size_t lag)
{
    const size_t half = lag / 2;
    return correlation[lag]
           - 0.5 * (least(correlation, lag - half, lag) + least(correlation, lag, lag + half));
}

/* The strongest repetition of a band. */
typedef struct rhythm {
    double strength, hz;
} rhythm;

/* How strong a repetition after @p lag is; 0 where it is no peak. */
static double peak_at(const double *correlation, size_t lag)
{
    const bool is_peak =
        correlation[lag] >= correlation[lag - 1] && correlation[lag] >= correlation[lag + 1];
    return is_peak ? strength_at(correlation, lag) : 0.0;
}

static rhythm find_rhythm(const qll_sound_envelope *envelope)
{
    const double *correlation = envelope->work;
    double strongest = 0.0;
    for (size_t lag = envelope->shortest; lag <= envelope->longest; lag++) {
        strongest = fmax(strongest, peak_at(correlation, lag));
    }
    /* what repeats after one period repeats after two, and that may lie nearer to a whole step */
    for (size_t lag = envelope->shortest; lag <= envelope->longest && strongest > 0.0; lag++) {
        if (peak_at(correlation, lag) >= QLL_SAME_STRENGTH * strongest) {
            return (rhythm){strongest, 1.0 / ((double)lag * envelope->step_s)};
        }
    }
    return (rhythm){0.0, NAN};
}

/* The mean power of a band over the stretch. */
static double power_of(const qll_sound_envelope *envelope, size_t band)
{
    double sum = 0.0;
    for (size_t i = 0; i < envelope->count; i++) {
        sum += envelope->power[i][band];
    }
    return sum / (double)envelope->count;
}

/* Whether @p band lies below a tone and has next to nothing of it: no more than a filter of 12 dB an octave leaves of all that the
 * tone's own band holds. */
static bool is_below(const qll_sound_envelope *envelope, size_t band, double tone_hz)
{
    size_t own = band;
    while (own < QLL_ENVELOPE_HIGH && tone_hz > upper_hz[own]) {
        own += 1;
    }
    return own > band
           && power_of(envelope, own) / (1.0 + pow(tone_hz / upper_hz[band], 4.0))
                  < QLL_LEAKS * power_of(envelope, band);
}

void qll_sound_rhythm(qll_sound_envelope *envelope, qll_sound_features *features)
{
    rhythm first = {0.0, NAN}, second = {0.0, NAN};
    features->repeat_below = 0.0;
    for (size_t band = QLL_ENVELOPE_LOW;
         band <= QLL_ENVELOPE_HIGH && envelope->count >= 4 * envelope->longest; band++) {
        put_envelope(envelope, band);
        if (!correlate(envelope)) {
            continue;
        }
        const rhythm found = find_rhythm(envelope);
        if (is_below(envelope, band, features->tone_hz)) {
            features->repeat_below = fmax(features->repeat_below, found.strength);
        }
        if (found.strength > first.strength) {
            second = first;
            first = found;
        } else if (found.strength > second.strength) {
            second = found;
        }
    }
    features->repeat_strength = first.strength;
    features->repeat_wide = second.strength;
    features->repeat_hz = first.hz;
}
