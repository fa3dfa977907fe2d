/* Recordings that nobody made: what a phone would take of a noise, by the physics of its source. For tests, measurements and the
 * example; nothing here is known to src/signals. */
#ifndef QUELL_TESTS_RECORDINGS_H
#define QUELL_TESTS_RECORDINGS_H

#include "quell/arena.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define QLL_RECORDING_SECONDS 10

typedef enum recording_kind {
    QLL_RECORDING_SQUEAL,
    QLL_RECORDING_HISS,
    QLL_RECORDING_CHATTER,
    QLL_RECORDING_HAMMER,
    QLL_RECORDING_RUSH,
    QLL_RECORDING_NONE,
    QLL_RECORDING_OTHER,
    QLL_RECORDING_COUNT
} recording_kind;

extern const char *const recording_words[QLL_RECORDING_COUNT];

typedef struct recording {
    double rate_hz;
    size_t count;
    float *samples;
} recording;

/* One of the endless number of recordings of @p kind; @p is_hard: other ranges, much noise. By the generator of recordings.c. */
recording recording_make(recording_kind kind, bool is_hard, uint64_t seed, qll_arena *arena);

/* The same by a generator of another build: recordings_other.c. */
recording recording_make_other(recording_kind kind, bool is_hard, uint64_t seed, qll_arena *arena);

/* The same by a third, that simulates valve and pipe: recordings_simulated.c. */
recording recording_make_simulated(recording_kind kind, bool is_hard, uint64_t seed,
                                   qll_arena *arena);

/* The same by a fourth, that draws noise as a spectrum and puts blows together one by one: recordings_summed.c. */
recording recording_make_summed(recording_kind kind, bool is_hard, uint64_t seed, qll_arena *arena);

/* The same by a fifth, that follows in time what drives a sound: recordings_driven.c. */
recording recording_make_driven(recording_kind kind, bool is_hard, uint64_t seed, qll_arena *arena);

/* The same by a sixth, that solves equations published for each source: recordings_solved.c. */
recording recording_make_solved(recording_kind kind, bool is_hard, uint64_t seed, qll_arena *arena);

#endif
