/* How much a tone stands out: A-weighting, critical bands, tone-to-noise ratio, prominence ratio, impulses. */
#ifndef QUELL_SIGNALS_SOUND_TONE_H
#define QUELL_SIGNALS_SOUND_TONE_H

#include <stddef.h>

/** A-weighting at @p frequency_hz, dB: IEC 61672-1, by its poles. -inf at 0. tests/reference/sound.csv */
double qll_a_weight_db(double frequency_hz);

/** Width of the critical band around @p frequency_hz: ECMA-418-1 formula 2. */
double qll_critical_width_hz(double frequency_hz);

typedef struct qll_band {
    double from_hz, to_hz;
} qll_band;

/** The critical band around @p frequency_hz: ECMA-418-1. */
qll_band qll_critical_band(double frequency_hz);

/** The critical bands below and above that around @p frequency_hz, for the prominence ratio. */
qll_band qll_critical_lower(double frequency_hz);
qll_band qll_critical_upper(double frequency_hz);

/** Tones nearer than this count as one: up to 1 kHz by ECMA-418-1, where it comes to half a critical band; from there on half a
 * critical band (our assumption). */
double qll_tones_apart_hz(double frequency_hz);

/** From which on a tone is prominent: 8 dB, more below 1 kHz: ECMA-418-1. */
double qll_tone_limit_db(double frequency_hz);

/** From which on a prominence ratio is prominent: 9 dB, more below 1 kHz: ECMA-418-1. */
double qll_prominence_limit_db(double frequency_hz);

/** A power density with its running sum, so that a band's power is one difference. */
typedef struct qll_summed {
    double step_hz;
    size_t count;
    const double *density;
    const double *sum; /* sum[k]: of the bins before k; count + 1 of them */
} qll_summed;

/** Power between two frequencies, in squares of the samples' unit. Bins count with the part of them that lies within. */
double qll_summed_power(const qll_summed *spectrum, double from_hz, double to_hz);

/**
 * Tone-to-noise ratio at bin @p peak, dB: the power around it less the line that joins its edges, over the rest of the critical
 * band spread over all of it (ECMA-418-1). The tone is as wide as 15 % of the band, or four bins. NaN where the band does not fit
 * the spectrum.
 */
double qll_tone_to_noise_db(const qll_summed *spectrum, size_t peak);

/** Prominence ratio at @p frequency_hz, dB: its critical band over the mean of its neighbors (ECMA-418-1). NaN as above. */
double qll_prominence_ratio_db(const qll_summed *spectrum, double frequency_hz);

/** Prominence of an impulse: 3 lg(onset rate) + 2 lg(level difference), NT ACOU 112. dB/s and dB, both above 0, else 0. */
double qll_impulse_prominence(double onset_db_s, double difference_db);

/** What an impulse adds to a level, dB: 1.8 (P - 5) above 5, NT ACOU 112. */
double qll_impulse_adjustment_db(double prominence);

#endif
