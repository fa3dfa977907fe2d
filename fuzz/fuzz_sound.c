/* Any samples, at any rate, of any number of channels: figures that hold together, and the same ones whether the samples come in
 * large blocks or in crumbs. The bytes are samples as they stand, again and again until they are six seconds. */
#include "quell/quell.h"

#include "require.h"
#include "signals/sound.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

#define QLL_HEAD 4

static const double rates_hz[] = {8000, 11025, 16000, 22050, 44100, 48000, 96000, 1e300};

/* A sample of every four bytes; the input repeats. */
static float sample_of(const uint8_t *data, size_t size, size_t index)
{
    uint8_t bytes[4];
    for (size_t i = 0; i < sizeof bytes; i++) {
        bytes[i] = data[(4 * index + i) % size];
    }
    float sample = 0.0F;
    memcpy(&sample, bytes, sizeof sample);
    return data[0] % 2 == 0 ? sample : (float)(int8_t)bytes[1] / 128.0F;
}

static void require_result(const qll_sound_result *result)
{
    double shares = 0.0, last_s = 0.0;
    QLL_REQUIRE(result->stretch_count > 0 && result->share_count > 0);
    for (size_t i = 0; i < result->share_count; i++) {
        shares += result->shares[i].share;
        QLL_REQUIRE(result->shares[i].confidence > 0.0 && result->shares[i].confidence <= 1.0);
        QLL_REQUIRE(result->shares[i].stretch < result->stretch_count);
    }
    QLL_REQUIRE(fabs(shares - 1.0) < 1e-9);
    for (size_t i = 0; i < result->stretch_count; i++) {
        double sum = 0.0;
        for (size_t kind = 0; kind < QLL_SOUND_KIND_COUNT; kind++) {
            sum += result->stretches[i].scores[kind];
        }
        QLL_REQUIRE(fabs(sum - 1.0) < 1e-9);
        QLL_REQUIRE(result->stretches[i].from_s >= last_s - 1e-9);
        last_s = result->stretches[i].to_s;
    }
    for (size_t i = 0; i < result->event_count; i++) {
        QLL_REQUIRE(result->events[i].from_s >= 0.0
                    && result->events[i].to_s >= result->events[i].from_s);
    }
    QLL_REQUIRE(result->clipped_share >= 0.0 && result->clipped_share <= 1.0);
}

typedef struct heard {
    const float *samples;
    size_t count;
    unsigned channels;
    double rate_hz;
} heard;

static bool listen(const heard *to, size_t block, const qll_sound_quiet *quiet, qll_arena *arena,
                   qll_sound_result *result)
{
    qll_sound *sound = NULL;
    const qll_status opened = qll_sound_open(to->rate_hz, to->channels, quiet, arena, &sound);
    QLL_REQUIRE(opened == QLL_OK || opened == QLL_REFUSED);
    for (size_t at = 0; opened == QLL_OK && at < to->count; at += block) {
        const size_t part = block < to->count - at ? block : to->count - at;
        QLL_REQUIRE(qll_sound_take(sound, to->samples + at * to->channels, part) == QLL_OK);
    }
    return opened == QLL_OK && qll_sound_finish(sound, result) == QLL_OK;
}

static void require_same(const qll_sound_stretch *one, const qll_sound_stretch *other)
{
    for (size_t kind = 0; kind < QLL_SOUND_KIND_COUNT; kind++) {
        QLL_REQUIRE(one->scores[kind] == other->scores[kind]);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size <= QLL_HEAD) {
        return 0;
    }
    const double rate_hz = rates_hz[data[1] % (sizeof rates_hz / sizeof rates_hz[0])];
    const unsigned channels = data[2] % 4;
    const size_t count = rate_hz > 1e6 ? 100 : (size_t)((4.9 + 0.01 * data[3]) * rate_hz);
    qll_arena *arena = qll_arena_open((size_t)256 << 20);
    float *samples = qll_arena_take(arena, count * (channels == 0 ? 1 : channels), sizeof *samples);
    QLL_REQUIRE(samples != NULL);
    for (size_t j = 0; j < count * channels; j++) {
        samples[j] = sample_of(data, size, j);
    }
    const heard to = {samples, count, channels, rate_hz};
    qll_sound_result whole, crumbs, beside;
    const bool is_heard = listen(&to, count, NULL, arena, &whole);
    QLL_REQUIRE(listen(&to, 331, NULL, arena, &crumbs) == is_heard);
    if (is_heard) {
        require_result(&whole);
        require_same(&whole.stretches[0], &crumbs.stretches[0]);
        const qll_sound_quiet quiet = qll_sound_quiet_of(&whole);
        QLL_REQUIRE(listen(&to, count, &quiet, arena, &beside));
        require_result(&beside);
    }
    qll_arena_close(arena);
    return 0;
}
