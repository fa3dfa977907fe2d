#include "numeric/fourier_complex.h"

#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

#define QLL_TWO_PI     6.28318530717958647692
#define QLL_RADIX_FAST 5 /* up to here a pass has its own code */

qll_complexes qll_complexes_take(qll_arena *arena, size_t count)
{
    const qll_complexes none = {0};
    if (count > SIZE_MAX / 2) {
        return none;
    }
    double *re = qll_arena_take(arena, 2 * count, sizeof *re);
    return re == NULL ? none : (qll_complexes){re, re + count};
}

/* exp(-2 pi i part / whole) */
static void put_turn(double *turn, size_t part, size_t whole)
{
    const double angle = QLL_TWO_PI * ((double)part / (double)whole);
    turn[0] = cos(angle);
    turn[1] = -sin(angle);
}

/* The radix of the next pass over @p rest, none above @p most; 0 where there is none. */
static size_t next_radix(size_t rest, size_t most)
{
    static const size_t radixes[] = {4, 2, 3, 5, 7, 11, QLL_FOURIER_RADIX_MOST};
    for (size_t i = 0; i < sizeof radixes / sizeof radixes[0]; i++) {
        if (radixes[i] <= most && rest % radixes[i] == 0) {
            return radixes[i];
        }
    }
    return 0;
}

static bool factors_within(size_t count, size_t most)
{
    while (count > 1) {
        const size_t radix = next_radix(count, most);
        if (radix == 0) {
            return false;
        }
        count /= radix;
    }
    return count == 1;
}

size_t qll_fourier_good_length(size_t least)
{
    size_t length = least + least % 2;
    while (!factors_within(length, QLL_RADIX_FAST)) {
        length += 2;
    }
    return length;
}

static bool make_stage(size_t radix, size_t rest, size_t stride, qll_arena *arena,
                       qll_fourier_stage *stage)
{
    const qll_complexes turns = qll_complexes_take(arena, rest * (radix - 1));
    double *roots = radix > 5 ? qll_arena_take(arena, radix, 2 * sizeof *roots) : NULL;
    if (turns.re == NULL || (radix > 5 && roots == NULL)) {
        return false;
    }
    for (size_t p = 0; p < rest; p++) {
        for (size_t k = 1; k < radix; k++) {
            double turn[2];
            put_turn(turn, p * k, radix * rest);
            turns.re[(k - 1) * rest + p] = turn[0];
            turns.im[(k - 1) * rest + p] = turn[1];
        }
    }
    for (size_t k = 0; roots != NULL && k < radix; k++) {
        put_turn(roots + 2 * k, k, radix);
    }
    *stage = (qll_fourier_stage){radix, rest, stride, turns, roots};
    return true;
}

static qll_status plan_passes(size_t count, qll_arena *arena, qll_fourier_complex *plan)
{
    plan->spare = qll_complexes_take(arena, count);
    if (plan->spare.re == NULL) {
        return QLL_NO_MEMORY;
    }
    size_t rest = count, stride = 1;
    while (rest > 1) {
        const size_t radix = next_radix(rest, QLL_FOURIER_RADIX_MOST);
        rest /= radix;
        if (!make_stage(radix, rest, stride, arena, &plan->stages[plan->stage_count])) {
            return QLL_NO_MEMORY;
        }
        plan->stage_count += 1;
        stride *= radix;
    }
    return QLL_OK;
}

/* Bluestein: j k = (j^2 + k^2 - (k - j)^2) / 2, so the transform is a convolution with the chirp
 * exp(+pi i j^2 / n), done by transforms of a length that factors.
 * Source: Bluestein, IEEE Trans. Audio Electroacoust. 18 (1970) 451 (from memory). */
static qll_status plan_chirp(size_t count, qll_arena *arena, qll_fourier_complex *plan)
{
    if (count > SIZE_MAX / 8) {
        return QLL_NO_MEMORY;
    }
    size_t length = 2 * count - 1;
    length = qll_fourier_good_length(length);
    plan->inner = qll_arena_take(arena, 1, sizeof *plan->inner);
    plan->chirp = qll_complexes_take(arena, count);
    plan->kernel = qll_complexes_take(arena, length);
    plan->padded = qll_complexes_take(arena, length);
    if (plan->inner == NULL || plan->chirp.re == NULL || plan->kernel.re == NULL
        || plan->padded.re == NULL) {
        return QLL_NO_MEMORY;
    }
    plan->inner->count = length;
    const qll_status status = plan_passes(length, arena, plan->inner);
    if (status != QLL_OK) {
        return status;
    }
    /* j^2 modulo 2 n, by differences, as the square itself may not fit */
    for (size_t j = 0, square = 0; j < count; square = (square + 2 * j + 1) % (2 * count), j++) {
        double turn[2];
        put_turn(turn, square, 2 * count);
        plan->chirp.re[j] = turn[0];
        plan->chirp.im[j] = turn[1];
        const size_t mirrored = j == 0 ? 0 : length - j;
        plan->kernel.re[j] = plan->kernel.re[mirrored] = turn[0] / (double)length;
        plan->kernel.im[j] = plan->kernel.im[mirrored] = -turn[1] / (double)length;
    }
    qll_fourier_passes(plan->inner, plan->kernel);
    return QLL_OK;
}

qll_status qll_fourier_complex_plan(size_t count, qll_arena *arena, qll_fourier_complex *plan)
{
    *plan = (qll_fourier_complex){.count = count};
    return factors_within(count, QLL_FOURIER_RADIX_MOST) ? plan_passes(count, arena, plan)
                                                         : plan_chirp(count, arena, plan);
}

/* Multiplies @p values by @p factors, one by one. */
static void multiply(qll_complexes values, qll_complexes factors, size_t count)
{
    for (size_t j = 0; j < count; j++) {
        const double re = values.re[j], im = values.im[j];
        values.re[j] = re * factors.re[j] - im * factors.im[j];
        values.im[j] = re * factors.im[j] + im * factors.re[j];
    }
}

void qll_fourier_complex_forward(qll_fourier_complex *plan, qll_complexes values)
{
    if (plan->inner == NULL) {
        qll_fourier_passes(plan, values);
        return;
    }
    const qll_complexes padded = plan->padded;
    const size_t length = plan->inner->count;
    multiply(values, plan->chirp, plan->count);
    memset(padded.re, 0, length * sizeof *padded.re);
    memset(padded.im, 0, length * sizeof *padded.im);
    memcpy(padded.re, values.re, plan->count * sizeof *values.re);
    memcpy(padded.im, values.im, plan->count * sizeof *values.im);
    qll_fourier_passes(plan->inner, padded);
    multiply(padded, plan->kernel, length);
    /* back: with real and imaginary part exchanged, forth is back */
    qll_fourier_passes(plan->inner, (qll_complexes){padded.im, padded.re});
    memcpy(values.re, padded.re, plan->count * sizeof *values.re);
    memcpy(values.im, padded.im, plan->count * sizeof *values.im);
    multiply(values, plan->chirp, plan->count);
}
