/* What holds of a transform of any length: the inverse undoes it, it is linear, and energy is kept. */
#include "base/random.h"
#include "check.h"
#include "numeric/fourier.h"
#include "numeric/probability.h"
#include "numeric/spectrum.h"

#include <stdint.h>

#define QLL_LENGTH_MOST 260
#define QLL_BINS_MOST   (QLL_LENGTH_MOST / 2 + 1)

typedef struct bins {
    double re[QLL_BINS_MOST], im[QLL_BINS_MOST];
} bins;

static void put_random(double *samples, size_t count, qll_random *random)
{
    for (size_t j = 0; j < count; j++) {
        samples[j] = 2.0 * qll_random_unit(random) - 1.0;
    }
}

static qll_fourier *plan_of(size_t count, qll_arena *arena)
{
    qll_fourier *plan = NULL;
    CHECK(qll_fourier_plan(count, arena, &plan) == QLL_OK);
    return plan;
}

TEST(the_inverse_gives_the_samples_back)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    qll_random random = qll_random_seeded(3);
    for (size_t count = 1; count <= QLL_LENGTH_MOST; count++) {
        double samples[QLL_LENGTH_MOST], back[QLL_LENGTH_MOST];
        bins got;
        put_random(samples, count, &random);
        qll_fourier *plan = plan_of(count, arena);
        qll_fourier_forward(plan, samples, (qll_complexes){got.re, got.im});
        qll_fourier_inverse(plan, (qll_complexes){got.re, got.im}, back);
        for (size_t j = 0; j < count; j++) {
            CHECK_WITHIN(back[j], samples[j], 1e-13);
        }
    }
    qll_arena_close(arena);
}

TEST(the_transform_of_a_sum_is_the_sum_of_transforms)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    qll_random random = qll_random_seeded(4);
    for (size_t count = 1; count <= QLL_LENGTH_MOST; count++) {
        double one[QLL_LENGTH_MOST], other[QLL_LENGTH_MOST], both[QLL_LENGTH_MOST];
        bins of_one, of_other, of_both;
        put_random(one, count, &random);
        put_random(other, count, &random);
        for (size_t j = 0; j < count; j++) {
            both[j] = 3.0 * one[j] - 0.5 * other[j];
        }
        qll_fourier *plan = plan_of(count, arena);
        qll_fourier_forward(plan, one, (qll_complexes){of_one.re, of_one.im});
        qll_fourier_forward(plan, other, (qll_complexes){of_other.re, of_other.im});
        qll_fourier_forward(plan, both, (qll_complexes){of_both.re, of_both.im});
        for (size_t k = 0; k < qll_fourier_bins(count); k++) {
            CHECK_WITHIN(of_both.re[k], 3.0 * of_one.re[k] - 0.5 * of_other.re[k], 1e-12);
            CHECK_WITHIN(of_both.im[k], 3.0 * of_one.im[k] - 0.5 * of_other.im[k], 1e-12);
        }
    }
    qll_arena_close(arena);
}

/* Parseval: the sum of squares is that of the transform over its length, each twin counted. */
TEST(energy_is_kept)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    qll_random random = qll_random_seeded(5);
    for (size_t count = 1; count <= QLL_LENGTH_MOST; count++) {
        double samples[QLL_LENGTH_MOST];
        bins got;
        put_random(samples, count, &random);
        qll_fourier_forward(plan_of(count, arena), samples, (qll_complexes){got.re, got.im});
        double in = 0.0, out = 0.0;
        for (size_t j = 0; j < count; j++) {
            in += samples[j] * samples[j];
        }
        for (size_t k = 0; k < qll_fourier_bins(count); k++) {
            const bool alone = k == 0 || 2 * k == count;
            out += (alone ? 1.0 : 2.0) * (got.re[k] * got.re[k] + got.im[k] * got.im[k]);
        }
        CHECK_NEAR(out / (double)count, in, 1e-13);
    }
    qll_arena_close(arena);
}

/* The density of noise of variance s2 is 2 s2 / rate at every frequency, by mean and by median. */
TEST(both_averages_agree_on_noise)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    qll_random random = qll_random_seeded(6);
    const size_t count = 200000;
    double *samples = qll_arena_take(arena, count, sizeof *samples);
    for (size_t j = 0; j < count; j++) {
        samples[j] = qll_normal_quantile(qll_random_unit(&random) + 1e-17);
    }
    for (int averaging = QLL_AVERAGE_MEAN; averaging <= QLL_AVERAGE_MEDIAN; averaging++) {
        qll_power_spectrum spectrum;
        CHECK(qll_power_spectrum_of(samples, count, 100.0, 256, (qll_averaging)averaging, arena,
                                    &spectrum)
              == QLL_OK);
        double sum = 0.0;
        for (size_t k = 1; k + 1 < spectrum.count; k++) {
            sum += spectrum.density[k];
        }
        CHECK_NEAR(sum / (double)(spectrum.count - 2), 0.02, 0.02);
    }
    qll_arena_close(arena);
}

TEST(too_few_samples_are_refused_and_too_little_memory_is_said)
{
    qll_arena *arena = qll_arena_open((size_t)1 << 20);
    const double samples[8] = {1, 2, 3, 4, 3, 2, 1, 0};
    qll_power_spectrum spectrum;
    CHECK(qll_power_spectrum_of(samples, 1, 1.0, 8, QLL_AVERAGE_MEAN, arena, &spectrum)
          == QLL_REFUSED);
    CHECK(qll_power_spectrum_of(samples, 8, 1.0, 1, QLL_AVERAGE_MEAN, arena, &spectrum)
          == QLL_REFUSED);
    qll_status status = QLL_NO_MEMORY;
    size_t failed = 0;
    for (size_t nth = 1; status == QLL_NO_MEMORY && nth < 100; nth++) {
        qll_arena_fail(arena, nth, false);
        status = qll_power_spectrum_of(samples, 8, 1.0, 7, QLL_AVERAGE_MEDIAN, arena, &spectrum);
        failed += status == QLL_NO_MEMORY;
    }
    CHECK(status == QLL_OK && failed > 5);
    qll_fourier *plan = NULL;
    CHECK(qll_fourier_plan((size_t)1 << 40, arena, &plan) == QLL_NO_MEMORY);
    CHECK(qll_fourier_plan(SIZE_MAX, arena, &plan) == QLL_NO_MEMORY);
    qll_arena_close(arena);
}

/* What one frame has alone. */
static void check_powers(qll_fourier *plan, const qll_frame *frame, const double *window,
                         const double *powers, size_t count, qll_arena *arena)
{
    const size_t room = qll_fourier_bins(count);
    double *windowed = qll_arena_take(arena, count, sizeof *windowed);
    const qll_complexes got = {qll_arena_take(arena, room, sizeof *got.re),
                               qll_arena_take(arena, room, sizeof *got.im)};
    for (size_t j = 0; j < count; j++) {
        windowed[j] = window[j] * (frame->samples[j] - frame->mean);
    }
    qll_fourier_forward(plan, windowed, got);
    for (size_t k = 0; k < room; k++) {
        CHECK_WITHIN(powers[k], got.re[k] * got.re[k] + got.im[k] * got.im[k],
                     1e-9 * (double)(count * count));
    }
}

/* As many frames as go at once have the powers that each has alone. */
TEST(powers_of_frames_are_those_of_the_transform)
{
    for (size_t count = 2; count <= 260; count += count < 40 ? 1 : 37) {
        qll_arena *arena = qll_arena_open((size_t)1 << 22);
        qll_random random = qll_random_seeded(count);
        const size_t room = qll_fourier_bins(count), at_once = qll_fourier_frames(count);
        double *window = qll_arena_take(arena, count, sizeof *window);
        double *powers[2], *samples[2];
        qll_frame frames[2];
        for (size_t i = 0; i < 2; i++) {
            powers[i] = qll_arena_take(arena, room, sizeof **powers);
            samples[i] = qll_arena_take(arena, count, sizeof **samples);
            for (size_t j = 0; j < count; j++) {
                samples[i][j] = qll_random_unit(&random);
                window[j] = 0.1 + (double)(j % 7);
            }
            frames[i] = (qll_frame){samples[i], 0.3 * (double)i};
        }
        qll_fourier *plan = plan_of(count, arena);
        for (size_t at = 1; at <= at_once; at++) {
            qll_fourier_powers(plan, frames, at, window, powers);
            for (size_t i = 0; i < at; i++) {
                check_powers(plan, &frames[i], window, powers[i], count, arena);
            }
        }
        qll_arena_close(arena);
    }
}

/* A swing of 2.5 at 0.2 Hz over 345, ten samples a second, by scipy.signal.welch (Hann, 1024, half overlapping); over five bins its
 * rms, 2.5/sqrt(2) but for what leaks beyond. */
TEST(a_slow_swing_has_its_frequency_and_size)
{
    static double samples[4096];
    qll_arena *arena = qll_arena_open((size_t)1 << 22);
    qll_power_spectrum spectrum;
    for (size_t k = 0; k < 4096; k++) {
        samples[k] = 345.0 + 2.5 * sin(0.04 * 3.14159265358979323846 * (double)k);
    }
    if (CHECK(qll_power_spectrum_of(samples, 4096, 10.0, 1024, QLL_AVERAGE_MEAN, arena, &spectrum)
              == QLL_OK)) {
        size_t peak = 1;
        for (size_t k = 1; k < spectrum.count; k++) {
            peak = spectrum.density[k] > spectrum.density[peak] ? k : peak;
        }
        double sum = 0.0;
        for (size_t k = peak - 2; k <= peak + 2; k++) {
            sum += spectrum.density[k];
        }
        CHECK_WITHIN((double)peak * spectrum.step_hz, 0.1953125, 1e-9);
        CHECK_WITHIN(spectrum.density[peak], 157.772089236, 1e-5);
        CHECK_WITHIN(sqrt(sum * spectrum.step_hz), 1.767339474, 1e-6);
    }
    qll_arena_close(arena);
}

int main(void)
{
    TEST_RUN(the_inverse_gives_the_samples_back);
    TEST_RUN(the_transform_of_a_sum_is_the_sum_of_transforms);
    TEST_RUN(energy_is_kept);
    TEST_RUN(both_averages_agree_on_noise);
    TEST_RUN(too_few_samples_are_refused_and_too_little_memory_is_said);
    TEST_RUN(powers_of_frames_are_those_of_the_transform);
    TEST_RUN(a_slow_swing_has_its_frequency_and_size);
    return TEST_END();
}
