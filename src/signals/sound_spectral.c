/* What the spectrum of a stretch says: docs/theory/sound.md, 4 and 5. */
#include "signals/sound_frames.h"

#include <math.h>

/* Edges of bands, of qll_sound_band_edge_hz: 10^(0.05 (k - 21)) kHz. */
enum {
    QLL_AT_200_HZ = 7,
    QLL_AT_220_HZ = 8,  /* where the third octave of 250 Hz begins */
    QLL_AT_280_HZ = 10, /* where the third octave of 315 Hz begins */
    QLL_AT_900_HZ = 20, /* that of 1 kHz */
    QLL_AT_1_KHZ = 21,
    QLL_AT_1800_HZ = 26, /* that of 2 kHz */
    QLL_AT_4_KHZ = 33,
    QLL_AT_8_KHZ = 39,
    QLL_AT_9_KHZ = 40, /* where that of 8 kHz ends */
    QLL_AT_10_KHZ = 41
};

#define QLL_BANDWIDTH_DB 55.0

static double decibels(double power)
{
    return power > 0.0 ? 10.0 * log10(power) : -(double)INFINITY;
}

static double power_of(const double medians[QLL_SOUND_BANDS], size_t from, size_t to)
{
    double power = 0.0;
    for (size_t b = from; b < to; b++) {
        power += medians[b];
    }
    return power;
}

static double width_hz(size_t band)
{
    return qll_sound_band_edge_hz(band + 1) - qll_sound_band_edge_hz(band);
}

static double middle_hz(size_t band)
{
    return sqrt(qll_sound_band_edge_hz(band + 1) * qll_sound_band_edge_hz(band));
}

/* Least squares of third-octave levels, 1 to 8 kHz, over decades. */
static double slope_of(const double medians[QLL_SOUND_BANDS])
{
    double x_sum = 0.0, y_sum = 0.0, xx = 0.0, xy = 0.0, count = 0.0;
    for (size_t b = QLL_AT_900_HZ; b < QLL_AT_9_KHZ; b += 2) {
        if (!(medians[b] + medians[b + 1] > 0.0)) {
            continue;
        }
        const double x = log10(qll_sound_band_edge_hz(b + 1));
        const double y = decibels(medians[b] + medians[b + 1]);
        x_sum += x;
        y_sum += y;
        xx += x * x;
        xy += x * y;
        count += 1.0;
    }
    return count < 5.0 ? (double)NAN : (count * xy - x_sum * y_sum) / (count * xx - x_sum * x_sum);
}

/* The level of a third octave, as if turbulence beyond its peak were level: outside a pipe it falls by 10 dB a decade there. */
static double levelled(const double medians[QLL_SOUND_BANDS], size_t band)
{
    return decibels(medians[band] + medians[band + 1])
           + 10.0 * log10(qll_sound_band_edge_hz(band + 1));
}

/* How far 2 to 8 kHz stand over what flow leaves there, whose peak is the highest third octave from 315 to 1600 Hz. */
static double over_flow_of(const double medians[QLL_SOUND_BANDS])
{
    double peak_db = -(double)INFINITY, flow_db = NAN, most_db = -(double)INFINITY;
    for (size_t b = QLL_AT_280_HZ; b < QLL_AT_1800_HZ; b += 2) {
        const double level_db = decibels(medians[b] + medians[b + 1]);
        if (level_db > peak_db) {
            peak_db = level_db;
            flow_db = levelled(medians, b);
        }
    }
    for (size_t b = QLL_AT_1800_HZ; b < QLL_AT_9_KHZ; b += 2) {
        const double level_db = levelled(medians, b); /* NaN above half the rate */
        most_db = level_db > most_db ? level_db : most_db;
    }
    return isfinite(most_db) ? most_db - flow_db : (double)NAN;
}

/* How the lowest notes stand, a third octave on average, against the highest third octave of what is above them. */
static double low_ratio_of(const double medians[QLL_SOUND_BANDS])
{
    double most = 0.0;
    for (size_t b = QLL_AT_220_HZ; b < QLL_AT_9_KHZ; b += 2) {
        most = fmax(most, medians[b] + medians[b + 1]); /* NaN above half the rate */
    }
    return decibels(2.0 / QLL_AT_200_HZ * power_of(medians, 0, QLL_AT_200_HZ)) - decibels(most);
}

static double flatness_of(const double medians[QLL_SOUND_BANDS])
{
    double logs = 0.0, sum = 0.0, count = 0.0;
    for (size_t b = QLL_AT_1_KHZ; b < QLL_AT_8_KHZ; b++) {
        if (medians[b] > 0.0) {
            logs += decibels(medians[b] / width_hz(b));
            sum += medians[b] / width_hz(b);
            count += 1.0;
        }
    }
    return count > 0.0 ? logs / count - decibels(sum / count) : (double)NAN;
}

static double centroid_of(const double medians[QLL_SOUND_BANDS])
{
    double moment = 0.0, power = 0.0;
    for (size_t b = 0; b < QLL_SOUND_BANDS; b++) {
        if (!isnan(medians[b])) {
            moment += medians[b] * middle_hz(b);
            power += medians[b];
        }
    }
    return power > 0.0 ? moment / power : (double)NAN;
}

/* Up to where the density stays within 55 dB of its greatest. */
static double bandwidth_of(const double medians[QLL_SOUND_BANDS])
{
    double most = 0.0, up_to_hz = 0.0;
    for (size_t b = 0; b < QLL_SOUND_BANDS; b++) {
        most = fmax(most, medians[b] / width_hz(b));
    }
    for (size_t b = 0; b < QLL_SOUND_BANDS; b++) {
        if (medians[b] / width_hz(b) > most * pow(10.0, -0.1 * QLL_BANDWIDTH_DB)) {
            up_to_hz = qll_sound_band_edge_hz(b + 1);
        }
    }
    return up_to_hz;
}

/* How many of the frames that have a prominent tone have it near @p frequency_hz. */
static size_t tones_near(const qll_sound_frames *frames, double frequency_hz)
{
    size_t count = 0;
    for (size_t i = 0; i < frames->count; i++) {
        count += qll_tone_is_near(&frames->tones[i], frequency_hz);
    }
    return count;
}

/* The tone that most frames have; what a voice or a tune sounds in passing is not one. */
static void take_tone(const qll_sound_frames *frames, qll_sound_features *features)
{
    size_t most = 0, toned = 0;
    for (size_t i = 0; i < frames->count; i++) {
        const qll_frame_tone *tone = &frames->tones[i];
        const size_t count = tone->excess_db >= 0.0 ? tones_near(frames, tone->frequency_hz) : 0;
        toned += tone->excess_db >= 0.0;
        if (count > most) {
            most = count;
            features->tone_hz = tone->frequency_hz;
        }
    }
    features->tone_share = (double)most / (double)frames->count;
    features->toned_share = (double)toned / (double)frames->count;
    size_t near = 0;
    for (size_t i = 0; i < frames->count; i++) {
        const qll_frame_tone *tone = &frames->tones[i];
        if (qll_tone_is_near(tone, features->tone_hz)) {
            frames->sorted[near] = tone->excess_db;
            near += 1;
        }
    }
    features->tone_excess_db = qll_sound_median(frames->sorted, near);
}

static double prominence_of(const qll_sound_frames *frames, double tone_hz)
{
    if (isnan(tone_hz)) {
        return NAN;
    }
    frames->sum[0] = 0.0;
    for (size_t k = 0; k < frames->bin_count; k++) {
        frames->sum[k + 1] = frames->sum[k] + frames->mean[k];
    }
    const qll_summed spectrum = {frames->step_hz, frames->bin_count, frames->mean, frames->sum};
    return qll_prominence_ratio_db(&spectrum, tone_hz);
}

/* What is known of the shape of a spectrum: of a recording, or of what it has more than another. */
void qll_sound_shape(const double medians[QLL_SOUND_BANDS], qll_sound_features *features)
{
    features->low_ratio_db = low_ratio_of(medians);
    features->slope_db_decade = slope_of(medians);
    features->high_ratio_db = decibels(power_of(medians, QLL_AT_4_KHZ, QLL_AT_10_KHZ))
                              - decibels(power_of(medians, QLL_AT_200_HZ, QLL_AT_4_KHZ));
    features->over_flow_db = over_flow_of(medians);
    features->flatness_db = flatness_of(medians);
    features->centroid_hz = centroid_of(medians);
}

double qll_sound_a_level_db(const double medians[QLL_SOUND_BANDS])
{
    double power = 0.0;
    for (size_t b = 0; b < QLL_SOUND_BANDS; b++) {
        if (!isnan(medians[b])) {
            power += medians[b] * pow(10.0, 0.1 * qll_a_weight_db(middle_hz(b)));
        }
    }
    return decibels(power);
}

void qll_sound_spectral(const qll_sound_frames *frames, const double medians[QLL_SOUND_BANDS],
                        qll_sound_features *features)
{
    qll_sound_shape(medians, features);
    features->level_a_db = qll_sound_a_level_db(medians);
    features->bandwidth_hz = bandwidth_of(medians);
    features->tone_hz = NAN;
    take_tone(frames, features);
    features->prominence_db = prominence_of(frames, features->tone_hz);
}
