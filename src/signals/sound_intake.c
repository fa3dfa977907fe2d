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
    if (intake->halvings == NULL) {
        return QLL_NO_MEMORY;
    }
    for (size_t i = 0; i < intake->halving_count; i++) {
        qll_halving_open(&intake->halvings[i]);
    }
    return QLL_OK;
}

/* The sample as it is counted; 0 where it is no number. */
static double heard(qll_sound_intake *intake, float sample)
{
    if (!(fabsf(sample) <= QLL_LOUDEST)) {
        intake->broken_count += 1;
        return 0.0;
    }
    intake->clipped_count += fabsf(sample) >= QLL_CLIPPED_FROM;
    return (double)sample;
}

/* The mean of the channels, to block. */
static void mix(qll_sound_intake *intake, const float *samples, size_t count)
{
    const double share = 1.0 / intake->channels;
    for (size_t j = 0; j < count; j++) {
        double sum = 0.0, squares = 0.0;
        for (unsigned c = 0; c < intake->channels; c++) {
            const double x = heard(intake, samples[j * intake->channels + c]);
            sum += x;
            squares += x * x;
        }
        intake->block[j] = share * sum;
        intake->mean_squares += intake->block[j] * intake->block[j];
        intake->squares += share * squares;
    }
}

size_t qll_sound_intake_take(qll_sound_intake *intake, const float *samples, size_t count)
{
    mix(intake, samples, count);
    intake->count += count;
    for (size_t i = 0; i < intake->halving_count; i++) {
        count = qll_halving_take(&intake->halvings[i], intake->block, count, intake->block);
    }
    return count;
}
