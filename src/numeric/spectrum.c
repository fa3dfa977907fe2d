#include "numeric/spectrum.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define QLL_TWO_PI      6.28318530717958647692
#define QLL_FRAMES_MOST 2 /* that qll_fourier_frames() says */

qll_status qll_framing_make(size_t frame, double rate_hz, qll_arena *arena, qll_framing *framing)
{
    *framing = (qll_framing){.frame = frame, .rate_hz = rate_hz};
    framing->window = qll_arena_take(arena, frame, sizeof *framing->window);
    if (framing->window == NULL) {
        return QLL_NO_MEMORY;
    }
    double squares = 0.0;
    for (size_t j = 0; j < frame; j++) {
        framing->window[j] = 0.5 - 0.5 * cos(QLL_TWO_PI * ((double)j / (double)frame));
        squares += framing->window[j] * framing->window[j];
    }
    framing->scale = 1.0 / (rate_hz * squares);
    return qll_fourier_plan(frame, arena, &framing->fourier);
}

/* Four sums side by side, none of which waits for another. */
static double mean_of(const double *samples, size_t count)
{
    double sums[4] = {0};
    size_t j = 0;
    for (; j + 4 <= count; j += 4) {
        for (size_t i = 0; i < 4; i++) {
            sums[i] += samples[j + i];
        }
    }
    for (; j < count; j++) {
        sums[0] += samples[j];
    }
    return (sums[0] + sums[1] + sums[2] + sums[3]) / (double)count;
}

/* Densities of @p frame_count frames, one or as many as qll_fourier_frames() says of their length. */
static void take_densities(qll_framing *framing, const double *const *samples, size_t frame_count,
                           double *const *densities)
{
    const size_t frame = framing->frame, bins = qll_fourier_bins(frame);
    qll_frame frames[QLL_FRAMES_MOST];
    for (size_t i = 0; i < frame_count; i++) {
        frames[i] = (qll_frame){samples[i], mean_of(samples[i], frame)};
    }
    qll_fourier_powers(framing->fourier, frames, frame_count, framing->window, densities);
    const double twice = 2.0 * framing->scale;
    for (size_t i = 0; i < frame_count; i++) {
        for (size_t k = 0; k < bins; k++) {
            densities[i][k] *= twice;
        }
        densities[i][0] *= 0.5; /* these two have no twin at a negative frequency */
        if (frame % 2 == 0) {
            densities[i][bins - 1] *= 0.5;
        }
    }
}

void qll_framing_density(qll_framing *framing, const double *samples, double *density)
{
    take_densities(framing, &samples, 1, &density);
}

static int by_size(const void *left, const void *right)
{
    const double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

static double median_bias(size_t count)
{
    double bias = 1.0;
    for (size_t pair = 2; pair < count; pair += 2) {
        bias += 1.0 / (double)(pair + 1) - 1.0 / (double)pair;
    }
    return bias;
}

/* densities holds frame after frame */
static qll_status take_median(const double *densities, qll_power_spectrum *spectrum,
                              qll_arena *arena)
{
    const size_t frames = spectrum->frame_count;
    double *values = qll_arena_take(arena, frames, sizeof *values);
    if (values == NULL) {
        return QLL_NO_MEMORY;
    }
    const double bias = median_bias(frames);
    for (size_t k = 0; k < spectrum->count; k++) {
        for (size_t i = 0; i < frames; i++) {
            values[i] = densities[i * spectrum->count + k];
        }
        qsort(values, frames, sizeof *values, by_size);
        spectrum->density[k] = 0.5 * (values[(frames - 1) / 2] + values[frames / 2]) / bias;
    }
    return QLL_OK;
}

/* Frames from @p first on, as many as go at once, densities to rows. */
static size_t take_frames(qll_framing *framing, const double *samples, size_t first,
                          const qll_power_spectrum *spectrum, double *const *rows)
{
    const size_t hop = framing->frame - framing->frame / 2;
    const size_t left = spectrum->frame_count - first, at_once = qll_fourier_frames(framing->frame);
    const size_t count = left < at_once ? left : at_once;
    const double *frames[QLL_FRAMES_MOST];
    for (size_t i = 0; i < count; i++) {
        frames[i] = samples + (first + i) * hop;
    }
    take_densities(framing, frames, count, rows);
    return count;
}

/* densities has room for as many frames as go at once */
static void take_mean(qll_framing *framing, const double *samples, double *densities,
                      qll_power_spectrum *spectrum)
{
    double *const rows[QLL_FRAMES_MOST] = {densities, densities + spectrum->count};
    for (size_t done = 0; done < spectrum->frame_count;) {
        const size_t count = take_frames(framing, samples, done, spectrum, rows);
        for (size_t i = 0; i < count; i++) {
            for (size_t k = 0; k < spectrum->count; k++) {
                spectrum->density[k] += rows[i][k];
            }
        }
        done += count;
    }
    for (size_t k = 0; k < spectrum->count; k++) {
        spectrum->density[k] /= (double)spectrum->frame_count;
    }
}

/* densities holds frame after frame */
static qll_status take_median_of(qll_framing *framing, const double *samples, double *densities,
                                 qll_power_spectrum *spectrum, qll_arena *arena)
{
    for (size_t done = 0; done < spectrum->frame_count;) {
        double *const first = densities + done * spectrum->count;
        double *const rows[QLL_FRAMES_MOST] = {first, first + spectrum->count};
        done += take_frames(framing, samples, done, spectrum, rows);
    }
    return take_median(densities, spectrum, arena);
}

qll_status qll_power_spectrum_of(const double *samples, size_t count, double rate_hz, size_t frame,
                                 qll_averaging averaging, qll_arena *arena,
                                 qll_power_spectrum *spectrum)
{
    if (count < 2 || frame < 2) {
        return QLL_REFUSED;
    }
    frame = frame < count ? frame : count;
    const size_t hop = frame - frame / 2;
    *spectrum = (qll_power_spectrum){.step_hz = rate_hz / (double)frame,
                                     .count = qll_fourier_bins(frame),
                                     .frame_count = (count - frame) / hop + 1};
    spectrum->density = qll_arena_take(arena, spectrum->count, sizeof *spectrum->density);
    const qll_arena_mark mark = qll_arena_now(arena);
    const bool median = averaging == QLL_AVERAGE_MEDIAN;
    qll_framing framing;
    qll_status status = qll_framing_make(frame, rate_hz, arena, &framing);
    double *densities = qll_arena_take(arena, median ? spectrum->frame_count : QLL_FRAMES_MOST,
                                       spectrum->count * sizeof *densities);
    if (status != QLL_OK || spectrum->density == NULL || densities == NULL) {
        return QLL_NO_MEMORY;
    }
    if (median) {
        status = take_median_of(&framing, samples, densities, spectrum, arena);
    } else {
        take_mean(&framing, samples, densities, spectrum);
    }
    qll_arena_reset(arena, mark);
    return status;
}
