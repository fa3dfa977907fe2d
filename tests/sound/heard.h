/* Sounds made sample by sample, and what is heard in them. */
#ifndef QUELL_TESTS_HEARD_H
#define QUELL_TESTS_HEARD_H

#include "base/random.h"
#include "check.h"
#include "signals/sound.h"

#include <stdlib.h>

#define QLL_TWO_PI 6.28318530717958647692
#define QLL_RATE   48000

static inline float *sound_of(double seconds)
{
    return calloc((size_t)(seconds * QLL_RATE), sizeof(float));
}

static inline void add_noise(float *samples, double from_s, double to_s, double height,
                             uint64_t seed)
{
    qll_random random = qll_random_seeded(seed);
    for (size_t j = (size_t)(from_s * QLL_RATE); j < (size_t)(to_s * QLL_RATE); j++) {
        samples[j] += (float)(height * (2.0 * qll_random_unit(&random) - 1.0));
    }
}

/* Listens in blocks of @p block samples. */
static inline qll_status listen(const float *samples, double seconds, unsigned channels,
                                size_t block, const qll_sound_quiet *quiet, qll_arena *arena,
                                qll_sound_result *result)
{
    qll_sound *sound = NULL;
    qll_status status = qll_sound_open(QLL_RATE, channels, quiet, arena, &sound);
    const size_t count = (size_t)(seconds * QLL_RATE);
    for (size_t at = 0; at < count && status == QLL_OK; at += block) {
        status =
            qll_sound_take(sound, samples + at * channels, block < count - at ? block : count - at);
    }
    return status == QLL_OK ? qll_sound_finish(sound, result) : status;
}

/* Of ten seconds, which are given back. */
static inline qll_sound_features features_of(float *samples, qll_arena *arena)
{
    qll_sound_result result;
    const bool is_heard = CHECK(listen(samples, 10, 1, 4096, NULL, arena, &result) == QLL_OK);
    free(samples);
    return is_heard ? result.stretches[0].features : (qll_sound_features){0};
}

#endif
