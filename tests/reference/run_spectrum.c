#include "noisy_tone.h"
#include "numeric/spectrum.h"
#include "truth.h"

#define QLL_SAMPLES_MOST 65536

static double samples[QLL_SAMPLES_MOST];

static void check_transform(const qll_table *rows, size_t row, qll_arena *arena)
{
    const qll_arena_mark mark = qll_arena_now(arena);
    const size_t count = (size_t)truth_number(rows, row, "count");
    const size_t bin = (size_t)truth_number(rows, row, "bin");
    const double tolerance = truth_number(rows, row, "tolerance");
    put_noisy_tone(samples, count);
    const size_t bins = qll_fourier_bins(count);
    qll_complexes got = {qll_arena_take(arena, bins, sizeof *got.re),
                         qll_arena_take(arena, bins, sizeof *got.im)};
    qll_fourier *plan = NULL;
    if (CHECK(qll_fourier_plan(count, arena, &plan) == QLL_OK && bin < bins)) {
        qll_fourier_forward(plan, samples, got);
        CHECK_WITHIN(got.re[bin], truth_number(rows, row, "re"), tolerance);
        CHECK_WITHIN(got.im[bin], truth_number(rows, row, "im"), tolerance);
    }
    qll_arena_reset(arena, mark);
}

static void check_spectrum(const qll_table *rows, size_t row, qll_arena *arena)
{
    const qll_arena_mark mark = qll_arena_now(arena);
    const size_t count = (size_t)truth_number(rows, row, "count");
    const size_t bin = (size_t)truth_number(rows, row, "bin");
    const qll_averaging averaging =
        truth_is(rows, row, "averaging", "median") ? QLL_AVERAGE_MEDIAN : QLL_AVERAGE_MEAN;
    put_noisy_tone(samples, count);
    qll_power_spectrum spectrum = {0};
    const double rate_hz = truth_number(rows, row, "rate_hz");
    const size_t frame = (size_t)truth_number(rows, row, "frame");
    if (CHECK(qll_power_spectrum_of(samples, count, rate_hz, frame, averaging, arena, &spectrum)
              == QLL_OK)
        && CHECK(bin < spectrum.count)) {
        CHECK_NEAR(spectrum.density[bin], truth_number(rows, row, "expected"),
                   truth_number(rows, row, "tolerance"));
    }
    qll_arena_reset(arena, mark);
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    const qll_table transforms = truth_read("tests/reference/fourier.csv", arena);
    const qll_table spectra = truth_read("tests/reference/spectrum.csv", arena);
    CHECK(transforms.row_count > 0 && spectra.row_count > 0);
    for (size_t row = 0; row < transforms.row_count; row++) {
        check_transform(&transforms, row, arena);
    }
    for (size_t row = 0; row < spectra.row_count; row++) {
        check_spectrum(&spectra, row, arena);
    }
    qll_arena_close(arena);
    return TEST_END();
}
