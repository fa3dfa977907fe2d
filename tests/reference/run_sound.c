#include "base/random.h"
#include "numeric/spectrum.h"
#include "signals/sound_tone.h"
#include "truth.h"

#define QLL_RATE_HZ 48000
#define QLL_SECONDS 16
#define QLL_FRAME   24000
#define QLL_SEEDS   8

static double samples[QLL_RATE_HZ * QLL_SECONDS];

/* A tone of 0.1 rms in white noise of 0.05 rms. */
static void put_tone(double frequency_hz, uint64_t seed)
{
    qll_random random = qll_random_seeded(seed);
    for (size_t j = 0; j < sizeof samples / sizeof samples[0]; j++) {
        const double phase = 2.0 * 3.14159265358979323846 * frequency_hz * (double)j / QLL_RATE_HZ;
        samples[j] =
            0.1 * sqrt(2.0) * sin(phase) + 0.05 * sqrt(12.0) * (qll_random_unit(&random) - 0.5);
    }
}

static double of_seed(double frequency_hz, bool is_ratio, uint64_t seed, qll_arena *arena)
{
    put_tone(frequency_hz, seed);
    qll_power_spectrum spectrum = {0};
    if (!CHECK(qll_power_spectrum_of(samples, sizeof samples / sizeof samples[0], QLL_RATE_HZ,
                                     QLL_FRAME, QLL_AVERAGE_MEAN, arena, &spectrum)
               == QLL_OK)) {
        return NAN;
    }
    double *sum = qll_arena_take(arena, spectrum.count + 1, sizeof *sum);
    for (size_t k = 0; k < spectrum.count; k++) {
        sum[k + 1] = sum[k] + spectrum.density[k];
    }
    const qll_summed summed = {spectrum.step_hz, spectrum.count, spectrum.density, sum};
    return is_ratio
               ? qll_prominence_ratio_db(&summed, frequency_hz)
               : qll_tone_to_noise_db(&summed, (size_t)(frequency_hz / spectrum.step_hz + 0.5));
}

/* The mean of several, as 16 s leave 0.06 dB of chance. */
static double of_tone(double frequency_hz, bool is_ratio, qll_arena *arena)
{
    double sum = 0.0;
    for (uint64_t seed = 1; seed <= QLL_SEEDS; seed++) {
        sum += of_seed(frequency_hz, is_ratio, seed, arena);
    }
    return sum / QLL_SEEDS;
}

static double critical_from(double f)
{
    return qll_critical_band(f).from_hz;
}

static double critical_to(double f)
{
    return qll_critical_band(f).to_hz;
}

static double lower_from(double f)
{
    return qll_critical_lower(f).from_hz;
}

static double upper_to(double f)
{
    return qll_critical_upper(f).to_hz;
}

static double got(const qll_table *rows, size_t row, qll_arena *arena)
{
    static const struct {
        const char *quantity;
        double (*of)(double);
    } plain[] = {{"a_weight_db", qll_a_weight_db},
                 {"critical_width_hz", qll_critical_width_hz},
                 {"critical_from_hz", critical_from},
                 {"critical_to_hz", critical_to},
                 {"lower_from_hz", lower_from},
                 {"upper_to_hz", upper_to},
                 {"tones_apart_hz", qll_tones_apart_hz},
                 {"tone_limit_db", qll_tone_limit_db},
                 {"prominence_limit_db", qll_prominence_limit_db},
                 {"impulse_adjustment_db", qll_impulse_adjustment_db}};

    const double input = truth_number(rows, row, "input");
    for (size_t i = 0; i < sizeof plain / sizeof plain[0]; i++) {
        if (truth_is(rows, row, "quantity", plain[i].quantity)) {
            return plain[i].of(input);
        }
    }
    if (truth_is(rows, row, "quantity", "impulse_prominence")) {
        return qll_impulse_prominence(input, truth_number(rows, row, "other"));
    }
    return of_tone(input, truth_is(rows, row, "quantity", "prominence_ratio_db"), arena);
}

int main(void)
{
    qll_arena *arena = qll_arena_open((size_t)64 << 20);
    const qll_table rows = truth_read("tests/reference/sound.csv", arena);
    CHECK(rows.row_count > 0);
    for (size_t row = 0; row < rows.row_count; row++) {
        if (!CHECK_WITHIN(got(&rows, row, arena), truth_number(&rows, row, "expected"),
                          truth_number(&rows, row, "tolerance"))) {
            printf("    in sound.csv row %zu\n", row + 1);
        }
    }
    qll_arena_close(arena);
    return TEST_END();
}
