/* Half the rate: what lies above a quarter of it is taken out first. */
#ifndef QUELL_SIGNALS_SOUND_HALVING_H
#define QUELL_SIGNALS_SOUND_HALVING_H

#include <stdbool.h>
#include <stddef.h>

#define QLL_HALVING_PAIRS \
    ((size_t)16) /* taps beside the middle one, on either side, that are not 0 */
#define QLL_HALVING_BLOCK 4096

/**
 * A half-band filter of 63 taps under Kaiser's window: flat to 0.226 of the rate within 0.03 dB, 50 dB down from 0.274 of it on
 * (docs/theory/sound.md, 2). It looks as far ahead as back, and what it gives is that much late.
 */
typedef struct qll_halving {
    float taps[QLL_HALVING_PAIRS]; /* at 1, 3, 5, ... from the middle */
    /* Samples of even and of odd place, the first in the middle of the filter and all that it reaches */
    float even[QLL_HALVING_PAIRS + QLL_HALVING_BLOCK];
    float odd[2 * QLL_HALVING_PAIRS + QLL_HALVING_BLOCK];
    size_t even_count, odd_count;
    bool is_odd; /* the next sample's place */
} qll_halving;

void qll_halving_open(qll_halving *halving);

/**
 * Takes @p count samples, at most QLL_HALVING_BLOCK, and gives those of half the rate.
 *
 * @param halved room for QLL_HALVING_BLOCK / 2 + 1; may be @p samples
 * @return how many it gives
 */
size_t qll_halving_take(qll_halving *halving, const float *samples, size_t count, float *halved);

#endif
