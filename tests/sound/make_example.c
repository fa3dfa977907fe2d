/* Writes the example recording: make_example FILE.flac. Nobody recorded it: it is one of recordings.c, at half its rate. */
#include "signals/sound_halving.h"
#include "sound/recordings.h"

#include <sndfile.h>
#include <stdio.h>

#define QLL_EXAMPLE_S    6.0
#define QLL_EXAMPLE_GAIN 0.2F
#define QLL_EXAMPLE_SEED 12

int main(int count, char **arguments)
{
    static qll_halving halving;
    qll_arena *arena = qll_arena_open((size_t)512 << 20);
    const recording whole = recording_make(QLL_RECORDING_SQUEAL, false, QLL_EXAMPLE_SEED, arena);
    SF_INFO info = {.samplerate = (int)(whole.rate_hz / 2),
                    .channels = 1,
                    .format = SF_FORMAT_FLAC | SF_FORMAT_PCM_16};
    SNDFILE *file = count == 2 ? sf_open(arguments[1], SFM_WRITE, &info) : NULL;
    if (file == NULL) {
        fprintf(stderr, "usage: make_example FILE.flac\n");
        return 2;
    }
    sf_set_string(file, SF_STR_COMMENT,
                  "synthetic: made by tests/sound/make_example.c of quell, recorded by nobody");
    qll_halving_open(&halving);
    static float block[QLL_HALVING_BLOCK];
    const size_t last = (size_t)(QLL_EXAMPLE_S * whole.rate_hz);
    for (size_t at = 0; at + QLL_HALVING_BLOCK <= last; at += QLL_HALVING_BLOCK) {
        for (size_t j = 0; j < QLL_HALVING_BLOCK; j++) {
            block[j] = QLL_EXAMPLE_GAIN * whole.samples[at + j];
        }
        const size_t given = qll_halving_take(&halving, block, QLL_HALVING_BLOCK, block);
        sf_writef_float(file, block, (sf_count_t)given);
    }
    qll_arena_close(arena);
    return sf_close(file) == 0 ? 0 : 1;
}
