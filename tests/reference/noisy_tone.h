/* The samples of tests/oracles/spectra.py: a tone in noise, off zero. */
#ifndef QUELL_TESTS_NOISY_TONE_H
#define QUELL_TESTS_NOISY_TONE_H

#include <math.h>
#include <stddef.h>
#include <stdint.h>

static inline void put_noisy_tone(double *samples, size_t count)
{
    uint64_t state = 1;
    for (size_t k = 0; k < count; k++) {
        state = (1103515245 * state + 12345) % 2147483648;
        samples[k] = 0.3 + cos(0.37 * (double)k) + (double)state / 2147483648.0 - 0.5;
    }
}

#endif
