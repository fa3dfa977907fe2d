/* Sources, then the way to the phone, then the phone.
 *
 * Rush: noise in the shape that IEC 60534-8-4 gives turbulence, through the loss of a pipe's wall (its equations 14 to 18). Hiss:
 * a random train of collapses with the shape it gives cavitation. Squeal: a tone at St U / t of an orifice, that drifts and swells,
 * over rush. Chatter: blows of a disc on its seat, a few damped resonances each, with jitter. Hammer: a thump or two, each struck
 * again every half period of a pipe's ring. None: a room's noise, hum of motors and the mains. Other: somebody talks, or music.
 * Way: a short room. Phone: its low and high ends, ripple, noise, automatic gain, clipping, 16 bits. All ranges are our choice. */
#include "sound/recordings.h"

#include "base/random.h"
#include "numeric/fourier.h"
#include "numeric/probability.h"

#include <math.h>
#include <string.h>

#define QLL_TWO_PI 6.28318530717958647692

const char *const recording_words[QLL_RECORDING_COUNT] = {"squeal", "hiss", "chatter", "hammer",
                                                          "rush",   "none", "other"};

typedef struct qll_studio {
    recording_kind kind;
    bool is_hard;
    double rate_hz;
    size_t count;
    double *signal, *work;
    qll_complexes bins;
    qll_fourier *fourier;
    qll_random random;
} qll_studio;

static double between(qll_studio *studio, double low, double high)
{
    return low + (high - low) * qll_random_unit(&studio->random);
}

/* Spread evenly over the logarithm. */
static double geometric(qll_studio *studio, double low, double high)
{
    return low * pow(high / low, qll_random_unit(&studio->random));
}

/* The first range, or the second where it is hard. */
static double ranged(qll_studio *studio, double low, double high, double hard_low, double hard_high)
{
    return studio->is_hard ? geometric(studio, hard_low, hard_high) : geometric(studio, low, high);
}

static bool happens(qll_studio *studio, double share)
{
    return qll_random_unit(&studio->random) < share;
}

static double normal(qll_studio *studio)
{
    return sqrt(-2.0 * log(1.0 - qll_random_unit(&studio->random)))
           * cos(QLL_TWO_PI * qll_random_unit(&studio->random));
}

static double rms(const double *signal, size_t count)
{
    double squares = 0.0;
    for (size_t j = 0; j < count; j++) {
        squares += signal[j] * signal[j];
    }
    return sqrt(squares / (double)count);
}

static void scale(double *signal, size_t count, double factor)
{
    for (size_t j = 0; j < count; j++) {
        signal[j] *= factor;
    }
}

/* ---- spectra ---- */

typedef double shape_function(double frequency_hz, const double *of);

/* Amplitude of turbulence outside a pipe: of[0] its peak. Below the ring frequency of its wall, in a small pipe all that is heard,
 * the wall lets through in proportion to the frequency. */
static double turbulent(double f, const double *of)
{
    const double ratio = f / of[0];
    return sqrt(f / (0.25 * ratio * ratio * ratio + 1.0 / ratio));
}

static double cavitating(double f, const double *of)
{
    const double ratio = f / of[0], power = ratio * sqrt(ratio);
    return sqrt(f / (0.25 * power + 1.0 / power));
}

/* A room at rest: pressure falls with of[0] powers of the frequency. */
static double room(double f, const double *of)
{
    return pow(fmax(f, 30.0), -of[0]);
}

/* Multiplies the spectrum of @p signal by a shape; with noise put in first where @p is_noise. */
static void filter(qll_studio *studio, double *signal, shape_function *shape, const double *of)
{
    qll_fourier_forward(studio->fourier, signal, studio->bins);
    for (size_t k = 0; k < qll_fourier_bins(studio->count); k++) {
        const double f = (double)k * studio->rate_hz / (double)studio->count;
        const double gain = k == 0 ? 0.0 : shape(f, of);
        studio->bins.re[k] *= gain;
        studio->bins.im[k] *= gain;
    }
    qll_fourier_inverse(studio->fourier, studio->bins, signal);
}

/* Noise of a shape, of rms 1, into @p signal. */
static void put_noise(qll_studio *studio, double *signal, shape_function *shape, const double *of)
{
    for (size_t j = 0; j < studio->count; j++) {
        signal[j] = normal(studio);
    }
    filter(studio, signal, shape, of);
    scale(signal, studio->count, 1.0 / rms(signal, studio->count));
}

/* Adds noise of a shape, @p level_db against rms 1. */
static void add_noise(qll_studio *studio, shape_function *shape, const double *of, double level_db)
{
    put_noise(studio, studio->work, shape, of);
    const double gain = pow(10.0, level_db / 20.0);
    for (size_t j = 0; j < studio->count; j++) {
        studio->signal[j] += gain * studio->work[j];
    }
}

static void to_unit(qll_studio *studio)
{
    scale(studio->signal, studio->count, 1.0 / rms(studio->signal, studio->count));
}

/* ---- sources ---- */

static void put_rush(qll_studio *studio)
{
    const double peak_hz = ranged(studio, 250, 900, 180, 1400);
    put_noise(studio, studio->signal, turbulent, &peak_hz);
}

static void put_hiss(qll_studio *studio)
{
    const double per_s = ranged(studio, 400, 16000, 100, 16000);
    const double peak_hz = ranged(studio, 900, 3000, 700, 4000);
    memset(studio->signal, 0, studio->count * sizeof *studio->signal);
    double at_s = 0.0;
    for (;;) {
        at_s -= log(1.0 - qll_random_unit(&studio->random)) / per_s;
        const size_t at = (size_t)(at_s * studio->rate_hz);
        if (at >= studio->count) {
            break;
        }
        studio->signal[at] += exp(0.8 * normal(studio)) * (happens(studio, 0.5) ? 1.0 : -1.0);
    }
    filter(studio, studio->signal, cavitating, &peak_hz);
    to_unit(studio);
    const double flow_hz = ranged(studio, 250, 900, 250, 900);
    add_noise(studio, turbulent, &flow_hz,
              studio->is_hard ? between(studio, -10, 0) : between(studio, -20, -6));
    to_unit(studio);
}

static void put_squeal(qll_studio *studio)
{
    double tone_hz = 0.0;
    do { /* Strouhal number of the hole's thickness, velocity, thickness */
        tone_hz =
            between(studio, 0.2, 0.35) * geometric(studio, 8, 40) / geometric(studio, 0.001, 0.005);
    } while (tone_hz < 400.0 || tone_hz > 8000.0);
    const double drift = studio->is_hard ? 0.015 : 0.006, swell = between(studio, 0, 0.7);
    const double swell_hz = geometric(studio, 0.3, 12.0), second = between(studio, 0, 0.5);
    const double third = between(studio, 0, 0.3);
    const double on_share = studio->is_hard ? between(studio, 0.5, 1) : 1.0;
    double phase = 0.0, wander = 0.0;
    for (size_t j = 0; j < studio->count; j++) {
        const double t = (double)j / studio->rate_hz;
        wander += -wander / (0.8 * studio->rate_hz)
                  + normal(studio) * sqrt(2.0 / (0.8 * studio->rate_hz));
        phase += QLL_TWO_PI * tone_hz * (1.0 + drift * wander) / studio->rate_hz;
        const double on = t < on_share * QLL_RECORDING_SECONDS ? 1.0 : 0.0;
        studio->signal[j] = on * (1.0 + swell * sin(QLL_TWO_PI * swell_hz * t))
                            * (sin(phase) + second * sin(2 * phase) + third * sin(3 * phase));
    }
    to_unit(studio);
    const double flow_hz = ranged(studio, 250, 900, 250, 1400);
    add_noise(studio, turbulent, &flow_hz,
              studio->is_hard ? between(studio, -8, 6) : between(studio, -18, -4));
    to_unit(studio);
}

/* A damped resonance struck at sample @p at. */
static void strike(qll_studio *studio, size_t at, double frequency_hz, double decay_s,
                   double height)
{
    const size_t last = at + (size_t)(6.0 * decay_s * studio->rate_hz);
    for (size_t j = at; j < last && j < studio->count; j++) {
        const double t = (double)(j - at) / studio->rate_hz;
        studio->signal[j] += height * exp(-t / decay_s) * sin(QLL_TWO_PI * frequency_hz * t);
    }
}

static void put_chatter(qll_studio *studio)
{
    const double per_s = ranged(studio, 8, 45, 8, 55);
    const double jitter =
        studio->is_hard ? between(studio, 0.03, 0.08) : between(studio, 0.01, 0.05);
    const size_t mode_count = 4 + (size_t)between(studio, 0, 3.99);
    double mode_hz[8], decay_s[8], height[8];
    for (size_t i = 0; i < mode_count; i++) {
        mode_hz[i] = geometric(studio, 150, 3500);
        decay_s[i] = geometric(studio, 0.003, 0.02);
        height[i] = between(studio, 0.3, 1.0);
    }
    memset(studio->signal, 0, studio->count * sizeof *studio->signal);
    const double pause_s = studio->is_hard ? between(studio, 0, 4) : 0.0;
    double at_s = 0.01;
    while (at_s < QLL_RECORDING_SECONDS - pause_s) {
        const double blow = exp(0.25 * normal(studio));
        for (size_t i = 0; i < mode_count; i++) {
            strike(studio, (size_t)(fmax(at_s, 0) * studio->rate_hz), mode_hz[i], decay_s[i],
                   blow * height[i] * between(studio, 0.6, 1.4));
        }
        at_s += (1.0 + jitter * normal(studio)) / per_s;
    }
    to_unit(studio);
    const double flow_hz = ranged(studio, 250, 900, 250, 1400);
    add_noise(studio, turbulent, &flow_hz,
              studio->is_hard ? between(studio, -10, 3) : between(studio, -20, -6));
    to_unit(studio);
}

static void put_thump(qll_studio *studio, double at_s)
{
    const double ring_hz = geometric(studio, 4, 30), gain = between(studio, 0.4, 0.75);
    const double mode_hz[3] = {geometric(studio, 60, 200), geometric(studio, 150, 500),
                               geometric(studio, 300, 900)};
    double height = 1.0;
    for (int again = 0; again < 8; again++) {
        for (int i = 0; i < 3; i++) {
            strike(studio, (size_t)(at_s * studio->rate_hz), mode_hz[i],
                   geometric(studio, 0.008, 0.04), height / (1 + i));
        }
        at_s += 0.5 / ring_hz;
        height *= gain;
    }
}

/* Its level is that of its loudest 50 ms, not of ten seconds with a thump in them. */
static void put_hammer(qll_studio *studio)
{
    memset(studio->signal, 0, studio->count * sizeof *studio->signal);
    const int count = happens(studio, 0.5) ? 1 : 2;
    for (int i = 0; i < count; i++) {
        put_thump(studio, between(studio, 0.5 + 4.0 * i, 4.0 + 4.5 * i));
    }
    const size_t window = (size_t)(0.05 * studio->rate_hz);
    double loudest = 0.0;
    for (size_t j = 0; j + window <= studio->count; j += window) {
        loudest = fmax(loudest, rms(studio->signal + j, window));
    }
    scale(studio->signal, studio->count, 1.0 / loudest);
    const double flow_hz = ranged(studio, 250, 900, 250, 1400);
    add_noise(studio, turbulent, &flow_hz,
              studio->is_hard ? between(studio, -20, -8) : between(studio, -35, -18));
}

static void add_hum(qll_studio *studio, double level)
{
    const double mains_hz = (happens(studio, 0.5) ? 50.0 : 60.0) * between(studio, 0.998, 1.002);
    for (int k = 1; k <= 12; k++) {
        const double height = level * pow(k, -between(studio, 0.5, 2.0)) * (k % 2 == 0 ? 1.0 : 0.5);
        const double phase = between(studio, 0, QLL_TWO_PI);
        for (size_t j = 0; j < studio->count; j++) {
            studio->signal[j] +=
                height * sin(phase + QLL_TWO_PI * mains_hz * k * (double)j / studio->rate_hz);
        }
    }
}

static void put_none(qll_studio *studio)
{
    const double fall = ranged(studio, 0.8, 1.4, 0.6, 1.4);
    put_noise(studio, studio->signal, room, &fall);
    if (happens(studio, 0.5)) {
        add_hum(studio, geometric(studio, 0.05, 1.5));
    }
    to_unit(studio);
}

/* Syllables of voiced and voiceless sounds, with pauses. */
static void put_talk(qll_studio *studio)
{
    const double pitch_hz = geometric(studio, 90, 250);
    memset(studio->signal, 0, studio->count * sizeof *studio->signal);
    double at_s = between(studio, 0, 0.6);
    double phase = 0.0;
    while (at_s < QLL_RECORDING_SECONDS) {
        const double long_s = between(studio, 0.08, 0.35), bend = between(studio, 0.85, 1.2);
        const double formant_hz[2] = {geometric(studio, 300, 900), geometric(studio, 900, 2500)};
        const bool is_voiced = happens(studio, 0.75);
        const double height = exp(0.4 * normal(studio));
        double y[2][2] = {{0}};
        for (size_t j = (size_t)(at_s * studio->rate_hz); j < studio->count; j++) {
            const double t = ((double)j / studio->rate_hz - at_s) / long_s;
            if (t >= 1.0) {
                break;
            }
            phase += pitch_hz * (1.0 + (bend - 1.0) * t) / studio->rate_hz;
            double source = 0.1 * normal(studio);
            if (is_voiced && phase >= 1.0) {
                source += 12.0;
            }
            phase -= floor(phase);
            source *= is_voiced ? 1.0 : 8.0;
            double out = is_voiced ? 0.0 : 0.4 * source;
            for (int i = 0; i < 2; i++) { /* two resonances */
                const double r = exp(-QLL_TWO_PI * 0.5 * 90.0 / studio->rate_hz);
                const double now =
                    source + 2 * r * cos(QLL_TWO_PI * formant_hz[i] / studio->rate_hz) * y[i][0]
                    - r * r * y[i][1];
                y[i][1] = y[i][0];
                y[i][0] = now;
                out += now * (1 - r) / (1 + i);
            }
            studio->signal[j] += height * sin(0.5 * QLL_TWO_PI * t) * out;
        }
        at_s += long_s
                + (happens(studio, 0.15) ? between(studio, 0.3, 1.2) : between(studio, 0.02, 0.12));
    }
    to_unit(studio);
}

static void put_music(qll_studio *studio)
{
    memset(studio->signal, 0, studio->count * sizeof *studio->signal);
    const double beat_s = between(studio, 0.2, 0.6);
    double at_s = 0.0;
    while (at_s < QLL_RECORDING_SECONDS) {
        const double note_hz = 110.0 * pow(2.0, floor(between(studio, 0, 36)) / 12.0);
        for (int k = 1; k <= 6; k++) {
            strike(studio, (size_t)(at_s * studio->rate_hz), note_hz * k, between(studio, 0.1, 0.3),
                   1.0 / k);
        }
        at_s += beat_s * (1 + (int)between(studio, 0, 2));
    }
    to_unit(studio);
}

static void put_other(qll_studio *studio)
{
    if (happens(studio, 0.7)) {
        put_talk(studio);
    } else {
        put_music(studio);
    }
}

/* ---- the way to the phone, and the phone ---- */

typedef struct phone {
    double low_hz, high_hz, ripple_db, ripple_at, ripple_width;
} phone;

static double phone_gain(double f, const double *of)
{
    const double low = f / of[0], high = f / of[1];
    const double ripple_db = of[2] * sin(of[3] + of[4] * log(f));
    return low * low / sqrt(1 + pow(low, 4)) / sqrt(1 + pow(high, 8)) * pow(10, ripple_db / 20);
}

/* The sound again from the walls: noise that dies away, convolved. */
static void add_room(qll_studio *studio)
{
    const double die_s = geometric(studio, 0.015, 0.06);
    const double level = pow(10.0, between(studio, -15, -4) / 20.0);
    for (size_t j = 0; j < studio->count; j++) {
        const double t = (double)j / studio->rate_hz;
        studio->work[j] = t < 10 * die_s ? normal(studio) * exp(-t / die_s) : 0.0;
    }
    double energy = 0.0;
    for (size_t j = 0; j < studio->count; j++) {
        energy += studio->work[j] * studio->work[j];
    }
    scale(studio->work, studio->count, level / sqrt(energy));
    studio->work[0] += 1.0;
    const size_t bins = qll_fourier_bins(studio->count);
    qll_fourier_forward(studio->fourier, studio->work, studio->bins);
    double *re = studio->work; /* the room's spectrum; its place is free now */
    static double im[QLL_RECORDING_SECONDS * 48000 / 2 + 1];
    memcpy(re, studio->bins.re, bins * sizeof *re);
    memcpy(im, studio->bins.im, bins * sizeof *im);
    qll_fourier_forward(studio->fourier, studio->signal, studio->bins);
    for (size_t k = 0; k < bins; k++) {
        const double a = studio->bins.re[k], b = studio->bins.im[k];
        studio->bins.re[k] = a * re[k] - b * im[k];
        studio->bins.im[k] = a * im[k] + b * re[k];
    }
    qll_fourier_inverse(studio->fourier, studio->bins, studio->signal);
}

/* Loud parts are turned down, quiet ones up, slowly. */
static void control_gain(qll_studio *studio)
{
    const double slow = 1.0 / (between(studio, 0.2, 0.8) * studio->rate_hz);
    const double power = between(studio, 0.3, 0.7);
    const double whole = rms(studio->signal, studio->count);
    double level = whole * whole;
    for (size_t j = 0; j < studio->count; j++) {
        const double x = studio->signal[j];
        level += slow * (x * x - level);
        studio->signal[j] =
            x * pow(fmax(level, 0.01 * whole * whole) / (whole * whole), -0.5 * power);
    }
}

static void record(qll_studio *studio, float *samples)
{
    add_room(studio);
    const double snr_db = studio->is_hard ? between(studio, 8, 25) : between(studio, 25, 45);
    const double fall = between(studio, 0.6, 1.2);
    if (studio->kind != QLL_RECORDING_NONE) {
        add_noise(studio, room, &fall, -snr_db);
    }
    const double of[] = {geometric(studio, 60, 220), geometric(studio, 11000, 15000),
                         between(studio, 0, 3), between(studio, 0, 6), between(studio, 1, 4)};
    filter(studio, studio->signal, phone_gain, of);
    if (happens(studio, 0.35)) {
        control_gain(studio);
    }
    double peak = 0.0;
    for (size_t j = 0; j < studio->count; j++) {
        peak = fmax(peak, fabs(studio->signal[j]));
    }
    const bool is_clipped = happens(studio, 0.12);
    const double gain =
        (is_clipped ? geometric(studio, 1.1, 1.6) : geometric(studio, 0.03, 0.9)) / peak;
    for (size_t j = 0; j < studio->count; j++) {
        const double grain = 1e-4 * normal(studio) * (studio->is_hard ? 3.0 : 1.0);
        const double x = fmax(-1.0, fmin(32767.0 / 32768.0, gain * studio->signal[j] + grain));
        samples[j] = (float)(floor(x * 32768.0 + 0.5) / 32768.0);
    }
}

recording recording_make(recording_kind kind, bool is_hard, uint64_t seed, qll_arena *arena)
{
    static void (*const sources[QLL_RECORDING_COUNT])(qll_studio *) = {
        put_squeal, put_hiss, put_chatter, put_hammer, put_rush, put_none, put_other};
    qll_studio studio = {.kind = kind,
                         .is_hard = is_hard,
                         .random =
                             qll_random_seeded(seed * 64 + (uint64_t)kind * 2 + (is_hard ? 1 : 0))};
    studio.rate_hz = happens(&studio, 0.6) ? 48000 : 44100;
    studio.count = (size_t)studio.rate_hz * QLL_RECORDING_SECONDS;
    recording made = {.rate_hz = studio.rate_hz, .count = studio.count};
    made.samples = qll_arena_take(arena, studio.count, sizeof *made.samples);
    const qll_arena_mark mark = qll_arena_now(arena);
    studio.signal = qll_arena_take(arena, studio.count, sizeof *studio.signal);
    studio.work = qll_arena_take(arena, studio.count, sizeof *studio.work);
    studio.bins.re = qll_arena_take(arena, studio.count, sizeof *studio.bins.re);
    studio.bins.im = qll_arena_take(arena, studio.count, sizeof *studio.bins.im);
    if (qll_fourier_plan(studio.count, arena, &studio.fourier) == QLL_OK) {
        sources[kind](&studio);
        record(&studio, made.samples);
    }
    qll_arena_reset(arena, mark);
    return made;
}
