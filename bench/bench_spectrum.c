/* Time of an averaged spectrum (Welch's) of a minute of sound: beside it, run
 *   python3 bench/welch_scipy.py
 * which times scipy.signal.welch on as many samples. */
#include "numeric/spectrum.h"

#include <math.h>
#include <stdio.h>
#include <time.h>

#define QLL_RATE_HZ 48000
#define QLL_SECONDS 60
#define QLL_TIMES   7

static double samples[QLL_RATE_HZ * QLL_SECONDS];

static double seconds(void)
{
    return (double)clock() / CLOCKS_PER_SEC;
}

int main(void)
{
    static const size_t frames[] = {1024, 4096, 16384, 24000, 22050, 24001};
    const size_t count = sizeof samples / sizeof samples[0];
    for (size_t j = 0; j < count; j++) {
        samples[j] = sin(0.1 * (double)j) + 1e-9 * (double)(j * j % 1000003);
    }
    qll_arena *arena = qll_arena_open((size_t)256 << 20);
    printf("frame,ms,times real time\n");
    for (size_t i = 0; i < sizeof frames / sizeof frames[0]; i++) {
        double least = INFINITY; /* of several runs, so that a busy machine does not tell */
        for (int run = 0; run < QLL_TIMES; run++) {
            const qll_arena_mark mark = qll_arena_now(arena);
            const double start = seconds();
            qll_power_spectrum spectrum;
            if (qll_power_spectrum_of(samples, count, QLL_RATE_HZ, frames[i], QLL_AVERAGE_MEAN,
                                      arena, &spectrum)
                != QLL_OK) {
                return 1;
            }
            least = fmin(least, seconds() - start);
            qll_arena_reset(arena, mark);
        }
        printf("%zu,%.1f,%.0f\n", frames[i], 1e3 * least, QLL_SECONDS / least);
    }
    qll_arena_close(arena);
    return 0;
}
