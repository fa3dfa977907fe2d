#include "numeric/lomb_scargle.h"

#include <math.h>

#define QLL_TWO_PI 6.283185307179586

double qll_lomb_scargle(const double *time_s, const double *values, size_t count,
                        double frequency_hz)
{
    double mean = 0.0;
    for (size_t i = 0; i < count; i++) {
        mean += values[i] / (double)count;
    }
    const double omega = QLL_TWO_PI * frequency_hz;
    double sine = 0.0;
    double cosine = 0.0;
    for (size_t i = 0; i < count; i++) {
        sine += sin(2.0 * omega * (time_s[i] - time_s[0]));
        cosine += cos(2.0 * omega * (time_s[i] - time_s[0]));
    }
    /* The phase at which the sums of both parts are independent. */
    const double phase = 0.5 * atan2(sine, cosine);
    double c_sum = 0.0;
    double s_sum = 0.0;
    double c_square = 0.0;
    double s_square = 0.0;
    double variance = 0.0;
    for (size_t i = 0; i < count; i++) {
        const double angle = omega * (time_s[i] - time_s[0]) - phase;
        const double value = values[i] - mean;
        c_sum += value * cos(angle);
        s_sum += value * sin(angle);
        c_square += cos(angle) * cos(angle);
        s_square += sin(angle) * sin(angle);
        variance += value * value;
    }
    if (count < 3 || !(variance > 0.0)) {
        return (double)NAN;
    }
    const double in_phase = c_square > 1e-9 * (double)count ? c_sum * c_sum / c_square : 0.0;
    const double beside = s_square > 1e-9 * (double)count ? s_sum * s_sum / s_square : 0.0;
    return (in_phase + beside) / variance;
}

double qll_lomb_scargle_false_alarm(double share, size_t count, double tried)
{
    if (count < 4) {
        return 1.0;
    }
    const double single = pow(fmax(1.0 - share, 0.0), ((double)count - 3.0) / 2.0);
    return -expm1(tried * log1p(-fmin(single, 1.0 - 1e-15)));
}
