#include "signals/sound_intake.h"

#include <math.h>

/* A sample within 1 % of full scale is taken for clipped: of eight bits the last step is that far from it. */
#define QLL_CLIPPED_FROM 0.99F
/* Floating-point files may hold anything; beyond this it is no sound. */
#define QLL_LOUDEST      1e4F

qll_status qll_sound_intake_open(double rate_hz, unsigned channels, qll_arena *arena,
                                 qll_sound_intake *intake)
{
    *intake = (qll_sound_intake){.channels = channels, .used_rate_hz = rate_hz};
    while (0.5 * intake->used_rate_hz >= QLL_INTAKE_RATE_HZ) {
        intake->used_rate_hz *= 0.5;
        intake->halving_count += 1;
    }
    intake->halvings = qll_arena_take(arena, intake->halving_count, sizeof *intake->halvings);
    intake->heard =
        qll_arena_take(arena, (size_t)channels * QLL_HALVING_BLOCK, sizeof *intake->heard);
    if (intake->halvings == NULL || intake->heard == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < intake->halving_count; i++) {
        qll_halving_open(&intake->halvings[i]);
    }
    return QLL_OK;
}

/* Counts what is no sound and what is clipped, and leaves in @p heard what is listened to. */
static void hear(qll_sound_intake *intake, const float *samples, size_t count, float *heard)
{
    unsigned broken = 0, clipped = 0;
    for (size_t j = 0; j < count; j++) {
        const float size = fabsf(samples[j]);
        const unsigned is_sound = size <= QLL_LOUDEST; /* not so of what is no number */
        broken += 1U - is_sound;
        clipped += is_sound & (unsigned)(size >= QLL_CLIPPED_FROM);
        heard[j] = is_sound != 0 ? samples[j] : 0.0F;
    }
    intake->broken_count += broken;
    intake->clipped_count += clipped;
}

/* The mean of the channels, to block. */
static void mix(qll_sound_intake *intake, const float *samples, size_t count)
{
    const size_t channels = intake->channels;
    const double share = 1.0 / (double)channels;
    for (size_t j = 0; j < count; j++) {
        double sum = 0.0, squares = 0.0;
        for (size_t c = 0; c < channels; c++) {
            const double x = (double)samples[j * channels + c];
            sum += x;
            squares += x * x;
        }
        const double mean = share * sum;
        intake->block[j] = (float)mean;
        intake->mean_squares += mean * mean;
        intake->squares += share * squares;
    }
}

size_t qll_sound_intake_take(qll_sound_intake *intake, const float *samples, size_t count)
{
    if (intake->channels == 1) { /* which cancels nothing */
        hear(intake, samples, count, intake->block);
    } else {
        hear(intake, samples, count * intake->channels, intake->heard);
        mix(intake, intake->heard, count);
    }
    intake->count += count;
    for (size_t i = 0; i < intake->halving_count; i++) {
        count = qll_halving_take(&intake->halvings[i], intake->block, count, intake->block);
    }
    return count;
}
