/* Single blows, and how the level swings: docs/theory/sound.md, 8 and 9. */
#include "signals/sound_envelope.h"
#include "signals/sound_frames.h"
#include "signals/sound_tone.h"

#include <math.h>

#define QLL_SHORT_STEPS   5    /* a thump's level is over 5 ms */
#define QLL_HIGH_DB       10.0 /* over the median */
#define QLL_RISE_DB       6.0  /* within QLL_RISE_STEPS */
#define QLL_RISE_STEPS    30
#define QLL_APART_STEPS   300
#define QLL_AROUND_STEPS  30
#define QLL_QUIET_DB      4.0
#define QLL_FAST_S        0.125 /* time weighting F */
#define QLL_ONSET_DB_S    10.0
#define QLL_LOOK_STEPS    25 /* NT ACOU 112 looks at the level every 10 to 25 ms */
#define QLL_LEVEL_STEPS   20
#define QLL_SPEECH_LOW_HZ 1.5
#define QLL_SPEECH_TOP_HZ 8.0

static double decibels(double power)
{
    return 10.0 * log10(fmax(power, 1e-30));
}

/* Levels over five steps, to work. */
static void put_levels(qll_sound_envelope *envelope, size_t band)
{
    double sum = 0.0;
    for (size_t i = 0; i < envelope->count; i++) {
        sum += envelope->power[i][band];
        if (i >= QLL_SHORT_STEPS) {
            sum -= envelope->power[i - QLL_SHORT_STEPS][band];
        }
        envelope->work[i] = decibels(fmax(sum, 0.0) / QLL_SHORT_STEPS);
    }
}

/* Thumps over high notes in the 60 ms around step @p at, dB. */
static double balance_at(const qll_sound_envelope *envelope, size_t at)
{
    const size_t from = at > QLL_AROUND_STEPS ? at - QLL_AROUND_STEPS : 0;
    double low = 0.0, high = 0.0;
    for (size_t i = from; i < at + QLL_AROUND_STEPS && i < envelope->count; i++) {
        low += envelope->power[i][QLL_ENVELOPE_THUMP];
        high += envelope->power[i][QLL_ENVELOPE_HIGH];
    }
    return decibels(low) - decibels(high);
}

static bool rises_at(const double *levels, size_t i, double median_db)
{
    if (levels[i] < median_db + QLL_HIGH_DB) {
        return false;
    }
    const size_t before = i > QLL_RISE_STEPS ? i - QLL_RISE_STEPS : 0;
    double low = levels[i];
    for (size_t j = before; j < i; j++) {
        low = fmin(low, levels[j]);
    }
    return levels[i] - low >= QLL_RISE_DB;
}

void qll_sound_thumps(qll_sound_envelope *envelope, qll_sound_features *features)
{
    const size_t count = envelope->count;
    put_levels(envelope, QLL_ENVELOPE_THUMP);
    const double *levels = envelope->work;
    double most_db = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        envelope->sorted[i] = levels[i];
        most_db = fmax(most_db, levels[i]);
    }
    const double median_db = qll_sound_median(envelope->sorted, count);
    features->thump_db = most_db - median_db;
    double balance = 0.0;
    size_t quiet = 0;
    envelope->thump_count = 0;
    size_t next = 0;
    for (size_t i = 0; i < count; i++) {
        quiet += levels[i] < median_db + QLL_QUIET_DB;
        if (i < next || !rises_at(levels, i, median_db)) {
            continue;
        }
        double height_db = levels[i];
        for (size_t j = i; j < i + QLL_AROUND_STEPS && j < count; j++) {
            height_db = fmax(height_db, levels[j]);
        }
        envelope->thumps[envelope->thump_count] =
            (qll_sound_thump){(double)i * envelope->step_s, height_db - median_db};
        envelope->thump_count += 1;
        balance += balance_at(envelope, i);
        next = i + QLL_APART_STEPS;
    }
    features->quiet_share = (double)quiet / (double)count;
    features->thumps_per_s = (double)envelope->thump_count / ((double)count * envelope->step_s);
    features->thump_balance_db =
        envelope->thump_count > 0 ? balance / (double)envelope->thump_count : (double)NAN;
}

/* ---- swing and impulses ---- */

/* The A-weighted power of a step: each band at the weight of its middle. */
static double a_power(const double power[QLL_ENVELOPE_BANDS], const double weights[3])
{
    return power[QLL_ENVELOPE_LOW] * weights[0] + power[QLL_ENVELOPE_MIDDLE] * weights[1]
           + power[QLL_ENVELOPE_HIGH] * weights[2];
}

/* The greatest prominence of an onset of the level under time weighting F. */
static double prominence_of(qll_sound_envelope *envelope)
{
    const double weights[3] = {pow(10.0, 0.1 * qll_a_weight_db(300.0)),
                               pow(10.0, 0.1 * qll_a_weight_db(1095.0)),
                               pow(10.0, 0.1 * qll_a_weight_db(4000.0))};
    const double share = 1.0 - exp(-envelope->step_s / QLL_FAST_S);
    double level = 0.0, most = 0.0, before_db = NAN, from_db = NAN;
    size_t from = 0;
    for (size_t i = 0; i < envelope->count; i++) {
        const double power = a_power(envelope->power[i], weights);
        level += (i == 0 ? 1.0 : share) * (power - level);
        /* the filter settles first */
        if (i % QLL_LOOK_STEPS != 0 || (double)i * envelope->step_s < 2.0 * QLL_FAST_S) {
            continue;
        }
        const double now_db = decibels(level), look_s = QLL_LOOK_STEPS * envelope->step_s;
        if (now_db - before_db > QLL_ONSET_DB_S * look_s) {
            if (isnan(from_db)) {
                from_db = before_db;
                from = i - QLL_LOOK_STEPS;
            }
            const double onset_s = (double)(i - from) * envelope->step_s;
            most =
                fmax(most, qll_impulse_prominence((now_db - from_db) / onset_s, now_db - from_db));
        } else {
            from_db = NAN;
        }
        before_db = now_db;
    }
    return most;
}

/* What chance alone makes of the mean square of noise 2 to 8 kHz wide over 20 ms: 1/sqrt(B T) of it (Rice 1944, from memory). */
#define QLL_CHANCE_DB 0.396

/* Standard deviation of the levels of the high band, beyond chance. */
static double high_swing_of(const qll_sound_envelope *envelope, size_t count)
{
    double sum = 0.0, squares = 0.0;
    for (size_t i = 0; i < count; i++) {
        double power = 0.0;
        for (size_t j = 0; j < QLL_LEVEL_STEPS; j++) {
            power += envelope->power[i * QLL_LEVEL_STEPS + j][QLL_ENVELOPE_HIGH];
        }
        const double level = decibels(power);
        sum += level;
        squares += level * level;
    }
    const double mean = sum / (double)count;
    return sqrt(fmax(0.0, squares / (double)count - mean * mean - QLL_CHANCE_DB * QLL_CHANCE_DB));
}

void qll_sound_swing(qll_sound_envelope *envelope, qll_sound_features *features)
{
    features->impulse_prominence = prominence_of(envelope);
    double *levels = envelope->work;
    const size_t count = envelope->count / QLL_LEVEL_STEPS;
    features->high_swing_db = high_swing_of(envelope, count);
    double sum = 0.0, squares = 0.0;
    for (size_t i = 0; i < count; i++) {
        double power = 0.0;
        for (size_t j = 0; j < QLL_LEVEL_STEPS; j++) {
            const double *bands = envelope->power[i * QLL_LEVEL_STEPS + j];
            power +=
                bands[QLL_ENVELOPE_LOW] + bands[QLL_ENVELOPE_MIDDLE] + bands[QLL_ENVELOPE_HIGH];
        }
        levels[i] = decibels(power);
        sum += levels[i];
    }
    for (size_t i = 0; i < count; i++) {
        levels[i] -= sum / (double)count;
        squares += levels[i] * levels[i];
    }
    features->swing_db = sqrt(squares / (double)count);
    for (size_t i = count; i < envelope->length; i++) {
        levels[i] = 0.0;
    }
    qll_fourier_forward(envelope->fourier, levels, envelope->bins);
    const double step_hz = 1.0 / ((double)envelope->length * QLL_LEVEL_STEPS * envelope->step_s);
    double all = 0.0, speech = 0.0;
    const size_t last = (size_t)(0.5 * (double)envelope->length);
    for (size_t k = 1; k <= last; k++) {
        const double re = envelope->bins.re[k], im = envelope->bins.im[k];
        const double hz = (double)k * step_hz, power = re * re + im * im;
        all += power;
        speech += hz >= QLL_SPEECH_LOW_HZ && hz <= QLL_SPEECH_TOP_HZ ? power : 0.0;
    }
    features->syllable_share = all > 0.0 ? speech / all : 0.0;
}
