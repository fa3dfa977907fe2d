/* What must hold of any recording: how it is handed over and how loud it is changes nothing of what it is; the rules' limits are
 * held on recordings of seeds that they were never tuned with. */
#include "check.h"
#include "signals/sound.h"
#include "sound/recordings.h"

#include <stdlib.h>

#define QLL_EACH 4
#define QLL_SEED 70000

static bool listen(double rate_hz, unsigned channels, const float *samples, size_t count,
                   size_t block, qll_arena *arena, qll_sound_result *result)
{
    qll_sound *sound = NULL;
    if (qll_sound_open(rate_hz, channels, NULL, arena, &sound) != QLL_OK) {
        return false;
    }
    for (size_t at = 0; at < count; at += block) {
        const size_t part = block < count - at ? block : count - at;
        if (qll_sound_take(sound, samples + at * channels, part) != QLL_OK) {
            return false;
        }
    }
    return qll_sound_finish(sound, result) == QLL_OK;
}

static void check_alike(const qll_sound_result *one, const qll_sound_result *other, double within)
{
    double sum = 0.0;
    if (!CHECK(one->stretch_count == 1 && other->stretch_count == 1)) {
        return;
    }
    for (int kind = 0; kind < QLL_SOUND_KIND_COUNT; kind++) {
        CHECK_WITHIN(one->stretches[0].scores[kind], other->stretches[0].scores[kind], within);
        sum += one->stretches[0].scores[kind];
    }
    CHECK_WITHIN(sum, 1.0, 1e-12);
}

TEST(blocks_channels_and_loudness_change_nothing)
{
    for (int kind = 0; kind < QLL_RECORDING_COUNT; kind++) {
        qll_arena *arena = qll_arena_open((size_t)512 << 20);
        const recording one = recording_make((recording_kind)kind, false, QLL_SEED, arena);
        qll_sound_result whole = {0}, parts = {0}, quiet = {0}, twice = {0};
        float *other = calloc(2 * one.count, sizeof *other);
        CHECK(listen(one.rate_hz, 1, one.samples, one.count, one.count, arena, &whole));
        CHECK(listen(one.rate_hz, 1, one.samples, one.count, 331, arena, &parts));
        check_alike(&whole, &parts, 1e-12);
        for (size_t j = 0; j < one.count; j++) {
            other[j] = 0.25F * one.samples[j];
        }
        CHECK(listen(one.rate_hz, 1, other, one.count, 4096, arena, &quiet));
        check_alike(&whole, &quiet, 1e-9);
        for (size_t j = 0; j < one.count; j++) {
            other[2 * j] = other[2 * j + 1] = one.samples[j];
        }
        CHECK(listen(one.rate_hz, 2, other, one.count, 4096, arena, &twice));
        check_alike(&whole, &twice, 1e-9);
        free(other);
        qll_arena_close(arena);
    }
}

typedef recording maker(recording_kind kind, bool is_hard, uint64_t seed, qll_arena *arena);

/* How many of all are right. */
static int rights(maker *make, bool is_hard)
{
    int right = 0;
    for (int kind = 0; kind < QLL_RECORDING_COUNT; kind++) {
        for (uint64_t i = 0; i < QLL_EACH; i++) {
            qll_arena *arena = qll_arena_open((size_t)512 << 20);
            const recording one = make((recording_kind)kind, is_hard, QLL_SEED + i, arena);
            qll_sound_result result;
            if (CHECK(listen(one.rate_hz, 1, one.samples, one.count, 4096, arena, &result))) {
                right += (int)result.stretches[0].kind == kind;
            }
            qll_arena_close(arena);
        }
    }
    printf("%d of %d\n", right, QLL_RECORDING_COUNT * QLL_EACH);
    return right;
}

TEST(kinds_are_told_as_often_as_the_page_says)
{
    /* the goals: 85 % in range, 70 % where it is hard; a generator that the rules were not tuned with, too */
    CHECK(rights(recording_make, false) >= 0.85 * QLL_RECORDING_COUNT * QLL_EACH);
    CHECK(rights(recording_make, true) >= 0.70 * QLL_RECORDING_COUNT * QLL_EACH);
    CHECK(rights(recording_make_other, false) >= 0.85 * QLL_RECORDING_COUNT * QLL_EACH);
    CHECK(rights(recording_make_other, true) >= 0.70 * QLL_RECORDING_COUNT * QLL_EACH);
    CHECK(rights(recording_make_simulated, false) >= 0.85 * QLL_RECORDING_COUNT * QLL_EACH);
    CHECK(rights(recording_make_simulated, true) >= 0.70 * QLL_RECORDING_COUNT * QLL_EACH);
}

int main(void)
{
    TEST_RUN(blocks_channels_and_loudness_change_nothing);
    TEST_RUN(kinds_are_told_as_often_as_the_page_says);
    return TEST_END();
}
