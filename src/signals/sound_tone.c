#include "signals/sound_tone.h"

#include <math.h>

/* ---- IEC 61672-1: the poles of A, and what makes it 0 dB at 1 kHz ---- */

#define QLL_A_POLE_1_HZ 20.598997057618316
#define QLL_A_POLE_2_HZ 107.65264864304629
#define QLL_A_POLE_3_HZ 737.8622307362901
#define QLL_A_POLE_4_HZ 12194.217147998012
#define QLL_A_OFFSET_DB 2.000

double qll_a_weight_db(double frequency_hz)
{
    const double f2 = frequency_hz * frequency_hz;
    const double pole_1 = f2 + QLL_A_POLE_1_HZ * QLL_A_POLE_1_HZ;
    const double pole_2 = f2 + QLL_A_POLE_2_HZ * QLL_A_POLE_2_HZ;
    const double pole_3 = f2 + QLL_A_POLE_3_HZ * QLL_A_POLE_3_HZ;
    const double pole_4 = f2 + QLL_A_POLE_4_HZ * QLL_A_POLE_4_HZ;
    const double gain = QLL_A_POLE_4_HZ * QLL_A_POLE_4_HZ * f2 * f2
                        / (pole_1 * sqrt(pole_2) * sqrt(pole_3) * pole_4);
    return 20.0 * log10(gain) + QLL_A_OFFSET_DB;
}

/* ---- ECMA-418-1 ---- */

double qll_critical_width_hz(double frequency_hz)
{
    const double khz = frequency_hz / 1000.0;
    return 25.0 + 75.0 * pow(1.0 + 1.4 * khz * khz, 0.69);
}

qll_band qll_critical_band(double frequency_hz)
{
    const double width = qll_critical_width_hz(frequency_hz);
    if (frequency_hz <= 500.0) {
        return (qll_band){frequency_hz - 0.5 * width, frequency_hz + 0.5 * width};
    }
    const double from = 0.5 * (sqrt(width * width + 4.0 * frequency_hz * frequency_hz) - width);
    return (qll_band){from, from + width};
}

qll_band qll_critical_lower(double frequency_hz)
{
    const double f = frequency_hz;
    double from = 20.0;
    if (f > 1600.0) {
        from = 6.8 + 0.806 * f - 8.20e-6 * f * f;
    } else if (f > 171.4) {
        from = -149.5 + 1.001 * f - 6.90e-5 * f * f;
    }
    return (qll_band){from, qll_critical_band(f).from_hz};
}

qll_band qll_critical_upper(double frequency_hz)
{
    const double f = frequency_hz;
    const double to =
        f > 1600.0 ? 3.3 + 1.215 * f + 2.16e-5 * f * f : 149.5 + 1.035 * f + 7.70e-5 * f * f;
    return (qll_band){qll_critical_band(f).to_hz, to};
}

double qll_tones_apart_hz(double frequency_hz)
{
    if (frequency_hz >= 1000.0) {
        const qll_band band = qll_critical_band(frequency_hz);
        return 0.5 * (band.to_hz - band.from_hz);
    }
    return 21.0 * pow(10.0, 1.2 * pow(fabs(log10(frequency_hz / 212.0)), 1.8));
}

double qll_tone_limit_db(double frequency_hz)
{
    return frequency_hz >= 1000.0 ? 8.0 : 8.0 + 8.33 * log10(1000.0 / frequency_hz);
}

double qll_prominence_limit_db(double frequency_hz)
{
    return frequency_hz >= 1000.0 ? 9.0 : 9.0 + 10.0 * log10(1000.0 / frequency_hz);
}

/* Beside a pure tone there is nothing but rounding: no ratio is over 100 dB. */
#define QLL_TONE_LEAST 1e-10

/* Bin k holds what lies within half a step of k steps. */
static double power_below(const qll_summed *spectrum, double frequency_hz)
{
    const double at =
        fmin(fmax(frequency_hz / spectrum->step_hz + 0.5, 0.0), (double)spectrum->count);
    const size_t whole = (size_t)at;
    const double part =
        whole < spectrum->count ? (at - (double)whole) * spectrum->density[whole] : 0.0;
    return (spectrum->sum[whole] + part) * spectrum->step_hz;
}

double qll_summed_power(const qll_summed *spectrum, double from_hz, double to_hz)
{
    return power_below(spectrum, to_hz) - power_below(spectrum, from_hz);
}

static double decibels(double ratio)
{
    return 10.0 * log10(ratio);
}

double qll_tone_to_noise_db(const qll_summed *spectrum, size_t peak)
{
    const double frequency_hz = (double)peak * spectrum->step_hz;
    const qll_band band = qll_critical_band(frequency_hz);
    const double width = band.to_hz - band.from_hz;
    const size_t half = (size_t)fmax(2.0, floor(0.075 * width / spectrum->step_hz));
    if (band.from_hz <= 0.0 || peak <= half || peak + half + 1 >= spectrum->count
        || band.to_hz > (double)spectrum->count * spectrum->step_hz) {
        return NAN;
    }
    const double step = spectrum->step_hz;
    const double inside = (spectrum->sum[peak + half + 1] - spectrum->sum[peak - half]) * step;
    const double line = 0.5
                        * (spectrum->density[peak - half - 1] + spectrum->density[peak + half + 1])
                        * (double)(2 * half + 1) * step;
    const double tone_width = (double)(2 * half + 1) * step;
    const double rest = qll_summed_power(spectrum, band.from_hz, band.to_hz) - inside;
    const double tone = inside - line;
    const double noise = fmax(rest * width / (width - tone_width), QLL_TONE_LEAST * tone);
    return tone > 0.0 ? decibels(tone / noise) : (double)NAN;
}

double qll_prominence_ratio_db(const qll_summed *spectrum, double frequency_hz)
{
    const qll_band middle = qll_critical_band(frequency_hz);
    const qll_band lower = qll_critical_lower(frequency_hz),
                   upper = qll_critical_upper(frequency_hz);
    if (upper.to_hz > ((double)spectrum->count - 0.5) * spectrum->step_hz) {
        return NAN;
    }
    double below = qll_summed_power(spectrum, lower.from_hz, lower.to_hz);
    if (frequency_hz < 171.4) {
        below *= 100.0 / (lower.to_hz - lower.from_hz);
    }
    const double above = qll_summed_power(spectrum, upper.from_hz, upper.to_hz);
    const double within = qll_summed_power(spectrum, middle.from_hz, middle.to_hz);
    const double beside = fmax(0.5 * (below + above), QLL_TONE_LEAST * within);
    return within > 0.0 ? decibels(within / beside) : (double)NAN;
}

/* ---- NT ACOU 112 ---- */

double qll_impulse_prominence(double onset_db_s, double difference_db)
{
    return onset_db_s > 0.0 && difference_db > 0.0
               ? 3.0 * log10(onset_db_s) + 2.0 * log10(difference_db)
               : 0.0;
}

double qll_impulse_adjustment_db(double prominence)
{
    return prominence > 5.0 ? 1.8 * (prominence - 5.0) : 0.0;
}
