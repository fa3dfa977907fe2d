/* Whether blows come in an even rhythm: the autocorrelation of the envelope. docs/theory/sound.md, 7. */
#include "signals/sound_envelope.h"

#include <math.h>
#include <string.h>

#define QLL_SLOW_S   0.4 /* what changes more slowly is no rhythm */
#define QLL_MOST_HZ  70.0
#define QLL_LEAST_HZ 6.0

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

/* The autocorrelation of work in its place, 1 at lag 0, as far as it is looked at. False of silence. */
static bool correlate(qll_sound_envelope *envelope)
{
    double *work = envelope->work;
    qll_fourier_forward(envelope->fourier, work, envelope->bins);
    const qll_complexes bins = envelope->bins;
    for (size_t k = 0; k < qll_fourier_bins(envelope->length); k++) {
        bins.re[k] = bins.re[k] * bins.re[k] + bins.im[k] * bins.im[k];
        bins.im[k] = 0.0;
    }
    qll_fourier_inverse(envelope->fourier, bins, work);
    const double whole = work[0];
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

static rhythm find_rhythm(const qll_sound_envelope *envelope)
{
    const double *correlation = envelope->work;
    rhythm best = {0.0, NAN};
    for (size_t lag = envelope->shortest; lag <= envelope->longest; lag++) {
        const bool is_peak =
            correlation[lag] >= correlation[lag - 1] && correlation[lag] >= correlation[lag + 1];
        const double strength = is_peak ? strength_at(correlation, lag) : 0.0;
        if (strength > best.strength) {
            best = (rhythm){strength, 1.0 / ((double)lag * envelope->step_s)};
        }
    }
    return best;
}

void qll_sound_rhythm(qll_sound_envelope *envelope, qll_sound_features *features)
{
    rhythm first = {0.0, NAN}, second = {0.0, NAN};
    for (size_t band = QLL_ENVELOPE_LOW;
         band <= QLL_ENVELOPE_HIGH && envelope->count >= 4 * envelope->longest; band++) {
        put_envelope(envelope, band);
        if (!correlate(envelope)) {
            continue;
        }
        const rhythm found = find_rhythm(envelope);
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
