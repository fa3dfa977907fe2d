#include "signals/sound_halving.h"

#include "base/wide.h"

#include <math.h>
#include <string.h>

#define QLL_PI   3.14159265358979323846
/* Of Kaiser's window, for 50 dB (Kaiser 1974, from memory). */
#define QLL_BETA 4.53

/* Bessel's I0, by its series. */
static double bessel_i0(double x)
{
    double term = 1.0, sum = 1.0;
    for (int k = 1; term > 1e-17 * sum; k++) {
        term *= (0.5 * x / k) * (0.5 * x / k);
        sum += term;
    }
    return sum;
}

void qll_halving_open(qll_halving *halving)
{
    /* Silence went before. Of the odd samples as many as lie before the middle. */
    *halving = (qll_halving){.odd_count = QLL_HALVING_PAIRS};
    double taps[QLL_HALVING_PAIRS], sum = 0.0;
    for (size_t i = 0; i < QLL_HALVING_PAIRS; i++) {
        const double n = (double)(2 * i + 1), edge = n / (2 * QLL_HALVING_PAIRS);
        taps[i] = sin(0.5 * QLL_PI * n) / (QLL_PI * n)
                  * bessel_i0(QLL_BETA * sqrt(1.0 - edge * edge)) / bessel_i0(QLL_BETA);
        sum += 2.0 * taps[i];
    }
    for (size_t i = 0; i < QLL_HALVING_PAIRS; i++) {
        halving->taps[i] = (float)(taps[i] * 0.5 / sum);
    }
}

static void sort_in(qll_halving *halving, const float *samples, size_t count)
{
    size_t j = 0;
    if (halving->is_odd && count > 0) {
        halving->odd[halving->odd_count++] = samples[j++];
    }
    float *even = halving->even + halving->even_count, *odd = halving->odd + halving->odd_count;
    const size_t pairs = (count - j) / 2;
    for (size_t i = 0; i < pairs; i++) {
        even[i] = samples[j + 2 * i];
        odd[i] = samples[j + 2 * i + 1];
    }
    halving->even_count += pairs;
    halving->odd_count += pairs;
    halving->is_odd = j + 2 * pairs < count;
    if (halving->is_odd) {
        halving->even[halving->even_count++] = samples[count - 1];
    }
}

/* Adds four taps on either side to @p count outputs: neighbors need neighbors, so a compiler makes vectors of it. */
QLL_WIDE static void add_taps(const qll_halving *halving, size_t first, size_t count,
                              float *restrict halved)
{
    const float *taps = halving->taps + first;
    const float *ahead = halving->odd + QLL_HALVING_PAIRS + first;
    const float *behind = halving->odd + QLL_HALVING_PAIRS - 4 - first;
    for (size_t n = 0; n < count; n++) {
        halved[n] += taps[0] * (ahead[n] + behind[n + 3]) + taps[1] * (ahead[n + 1] + behind[n + 2])
                     + taps[2] * (ahead[n + 2] + behind[n + 1])
                     + taps[3] * (ahead[n + 3] + behind[n]);
    }
}

size_t qll_halving_take(qll_halving *halving, const float *samples, size_t count, float *halved)
{
    sort_in(halving, samples, count);
    /* An output needs the even sample in its middle and QLL_HALVING_PAIRS odd ones beyond. */
    const size_t reached = halving->odd_count > 2 * QLL_HALVING_PAIRS - 1
                               ? halving->odd_count - 2 * QLL_HALVING_PAIRS + 1
                               : 0;
    const size_t given = reached < halving->even_count ? reached : halving->even_count;
    for (size_t n = 0; n < given; n++) {
        halved[n] = 0.5F * halving->even[n];
    }
    for (size_t first = 0; first < QLL_HALVING_PAIRS; first += 4) {
        add_taps(halving, first, given, halved);
    }
    halving->even_count -= given;
    halving->odd_count -= given;
    memmove(halving->even, halving->even + given, halving->even_count * sizeof *halving->even);
    memmove(halving->odd, halving->odd + given, halving->odd_count * sizeof *halving->odd);
    return given;
}
