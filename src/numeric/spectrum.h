/* Power spectra of recorded samples, averaged over overlapping frames. */
#ifndef QUELL_NUMERIC_SPECTRUM_H
#define QUELL_NUMERIC_SPECTRUM_H

#include "numeric/fourier.h"

/** Turns frames of one length and rate into power densities. One user at a time. */
typedef struct qll_framing {
    size_t frame; /* samples in a frame */
    double rate_hz;
    double *window; /* Hann's, periodic: 0.5 - 0.5 cos(2 pi j / frame) */
    double scale;   /* 1 / (rate x sum of the window's squares) */
    qll_fourier *fourier;
} qll_framing;

/** @param frame 2 or more */
QLL_MUST_USE qll_status qll_framing_make(size_t frame, double rate_hz, qll_arena *arena,
                                         qll_framing *framing);

/**
 * One-sided power density of one frame, less its mean, in squares of the samples' unit per Hz.
 *
 * @param density room for qll_fourier_bins(frame); bin k stands for k rate / frame
 */
void qll_framing_density(qll_framing *framing, const double *samples, double *density);

typedef enum qll_averaging {
    QLL_AVERAGE_MEAN,   /* Welch's */
    QLL_AVERAGE_MEDIAN, /* of each bin: a bang in a few frames leaves no trace */
} qll_averaging;

/** A one-sided power density: bin k stands for k step_hz. */
typedef struct qll_power_spectrum {
    double step_hz;
    size_t count;
    double *density;
    size_t frame_count; /* that were averaged */
} qll_power_spectrum;

/**
 * Averaged density of frames that overlap by half, each less its mean and under Hann's window.
 *
 * Source: Welch, IEEE Trans. Audio Electroacoust. 15 (1967) 70 (from memory). The median is divided
 * by its bias over the mean of Gaussian noise, 1 - 1/2 + 1/3 - ... over the odd number of frames up to
 * @p count's, so that both averages agree on noise (Allen et al., Phys. Rev. D 85 (2012) 122006, from
 * memory). Checked against scipy.signal.welch: tests/reference/spectrum.csv.
 *
 * @param count samples; fewer than @p frame make one frame of @p count
 * @param frame 2 or more
 * @return QLL_OK or QLL_NO_MEMORY; QLL_REFUSED for fewer than 2 samples. density lives in @p arena
 */
QLL_MUST_USE qll_status qll_power_spectrum_of(const double *samples, size_t count, double rate_hz,
                                              size_t frame, qll_averaging averaging,
                                              qll_arena *arena, qll_power_spectrum *spectrum);

#endif
