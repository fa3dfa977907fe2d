/* From samples as recorded to those that are looked at: one channel, no more rate than is needed. */
#ifndef QUELL_SIGNALS_SOUND_INTAKE_H
#define QUELL_SIGNALS_SOUND_INTAKE_H

#include "quell/arena.h"
#include "quell/problems.h"

#include "signals/sound_halving.h"

#include <stdint.h>

/* Half of this is more than the 10 kHz that any feature needs. */
#define QLL_INTAKE_RATE_HZ 22000.0

typedef struct qll_sound_intake {
    unsigned channels;
    double used_rate_hz;
    qll_halving *halvings; /* one after another */
    size_t halving_count;
    uint64_t count, clipped_count,
        broken_count;             /* samples; the first of one channel, the others of all */
    double mean_squares, squares; /* of the mean of the channels; mean of theirs */
    float *heard;                 /* a block of all channels */
    float block[QLL_HALVING_BLOCK];
} qll_sound_intake;

QLL_MUST_USE qll_status qll_sound_intake_open(double rate_hz, unsigned channels, qll_arena *arena,
                                              qll_sound_intake *intake);

/**
 * Takes @p count samples of every channel, at most QLL_HALVING_BLOCK.
 *
 * @return how many samples it gives: at the front of block
 */
size_t qll_sound_intake_take(qll_sound_intake *intake, const float *samples, size_t count);

#endif
