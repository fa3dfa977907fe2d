#include "numeric/fourier.h"

#include "base/wide.h"
#include "numeric/fourier_complex.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#define QLL_TWO_PI 6.28318530717958647692

struct qll_fourier {
    size_t count;
    bool halved;         /* two samples make one complex number */
    qll_complexes turns; /* exp(-2 pi i k / count), where halved */
    qll_complexes values;
    qll_fourier_complex complex;
};

size_t qll_fourier_bins(size_t count)
{
    return count / 2 + 1;
}

qll_status qll_fourier_plan(size_t count, qll_arena *arena, qll_fourier **plan)
{
    qll_fourier *made = qll_arena_take(arena, 1, sizeof *made);
    if (made == NULL) {
        return QLL_NO_MEMORY;
    }
    made->count = count;
    made->halved = count % 2 == 0;
    const size_t length = made->halved ? count / 2 : count;
    made->values = qll_complexes_take(arena, length);
    if (made->values.re == NULL) {
        return QLL_NO_MEMORY;
    }
    if (made->halved) {
        made->turns = qll_complexes_take(arena, length);
        if (made->turns.re == NULL) {
            return QLL_NO_MEMORY;
        }
        for (size_t k = 0; k < length; k++) {
            const double angle = QLL_TWO_PI * ((double)k / (double)count);
            made->turns.re[k] = cos(angle);
            made->turns.im[k] = -sin(angle);
        }
    }
    *plan = made;
    return qll_fourier_complex_plan(length, arena, &made->complex);
}

/* With Z the transform of even samples + i odd ones: X[k] = E[k] + turn[k] O[k], where E and O are
 * the parts of Z that are symmetric and not: E = (Z[k] + Z*[n-k]) / 2, O = (Z[k] - Z*[n-k]) / 2i. X[n-k] = E*[k] - (turn[k] O[k])*. */
typedef struct halves {
    double even_re, even_im, turned_re, turned_im; /* E[k], turn[k] O[k] */
} halves;

static inline halves halves_at(const qll_fourier *plan, size_t k)
{
    const size_t mirrored = plan->count / 2 - k;
    const qll_complexes z = plan->values;
    const double odd_re = 0.5 * (z.im[k] + z.im[mirrored]);
    const double odd_im = 0.5 * (z.re[mirrored] - z.re[k]);
    const double turn_re = plan->turns.re[k], turn_im = plan->turns.im[k];
    return (halves){.even_re = 0.5 * (z.re[k] + z.re[mirrored]),
                    .even_im = 0.5 * (z.im[k] - z.im[mirrored]),
                    .turned_re = turn_re * odd_re - turn_im * odd_im,
                    .turned_im = turn_re * odd_im + turn_im * odd_re};
}

QLL_WIDE static void forward_halved(qll_fourier *plan, const double *samples, qll_complexes bins)
{
    const size_t length = plan->count / 2;
    const qll_complexes z = plan->values;
    QLL_APART
    for (size_t k = 0; k < length; k++) {
        z.re[k] = samples[2 * k];
        z.im[k] = samples[2 * k + 1];
    }
    qll_fourier_complex_forward(&plan->complex, z);
    bins.re[0] = z.re[0] + z.im[0];
    bins.re[length] = z.re[0] - z.im[0];
    bins.im[0] = bins.im[length] = 0.0;
    QLL_APART
    for (size_t k = 1; k < length; k++) {
        const halves at = halves_at(plan, k);
        bins.re[k] = at.even_re + at.turned_re;
        bins.im[k] = at.even_im + at.turned_im;
    }
}

void qll_fourier_forward(qll_fourier *plan, const double *samples, qll_complexes bins)
{
    if (plan->halved) {
        forward_halved(plan, samples, bins);
        return;
    }
    memcpy(plan->values.re, samples, plan->count * sizeof *samples);
    memset(plan->values.im, 0, plan->count * sizeof *samples);
    qll_fourier_complex_forward(&plan->complex, plan->values);
    memcpy(bins.re, plan->values.re, qll_fourier_bins(plan->count) * sizeof *bins.re);
    memcpy(bins.im, plan->values.im, qll_fourier_bins(plan->count) * sizeof *bins.im);
}

size_t qll_fourier_frames(size_t count)
{
    return count % 2 == 0 ? 1 : 2;
}

static double squared(double re, double im)
{
    return re * re + im * im;
}

QLL_WIDE static void powers_halved(qll_fourier *plan, const qll_frame *frame, const double *window,
                                   double *power)
{
    const size_t length = plan->count / 2;
    const qll_complexes z = plan->values;
    const double *samples = frame->samples, mean = frame->mean;
    QLL_APART
    for (size_t k = 0; k < length; k++) {
        z.re[k] = window[2 * k] * (samples[2 * k] - mean);
        z.im[k] = window[2 * k + 1] * (samples[2 * k + 1] - mean);
    }
    qll_fourier_complex_forward(&plan->complex, z);
    power[0] = squared(z.re[0] + z.im[0], 0.0);
    power[length] = squared(z.re[0] - z.im[0], 0.0);
    QLL_APART
    for (size_t k = 1; 2 * k <= length; k++) {
        const halves at = halves_at(plan, k);
        power[k] = squared(at.even_re + at.turned_re, at.even_im + at.turned_im);
        power[length - k] = squared(at.even_re - at.turned_re, at.even_im - at.turned_im);
    }
}

/* Two real frames are one of complex numbers, x + i y; its transform Z holds both: X[k] = (Z[k] + Z*[n-k]) / 2, Y[k] =
 * (Z[k] - Z*[n-k]) / 2i. */
QLL_WIDE static void powers_of_two(qll_fourier *plan, const qll_frame *frames, size_t frame_count,
                                   const double *window, double *const *powers)
{
    const qll_complexes z = plan->values;
    const qll_frame first = frames[0], second = frames[frame_count - 1];
    QLL_APART
    for (size_t j = 0; j < plan->count; j++) {
        z.re[j] = window[j] * (first.samples[j] - first.mean);
        z.im[j] = frame_count > 1 ? window[j] * (second.samples[j] - second.mean) : 0.0;
    }
    qll_fourier_complex_forward(&plan->complex, z);
    const size_t bins = qll_fourier_bins(plan->count);
    double *one = powers[0],
           *other =
               powers[frame_count - 1]; /* of one frame the other comes first and is written over */
    other[0] = squared(z.im[0], 0.0);
    one[0] = squared(z.re[0], 0.0);
    QLL_APART
    for (size_t k = 1; k < bins; k++) {
        const size_t mirrored = plan->count - k;
        other[k] = 0.25 * squared(z.re[k] - z.re[mirrored], z.im[k] + z.im[mirrored]);
        one[k] = 0.25 * squared(z.re[k] + z.re[mirrored], z.im[k] - z.im[mirrored]);
    }
}

void qll_fourier_powers(qll_fourier *plan, const qll_frame *frames, size_t frame_count,
                        const double *window, double *const *powers)
{
    if (plan->halved) {
        powers_halved(plan, frames, window, powers[0]);
    } else {
        powers_of_two(plan, frames, frame_count, window, powers);
    }
}

/* The way of forward_halved() backwards: Z[k] = E[k] + i O[k], O[k] by the turn undone. */
QLL_WIDE static void inverse_halved(qll_fourier *plan, qll_complexes bins, double *samples)
{
    const size_t length = plan->count / 2;
    const qll_complexes z = plan->values;
    QLL_APART
    for (size_t k = 0; k < length; k++) {
        const size_t mirrored = length - k;
        const double even_re = bins.re[k] + bins.re[mirrored];
        const double even_im = bins.im[k] - bins.im[mirrored];
        const double apart_re = bins.re[k] - bins.re[mirrored];
        const double apart_im = bins.im[k] + bins.im[mirrored];
        const double turn_re = plan->turns.re[k], turn_im = -plan->turns.im[k];
        z.re[k] = even_re - (apart_re * turn_im + apart_im * turn_re);
        z.im[k] = even_im + (apart_re * turn_re - apart_im * turn_im);
    }
    qll_fourier_complex_forward(&plan->complex, (qll_complexes){z.im, z.re});
    QLL_APART
    for (size_t k = 0; k < length; k++) {
        samples[2 * k] = z.re[k] / (double)plan->count;
        samples[2 * k + 1] = z.im[k] / (double)plan->count;
    }
}

void qll_fourier_inverse(qll_fourier *plan, qll_complexes bins, double *samples)
{
    if (plan->halved) {
        inverse_halved(plan, bins, samples);
        return;
    }
    const qll_complexes z = plan->values;
    z.re[0] = bins.re[0];
    z.im[0] = 0.0;
    for (size_t k = 1; k < qll_fourier_bins(plan->count); k++) {
        z.re[k] = z.re[plan->count - k] = bins.re[k];
        z.im[k] = bins.im[k];
        z.im[plan->count - k] = -bins.im[k];
    }
    qll_fourier_complex_forward(&plan->complex, (qll_complexes){z.im, z.re});
    for (size_t k = 0; k < plan->count; k++) {
        samples[k] = z.re[k] / (double)plan->count;
    }
}
