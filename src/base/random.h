/* A seeded stream of random numbers, passed in, never global. */
#ifndef QUELL_BASE_RANDOM_H
#define QUELL_BASE_RANDOM_H

#include <stdint.h>

typedef struct qll_random {
    uint64_t state[4];
} qll_random;

/** The stream of @p seed; equal seeds give equal streams on every machine (xoshiro256++). */
qll_random qll_random_seeded(uint64_t seed);

/** The next 64 bits. */
uint64_t qll_random_bits(qll_random *random);

/** The next number of [0, 1), uniform, 53 bits. */
double qll_random_unit(qll_random *random);

#endif
